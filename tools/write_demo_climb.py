"""Write examples/demo-climb.gpx: the road of the built-in example, wholly invented, put in the middle of an ocean.

River road, ridge climb and the stop at the farm gate, as the example tells them; a point every three seconds, heights
that scatter as those of a receiver do.
"""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import gpxpy.gpx
import numpy as np

FILE = Path(__file__).parents[1] / "examples" / "demo-climb.gpx"

FOOT, MILE_AN_HOUR = 0.3048, 0.44704
START = (-48.0, -123.0)
"""South Pacific, a thousand miles from any road [deg]."""

EVERY = 3
SCATTER = 1.5
SEED = 6
EARTH = 6_371_008.8

LEGS = (
    ("river road", 50 * MILE_AN_HOUR, 900 * FOOT, 900 * FOOT, 6.0 * 1609.344),
    ("ridge climb", 35 * MILE_AN_HOUR, 900 * FOOT, 2300 * FOOT, 1400 * FOOT / 0.05),
)
"""Name, speed [m/s], height at its start and end [m], length [m]."""

STOP = 300
"""Time at the farm gate [s]."""


def drive() -> tuple[np.ndarray, np.ndarray]:
    """Distance and height every second [m]."""
    distance, height = [0.0], [LEGS[0][2]]
    speed = 0.0
    for _, held, low, high, length in LEGS:
        start = distance[-1]
        while distance[-1] < start + length:
            speed += np.clip(held - speed, -1.0, 1.0)
            distance.append(distance[-1] + speed)
            height.append(low + (high - low) * min((distance[-1] - start) / length, 1.0))
    while speed > 0.0:
        speed = max(speed - 1.5, 0.0)
        distance.append(distance[-1] + speed)
        height.append(height[-1])
    distance += [distance[-1]] * STOP
    height += [height[-1]] * STOP
    return np.array(distance), np.array(height)


def main() -> None:
    rng = np.random.default_rng(SEED)
    distance, height = drive()
    heading = 0.6 + 0.8 * np.sin(distance / 1700.0)
    steps = np.diff(distance, prepend=0.0)
    north = np.cumsum(steps * np.cos(heading)) / EARTH
    east = np.cumsum(steps * np.sin(heading)) / (EARTH * np.cos(np.radians(START[0])))
    gpx = gpxpy.gpx.GPX()
    gpx.creator = "toptank, tools/write_demo_climb.py"
    gpx.description = "Invented: no such road, no such place. The middle of an ocean."
    track = gpxpy.gpx.GPXTrack(name="river road, ridge climb and farm gate (invented)")
    part = gpxpy.gpx.GPXTrackSegment()
    begun = datetime(2001, 8, 14, 13, 0, tzinfo=UTC)
    for i in range(0, len(distance), EVERY):
        part.points.append(
            gpxpy.gpx.GPXTrackPoint(
                latitude=round(START[0] + float(np.degrees(north[i])), 7),
                longitude=round(START[1] + float(np.degrees(east[i])), 7),
                elevation=round(float(height[i] + rng.normal(0.0, SCATTER)), 1),
                time=begun + timedelta(seconds=i),
            )
        )
    track.segments.append(part)
    gpx.tracks.append(track)
    FILE.write_text(gpx.to_xml(), encoding="utf-8")
    print(f"{FILE.name}: {len(part.points)} points")


if __name__ == "__main__":
    main()
