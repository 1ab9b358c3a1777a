"""Boiling and freezing points of a mix. Nothing here waits for a compiler."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from toptank.equations.atmosphere import pressure_at_altitude
from toptank.media import mixture
from toptank.media.coolant import STRONGEST_FREEZING, boiling_temperature, freeze_point
from toptank.shop.answers.answer import Glycol, degC, kPa, pct, per_kPa, rounded
from toptank.shop.answers.bench import BoilAnswer, CapBoils, FreezeAnswer
from toptank.shop.files.typed_figure import between
from toptank.units.dimension import ALTITUDE, FRACTION, PRESSURE
from toptank.units.quantity import parse_choice

if TYPE_CHECKING:
    from toptank.units.conversion import System

GLYCOLS: tuple[Glycol, ...] = ("ethylene", "propylene")
CAPS_PSI = (0, 4, 7, 13, 15, 16, 18, 22)
PSI = 6894.757293168361


def boil(*, cap: str, glycol: str, mix: str, altitude: str, system: System) -> BoilAnswer:
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
    gains = [None, *(per_kPa(gain(below, here)) for below, here in pairwise(caps))]
    slope = gain(max(pressure - 0.5 * PSI, 0.0), pressure + 0.5 * PSI)
    mean = gain(0.0, pressure) if pressure > 0.0 else slope
    return BoilAnswer(
        glycol=GLYCOLS[int(code)],
        mix_pct=pct(concentrate),
        cap_kPa=kPa(pressure),
        altitude_m=rounded(height),
        boiling_point_degC=degC(point(pressure)),
        open_boiling_point_degC=degC(point(0.0)),
        gain_at_this_cap_K_per_kPa=per_kPa(slope),
        mean_gain_K_per_kPa=per_kPa(mean),
        caps=tuple(
            CapBoils(cap_kPa=kPa(cap), boiling_point_degC=degC(point(cap)), gain_K_per_kPa=more)
            for cap, more in zip(caps, gains, strict=True)
        ),
        assumed_units=tuple(notes),
    )


def freeze(*, glycol: str, mix: str, system: System) -> FreezeAnswer:
    """Freeze point of a mix."""
    notes: list[str] = []
    concentrate = between("mix", mix, FRACTION, 0.0, 0.7, system, notes)
    code = parse_choice(glycol, GLYCOLS, "glycol")
    by_mass = float(mixture.glycol_mass_fraction(mixture.glycol_volume_fraction(concentrate, code), code))
    held = by_mass > STRONGEST_FREEZING
    return FreezeAnswer(
        glycol=GLYCOLS[int(code)],
        mix_pct=pct(concentrate),
        freeze_point_degC=degC(float(freeze_point(concentrate, code))),
        remarks=(f"this mix is {100.0 * by_mass:.0f} % glycol by mass; {_HELD}",) if held else (),
        assumed_units=tuple(notes),
    )


_HELD = (
    "beyond 60 % the freeze point is held at the figure for 60 %: a stronger mix does not protect more. It thickens to "
    "slush, and very strong ethylene glycol freezes sooner again, pure at 9 °F (-13 °C)"
)
"""As `media.coolant.freeze_point` has it."""
