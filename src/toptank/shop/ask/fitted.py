"""What a vehicle has fitted, in the words of checks and symptoms."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from toptank.knowledge.sheet import Sheet


def fitted(sheet: Sheet) -> frozenset[str]:
    """What the likeliest vehicle of a sheet has; the empty word is what every vehicle has."""

    def value(path: str) -> float:
        return sheet.facts[path].value

    drive = round(value("fan.drive"))
    has = {
        "": True,
        "viscous_clutch": drive == 0,
        "electric_fan": drive == 2,
        "belt_driven_fan": drive != 2,
        "automatic": value("drivetrain.kind") > 0.5,
        "air_conditioning": value("condenser.present") > 0.5,
        "shroud": value("shroud.present") > 0.5,
        "petrol_engine": value("engine.fuel") < 0.5,
    }
    return frozenset(name for name, there in has.items() if there)
