"""Boiling and freezing points of a mix. Nothing here waits for a compiler."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.equations.atmosphere import pressure_at_altitude
from toptank.media import mixture
from toptank.media.coolant import STRONGEST_FREEZING, boiling_temperature, freeze_point
from toptank.shop.answers.answers import Boiling, CapRow, Freezing
from toptank.shop.files.typed_figure import between
from toptank.units.dimension import ALTITUDE, FRACTION, PRESSURE
from toptank.units.quantity import parse_choice

if TYPE_CHECKING:
    from toptank.units.conversion import System

GLYCOLS = ("ethylene", "propylene")
CAPS_PSI = (0, 4, 7, 13, 15, 16, 18, 22)
PSI = 6894.757293168361


def boil(*, cap: str, glycol: str, mix: str, altitude: str, system: System) -> Boiling:
    """Boiling point under a cap, the same under the usual caps, and what a pound of cap is really worth."""
    notes: list[str] = []
    pressure = between("cap", cap, PRESSURE, 0.0, 206843.0, system, notes)
    concentrate = between("mix", mix, FRACTION, 0.0, 0.7, system, notes)
    height = between("altitude", altitude, ALTITUDE, -500.0, 5500.0, system, notes)
    code = parse_choice(glycol, GLYCOLS, "glycol")
    outside = float(pressure_at_altitude(height))

    def point(gauge: float) -> float:
        return float(boiling_temperature(outside + gauge, concentrate, code))

    def gain(low: float, high: float) -> float:
        return (point(high) - point(low)) / (high - low)

    caps = [p * PSI for p in CAPS_PSI]
    rows = tuple(
        CapRow(pressure=here, boiling_point=point(here), slope=None if below is None else gain(below, here))
        for below, here in zip([None, *caps], caps, strict=False)
    )
    slope = gain(max(pressure - 0.5 * PSI, 0.0), pressure + 0.5 * PSI)
    mean = gain(0.0, pressure) if pressure > 0.0 else slope
    return Boiling(
        cap=pressure,
        concentrate=concentrate,
        glycol=GLYCOLS[int(code)],
        altitude=height,
        boiling_point=point(pressure),
        open_boiling_point=point(0.0),
        slope=slope,
        mean_slope=mean,
        rows=rows,
        assumed_units=tuple(notes),
    )


def freeze(*, glycol: str, mix: str, system: System) -> Freezing:
    """Freeze point of a mix."""
    notes: list[str] = []
    concentrate = between("mix", mix, FRACTION, 0.0, 0.7, system, notes)
    code = parse_choice(glycol, GLYCOLS, "glycol")
    by_mass = float(mixture.glycol_mass_fraction(mixture.glycol_volume_fraction(concentrate, code), code))
    held = by_mass > STRONGEST_FREEZING
    return Freezing(
        concentrate=concentrate,
        glycol=GLYCOLS[int(code)],
        freeze_point=float(freeze_point(concentrate, code)),
        remarks=(f"this mix is {100.0 * by_mass:.0f} % glycol by mass; {_HELD}",) if held else (),
        assumed_units=tuple(notes),
    )


_HELD = (
    "beyond 60 % the freeze point is held at the figure for 60 %: a stronger mix does not protect more. It thickens to "
    "slush, and very strong ethylene glycol freezes sooner again, pure at 9 °F (-13 °C)"
)
"""As `media.coolant.freeze_point` has it."""
