"""What stands beside each part of the loop drawing: its name and its figures, in the units of the shop."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from toptank.units.conversion import from_si
from toptank.units.dimension import AIR_SPEED, FLOW, HEAT, POWER, ROTATION, TEMPERATURE
from toptank.units.display import show

if TYPE_CHECKING:
    from toptank.shop.door import Loop
    from toptank.units.conversion import System
    from toptank.units.dimension import Dimension


class Note(NamedTuple):
    """Words of one part: the section of the sheet that it opens, its name, its figures one a line."""

    part: str
    name: str
    figures: tuple[str, ...]


class Figures:
    """Figures of a loop as text."""

    def __init__(self, loop: Loop, system: System) -> None:
        self.loop = loop
        self.system: System = system

    def said(self, value: float, dimension: Dimension, digits: int | None = None) -> str:
        """Write a value in the units of the shop."""
        return show(value, dimension, self.system, digits)

    def degrees(self, attribute: str) -> str:
        """Write a temperature."""
        return self.said(getattr(self.loop, attribute), TEMPERATURE)

    def heat(self, attribute: str) -> str:
        """Write a heat: in tenths of a kilowatt, or in Btu a minute, as the rest of a US shop's figures."""
        return self.heat_of(getattr(self.loop, attribute))

    def heat_of(self, watt: float) -> str:
        """Write a heat [W]."""
        if self.system == "us":
            return f"{float(from_si(watt, HEAT, 'Btu/min')):,.0f} Btu/min"
        return self.said(watt, HEAT, 1)

    def flow(self, value: float) -> str:
        """Write a flow of coolant."""
        return self.said(value, FLOW, 1)

    def air(self, attribute: str) -> str:
        """Write an air speed."""
        return self.said(getattr(self.loop, attribute), AIR_SPEED, 0 if self.system == "us" else 1)

    def turns(self, attribute: str) -> str:
        """Write a speed of rotation, to ten a minute."""
        return self.said(round(60.0 * getattr(self.loop, attribute), -1) / 60.0, ROTATION)

    def power(self, attribute: str) -> str:
        """Write a power, to a tenth if it is small."""
        return self.said(getattr(self.loop, attribute), POWER, 1 if getattr(self.loop, attribute) < 1e4 else 0)


def notes(loop: Loop, system: System) -> dict[str, Note]:
    """Return the words of every part that the vehicle has, by a name of their place."""
    say = Figures(loop, system)
    opening = f"{round(100.0 * loop.opening)} % open"
    shares = round(100.0 * loop.fan_zone)
    found = {
        "top hose": Note("hoses", "top hose", (say.degrees("T_engine_out"), say.flow(loop.core_flow))),
        "lower hose": Note("hoses", "lower hose", (say.degrees("T_bottom_hose"), say.flow(loop.core_flow))),
        "core": Note("core", _core(loop), (f"gives {say.heat('core_heat')}",)),
        "outside": Note("grille", "air outside", (say.degrees("T_ambient"),)),
        "ahead": Note("core", "ahead of core", (say.degrees("T_core_air_in"),)),
        "fan zone": Note("shroud", "under the fan", (say.air("V_fan_zone"), f"{shares} % of face")),
        "behind": Note("core", "behind the core", (say.degrees("T_core_air_out"),)),
        "fan": Note("fan", _fan(loop), (say.turns("fan_speed"), say.power("fan_power"))),
        "pump": Note("water_pump", "water pump", (say.flow(loop.core_flow + loop.bypass_flow),)),
        "thermostat": Note("thermostat", "thermostat", (opening,)),
        "bypass": Note("thermostat", "bypass", (say.flow(loop.bypass_flow),)),
        "engine": Note(
            "engine",
            "engine",
            (
                f"heat {say.heat('engine_heat')}",
                f"block sheds {say.heat('surface_heat')}",
                f"coolant in {say.degrees('T_engine_in')}",
                f"{say.power('engine_power')}, {say.turns('engine_speed')}",
            ),
        ),
        "heater": Note("heater", "heater", (say.heat("heater_heat") if loop.heater_on else "off",)),
    }
    if loop.fan_zone < 0.985:
        found["ram zone"] = Note("grille", "ram air alone", (say.air("V_ram_zone"), f"{100 - shares} % of face"))
    if loop.has_condenser:
        found["condenser"] = Note("condenser", "condenser", _condenser(loop, say))
    if loop.cooler != "none":
        found["cooler"] = Note("transmission_cooler", "transmission cooler", _cooler(loop, say))
    return found


def _core(loop: Loop) -> str:
    way = "crossflow" if loop.crossflow else "downflow"
    return f"core, {way}" if loop.passes == 1 else f"core, {way}, {loop.passes} passes"


def _fan(loop: Loop) -> str:
    if loop.fan_drive == "electric":
        return "electric fan" if loop.fans == 1 else f"{loop.fans} electric fans"
    return "fan, clutch" if loop.fan_drive == "viscous clutch" else "fan, bolted"


def _condenser(loop: Loop, say: Figures) -> tuple[str, ...]:
    if not loop.air_conditioning_on:
        return ("air conditioning off",)
    return f"{say.degrees('T_condensing')}, heats the air", f"ahead by {say.heat('condenser_heat')}"


def _cooler(loop: Loop, say: Figures) -> tuple[str, ...]:
    fluid = f"fluid {say.degrees('T_transmission')}"
    if loop.cooler == "in the tank":
        given = loop.transmission_heat
        does = "gives" if given >= 0.0 else "takes"
        return f"in the tank, {fluid}", f"{does} {say.heat_of(abs(given))}"
    return (f"{loop.cooler},", fluid) if loop.cooler == "ahead of the core" else ("out of its air,", fluid)


def summary(loop: Loop, system: System) -> str:
    """Say the loop in a few sentences, for whoever cannot see it."""
    say = Figures(loop, system)
    words = [
        f"Coolant leaves the engine at {say.degrees('T_engine_out')}; the gauge shows {say.degrees('T_gauge')}; it "
        f"boils at {say.degrees('T_boiling')}."
    ]
    words += [
        f"{note.name[:1].upper()}{note.name[1:]}: {', '.join(note.figures)}." for note in notes(loop, system).values()
    ]
    return " ".join(words)
