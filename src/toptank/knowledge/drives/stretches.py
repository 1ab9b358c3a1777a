"""What a logged drive shows by itself: stretches that had settled, stops, swings, the thermostat opening."""

from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import maximum_filter1d, minimum_filter1d, uniform_filter1d

from toptank.knowledge.drives.drive_log import DriveLog
from toptank.knowledge.drives.track import Floats
from toptank.knowledge.model_discrepancy import waves

Mask = NDArray[np.bool_]

WARM = 340.0
"""Temperature from which an engine is warm [K]."""

SETTLED_FOR, SETTLED_BY_HAND = 120.0, 240.0
"""How long nothing may change for a reading to count as settled, logged and noted by hand [s]: half and once the time
that the heat store takes to follow; what is left open is part of what a model misses."""

SLOPE = 0.4 / 60.0
"""Change of temperature up to which it has settled [K/s]; judgement."""

SPEED_CHANGE, GRADE_CHANGE = 2.5, 0.012
"""Changes of speed [m/s] and grade [1] up to which nothing has changed; judgement."""

MOST_STRETCHES = 4

SWING, SWINGS = 4.0, 3
"""Height of a swing, from lowest to highest [K], and number of them, from which something comes and goes; judgement."""

STANDS_OUT = 4.5
"""Standard deviations beyond which a wave is none of what the right model misses anyway [1].

With all periods that are tried, one steady half hour in some hundreds then shows a swing that is none."""

SWING_TIMES = (30.0, 600.0)
"""Shortest and longest swing [s]; judgement."""

COLD_START, OPENS = 325.0, (335.0, 390.0)
"""Where a warm-up must begin, and where a thermostat can open [K]."""

CALMED = 15
"""Readings of one second each that a mean is taken over where changes are looked for."""

KNEE_BEFORE, KNEE_AFTER = 60.0, 40.0
"""Time before and after an opening in which the rates are compared [s]."""

KNEE = 0.35
"""Rate after the opening over that before it [1]; judgement: the core's cold coolant stops the rise."""


class Stretch(NamedTuple):
    """A stretch in which nothing changed: times [s], its temperature at the end [K], what was driven, in SI."""

    begin: float
    end: float
    temperature: float
    driven: dict[str, float]


class Rate(NamedTuple):
    """A fast change: time [s], how long [s], by how much [K], whether the vehicle stood, and its engine ran."""

    begin: float
    length: float
    change: float
    standing: bool
    running: bool


class Swings(NamedTuple):
    """Something that comes and goes: times [s], height from lowest to highest [K], time of one swing [s]."""

    begin: float
    end: float
    height: float
    period: float


def filled(log: DriveLog) -> Floats:
    """Temperature every second [K], straight between readings."""
    read = log.read[log.place]
    known = np.isfinite(read)
    return np.interp(log.time, log.time[known], read[known])


def _calmed(temperature: Floats) -> Floats:
    """Means over a quarter of a minute: readings of whole degrees, and the noise of a probe, are no change."""
    return np.asarray(uniform_filter1d(temperature, min(CALMED, len(temperature))), float)


def even(log: DriveLog, over: float) -> Mask:
    """Seconds before which nothing of what was driven has changed for a time [s]."""
    n = max(int(over), 2)
    calm = np.ones(len(log.time), bool)
    for name, change in (("speed", SPEED_CHANGE), ("grade", GRADE_CHANGE), ("air_conditioning", 0.5),
                         ("running", 0.5), ("heater", 0.5)):  # fmt: skip
        if name in log.driven:
            calm &= _range(log.driven[name], n) <= 2.0 * change
    calm[: n - 1] = False
    return calm


def _range(values: Floats, n: int) -> Floats:
    """Highest less lowest of the last n values."""
    origin = (n - 1) // 2  # the window ends at the value itself
    high, low = maximum_filter1d(values, n, origin=origin), minimum_filter1d(values, n, origin=origin)
    return np.asarray(high, float) - np.asarray(low, float)


def settled(log: DriveLog) -> tuple[Stretch, ...]:
    """Stretches in which a warm engine had settled, the longest ones, in the order of time."""
    over = SETTLED_BY_HAND if log.by_hand else SETTLED_FOR
    temperature = filled(log) if log.by_hand else _calmed(filled(log))
    calm = even(log, over) & (temperature > WARM)
    if not log.by_hand:
        n = int(over)
        if len(temperature) <= n:
            return ()
        slope = np.zeros(len(temperature))
        slope[n:] = (temperature[n:] - temperature[:-n]) / over
        calm &= np.abs(slope) <= SLOPE
    else:
        calm &= np.isfinite(log.read[log.place]) & ~_still_moving(log)
    ends = _last_of_each(calm, int(over))
    found = [_stretch(log, temperature, end, over) for end in ends]
    found.sort(key=lambda one: one.temperature, reverse=True)
    return tuple(sorted(found[:MOST_STRETCHES]))


def _still_moving(log: DriveLog) -> Mask:
    """Notes that differ too much from the one before, with nothing changed in what was driven between the two."""
    read = log.read[log.place]
    moving = np.zeros(len(read), bool)
    noted = np.flatnonzero(np.isfinite(read)).tolist()
    for before, at in pairwise(noted):
        if abs(read[at] - read[before]) > SLOPE * (at - before) and even(log, float(at - before))[at]:
            moving[at] = True
    return moving


def _last_of_each(calm: Mask, apart: int) -> list[int]:
    """Last second of each run that is calm; of runs closer than that the later one."""
    places = np.flatnonzero(calm & ~np.append(calm[1:], False))
    kept: list[int] = []
    for place in places.tolist():
        if kept and place - kept[-1] < apart:
            kept[-1] = place
        else:
            kept.append(place)
    return kept


def _stretch(log: DriveLog, temperature: Floats, end: int, over: float) -> Stretch:
    begin = max(end - int(over) + 1, 0)
    inside = slice(begin, end + 1)
    driven = {name: float(np.mean(values[inside])) for name, values in log.driven.items()}
    last = temperature[end] if log.by_hand else float(np.mean(temperature[max(end - 60, begin) : end + 1]))
    return Stretch(float(log.time[begin]), float(log.time[end]), float(last), driven)


def fastest_rise(log: DriveLog, over: float = 60.0) -> Rate | None:
    """The fastest rise of a warm engine over a minute, from readings no further apart than that."""
    return _fastest(log, over, rising=True)


def fastest_fall(log: DriveLog, over: float = 60.0) -> Rate | None:
    """The fastest fall of a warm engine over a minute."""
    return _fastest(log, over, rising=False)


def _fastest(log: DriveLog, over: float, *, rising: bool) -> Rate | None:
    n = int(over)
    if len(log.time) <= n or (log.by_hand and _closest(log) > over):
        return None
    temperature = filled(log) if log.by_hand else _calmed(filled(log))
    change = temperature[n:] - temperature[:-n]
    change = np.where(temperature[:-n] > WARM, change, 0.0)
    place = int(np.argmax(change) if rising else np.argmin(change))
    if abs(change[place]) < 1.0:
        return None
    speed, running = (log.driven.get(name) for name in ("speed", "running"))
    inside = slice(place, place + n)
    return Rate(
        begin=float(log.time[place]),
        length=over,
        change=float(change[place]),
        standing=speed is not None and float(np.median(speed[inside])) < 1.0,
        running=running is None or float(np.min(running[inside])) > 0.5,
    )


def _closest(log: DriveLog) -> float:
    return float(np.min(np.diff(log.time[np.isfinite(log.read[log.place])]), initial=np.inf))


def swings(log: DriveLog) -> Swings | None:
    """Swings of a warm engine while nothing of what is driven changes: a clutch, fan or thermostat that hunts."""
    if log.by_hand:
        return None
    temperature = filled(log)
    calm = even(log, SETTLED_FOR) & (temperature > WARM)
    best: Swings | None = None
    edges = np.flatnonzero(np.diff(np.concatenate([[False], calm, [False]]).astype(int)))
    for begin, end in zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True):
        begin = max(begin - int(SETTLED_FOR), 0)
        found = _swings_of(log.time[begin:end], temperature[begin:end])
        if found is not None and (best is None or found.height > best.height):
            best = found
    return best


def _swings_of(time: Floats, temperature: Floats) -> Swings | None:
    """Swings as high as a person would call so, and beyond all doubt none of what a model misses anyway."""
    length = float(time[-1] - time[0]) if len(time) else 0.0
    quickest, slowest = SWING_TIMES[0], min(SWING_TIMES[1], length / SWINGS)
    if slowest <= quickest:
        return None
    looked_at = slice(None, None, int(quickest / 3.0))
    tried = np.arange(1.0 / slowest, 1.0 / quickest, 0.5 / length)
    amplitude, stands_out = waves(time[looked_at], temperature[looked_at], 1.0 / tried)
    best = int(np.argmax(stands_out))
    if stands_out[best] < STANDS_OUT or 2.0 * amplitude[best] < SWING:
        return None
    return Swings(float(time[0]), float(time[-1]), 2.0 * float(amplitude[best]), float(1.0 / tried[best]))


def opening(log: DriveLog) -> float | None:
    """Temperature at which a warm-up shows the thermostat open: the rise breaks off while the heat goes on [K].

    None where there is no warm-up, it is noted too seldom, or no break shows.
    """
    if log.by_hand:
        return None
    temperature = _calmed(filled(log))
    if temperature[0] > COLD_START:
        return None
    before, after = int(KNEE_BEFORE), int(KNEE_AFTER)
    calm = even(log, KNEE_BEFORE + KNEE_AFTER)
    for i in range(before, len(temperature) - after):
        if not OPENS[0] <= temperature[i] <= OPENS[1] or not calm[i + after]:
            continue
        rise = (temperature[i] - temperature[i - before]) / before
        later = (temperature[i + after] - temperature[i]) / after
        if rise > 1.5 * SLOPE and later < KNEE * rise:
            return float(temperature[i])
    return None
