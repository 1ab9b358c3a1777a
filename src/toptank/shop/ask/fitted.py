"""What a vehicle has fitted, in the words of checks and symptoms."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from toptank.knowledge.sheet import Provenance

if TYPE_CHECKING:
    from collections.abc import Mapping

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


FAN_WORDS = {"electric_fan": "electric", "viscous_clutch": "viscous clutch"}
"""What drives a fan, as a sheet says it, by its name in checks and symptoms."""

_NAMED = {
    "electric_fan": re.compile(
        r"\b(?:electric|twin|dual) (?:cooling |radiator )?fans?\b|\bfans? (?:relay|fuse|motor)s?\b", re.IGNORECASE
    ),
    "viscous_clutch": re.compile(
        r"\b(?:fan[- ]clutch|clutch(?:ed)?[- ]fan|viscous|thermo(?:static)?[- ]?clutch)\b|\bfan with (?:a )?clutch\b",
        re.IGNORECASE,
    ),
}
_OTHER_FAN = re.compile(r"\b(?:belt|engine|mechanical|fixed|bolted)[- ](?:driven )?fans?\b", re.IGNORECASE)
"""Beside an electric fan it says that there are two, of which a sheet knows one."""


def fans_named(text: str, sheet: Sheet) -> Mapping[str, str]:
    """Kinds of fan that words name, with those words, where nobody has seen the fan."""
    if sheet.facts["fan.drive"].how != Provenance.ASSUMED:
        return {}
    found = {part: match.group() for part, named in _NAMED.items() if (match := named.search(text)) is not None}
    if (other := _OTHER_FAN.search(text)) is not None and found:
        found.setdefault("belt_driven_fan", other.group())
    return found
