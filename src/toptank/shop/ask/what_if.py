"""What if it were hotter, steeper, faster, with the air conditioning off: the gauge's band, at once.

The same possible vehicles whatever is changed, so that two answers differ by the change and by nothing else.
Imports of the model stay inside the functions that need it.
"""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from toptank.knowledge.conditions import central_conditions, draw_conditions
from toptank.knowledge.forecast import SEED, band_of, first_of, reason_of
from toptank.knowledge.model_discrepancy import off_by
from toptank.knowledge.sheet import Provenance, duty_fields, duty_sheet
from toptank.knowledge.sheet import duty as central_duty
from toptank.knowledge.stop_limit import limit_in
from toptank.shop.answers.words import naming
from toptank.shop.ask.choice.worst_day import worst_day
from toptank.shop.ask.loop import Loop, loop_of
from toptank.shop.cache.ensemble_cache import DRAWS, EnsembleNow, RestsOn, ensemble_now, work_done
from toptank.shop.files.toml_file import shortened
from toptank.system.balance import EQUATIONS_VERSION
from toptank.system.condition_batch import go_through
from toptank.system.trajectory import AT_THE_BOIL
from toptank.units.conversion import System, from_si, unit_of
from toptank.units.dimension import GRADE, SPEED, TEMPERATURE, Dimension
from toptank.units.nearest import did_you_mean
from toptank.units.quantity import check_hard, parse, parse_yes_no
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Iterator

    from toptank.knowledge.forecast import Band
    from toptank.knowledge.sheet import DutySheet, Fact
    from toptank.shop.job.job import Job
    from toptank.system.condition import Passage


class Changes(NamedTuple):
    """What is asked to be otherwise, as a person writes it; None stays as the duty has it."""

    ambient: str | float | None = None
    grade: str | float | None = None
    speed: str | float | None = None
    air_conditioning: str | bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WhatIf:
    """The answer.

    Parameters
    ----------
    job : that was asked about
    duty : as it was asked, changes and all
    changed : keys of the duty that are otherwise than in the job
    gauge, top_tank, boiling_point : bands of the possible vehicles at the end of the condition [K]
    gauge_peak : band of the highest reading in it [K]
    came_before : what it comes after, in words; empty where it is steady
    gauge_before : band of the gauge at the duty as the job has it [K]
    limit : that holds in it [K]: at a short stop it is higher than on the road
    over_limit, boils : chances to go over it, and to boil, at any time in it [1]
    loop : the loop of the vehicle in the middle
    reason : one sentence on its balance
    rests_on : a diagnosis, or the sheet alone
    draws : possible vehicles
    equations_version : names the equations that gave these figures
    remarks : changes that change nothing, and why
    assumed_units : bare figures and the unit they were taken in
    """

    job: Job
    duty: DutySheet
    changed: tuple[str, ...]
    gauge: Band
    gauge_peak: Band
    came_before: str
    top_tank: Band
    boiling_point: Band
    gauge_before: Band
    limit: float
    over_limit: float
    boils: float
    loop: Loop
    reason: str
    rests_on: RestsOn
    draws: int
    equations_version: str
    remarks: tuple[str, ...]
    assumed_units: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Dial:
    """What a person turns: key, meaning, unit, least, most, step and where it stands, in the units of the shop."""

    key: str
    means: str
    unit: str
    low: float
    high: float
    step: float
    value: float


_DIALS: tuple[tuple[str, Dimension, dict[System, tuple[float, float, float]]], ...] = (
    ("ambient", TEMPERATURE, {"us": (20.0, 130.0, 1.0), "metric": (-10.0, 55.0, 0.5), "uk": (-10.0, 55.0, 0.5)}),
    ("grade", GRADE, {"us": (-6.0, 16.0, 0.5), "metric": (-6.0, 16.0, 0.5), "uk": (-6.0, 16.0, 0.5)}),
    ("speed", SPEED, {"us": (0.0, 85.0, 1.0), "metric": (0.0, 140.0, 1.0), "uk": (0.0, 85.0, 1.0)}),
)
"""Ends and steps that suit a road; a figure beyond them can still be typed."""


def duties_of(job: Job) -> tuple[DutySheet, ...]:
    """The duties that can be asked about: the job's own, and those of its worst day."""
    own = {duty.name for duty in job.duties}
    return (*job.duties, *(duty for duty in worst_day(job) if duty.name not in own))


def dials(job: Job, *, duty: str | None = None, system: System | None = None) -> tuple[Dial, ...]:
    """Return the dials of a duty, standing where the job has them; a dial reaches at least that far."""
    system, asked = system or job.system, _named(job, duty)
    made: list[Dial] = []
    for key, dimension, ends in _DIALS:
        unit, (low, high, step) = unit_of(dimension, system), ends[system]
        value = float(from_si(asked.facts[key].value, dimension, unit))
        stands = round(value / step) * step
        made.append(
            Dial(
                key=key,
                means=duty_fields()[key].means,
                unit=unit,
                low=min(low, stands),
                high=max(high, stands),
                step=step,
                value=stands,
            )
        )
    return tuple(made)


def what_if(job: Job, changes: Changes, *, duty: str | None = None, system: System | None = None) -> WhatIf:
    """Settle the possible vehicles of a job at a duty that is otherwise.

    Parameters
    ----------
    job : with its duties
    changes : what is otherwise; a bare figure is taken in the units of `system`
    duty : name of a duty of the job or of its worst day; the first one if it is not said
    system : units of bare figures; the job's own if it is not said

    Raises
    ------
    Refusal : for a duty that is not there, or a figure that cannot be used
    """
    from toptank.knowledge.conditions import came_before

    system, asked, notes = system or job.system, _named(job, duty), list[str]()
    changed = _changed(asked, changes, system, notes)
    possible = ensemble_now(job)
    crowd = _passage(possible, changed, job)
    day, all_of_them = central_duty(changed), _in_its_place(changed, job)
    central = central_conditions(job.sheet, all_of_them)
    middle = go_through(possible.middle, central, [changed.name], closely=True)[changed.name]
    limit = limit_in(central[changed.name], job.limit)
    loop = loop_of(possible.middle, day, middle.end)
    gauge = band_of(np.asarray(crowd.end.T_gauge, float))
    keys = tuple(key for key in Changes._fields if changed.facts[key].value != asked.facts[key].value)
    return WhatIf(
        job=job,
        duty=changed,
        changed=keys,
        gauge=gauge,
        gauge_peak=band_of(np.asarray(crowd.T_gauge_peak, float)),
        came_before=came_before(changed),
        top_tank=band_of(np.asarray(crowd.end.T_top_tank, float)),
        boiling_point=band_of(np.asarray(crowd.end.T_boiling, float)),
        gauge_before=gauge if not keys else _before(possible, asked, job),
        limit=limit,
        over_limit=float(np.mean(np.asarray(crowd.T_peak, float) > limit)),
        boils=float(np.mean(np.asarray(crowd.least_margin, float) <= AT_THE_BOIL)),
        loop=loop,
        reason=reason_of(first_of(middle)),
        rests_on=possible.rests_on,
        draws=DRAWS,
        equations_version=EQUATIONS_VERSION,
        remarks=(*_with_the_work(job, system), *_remarks(changes, changed, loop)),
        assumed_units=tuple(notes),
    )


def _named(job: Job, name: str | None) -> DutySheet:
    known = duties_of(job)
    if name is None:
        return known[0]
    for duty in known:
        if duty.name == name.strip():
            return duty
    names = [duty.name for duty in known]
    fix = did_you_mean(name, names, f"name one of {', '.join(map(repr, names))}")
    raise Refusal(field="duty", value=shortened(name), limit="is no duty of this job or of its worst day", fix=fix)


def _changed(asked: DutySheet, changes: Changes, system: System, notes: list[str]) -> DutySheet:
    """The duty with what was changed, which is then certain."""
    facts = dict(asked.facts)
    for key, written in changes._asdict().items():
        if written is not None:
            facts[key] = _certain(key, written, facts[key], system, notes)
    return duty_sheet(asked.name, facts, asked.after)


def _in_its_place(changed: DutySheet, job: Job) -> list[DutySheet]:
    """The duties that can be asked about, one of them as it was changed."""
    return [changed if duty.name == changed.name else duty for duty in duties_of(job)]


def _passage(possible: EnsembleNow, asked: DutySheet, job: Job) -> Passage:
    """The vehicles through a duty, and what comes before it, off by what the model misses, as in every forecast."""
    conditions = draw_conditions(job.sheet, _in_its_place(asked, job), DRAWS, SEED)
    passage = go_through(possible.vehicles, conditions, [asked.name], closely=True)[asked.name]
    return off_by(passage, conditions[asked.name])


def _certain(key: str, written: str | float | bool, fact: Fact, system: System, notes: list[str]) -> Fact:
    declaration = duty_fields()[key]
    if key == "air_conditioning":
        value = parse_yes_no(written, key)
    else:
        parsed = parse(written, declaration.dimension, system=system, field=key)
        check_hard(parsed.value, declaration, written, key, system)
        if parsed.assumed:
            notes.append(f"{key} = {written}: taken as {parsed.unit}")
        value = parsed.value
    return dataclasses.replace(fact, value=value, how=Provenance.ASSUMED, spread=0.0, origin="asked what if")


def _before(possible: EnsembleNow, asked: DutySheet, job: Job) -> Band:
    """The gauge at a duty as the job has it; asked once."""
    mark = f"{asked.name} {[(fact.value, fact.spread) for fact in asked.facts.values()]}"
    if mark not in possible.at_duties:
        possible.at_duties[mark] = band_of(np.asarray(_passage(possible, asked, job).end.T_gauge, float))
    return possible.at_duties[mark]


def _with_the_work(job: Job, system: System) -> Iterator[str]:
    """Say that a closed job is asked as the vehicle left the shop."""
    done = work_done(job)
    if done:
        yield f"With the work that was done: {naming.remedies((one.id for one in done), system)}."


def _remarks(changes: Changes, changed: DutySheet, loop: Loop) -> Iterator[str]:
    """Say what was changed to no effect."""
    if changes.air_conditioning is not None and not loop.has_condenser:
        yield "This vehicle has no condenser on its sheet: the air conditioning changes nothing."
    if changes.grade is not None and changed.facts["speed"].value == 0.0:
        yield "Standing still, the grade changes nothing."
    if changed.facts["engine_speed"].value > 0.0 and changes.speed is not None:
        yield "The engine's speed is held on this duty: the road speed changes the air, not the engine."
    if loop.short_of_power:
        yield "The duty asks more power or speed than the engine has: it will slow down before it gets there."
    if loop.unbalanced:
        yield "The heat cannot be shed at any temperature looked at; figures of the loop stand where the search ended."
