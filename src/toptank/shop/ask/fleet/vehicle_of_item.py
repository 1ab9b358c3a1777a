"""From what a source tells of a vehicle to its simulations and its day."""

from __future__ import annotations

import dataclasses
import zlib
from typing import TYPE_CHECKING, Any, NamedTuple

from toptank.knowledge.conditions import draw_conditions
from toptank.knowledge.draws import draw_duty, draws
from toptank.knowledge.sheet import DutySheet, Fact, Provenance, duty, duty_fields, duty_sheet, sections
from toptank.knowledge.typical import typical
from toptank.shop.ask.choice.worst_day import WALKING, usual_worst_day, worst_day
from toptank.shop.ask.diagnose import question_of
from toptank.shop.ask.fleet.item import COOLED_FROM
from toptank.shop.ask.fleet.road_of_fleet import road_profile
from toptank.shop.job.job_file import FORMAT, job_of
from toptank.studies.diagnose.posterior import infer_posterior, resampled
from toptank.studies.fleet.fleet_vehicle import ConditionDay, FleetVehicle, RoadDay
from toptank.system.condition_batch import in_order
from toptank.system.drive_batch import Unsure
from toptank.units.dimension import STEADY
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Mapping

    from toptank.shop.ask.fleet.item import FleetItem, FleetQuestion
    from toptank.shop.job.job import Job
    from toptank.studies.diagnose.ensemble import Ensemble

DAY = "day"
"""Name of the condition of a row, before its worst day is made of it."""

FORECAST = 1.0
"""How far a forecast of the day may be off, one standard deviation [K]; judgement."""

EASY_SPEED = 20.0
"""Speed on the flat at which a warm vehicle comes to the start of a road [m/s], as for a drive."""


class Prepared(NamedTuple):
    """A vehicle ready to be asked: its job, its draws with their day, and the possible faults where there is evidence.

    lasts : how long its day lasts from leaving on [s]
    """

    job: Job
    vehicle: FleetVehicle
    possible: Ensemble | None
    sheets: tuple[DutySheet, ...]
    lasts: float


def seed_of(identity: str, seed: int) -> int:
    """Seed of one vehicle's draws: by its name, not by its place among others."""
    return zlib.crc32(f"{seed}:{identity}".encode()) & 0x7FFFFFFF


def prepared(item: FleetItem, asked: FleetQuestion) -> Prepared:
    """Make a vehicle and its day ready.

    Raises
    ------
    Refusal : in one sentence, for the first thing that cannot be used
    """
    job = _job_of_row(item, asked) if item.kind == "row" else job_of(item.told)
    seed = seed_of(item.identity, asked.seed)
    possible = _possible(job, seed, asked.draws)
    vehicle = draws(job.sheet, asked.draws, seed) if possible is None else possible.vehicle
    sheets = tuple(_on_the_day(sheet, asked.day) for sheet in _days_of(job, item))
    if asked.route is None:
        own = [_on_the_day(sheet, asked.day) for sheet in job.duties if sheet.name not in {one.name for one in sheets}]
        drawn = draw_conditions(job.sheet, [*sheets, *own], asked.draws, seed)
        names = tuple(sheet.name for sheet in sheets)
        needed = {name: drawn[name] for name in in_order(drawn, names)}
        day: ConditionDay | RoadDay = ConditionDay(conditions=needed, asked=names)
        told = [one.facts["for"].value for one in sheets]
        lasts = min(sum(seconds for seconds in told if seconds < STEADY), 4.0 * 3600.0)
    else:
        day = _road_day(job, asked, seed)
        lasts = float(day.profile.time[-1])
    fleet_vehicle = FleetVehicle(identity=item.identity, vehicle=vehicle, limit=job.limit, day=day)
    return Prepared(job, fleet_vehicle, possible, sheets, lasts)


def _possible(job: Job, seed: int, n: int) -> Ensemble | None:
    """Possible vehicles as the evidence leaves them; None where there is none, and the sheet is all."""
    told = job.evidence
    if not (told.readings or told.findings or told.changes):
        return None
    return resampled(infer_posterior(question_of(job), seed), n, seed)


def _job_of_row(item: FleetItem, asked: FleetQuestion) -> Job:
    """A job of a row: what it tells of the vehicle, and of its hill; the rest as its typical vehicle usually does."""
    told = dict(item.told)
    if "like" not in told:
        fix = "write a name that `toptank vehicles` lists"
        raise Refusal(field="like", value="(empty)", limit="is needed", fix=fix)
    head: dict[str, Any] = {"title": str(told.pop("title", item.identity))}
    if "limit" in told:
        head["limit"] = told.pop("limit")
    units = str(told.pop("units", asked.system))
    document: dict[str, object] = {"format": FORMAT, "units": units, "job": head, "vehicle": {"like": told.pop("like")}}
    hill: dict[str, object] = {"name": DAY}
    parts: dict[str, dict[str, object]] = {}
    for key, cell in told.items():
        section, dot, field = key.partition(".")
        if dot and section in sections():
            parts.setdefault(section, {})[field] = cell
        elif key in duty_fields():
            hill[key] = cell
    job = job_of({**document, **parts, "duty": [hill]})
    usual = typical(job.sheet.like).usual.facts
    stated = {key: fact for key, fact in job.duties[0].facts.items() if key in hill}
    return dataclasses.replace(job, duties=(duty_sheet(DAY, {**_cooled(usual, job, asked), **stated}),))


def _cooled(usual: Mapping[str, Fact], job: Job, asked: FleetQuestion) -> dict[str, Fact]:
    """What a vehicle usually does, with its air conditioning on where it has one and the day is hot."""
    if job.sheet.facts["condenser.present"].value < 0.5 or asked.day < COOLED_FROM:
        return dict(usual)
    on = Fact(value=1.0, how=Provenance.ASSUMED, spread=0.0, origin="on, as on any hot day")
    return {**usual, "air_conditioning": on}


def _days_of(job: Job, item: FleetItem) -> tuple[DutySheet, ...]:
    """The worst day of a job; of a row that tells its hill, the climb is that one."""
    if item.kind == "job":
        return worst_day(job)
    sheets = usual_worst_day(job)
    if "grade" not in item.told:
        return sheets
    told = {key: job.duties[0].facts[key] for key in ("grade", "speed", "for") if key in item.told}
    climbs = {sheet.name: f"climb, {100.0 * told['grade'].value:.3g} %" for sheet in sheets if _climbs(sheet)}
    return tuple(
        dataclasses.replace(
            sheet,
            name=climbs.get(sheet.name, sheet.name),
            after=climbs.get(sheet.after, sheet.after),
            facts={**sheet.facts, **(told if sheet.name in climbs else {})},
        )
        for sheet in sheets
    )


def _climbs(sheet: DutySheet) -> bool:
    return sheet.facts["grade"].value > 0.0 and sheet.facts["speed"].value > 0.0


def _on_the_day(sheet: DutySheet, ambient: float) -> DutySheet:
    fact = Fact(value=ambient, how=Provenance.ASSUMED, spread=FORECAST, origin="the day that is asked about")
    return dataclasses.replace(sheet, facts={**sheet.facts, "ambient": fact})


def _road_day(job: Job, asked: FleetQuestion, seed: int) -> RoadDay:
    sheet = _on_the_day((*job.worst_day, *job.duties)[0], asked.day)
    if max(one.facts["speed"].value for one in (*job.worst_day, *job.duties)) < WALKING:
        fix = "leave it out, or ask without --route"
        raise Refusal(field="like", value=job.sheet.like, limit="does its work where it stands, on no road", fix=fix)
    start = duty(sheet)
    assert asked.route is not None
    profile = road_profile(asked.route, start, asked.speed, asked.system)
    moving = profile.speed[profile.speed > 0.0]
    before = dataclasses.replace(
        start, grade=0.0, speed=min(float(moving[0]), EASY_SPEED), altitude=float(profile.altitude[0]),
        engine_speed=0.0, in_gear=0.0,
    )  # fmt: skip
    day = draw_duty(sheet, asked.draws, seed)
    unsure = Unsure(
        ambient=day.ambient - sheet.facts["ambient"].value, head_wind=day.head_wind - sheet.facts["head_wind"].value
    )
    return RoadDay(road=repr(start), profile=profile, before=before, unsure=unsure)
