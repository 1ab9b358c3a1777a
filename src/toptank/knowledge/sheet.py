"""What is known of one vehicle, and how well: every field of every part with its value, its spread and its origin."""

import dataclasses
import functools
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import Any, get_type_hints

from toptank.knowledge.implied import implied
from toptank.system.condition import Timing
from toptank.system.duty import Duty
from toptank.system.vehicle import Vehicle
from toptank.units.declaration import Declaration, declarations
from toptank.units.dimension import CHOICE, COUNT, STEADY, YES_NO

DECLARED = "declared typical"
"""Origin of a fact that nothing but the declaration of its field speaks for."""

BY_ITS_KIND = "usual for its kind"
"""Origin of a value that the kind of a part implies."""

MEASURED_SHARE = 0.2
"""Spread of a measured value over the declared one [1]: a tape and an eye have errors too; judgement."""

PLATE_SHARE = 0.1
"""Spread of a value read off a plate or from a handbook over the declared one [1]; judgement."""

UNCOUNTED_ROWS = 0.35
"""Spread of rows that nobody counted: one in seven has one fewer or more [1]; judgement."""

_CERTAIN = (CHOICE, YES_NO, COUNT)
"""What is seen or counted is known."""


class Provenance(StrEnum):
    """How well a fact is known."""

    MEASURED = "measured"
    PLATE = "plate"
    ASSUMED = "assumed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One value and how well it is known.

    Parameters
    ----------
    value : the value in SI; for a choice its code
    how : measured, read off a plate, or assumed
    spread : one standard deviation, in SI or relative as the field's declaration says; for a choice the probability
        that it is another one
    origin : where the value comes from, e.g. "job file", "declared typical"
    """

    value: float
    how: Provenance
    spread: float
    origin: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A complete sheet of one vehicle: a fact for every field of every part.

    Parameters
    ----------
    name : what the vehicle is called
    like : name of the typical vehicle that stands in for what is not known; empty if none does
    facts : "core.rows" -> fact, in the order of the parts
    """

    name: str
    like: str
    facts: Mapping[str, Fact]

    def __post_init__(self) -> None:
        _complete(self.facts, tuple(path for path, _ in fields()))


@dataclass(frozen=True, slots=True, kw_only=True)
class DutySheet:
    """A complete sheet of one duty.

    Parameters
    ----------
    name : what the duty is called, e.g. "ridge climb"
    facts : "speed" -> fact, in the order of the duty's fields
    after : name of the duty that it follows, or "cold"; empty: what is usual for its kind
    """

    name: str
    facts: Mapping[str, Fact]
    after: str = ""

    def __post_init__(self) -> None:
        _complete(self.facts, tuple(duty_fields()))


@functools.cache
def sections() -> Mapping[str, Mapping[str, Declaration]]:
    """Every section of a sheet with its keys: the parts of a vehicle and their fields."""
    return MappingProxyType(
        {section: MappingProxyType(dict(declarations(part))) for section, part in get_type_hints(Vehicle).items()}
    )


TIMING_KEYS: Mapping[str, str] = MappingProxyType({"for": "duration", "moving": "moving", "standing": "standing"})
"""Keys of a duty that tell how long it lasts -> fields of its timing."""


@functools.cache
def duty_fields() -> Mapping[str, Declaration]:
    """Every key of a duty, those of its timing last."""
    timing = dict(declarations(Timing))
    return MappingProxyType(dict(declarations(Duty)) | {key: timing[field] for key, field in TIMING_KEYS.items()})


def fields() -> Iterator[tuple[str, Declaration]]:
    """Yield (path, declaration) of every field of a sheet, in order."""
    for section, keys in sections().items():
        for key, declaration in keys.items():
            yield f"{section}.{key}", declaration


def declaration_of(path: str) -> Declaration:
    """Declaration of the field at a path such as "core.rows"."""
    section, _, key = path.partition(".")
    return sections()[section][key]


def spread_known(declaration: Declaration, how: Provenance, stated: float | None = None) -> float:
    """Spread of a fact: the stated one, or what the way it was found leaves of the declared one."""
    if stated is not None:
        return stated
    if how == Provenance.ASSUMED:
        return declaration.spread
    if declaration.dimension in _CERTAIN:
        return 0.0
    return declaration.spread * (MEASURED_SHARE if how == Provenance.MEASURED else PLATE_SHARE)


def declared(declaration: Declaration) -> Fact:
    """Fact of a field of which nothing is known but its declaration."""
    return Fact(value=float(declaration.typical), how=Provenance.ASSUMED, spread=declaration.spread, origin=DECLARED)


def declared_sheet(name: str = "declared typical vehicle") -> Sheet:
    """Sheet of a vehicle of which nothing is known."""
    return Sheet(name=name, like="", facts={path: declared(declaration) for path, declaration in fields()})


def duty_sheet(name: str, facts: Mapping[str, Fact], after: str = "") -> DutySheet:
    """Sheet of a duty from the facts that are known; declarations and what is usual of its kind stand in for the rest.

    What was only usual for what the duty was before does not stay.
    """
    told = {key: fact for key, fact in facts.items() if fact.origin != OF_ITS_KIND}
    filled = {key: told.get(key, declared(field)) for key, field in duty_fields().items()}
    if "for" not in told:
        filled["for"] = usual_time(filled)
    if "among_cars" not in told and kind_of_duty(filled) == "stop and go":
        filled["among_cars"] = Fact(value=1.0, how=Provenance.ASSUMED, spread=NO_SUN, origin=OF_ITS_KIND)
    return DutySheet(name=name, facts=filled, after=after)


OF_ITS_KIND = "usual for such a condition"
"""Origin of a time, or of a queue, that nobody said."""

NO_SUN = 0.2
"""Chance that stop and go of which nobody says more is not among cars on hot asphalt [1]; judgement."""

UPHILL = 0.02
"""Grade from which a road is a hill [1]; judgement."""

HILL_TIME, STOP_TIME, TRAFFIC_TIME, FACTOR = 600.0, 300.0, 900.0, 2.0
"""How long a hill, a stop and stop-and-go last that nobody timed [s], and within which factor; judgement."""


def kind_of_duty(facts: Mapping[str, Fact]) -> str:
    """What kind of condition facts describe: "stop and go", "stop", "hill" or "steady"."""
    value = {key: fact.value for key, fact in facts.items()}
    if value["moving"] > 0.0 and value["standing"] > 0.0:
        return "stop and go"
    if value["speed"] == 0.0:
        return "stop" if value["shaft_load"] == 0.0 else "steady"
    return "hill" if value["grade"] >= UPHILL else "steady"


def usual_time(facts: Mapping[str, Fact]) -> Fact:
    """How long a condition lasts of which nobody said it; level road and work at standstill are settled."""
    usual = {"hill": HILL_TIME, "stop": STOP_TIME, "stop and go": TRAFFIC_TIME}.get(kind_of_duty(facts))
    spread = 0.0 if usual is None else math.sqrt(math.expm1(math.log(FACTOR) ** 2))
    return Fact(value=usual or STEADY, how=Provenance.ASSUMED, spread=spread, origin=OF_ITS_KIND)


def overlay(sheet: Sheet, facts: Mapping[str, Fact]) -> Sheet:
    """Sheet with some facts replaced by better ones, and by what their words imply of others."""
    unknown = set(facts) - set(sheet.facts)
    if unknown:
        raise KeyError(f"not a field of a sheet: {', '.join(sorted(unknown))}")
    told = {
        path: Fact(value=value, how=Provenance.ASSUMED, spread=spread, origin=BY_ITS_KIND)
        for path, (value, spread) in implied({path: fact.value for path, fact in facts.items()}).items()
    }
    return dataclasses.replace(sheet, facts={**sheet.facts, **told, **facts})


def widened(sheet: Sheet, factor: float) -> Sheet:
    """Sheet with the spreads of all that is assumed widened; the doubts of the model stay as they are."""
    facts = {
        path: dataclasses.replace(fact, spread=fact.spread * factor)
        if fact.how == Provenance.ASSUMED
        and not path.startswith("doubts.")
        and declaration_of(path).dimension not in _CERTAIN
        else fact
        for path, fact in sheet.facts.items()
    }
    return dataclasses.replace(sheet, facts=facts)


def with_rows_in_doubt(sheet: Sheet) -> Sheet:
    """Sheet in which rows of tubes that nobody counted may be one fewer or more."""
    rows = sheet.facts["core.rows"]
    if rows.how != Provenance.ASSUMED or rows.spread > 0.0:
        return sheet
    return overlay(sheet, {"core.rows": dataclasses.replace(rows, spread=UNCOUNTED_ROWS)})


def assumptions(sheet: Sheet | DutySheet) -> dict[str, Fact]:
    """Facts that were assumed, doubts of the model included."""
    return {path: fact for path, fact in sheet.facts.items() if fact.how == Provenance.ASSUMED}


def vehicle(sheet: Sheet) -> Vehicle:
    """Vehicle of the central values of a sheet."""
    return vehicle_of({path: fact.value for path, fact in sheet.facts.items()})


def duty(sheet: DutySheet) -> Duty:
    """Duty of the central values of its sheet."""
    return Duty(**{key: fact.value for key, fact in sheet.facts.items() if key not in TIMING_KEYS})


def timing(sheet: DutySheet) -> Timing:
    """Timing of the central values of a duty's sheet."""
    return Timing(**{field: sheet.facts[key].value for key, field in TIMING_KEYS.items()})


def vehicle_of(values: Mapping[str, Any]) -> Vehicle:
    """Vehicle from a number, or an array of draws, for every path."""
    parts: dict[str, Any] = {
        section: part(**{key: values[f"{section}.{key}"] for key in sections()[section]})
        for section, part in get_type_hints(Vehicle).items()
    }
    return Vehicle(**parts)


def _complete(facts: Mapping[str, Fact], paths: tuple[str, ...]) -> None:
    missing, unknown = set(paths) - set(facts), set(facts) - set(paths)
    if missing or unknown:
        raise ValueError(f"a sheet has a fact for every field: missing {sorted(missing)}, unknown {sorted(unknown)}")
