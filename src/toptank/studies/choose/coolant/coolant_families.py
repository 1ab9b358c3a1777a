"""Families of coolant, and whether what is to go in may meet what is in.

Source   common practice, no source; held in coolant_families.toml, each family with its own words
Range    families by name; what is in may be unknown
Scatter  lives differ by a factor of two between makers
"""

import tomllib
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib import resources
from typing import Any

from toptank.units.dimension import DISTANCE
from toptank.units.nearest import did_you_mean
from toptank.units.quantity import parse
from toptank.units.refusal import Refusal

UNKNOWN = "unknown"
WATER = "water"
"""What may be in besides a family: nobody knows, or plain water after a flush."""

IDENTIFY = "a family is told by the specification number on the jug, never by its color"
PRACTICE = "common practice, no source"

_YEAR = 365.25 * 86400.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Family:
    """A family: words, life [s] and distance [m] whichever ends first, and cautions.

    Parameters
    ----------
    name, means, suits, solder, source : words for the mechanic; `solder` is empty where there is nothing to say
    life : of the fill [s]
    distance : of the fill [m]
    sealed_only : keep out of systems whose top tank is open to air
    """

    name: str
    means: str
    suits: str
    solder: str
    source: str
    life: float
    distance: float
    sealed_only: bool

    @property
    def years(self) -> float:
        """Life of the fill in years [1]."""
        return self.life / _YEAR


class Action(StrEnum):
    """What to do with what is in."""

    top_up = "top up"
    fill = "fill"
    flush = "flush and refill"


@dataclass(frozen=True, slots=True, kw_only=True)
class Compatibility:
    """What to do, why, and what to look out for; the life [s] and distance [m] of the new fill start after a flush."""

    action: Action
    reason: str
    cautions: tuple[str, ...]
    life: float
    distance: float
    source: str


@cache
def families() -> tuple[Family, ...]:
    """Every family, in the order of the file."""
    text = (
        resources.files("toptank.studies.choose.coolant").joinpath("coolant_families.toml").read_text(encoding="utf-8")
    )
    tables: list[dict[str, Any]] = tomllib.loads(text)["family"]
    return tuple(_family(table) for table in tables)


def compatibility(inside: str, new: str, *, soldered: bool, sealed: bool) -> Compatibility:
    """Say what to do with what is in before a coolant goes in.

    Parameters
    ----------
    inside : family that is in, "unknown" or "water"
    new : family that is to go in
    soldered : copper or brass with solder in radiator or heater
    sealed : no air stands over the coolant but in a sealed expansion tank

    Returns
    -------
    compatibility : what to do and why
    """
    family = _named(new, "new coolant", ())
    if inside not in (UNKNOWN, WATER):
        _named(inside, "coolant inside", (UNKNOWN, WATER))
    action, reason = _action(inside, new)
    return Compatibility(
        action=action,
        reason=reason,
        cautions=_cautions(family, soldered=soldered, sealed=sealed),
        life=family.life,
        distance=family.distance,
        source=family.source,
    )


def _action(inside: str, new: str) -> tuple[Action, str]:
    if inside == UNKNOWN:
        return Action.flush, f"nobody knows what is in: flush, and start a new record; {IDENTIFY}"
    if inside == WATER:
        return Action.fill, "only water is in: concentrate goes in first, as the block keeps some of the water"
    if inside == new:
        return Action.top_up, f"both are {new}: the same family, if the specification numbers agree"
    mixed = "mixed families protect no longer than the weaker, 24 months or 30,000 miles at best, and some mixes gel"
    return Action.flush, f"{inside} and {new} do not belong together: {mixed}"


def _cautions(family: Family, *, soldered: bool, sealed: bool) -> tuple[str, ...]:
    found = [IDENTIFY]
    if soldered and family.solder:
        found.append(family.solder)
    if family.sealed_only and not sealed:
        found.append("keep it out of a radiator with air over the coolant: without silicate it wants a sealed system")
    return tuple(found)


def _named(name: str, field: str, besides: tuple[str, ...]) -> Family:
    for family in families():
        if family.name == name:
            return family
    names = [*(family.name for family in families()), *besides]
    fix = did_you_mean(name, names, f"name one of {', '.join(names)}")
    raise Refusal(field=field, value=name, limit="is not a family that is known here", fix=fix)


def _family(table: dict[str, Any]) -> Family:
    return Family(
        name=table["name"],
        means=table["means"],
        suits=table["suits"],
        solder=table["solder"],
        source=table["source"],
        life=float(table["years"]) * _YEAR,
        distance=parse(table["distance"], DISTANCE, system="us", field="distance").value,
        sealed_only=bool(table["sealed_only"]),
    )
