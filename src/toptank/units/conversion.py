"""From a unit of the shop to SI and back.

Factors come from `scipy.constants`; what it does not hold is made from what it holds. SciPy is imported when the
first figure is converted, so that a help page need not wait for it.
"""

import functools
from typing import Literal, TypeAlias, get_args

from toptank.units.arrays import Real
from toptank.units.dimension import TEMPERATURE, Dimension

System: TypeAlias = Literal["us", "metric", "uk"]
"""The unit system of the shop: what a bare number means and what figures are shown in."""

SYSTEMS: tuple[System, ...] = get_args(System)
SYSTEM_WORDS: dict[System, str] = {"us": "°F, mph, inches", "metric": "°C, km/h, mm", "uk": "°C, mph, inches"}
"""How each is called where one is chosen."""

BRITISH_UNITS = frozenset({"in", "ft", "mi", "mph", "psi", "hp", "lbf ft", "fpi"})
"""Imperial units that a British shop writes beside °C, litres and kilograms; common practice, no source."""


@functools.cache
def _factors() -> dict[str, float]:
    """SI units in one of each unit."""
    from scipy import constants as c

    water_column = 1000.0 * c.g  # conventional: water of 1000 kg/m3 under standard gravity, for 1 m
    quart, imperial_quart = c.gallon / 4, c.gallon_imp / 4
    return {
        "in": c.inch, "mm": c.milli, "cm": c.centi, "m": 1.0, "km": c.kilo, "thou": c.mil,
        "ft": c.foot, "yd": c.yard, "mi": c.mile,
        "m2": 1.0, "cm2": c.centi**2, "mm2": c.milli**2, "in2": c.inch**2, "ft2": c.foot**2,
        "m3": 1.0, "L": c.liter, "mL": c.liter / 1000, "cc": c.centi**3, "in3": c.inch**3,
        "gal": c.gallon, "qt": quart, "pt": quart / 2, "fl oz": c.fluid_ounce,
        "imp gal": c.gallon_imp, "imp qt": imperial_quart, "imp pt": imperial_quart / 2,
        "kg": 1.0, "g": c.gram, "t": c.metric_ton, "lb": c.lb, "oz": c.oz, "cwt": 112 * c.lb, "short ton": c.short_ton,
        "K": 1.0, "°C": 1.0, "°F": c.degree_Fahrenheit,
        "Pa": 1.0, "kPa": c.kilo, "MPa": c.mega, "bar": c.bar, "mbar": c.bar / 1000, "psi": c.psi, "atm": c.atm,
        "kg/cm2": c.kgf / c.centi**2, "inHg": c.mmHg * c.inch / c.milli,
        "inH2O": water_column * c.inch, "mmH2O": water_column * c.milli,
        "m/s": 1.0, "mph": c.mph, "km/h": c.kmh, "ft/min": c.foot / c.minute, "ft/s": c.foot,
        "1/s": 1.0, "rpm": 1 / c.minute,
        "W": 1.0, "kW": c.kilo, "hp": c.hp, "PS": 75 * c.kgf, "Btu/min": c.Btu / c.minute, "Btu/h": c.Btu / c.hour,
        "m3/s": 1.0, "m3/h": 1 / c.hour, "L/s": c.liter, "L/min": c.liter / c.minute, "gpm": c.gallon / c.minute,
        "imp gpm": c.gallon_imp / c.minute, "cfm": c.foot**3 / c.minute,
        "1": 1.0, "": 1.0, "%": 0.01, "deg": c.degree, "rad": 1.0,
        "1/m": 1.0, "fpi": 1 / c.inch, "fins/dm": 1 / c.deci, "fins/cm": 1 / c.centi,
        "s": 1.0, "min": c.minute, "h": c.hour, "kg/m3": 1.0, "kg/L": 1.0 / c.liter,
        "V": 1.0, "mV": c.milli, "A": 1.0,
        "W/K": 1.0, "kW/K": c.kilo, "W/(m K)": 1.0, "m2 K/W": 1.0, "N m": 1.0, "lbf ft": c.lbf * c.foot,
    }  # fmt: skip


@functools.cache
def _zero(unit: str) -> float:
    """Kelvin at the zero of a temperature scale."""
    from scipy import constants as c

    return {"°C": c.zero_Celsius, "°F": c.zero_Celsius - 32 * c.degree_Fahrenheit}.get(unit, 0.0)


def to_si(value: Real, dimension: Dimension, unit: str) -> Real:
    """Turn a figure in a unit of the dimension into SI."""
    return value * _factors()[unit] + (_zero(unit) if dimension == TEMPERATURE else 0.0)


def from_si(value: Real, dimension: Dimension, unit: str) -> Real:
    """Turn a value in SI into a figure in a unit of the dimension."""
    return (value - (_zero(unit) if dimension == TEMPERATURE else 0.0)) / _factors()[unit]


def kelvin(degC: float) -> float:
    """Return a temperature [°C], as answers hold it, in kelvin."""
    return float(to_si(degC, TEMPERATURE, "°C"))


def unit_of(dimension: Dimension, system: System) -> str:
    """Name the unit in which the shop writes and reads this dimension."""
    imperial = system == "us" or (system == "uk" and dimension.us in BRITISH_UNITS)
    return dimension.us if imperial else dimension.metric


def system_named(written: object) -> System:
    """Return the system of that name; the American one for anything else."""
    for one in SYSTEMS:
        if one == written:
            return one
    return "us"
