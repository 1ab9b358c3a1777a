"""A route out of a GPX file: speed from its time stamps or from given limits, grade from smoothed heights."""

import dataclasses
import re
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from toptank.knowledge.drives.road import Road, driven, road
from toptank.knowledge.drives.track import Dropped, Floats, Torn, Track, cleaned, track_of
from toptank.shop.files.read_bytes import shortened
from toptank.shop.files.typed_figure import between
from toptank.shop.log.gpx_points import Points, read_points
from toptank.shop.log.weather import Weather
from toptank.system.duty import Duty
from toptank.system.profile import Profile
from toptank.units.conversion import System
from toptank.units.dimension import DISTANCE, SPEED
from toptank.units.refusal import Refusal

LONGEST = 86_400.0
"""Longest drive [s]."""

SHORTEST = 50.0
"""Shortest road that a grade can be told of [m]."""

PAUSE, PARKED = 30.0, 600.0
"""Time without a point that is told of, and from which a vehicle that has not moved is taken as parked, engine off [s];
judgement: most receivers in a car stop with its ignition."""

AWAY = 200.0
"""Way between two points beyond which it is told of as a gap [m]."""

WIDEST = 20_000.0
"""Widest gap that is bridged [m]."""

SETTING_OFF = 1.0
"""Acceleration with which a vehicle sets off, stops and follows limits [m/s2]; judgement, of little weight."""

LOWEST, HIGHEST = -500.0, 5500.0
"""Limits of the height of a duty [m]."""

_FROM = re.compile(r"(.+?)\s+from\s+(.+)", re.IGNORECASE)

Limits = tuple[tuple[float, float], ...]
"""Speeds held and from which distance on: (distance [m], speed [m/s])."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """A route as a profile, and what was done to get it."""

    name: str
    profile: Profile
    remarks: tuple[str, ...]


def read_limits(text: str, *, system: System, notes: list[str]) -> Limits:
    """Read "45 mph", or "50 mph, 35 mph from 3 mi, 25 mph from 8 mi"; bare units are told in `notes`."""
    limits: list[tuple[float, float]] = []
    for piece in text.split(","):
        match = _FROM.fullmatch(piece.strip())
        speed = between("speed", match[1] if match else piece.strip(), SPEED, 1.0, 60.0, system, notes)
        start = between("speed from", match[2], DISTANCE, 0.0, 5e6, system, notes) if match else 0.0
        if (not match and limits) or (limits and start <= limits[-1][0]):
            fix = 'write it as "50 mph, 35 mph from 3 mi"'
            raise Refusal(field="speed", value=shortened(text), limit="must say where each limit begins", fix=fix)
        limits.append((start, speed))
    if limits[0][0] > 0.0:
        limits.insert(0, (0.0, limits[0][1]))
    return tuple(limits)


def read_route(path: Path, *, duty: Duty, weather: Weather, limits: Limits = ()) -> Route:
    """Read a GPX file as a profile of one second a step.

    Parameters
    ----------
    path : the file
    duty : all that a route does not say: humidity, air conditioning, trailer ... as numbers
    weather : the air outside
    limits : speeds to be driven; without them those of the time stamps are taken

    Raises
    ------
    Refusal : if it cannot be read, is torn, has no heights, or neither time stamps nor limits
    """
    points = read_points(path)
    remarks = [f"{points.others} shorter tracks of the file are left out."] if points.others else []
    track = _cleaned(points, path, remarks)
    _say_gaps(track, path, remarks)
    if not np.isfinite(track.elevation).any():
        fix = "save it with elevation: the climb is what heats"
        raise _refusal(path, "has no elevation", fix)
    if float(track.way[-1]) < SHORTEST:
        raise _refusal(path, f"is shorter than {SHORTEST:.0f} m", "choose a road, not a place")
    if limits:
        way = _road(track.way, track.elevation, path, remarks)
        time, speed, distance = _at_limits(way, limits)
        if len(limits) > 1 and limits[-1][0] > float(way.distance[-1]):
            remarks.append("A speed that is given from a place on is never driven: the road ends before it.")
        running: Floats = np.ones(len(time))
    elif track.time is not None:
        _not_too_long(float(track.time[-1]), path)
        time, speed, distance = driven(track)
        at = np.interp(track.time, time, distance)
        way = _road(at, track.elevation, path, remarks)
        running = _running(track, time, remarks)
    else:
        fix = 'say how fast it is driven, such as --speed "45 mph"'
        raise _refusal(path, "has no time stamps", fix)
    _not_too_long(float(time[-1]), path)
    altitude = np.interp(distance, way.distance, way.altitude)
    beyond = (altitude < LOWEST) | (altitude > HIGHEST)
    if beyond.any():
        farthest = float(altitude[np.argmax(np.abs(altitude - 0.5 * (LOWEST + HIGHEST)))])
        remarks.append(
            f"Heights of up to {farthest:,.0f} m, for {int(beyond.sum()):,} s of the drive, are taken as "
            f"{np.clip(farthest, LOWEST, HIGHEST):,.0f} m, the most that is worked with: are they in feet?"
        )
    along = dataclasses.replace(
        duty,
        speed=np.minimum(speed, 70.0),
        grade=np.interp(distance, way.distance, way.grade),
        altitude=np.clip(altitude, LOWEST, HIGHEST),
        ambient=weather.along(time),
    )
    profile = Profile.of(time=time, duty=along, running=running, distance=distance)
    return Route(name=points.name or path.stem, profile=profile, remarks=tuple(remarks))


def _not_too_long(seconds: float, path: Path) -> None:
    if not 1.0 <= seconds <= LONGEST:
        limit = f"takes {seconds / 3600.0:,.1f} h; a drive has a second at least and 24 h at most"
        raise _refusal(path, limit, "cut out one drive, and look at its time stamps")


def _cleaned(points: Points, path: Path, remarks: list[str]) -> Track:
    raw = track_of(points.latitude, points.longitude, points.elevation, points.time)
    try:
        track, dropped = cleaned(raw)
    except Torn as torn:
        fix = "cut it where it jumps and take the piece that was driven"
        raise _refusal(path, "jumps further than any vehicle drives", fix) from torn
    if track.n < 2 and max(dropped.backward, dropped.repeated) > dropped.jumping:
        turned = dropped.backward > dropped.repeated
        limit = "goes back in time all the way" if turned else "has the same time or place at all of its points"
        raise _refusal(path, limit, 'save it without times and say how fast it is driven, such as --speed "45 mph"')
    if track.n < 2:
        raise _refusal(path, "has fewer than two points that differ", "save it anew with more points")
    remarks += _said(dropped)
    return track


def _said(dropped: Dropped) -> list[str]:
    kinds = {"repeat": dropped.repeated, "go back in time": dropped.backward, "jump off the road": dropped.jumping}
    return [f"{count:,} points that {kind} are left out." for kind, count in kinds.items() if count]


def _say_gaps(track: Track, path: Path, remarks: list[str]) -> None:
    """Tell of gaps in the signal, tunnels among them, and refuse one that hides a whole road."""
    way = np.diff(track.way)
    if len(way) and float(way.max()) > WIDEST:
        limit = f"has no point for {way.max() / 1000.0:.0f} km"
        raise _refusal(path, limit, "save it with more points: a straight line is no road")
    wide = way > AWAY if track.time is None else (way > AWAY) & (np.diff(track.time) > PAUSE / 3.0)
    if wide.any():
        remarks.append(
            f"{int(wide.sum()):,} gaps or tunnels without points, the longest {way[wide].max() / 1000.0:.1f} km: taken "
            "as straight and evenly sloped."
        )
    lacking = float(np.mean(~np.isfinite(track.elevation)))
    if lacking > 0.02:
        remarks.append(f"{100.0 * lacking:.0f} % of the points have no elevation: bridged evenly.")


def _road(at: Floats, elevation: Floats, path: Path, remarks: list[str]) -> Road:
    """Fit the heights, and say what was done to them."""
    if not np.isfinite(elevation).any():
        raise _refusal(path, "has no elevation", "save it with elevation: the climb is what heats")
    try:
        way = road(at, elevation)
    except ValueError as error:
        raise _refusal(path, "is longer than 2,000 km", "cut out one drive") from error
    remarks.append("Grade: slope of a line fitted to the heights of 600 m of road.")
    if way.outliers:
        remarks.append(f"{way.outliers:,} heights far off their neighbours are left out.")
    if way.tunnel:
        remarks.append(
            f"{way.tunnel / 1000.0:.1f} km rise and fall more steeply than a road: taken as a tunnel or a cutting "
            "through the hill that the map shows."
        )
    if way.limited:
        remarks.append(f"The grade is cut to 25 % on {way.limited:,.0f} m.")
    return way


def _at_limits(way: Road, limits: Limits) -> tuple[Floats, Floats, Floats]:
    """Time, speed and distance every second at given speeds, setting off from rest and stopping at the end."""
    starts, speeds = (np.array([limit[i] for limit in limits]) for i in (0, 1))
    s = way.distance
    most = speeds[np.searchsorted(starts, s, side="right") - 1] ** 2
    gain = 2.0 * SETTING_OFF * np.diff(s)
    most[0] = most[-1] = 0.25
    for i in range(1, len(s)):
        most[i] = min(most[i], most[i - 1] + gain[i - 1])
    for i in range(len(s) - 2, -1, -1):
        most[i] = min(most[i], most[i + 1] + gain[i])
    held = np.sqrt(most)
    at = np.concatenate([[0.0], np.cumsum(np.diff(s) / (0.5 * (held[1:] + held[:-1])))])
    time = np.arange(0.0, np.floor(at[-1]) + 1.0)
    distance = np.interp(time, at, s)
    return time, np.interp(distance, s, held), distance


def _running(track: Track, time: Floats, remarks: list[str]) -> Floats:
    """Engine on, but for long pauses without points at one place."""
    running = np.ones(len(time))
    assert track.time is not None
    pauses = np.diff(track.time)
    near = np.diff(track.way) < AWAY
    parked = np.flatnonzero((pauses > PARKED) & near)
    for i in parked:
        running[(time > track.time[i]) & (time < track.time[i + 1])] = 0.0
    if len(parked):
        said = "A pause" if len(parked) == 1 else f"{len(parked)} pauses"
        remarks.append(f"{said} beyond {PARKED / 60.0:.0f} minutes: taken as parked with the engine off.")
    stopped = (pauses > PAUSE) & (pauses <= PARKED) & near
    if stopped.any():
        said = "A pause" if stopped.sum() == 1 else f"{int(stopped.sum()):,} pauses"
        remarks.append(f"{said} without points: taken as standing with the engine on.")
    return running


def _refusal(path: Path, limit: str, fix: str) -> Refusal:
    return Refusal(field="route", value=shortened(path.name), limit=limit, fix=fix)
