"""How a figure is shown to a person, and how its key is named for a machine."""

import math

from toptank.units.conversion import System, from_si, unit_of
from toptank.units.dimension import DURATION, STEADY, Dimension

_SIGNIFICANT = 3
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


def key_suffix(dimension: Dimension, system: System) -> str:
    """Name the unit for the end of a key, e.g. "degF", "psi", "L_per_min"; empty for a plain number."""
    unit = unit_of(dimension, system)
    return _SUFFIXES.get(unit, unit.replace("/", "_per_").replace(" ", "_"))


def keyed(name: str, dimension: Dimension, system: System) -> str:
    """Return a key with its unit."""
    suffix = key_suffix(dimension, system)
    return f"{name}_{suffix}" if suffix else name
