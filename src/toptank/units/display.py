"""How a figure is shown to a person, and how its key is named for a machine."""

import math

from toptank.units.conversion import System, from_si, unit_of
from toptank.units.dimension import DISPLACEMENT, DURATION, STEADY, TEMPERATURE, Dimension

_SIGNIFICANT = 3
_ROUND = 2
"""Significant figures that an estimate has at most where it was made in round figures."""

_BEYOND = 1e10
"""From here on a figure is told with an exponent: hundreds of digits tell a person nothing."""

_WHOLE = frozenset({"°F", "°C", "rpm", "cfm", "ft"})
"""Units whose decimals say nothing in a shop."""

_SUFFIXES = {"": "", "1": "", "%": "pct", "°F": "degF", "°C": "degC", "W/(m K)": "W_per_m_K", "m2 K/W": "m2_K_per_W"}


def figure(value: float, digits: int | None = None) -> str:
    """Write a number without exponent: `digits` decimals, or three significant figures and no idle zeros.

    One beyond all that a shop knows has four figures and an exponent.
    """
    if math.isnan(value):
        return "-"
    if _BEYOND <= abs(value) < math.inf:
        return f"{value:.4g}".replace("e+", "e")
    if digits is not None:
        text = f"{value:.{digits}f}"
        return text.removeprefix("-") if float(text) == 0.0 else text
    if value == 0.0 or math.isinf(value):
        return f"{value:g}".removeprefix("-" if value == 0.0 else "")
    decimals = _SIGNIFICANT - 1 - math.floor(math.log10(abs(value)))
    text = f"{value:.{max(decimals, 0)}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def show(value: float, dimension: Dimension, system: System, digits: int | None = None) -> str:
    """Write a value in SI the way the shop reads it, e.g. "212 °F"; `digits` fixes the number of decimals."""
    if dimension is DURATION and value >= STEADY:
        return "steady"
    unit = unit_of(dimension, system)
    if digits is None and unit in _WHOLE:
        digits = 0
    text = figure(float(from_si(value, dimension, unit)), digits)
    if unit in ("", "1"):
        return text
    return f"{text} {unit}"


def show_estimate(value: float, dimension: Dimension, system: System) -> str:
    """Write a value that nobody measured: one that is round in metric units is no less round in others.

    100 m is told as 330 ft and not as 328, 5 mm as 0.2 in and not as 0.197. An engine of 5.0 L keeps its 305 in3.
    """
    unit = unit_of(dimension, system)
    metric = figure(float(from_si(value, dimension, dimension.metric)), None) if value else "0"
    round_one = (
        unit != dimension.metric and dimension not in (TEMPERATURE, DISPLACEMENT) and _significant(metric) <= _ROUND
    )
    if not round_one or value == 0.0:
        return show(value, dimension, system)
    shown = float(from_si(value, dimension, unit))
    decimals = _ROUND - 1 - math.floor(math.log10(abs(shown)))
    return f"{figure(round(shown, decimals))} {unit}"


def _significant(text: str) -> int:
    return len(text.replace(".", "").replace("-", "").strip("0"))


def key_suffix(dimension: Dimension, system: System) -> str:
    """Name the unit for the end of a key, e.g. "degF", "psi", "L_per_min"; empty for a plain number."""
    unit = unit_of(dimension, system)
    return _SUFFIXES.get(unit, unit.replace("/", "_per_").replace(" ", "_"))


def keyed(name: str, dimension: Dimension, system: System) -> str:
    """Return a key with its unit."""
    suffix = key_suffix(dimension, system)
    return f"{name}_{suffix}" if suffix else name
