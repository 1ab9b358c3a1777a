"""A logged drive: what was driven, every second, and the temperatures where they were truly read."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import median_filter

from toptank.knowledge.drives.track import Floats

TEMPERATURES = ("coolant", "gauge", "transmission")
"""Readings of the vehicle itself; all else says what was driven."""

HELD = ("speed", "grade", "air_conditioning", "heater", "running", "engine_speed")
"""What holds from one noted row to the next in a log written by hand; the others change evenly between them."""

SPIKE_OVER, SPIKE = 15, 8.0
"""Seconds whose median a temperature is compared with, and how far off it is a fault of the logger [K]; judgement."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DriveLog:
    """A drive on an even grid of one second; every array (step,).

    time : from 0 on [s]
    driven : "speed", "ambient", "altitude", ... in SI, without gaps
    read : "coolant", "gauge", "transmission" [K]; NaN wherever nothing was read
    by_hand : few rows, noted by a person
    """

    time: Floats
    driven: Mapping[str, Floats]
    read: Mapping[str, Floats]
    by_hand: bool

    @property
    def length(self) -> float:
        """Length of the drive [s]."""
        return float(self.time[-1])

    @property
    def place(self) -> str:
        """The reading that says most of the cooling: the coolant's own thermometer before the gauge; or empty."""
        return next((name for name in ("coolant", "gauge") if name in self.read), "")


def on_a_grid(time: Floats, columns: Mapping[str, Floats], *, by_hand: bool) -> DriveLog:
    """Put rows on a grid of one second.

    Parameters
    ----------
    time : (row,), from 0 on, never falling [s]
    columns : (row,) each, in SI; NaN where a row says nothing; none is NaN throughout
    by_hand : few rows, noted by a person
    """
    grid = np.arange(0.0, np.floor(time[-1]) + 1.0)
    driven: dict[str, Floats] = {}
    read: dict[str, Floats] = {}
    for name, values in columns.items():
        known = np.isfinite(values)
        if name in TEMPERATURES:
            read[name] = _seconds(time[known], values[known], len(grid))
        elif by_hand and name in HELD:
            place = np.searchsorted(time[known], grid, side="right") - 1
            driven[name] = values[known][np.maximum(place, 0)]
        else:
            at, mean = _means(time[known], values[known])
            driven[name] = np.interp(grid, at, mean)
    for name in ("air_conditioning", "heater", "running"):
        if name in driven:
            driven[name] = np.round(driven[name])
    return DriveLog(time=grid, driven=driven, read=read, by_hand=by_hand)


def _seconds(time: Floats, values: Floats, n: int) -> Floats:
    """Mean of the values of each second; NaN where there is none."""
    filled = np.full(n, np.nan)
    second, _, mean = _by_second(time, values)
    filled[np.minimum(second, n - 1)] = mean
    return filled


def _means(time: Floats, values: Floats) -> tuple[Floats, Floats]:
    """Mean time and value of each second that has any."""
    _, at, mean = _by_second(time, values)
    return at, mean


def _by_second(time: Floats, values: Floats) -> tuple[NDArray[np.intp], Floats, Floats]:
    """Seconds that have values, the mean time and value of each; a moment that is told twice counts once."""
    moment, values = _mean_of(time, values)
    at, mean = _mean_of(np.floor(moment), values), _mean_of(np.floor(moment), moment)
    return at[0].astype(np.intp), mean[1], at[1]


def _mean_of(group: Floats, values: Floats) -> tuple[Floats, Floats]:
    found, which, count = np.unique(group, return_inverse=True, return_counts=True)
    return found, np.bincount(which, values) / count


def without_spikes(time: Floats, values: Floats) -> tuple[Floats, int]:
    """Temperatures of a logger without single wild ones [K]; how many were taken out."""
    known = np.flatnonzero(np.isfinite(values))
    if len(known) < 5:
        return values, 0

    step = max(float(np.median(np.diff(time[known]))), 1e-3)
    width = min(max(2 * int(0.5 * SPIKE_OVER / step) + 1, 5), 301, len(known) - 1 + len(known) % 2)
    middle = median_filter(values[known], size=width, mode="nearest")
    wild = np.abs(values[known] - middle) > SPIKE
    left = values.copy()
    left[known[wild]] = np.nan
    return left, int(wild.sum())
