"""Elevation and grade of a road from noisy heights, and speed from noisy places.

Source   savitzky1964 (local least squares; the slope of the fitted line is the grade), applied to receivers in cars as
         in duran2012 (loss of signal bridged, outliers taken out, then local least squares); both from memory
Range    heights at least every few hundred metres
Scatter  slope of a fit to n heights every s metres that scatter by e: e sqrt(12 / (n (n^2 - 1))) / s; for 1.5 m
         0.1 % of grade where there is a height every 10 m, 0.25 % where there is one every 60 m

Why 600 m: a hill passed in half a minute moves the coolant by a fraction of a kelvin, for engine and coolant
hold 150 to 200 kJ/K and take about 200 s to follow. What is shorter than that may be smoothed away.
"""

from itertools import pairwise
from typing import NamedTuple

import numpy as np
from scipy.ndimage import median_filter

from toptank.knowledge.drives.track import Floats, Track

SPACING = 10.0
"""Distance of the heights that are fitted [m]."""

FITTED_OVER = 600.0
"""Length of road that a line is fitted to [m]."""

OUTLIER_OVER, OUTLIER = 200.0, 15.0
"""Length of road whose median a height is compared with, and how far off it is taken out [m]; judgement."""

STEEP, SLOPES, TUNNEL, THROUGH = 0.20, 300.0, 5000.0, 0.12
"""Grade from which a hill that goes up and down again is no road [1], least length of each slope, greatest of all [m],
grade of a road that goes through instead [1]; judgement: few public roads exceed 20 %, and not for long."""

STEEPEST = 0.25
"""Grade that no road is taken to exceed [1]; judgement."""

SPEED_OVER = 11.0
"""Time that a line is fitted to for the speed [s]; 3 m of scatter every second leave 0.3 m/s."""

STANDING = 1.0
"""Speed below which a vehicle stands and only the receiver wanders [m/s]; judgement."""

MOST_HEIGHTS = 200_000
"""Heights that are fitted: 2,000 km."""


class Road(NamedTuple):
    """Height and grade along a road, and what was done to the heights.

    distance : even, from 0 on [m]
    altitude : smoothed [m]
    grade : rise over length on the map [1]
    outliers : heights that were taken out [1]
    tunnel : length of hills that are no road, gone through instead [m]
    limited : length on which the grade was cut [m]
    """

    distance: Floats
    altitude: Floats
    grade: Floats
    outliers: int
    tunnel: float
    limited: float


def road(distance: Floats, elevation: Floats) -> Road:
    """Fit heights along a way; several at one place (standing) are averaged, missing ones bridged by a straight line.

    Parameters
    ----------
    distance : (point,), never falling [m]
    elevation : (point,) [m]; NaN where it is missing, not everywhere

    Raises
    ------
    ValueError : the road is too long
    """
    length = float(distance[-1])
    n = max(int(length / SPACING) + 1, 2)
    if n > MOST_HEIGHTS:
        raise ValueError("distance: the road is too long")
    even = np.arange(n, dtype=np.float64) * SPACING
    known = np.isfinite(elevation)
    at, height = _one_a_place(distance[known], elevation[known])
    height, outliers = _without_outliers(at, height)
    raw = np.interp(even, at, height)
    tunnel = 0.0
    for _ in range(20):
        altitude, grade = _fitted(raw)
        hill = _hill_that_is_no_road(altitude, grade)
        if hill is None:
            break
        raw[hill] = np.linspace(altitude[hill.start], altitude[hill.stop - 1], hill.stop - hill.start)
        tunnel += (hill.stop - hill.start) * SPACING
    altitude, grade = _fitted(raw)
    beyond = np.abs(grade) > STEEPEST
    limited = float(beyond.sum()) * SPACING
    return Road(np.asarray(even, np.float64), altitude, np.clip(grade, -STEEPEST, STEEPEST), outliers, tunnel, limited)


def _one_a_place(distance: Floats, elevation: Floats) -> tuple[Floats, Floats]:
    """Mean height and distance of all points that fall on the same ten metres."""
    place = np.floor(distance / SPACING).astype(int)
    _, which, count = np.unique(place, return_inverse=True, return_counts=True)
    return np.bincount(which, distance) / count, np.bincount(which, elevation) / count


def _without_outliers(at: Floats, height: Floats) -> tuple[Floats, int]:
    """Heights far off the median of their neighbours give way to it."""
    if len(height) < 5:
        return height, 0
    spacing = max(float(np.median(np.diff(at))), 1e-9)
    width = min(max(2 * round(0.5 * OUTLIER_OVER / spacing) + 1, 5), len(height) | 1, 41)
    middle = median_filter(height, size=width, mode="nearest")
    off = np.abs(height - middle)
    out = off > max(OUTLIER, 6.0 * float(np.median(off)))
    return np.where(out, middle, height), int(out.sum())


def _fitted(raw: Floats) -> tuple[Floats, Floats]:
    """Height and slope of the line fitted around each place."""
    width = min(2 * round(0.5 * FITTED_OVER / SPACING) + 1, len(raw) - 1 + len(raw) % 2)
    if width < 3:
        return raw, np.full(len(raw), (raw[-1] - raw[0]) / (SPACING * (len(raw) - 1)))
    return (
        _along_lines(raw, width),
        _along_lines(raw, width, slope_over=SPACING),
    )


def _along_lines(raw: Floats, width: int, *, slope_over: float | None = None) -> Floats:
    """Heights of lines fitted to so many points around each one, or their slopes where points are so far apart."""
    from scipy.signal import savgol_filter  # takes half a second and 60 MB: not before a track is there

    if slope_over is None:
        return np.asarray(savgol_filter(raw, width, 1), float)
    return np.asarray(savgol_filter(raw, width, 1, deriv=1, delta=slope_over), float)


def _hill_that_is_no_road(altitude: Floats, grade: Floats) -> slice | None:
    """The first stretch that goes up, or down, and back again more steeply than roads do: map height over a tunnel."""
    steep = np.where(grade > STEEP, 1, np.where(grade < -STEEP, -1, 0))
    edges = np.flatnonzero(np.diff(steep)) + 1
    runs = [(int(run[0]), int(run[-1]) + 1) for run in np.split(np.arange(len(steep)), edges)]
    slopes = [run for run in runs if steep[run[0]] != 0 and (run[1] - run[0]) * SPACING >= SLOPES]
    reach = round(0.5 * FITTED_OVER / SPACING)
    for one, other in pairwise(slopes):
        start, stop = max(one[0] - reach, 0), min(other[1] + reach, len(grade))
        line = abs(altitude[stop - 1] - altitude[start]) / max((stop - 1 - start) * SPACING, SPACING)
        if steep[one[0]] == -steep[other[0]] and (stop - start) * SPACING <= TUNNEL and line <= THROUGH:
            return slice(start, stop)
    return None


class Driven(NamedTuple):
    """A drive every second: time [s], speed [m/s], distance [m] and where it is on the way of its points [m]."""

    time: Floats
    speed: Floats
    distance: Floats


def driven(track: Track) -> Driven:
    """Speed of a track with time stamps, from lines fitted to its places; between points a straight line.

    Below walking pace only the receiver wanders: the vehicle stands.
    """
    assert track.time is not None
    time = np.arange(0.0, np.floor(track.time[-1]) + 1.0)
    places = [np.interp(time, track.time, place) for place in (track.east, track.north)]
    width = min(int(SPEED_OVER), len(time) - 1 + len(time) % 2)
    if width < 3:
        velocity = [np.gradient(place) if len(time) > 1 else np.zeros(1) for place in places]
    else:
        velocity = [_along_lines(place, width, slope_over=1.0) for place in places]
    speed = np.hypot(*velocity)
    speed = np.where(speed < STANDING, 0.0, speed)
    return Driven(time, speed, np.concatenate([[0.0], np.cumsum(speed[:-1])]))
