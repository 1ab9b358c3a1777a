"""Duties as conditions that follow one another: what came before each, and for how long.

Who names a hill or a stop means one that was come to: out of a settled run on the level, at the speed that such a
vehicle does all day, unless something else is said.
"""

import dataclasses
from collections.abc import Iterable, Mapping, Sequence

from toptank.knowledge.draws import UnitSamples, doubtful_of_duties, duty_at, timing_at, unit_samples
from toptank.knowledge.sheet import DutySheet, Fact, Provenance, Sheet, duty, duty_sheet, kind_of_duty, timing
from toptank.knowledge.typical import typical, typical_names
from toptank.system.condition_batch import COLD, Condition
from toptank.units.dimension import STEADY
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal

RUN_BEFORE = "run before: "
"""How the name of a run begins that came before a condition of which nobody says what came before."""

OF_THE_RUN = ("speed", "gear", "engine_speed", "shaft_load")
"""What a run before has of the day that such a vehicle does all day; the rest is that of the condition itself."""

CRUISE = 22.0
"""Road speed of the run before of a vehicle that is like none on the list [m/s]; judgement."""


def is_steady(sheet: DutySheet) -> bool:
    """Whether a condition is settled, whatever came before."""
    return sheet.facts["for"].value >= STEADY and kind_of_duty(sheet.facts) != "stop and go"


def with_runs_before(vehicle: Sheet, duties: Iterable[DutySheet]) -> dict[str, DutySheet]:
    """The duties by name, and for those of which nobody says what came before the run that did."""
    found: dict[str, DutySheet] = {}
    runs: dict[object, str] = {}
    for sheet in duties:
        if sheet.after or is_steady(sheet):
            found[sheet.name] = sheet
        else:
            run = run_before(vehicle, sheet)
            name = runs.setdefault(tuple((fact.value, fact.spread) for fact in run.facts.values()), run.name)
            found.setdefault(name, run)
            found[sheet.name] = dataclasses.replace(sheet, after=name)
    return found


def run_before(vehicle: Sheet, sheet: DutySheet) -> DutySheet:
    """The settled run on the level that a condition is come to from: its own day, the usual speed of such a vehicle."""
    usual = typical(vehicle.like).usual.facts if vehicle.like in typical_names() else None
    facts = dict(sheet.facts)
    for key in OF_THE_RUN:
        value = usual[key].value if usual is not None else CRUISE if key == "speed" else 0.0
        facts[key] = _certain(value)
    for key in ("grade", "in_gear", "moving", "standing"):
        facts[key] = _certain(0.0)
    return duty_sheet(f"{RUN_BEFORE}{sheet.name}", facts | {"for": _certain(STEADY)})


def _certain(value: float) -> Fact:
    return Fact(value=value, how=Provenance.ASSUMED, spread=0.0, origin="run before")


def conditions_at(vehicle: Sheet, duties: Sequence[DutySheet], chances: UnitSamples, n: int) -> dict[str, Condition]:
    """The n possible days of duties and of the runs before them, at these places."""
    return {
        name: Condition(
            duty=duty_at(sheet, chances, n),
            timing=timing_at(sheet, chances, n),
            after="" if is_steady(sheet) else sheet.after,
        )
        for name, sheet in with_runs_before(vehicle, duties).items()
    }


def draw_conditions(vehicle: Sheet, duties: Sequence[DutySheet], n: int, seed: int) -> dict[str, Condition]:
    """Draw n possible days of duties and of the runs before them; all share their draws."""
    return conditions_at(vehicle, duties, unit_samples(doubtful_of_duties(duties), n, seed), n)


def central_conditions(vehicle: Sheet, duties: Sequence[DutySheet]) -> dict[str, Condition]:
    """The duties and the runs before them at their central values."""
    return {
        name: Condition(duty=duty(sheet), timing=timing(sheet), after="" if is_steady(sheet) else sheet.after)
        for name, sheet in with_runs_before(vehicle, duties).items()
    }


def came_before(sheet: DutySheet) -> str:
    """What a condition comes after, in words; empty where it is steady."""
    if is_steady(sheet):
        return ""
    if sheet.after == COLD:
        return "from cold"
    return f"after {sheet.after}" if sheet.after else "after a run on the level"


def refuse_wrong_order(duties: Sequence[DutySheet], key: str, others: Sequence[DutySheet] = ()) -> None:
    """Refuse a duty that comes after one that is not there, or after itself.

    Raises
    ------
    Refusal : in one sentence, for the first duty that cannot be put in order
    """
    by_name = {sheet.name: sheet for sheet in (*others, *duties)}
    for sheet in duties:
        if sheet.after and sheet.after != COLD and sheet.after not in by_name:
            names = [*(name for name in by_name if name != sheet.name), COLD]
            fix = did_you_mean(sheet.after, names, "name one of " + ", ".join(map(repr, names)))
            raise _refusal(sheet, key, "is no condition of this job", fix)
        chain = _before(sheet, by_name)
        if sheet.name in chain:
            fix = "say of one of them what really came first, or leave its after out"
            raise _refusal(sheet, key, f"leads back to itself ({' after '.join([sheet.name, *chain])})", fix)


def _before(sheet: DutySheet, by_name: Mapping[str, DutySheet]) -> list[str]:
    """The names of what came before, the latest first, up to where it would begin again."""
    chain: list[str] = []
    while sheet.after in by_name and sheet.after not in chain:
        chain.append(sheet.after)
        sheet = by_name[sheet.after]
    return chain


def _refusal(sheet: DutySheet, key: str, limit: str, fix: str) -> Refusal:
    return Refusal(field=f"{key} {sheet.name!r}.after", value=repr(sheet.after), limit=limit, fix=fix)
