"""What the model misses of a vehicle that it has not seen: what the fit leaves, and what leaving vehicles out adds.

A fit that knows a vehicle's figures bends that vehicle's own constants to them; what remains then is too little for the
next vehicle. So each regime gets as much more as its left-out figures ask for, beyond what their bands hold already.
"""

from collections import Counter
from collections.abc import Sequence

import numpy as np

from calibrating.counting import ENDLESS, Row
from calibrating.evidence import Floats
from calibrating.scale import kind_of, to_scale

MEANT = 0.8
"""Share of left-out figures that the 80 % band of a regime is to hold [1]."""

HALF_BAND = 1.2816
"""Half of an 80 % band over the standard deviation of a normal distribution [1]."""

FEWEST, FEWEST_SOURCES = 8, 2
"""Figures and sources below which a regime says nothing of the next vehicle; what the fit leaves then stands."""

FINE, WIDEST = 200, 3.0
"""Steps in which more is looked for, up to so many times what the widest band has [1]."""


def with_left_out(remains: dict[str, float], rows: Sequence[Row], *, without: str = "") -> dict[str, float]:
    """What remains by kind, from what the fit leaves and the left-out rows of all sources but one.

    Figures of one drive share most of what is missed, so that a drive counts once; a source counts with the root of its
    drives, as many drives of one vehicle are not as many vehicles.
    """
    mine = [row for row in rows if _name(row) != without and row.figure.ask != "time to"]
    return {kind: float(np.hypot(sd, _more([row for row in mine if kind_of(row.figure) == kind])))
            for kind, sd in remains.items()}  # fmt: skip


def _more(rows: list[Row]) -> float:
    """The least that must be added to what remains for the bands to hold what they are meant to, on its scale."""
    rows = [row for row in rows if row.high < ENDLESS]
    names = list(dict.fromkeys(_name(row) for row in rows))
    if len(rows) < FEWEST or len(names) < FEWEST_SOURCES:
        return 0.0
    low, value, high = (
        np.array([float(to_scale(row.figure, at)) for row, at in zip(rows, values, strict=True)])
        for values in zip(*((row.low, row.figure.value, row.high) for row in rows), strict=True)
    )
    off = np.maximum(low - value, value - high)  # beyond the nearer end
    half = 0.5 * (high - low)
    weight = _weights(rows)
    for more in np.linspace(0.0, WIDEST * float(half.max()), FINE):
        wider = np.hypot(half, HALF_BAND * more) - half
        if float(np.sum(weight * (off <= wider)) / np.sum(weight)) >= MEANT:
            return float(more)
    return float("inf")


def _weights(rows: list[Row]) -> Floats:
    """How much each figure counts."""
    drives = [(row.source, row.drive) for row in rows]
    in_drive, of_source = Counter(drives), Counter(name.split("/")[0] for name, _ in set(drives))
    return np.array([of_source[name.split("/")[0]] ** -0.5 / in_drive[name, drive] for name, drive in drives])


def _name(row: Row) -> str:
    return row.source.split("/")[0]
