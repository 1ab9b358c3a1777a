"""What a vehicle has fitted, in the words of checks and symptoms."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from toptank.knowledge.sheet import Provenance

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


_NAMED = {
    "electric_fan": re.compile(
        r"\b(?:electric|both|two|twin|dual) (?:cooling |radiator )?fans?\b|\bof (?:the|my|its) two fans\b"
        r"|\bfans? (?:relay|fuse|switch|motor)s?\b",
        re.IGNORECASE,
    ),
    "viscous_clutch": re.compile(
        r"\b(?:fan[- ]clutch|clutch(?:ed)?[- ]fan|viscous|thermo(?:static)?[- ]?clutch)\b|\bfan with (?:a )?clutch\b",
        re.IGNORECASE,
    ),
}


def fans_named(text: str, sheet: Sheet) -> frozenset[str]:
    """Kinds of fan that words name, where nobody saw the fan: the usual one of its kind does not make them unheard."""
    if sheet.facts["fan.drive"].how != Provenance.ASSUMED:
        return frozenset()
    return frozenset(part for part, named in _NAMED.items() if named.search(text))
