"""The verb of driving: how a job's vehicle, as far as it is known, would go through a drive."""

from __future__ import annotations

import dataclasses
from itertools import accumulate
from typing import TYPE_CHECKING

from toptank.jobs.diagnose_verbs import checked_seed, question_of
from toptank.units.dimension import ALTITUDE, TEMPERATURE
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from toptank.jobs.answers import Driven, Stretch
    from toptank.jobs.job import Job
    from toptank.knowledge.sheet import DutySheet
    from toptank.studies.route.outlook import RouteOutlook
    from toptank.system.drives import Unsure
    from toptank.system.duty import Duty
    from toptank.system.profile import Profile
    from toptank.system.vehicle import Vehicle
    from toptank.units.conversion import System

DRAWS = 256
FEWEST, MOST = 50, 10_000
EASY_SPEED = 20.0
"""Speed on the flat at which a warm vehicle comes to the start of a drive, if that is not slower anyway [m/s]."""


def drive(
    job: Job,
    *,
    legs: str | None = None,
    route: Path | None = None,
    ambient: str | None = None,
    altitude: str | None = None,
    duty: str | None = None,
    cold: bool = False,
    seed: int | None = None,
    draws: int | None = None,
    system: System | None = None,
) -> Driven:
    """Forecast a drive: the band of the gauge along it, chance of boiling, and what would ease it.

    Parameters
    ----------
    job : the job
    legs, route : the drive, typed or as a GPX file; one of the two
    ambient, altitude : weather and height of the start, as people write them; left out: those of the duty
    duty : duty of the job from which comes what the drive does not say: load, humidity, air conditioning
    cold : it stood overnight; otherwise it comes to the start warm, from a level road
    seed, draws : of the possible vehicles
    system : unit system of bare numbers; left out: that of the job
    """
    from toptank.jobs.answers import Driven
    from toptank.jobs.leg_profile import profile_of
    from toptank.jobs.legs import read_legs
    from toptank.studies.route.outlook import outlook

    seed, draws = checked_seed(seed), DRAWS if draws is None else draws
    if not FEWEST <= draws <= MOST:
        limit = f"must lie between {FEWEST} and {MOST:,}"
        raise Refusal(field="draws", value=str(draws), limit=limit, fix=f"{DRAWS:,} is usual")
    if (legs is None) == (route is None):
        fix = 'write --legs "8 miles up 6 % at 45 mph, then idle 10 min"'
        raise Refusal(field="legs", value="(missing)", limit="or --route must say what is driven", fix=fix)
    notes: list[str] = []
    system = system or job.system
    sheet = _chosen_duty(job, duty)
    at_start = _start_of(sheet, ambient, altitude, system, notes)
    if legs is not None:
        read = read_legs(legs, system, notes)
        profile = profile_of(read, duty=at_start, ambient=lambda time: 0.0 * time + float(at_start.ambient))
        ends = list(accumulate(leg.seconds for leg in read))
        names = [leg.text for leg in read]
    else:
        raise Refusal(field="route", value=str(route), limit="cannot be read yet", fix="type it as --legs")
    vehicles, known_by = _possible(job, draws, seed)
    answer = outlook(
        vehicles,
        profile,
        limit=job.limit,
        before=None if cold else _before(profile, at_start),
        unsure=_unsure(sheet, draws, seed),
    )
    return Driven(
        job=job,
        stretches=_stretches(answer, names, ends),
        duty=sheet.name,
        cold=cold,
        known_by=known_by,
        outlook=answer,
        remarks=job.remarks,
        assumed_units=(*job.assumed_units, *notes),
        draws=draws,
        seed=seed,
    )


def _stretches(answer: RouteOutlook, names: Sequence[str], ends: Sequence[float]) -> tuple[Stretch, ...]:
    """What each stretch comes to, from its name and the time at its end [s]."""
    from toptank.jobs.answers import Stretch
    from toptank.studies.route.outlook import Band

    found: list[Stretch] = []
    for name, begin, end in zip(names, [0.0, *ends], ends, strict=False):
        inside = (answer.time >= begin - 1e-6) & (answer.time <= end + 1e-6)
        if not inside.any():  # shorter than from one point to the next
            inside = answer.time == answer.time[abs(answer.time - end).argmin()]
        at = int(answer.gauge_p50.argmax() if inside.all() else (answer.gauge_p50 * inside).argmax())
        last = int(min(round(end / answer.profile.step), len(answer.profile.time) - 1))
        found.append(
            Stretch(
                name=name,
                minutes=end / 60.0,
                distance=float(answer.profile.distance[last]),
                altitude=float(answer.profile.altitude[last]),
                hottest=Band(float(answer.gauge_p10[at]), float(answer.gauge_p50[at]), float(answer.gauge_p90[at])),
            )
        )
    return tuple(found)


def _chosen_duty(job: Job, name: str | None) -> DutySheet:
    """The duty of the job that stands behind the drive: the one named, or its first on the worst day, or its first."""
    known = (*job.worst_day, *job.duties)
    if name is None:
        return known[0]
    for sheet in known:
        if sheet.name.casefold() == name.strip().casefold():
            return sheet
    names = [sheet.name for sheet in known]
    fix = did_you_mean(name, names, f"it has {', '.join(names)}")
    raise Refusal(field="duty", value=name, limit="is not a duty of this job", fix=fix)


def _start_of(sheet: DutySheet, ambient: str | None, altitude: str | None, system: System, notes: list[str]) -> Duty:
    """What the drive does not say, with weather and height of the start where they are given."""
    from toptank.jobs.typed_figure import between
    from toptank.knowledge.sheet import duty

    start = duty(sheet)
    if ambient is not None:
        value = between("ambient", ambient, TEMPERATURE, 233.15, 333.15, system, notes)
        start = dataclasses.replace(start, ambient=value)
    if altitude is not None:
        start = dataclasses.replace(
            start, altitude=between("altitude", altitude, ALTITUDE, -450.0, 5400.0, system, notes)
        )
    return start


def _before(profile: Profile, start: Duty) -> Duty:
    """The duty from which a warm vehicle comes: level, at the first speed that is driven, easy at the most."""
    moving = profile.speed[profile.speed > 0.0]
    speed = min(float(moving[0]), EASY_SPEED) if len(moving) else 0.0
    speed = speed if float(profile.speed[0]) > 0.0 else 0.0
    return dataclasses.replace(
        start,
        speed=speed,
        grade=0.0,
        ambient=float(profile.ambient[0]),
        air_conditioning=float(profile.air_conditioning[0]),
        engine_speed=0.0,
        in_gear=0.0,
    )


def _possible(job: Job, draws: int, seed: int) -> tuple[Vehicle, str]:
    """Possible vehicles: as the evidence leaves them with their causes, or without evidence as the sheet has them."""
    from toptank.knowledge.draws import draws as drawn
    from toptank.studies.diagnose.posterior import resampled, weigh

    told = job.evidence
    if told.readings or told.findings or told.changes:
        return resampled(weigh(question_of(job), seed), draws, seed).vehicle, "sheet and evidence"
    return drawn(job.sheet, draws, seed), "sheet"


def _unsure(sheet: DutySheet, draws: int, seed: int) -> Unsure:
    """What the day of each draw differs by."""
    from toptank.knowledge.draws import draw_duty
    from toptank.system.drives import Unsure

    day = draw_duty(sheet, draws, seed)
    facts = sheet.facts
    return Unsure(ambient=day.ambient - facts["ambient"].value, head_wind=day.head_wind - facts["head_wind"].value)
