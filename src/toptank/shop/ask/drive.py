"""The verb of driving: how a job's vehicle, as far as it is known, would go through a drive."""

from __future__ import annotations

import dataclasses
from itertools import accumulate, pairwise
from typing import TYPE_CHECKING

import numpy as np

from toptank.knowledge.draws import draw_duty
from toptank.knowledge.draws import draws as drawn
from toptank.knowledge.forecast import Band
from toptank.shop.answers.answer import band, degC, km, rounded
from toptank.shop.answers.drive import DriveAnswer, PossibleVehicles, StretchAnswer, drive_answer
from toptank.shop.ask.choice.choose import choose, subjects_of
from toptank.shop.ask.choice.possible_vehicles import possible_vehicles
from toptank.shop.ask.diagnose import checked_seed, question_of
from toptank.shop.files.typed_figure import between
from toptank.shop.log.leg_profile import profile_of
from toptank.shop.log.legs import read_legs
from toptank.shop.log.route_file import read_limits, read_route
from toptank.shop.log.weather import Weather, read_weather
from toptank.shop.record.plan_taken import plan_of, read_plan
from toptank.studies.choose.worst_day_forecast import repaired
from toptank.studies.diagnose.posterior import infer_posterior, resampled
from toptank.studies.route.drive_forecast import drive_forecast
from toptank.system.drive_batch import Unsure
from toptank.units.cancellation import CancelCheck, never_cancelled
from toptank.units.dimension import ALTITUDE, DISTANCE
from toptank.units.nearest import did_you_mean
from toptank.units.quantity import parse_choice
from toptank.units.refusal import Refusal
from toptank.units.sentence import Quantity, Text, sentence

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from toptank.knowledge.sheet import DutySheet
    from toptank.shop.answers.answers import Chosen
    from toptank.shop.job.job import Job
    from toptank.studies.route.drive_forecast import DriveForecast
    from toptank.system.duty import Duty
    from toptank.system.profile import Profile
    from toptank.system.vehicle import Vehicle
    from toptank.units.conversion import System

DRAWS = 256
PIECES, STOP = 6, 60.0
"""Pieces that a route is told in, and time at its end from which standing there is told by itself [s]."""

FEWEST, MOST = 50, 10_000
OFF_ON = ("off", "on")
WITH_EVIDENCE = "sheet and evidence"
ASKS_LESS = "load"
"""Group of the remedies that mend nothing and ask less of the vehicle."""

EASY_SPEED = 20.0
"""Speed on the flat at which a warm vehicle comes to the start of a drive, if that is not slower anyway [m/s]."""


def drive(
    job: Job,
    *,
    legs: str | None = None,
    route: Path | None = None,
    speed: str | None = None,
    ambient: str | None = None,
    altitude: str | None = None,
    air_conditioning: str | None = None,
    duty: str | None = None,
    plan: str | None = None,
    chosen: Chosen | None = None,
    cold: bool = False,
    seed: int | None = None,
    draws: int | None = None,
    system: System | None = None,
    go_on: CancelCheck = never_cancelled,
) -> DriveAnswer:
    """Forecast a drive: the band of the gauge along it, chance of boiling, and what would ease it.

    Parameters
    ----------
    job : the job
    legs, route : the drive, typed or as a GPX file; one of the two
    speed : how fast a route is driven; left out: as its time stamps say
    ambient, altitude : weather and height of the start, as people write them; left out: those of the duty
    air_conditioning : on or off at the start; left out: as at the duty
    duty : duty of the job from which comes what the drive does not say: load, humidity, air conditioning
    plan : drive the vehicle as the work of this plan would leave it; left out: as it is now
    chosen : the choice of remedies, where it is there already
    cold : it stood overnight; otherwise it comes to the start warm, from a level road
    seed, draws : of the possible vehicles
    system : unit system of bare numbers; left out: that of the job
    go_on : is called between the steps, and may stop the work
    """
    seed, draws = checked_seed(seed), _checked_draws(draws)
    _check_asked(legs, route, plan)
    notes: list[str] = []
    system = system or job.system
    sheet = _chosen_duty(job, duty)
    weather = _weather(sheet, ambient, system, notes)
    at_start = _start_of(sheet, weather, altitude, air_conditioning, system, notes)
    said: tuple[str, ...] = ()
    if route is not None:
        profile, said = _routed(route, at_start, weather, speed, system, notes)
        names, ends = _pieces(profile)
    else:
        read = read_legs(legs or "", system, notes)
        profile = profile_of(read, duty=at_start, ambient=weather.along)
        ends = list(accumulate(leg.seconds for leg in read))
        names = [leg.text for leg in read]
    vehicles = _vehicles(job, plan, chosen, draws, seed, go_on)
    answer = drive_forecast(
        vehicles.vehicle,
        profile,
        limit=job.limit,
        before=None if cold else _before(profile, at_start),
        unsure=_unsure(sheet, draws, seed),
        go_on=go_on,
    )
    return drive_answer(
        job,
        answer,
        _stretches(answer, names, ends),
        duty=sheet.name,
        cold=cold,
        vehicles=vehicles,
        remarks=(*said, *weather.said(float(profile.time[-1]))),
        assumed_units=notes,
        seed=seed,
    )


def _check_asked(legs: str | None, route: Path | None, plan: str | None) -> None:
    if (legs is None) == (route is None):
        fix = 'write --legs "8 miles up 6 % at 45 mph, then idle 10 min"'
        raise Refusal(field="legs", value="(missing)", limit="or --route must say what is driven", fix=fix)
    read_plan(plan)


def _checked_draws(draws: int | None) -> int:
    draws = DRAWS if draws is None else draws
    if not FEWEST <= draws <= MOST:
        limit = f"must lie between {FEWEST} and {MOST:,}"
        raise Refusal(field="draws", value=str(draws), limit=limit, fix=f"{DRAWS:,} is usual")
    return draws


def _stretches(answer: DriveForecast, names: Sequence[Text], ends: Sequence[float]) -> tuple[StretchAnswer, ...]:
    """What each stretch comes to, from its name and the time at its end [s]."""
    found: list[StretchAnswer] = []
    for name, begin, end in zip(names, [0.0, *ends], ends, strict=False):
        inside = (answer.time >= begin - 1e-6) & (answer.time <= end + 1e-6)
        if not inside.any():  # shorter than from one point to the next
            inside = answer.time == answer.time[abs(answer.time - end).argmin()]
        at = int(answer.gauge_p50.argmax() if inside.all() else (answer.gauge_p50 * inside).argmax())
        last = int(min(round(end / answer.profile.step), len(answer.profile.time) - 1))
        found.append(
            StretchAnswer(
                name=name,
                until_minutes=round(end / 60.0, 2),
                until_km=km(answer.profile.distance[last]),
                altitude_m=rounded(answer.profile.altitude[last]),
                gauge_at_its_hottest_degC=band(
                    Band(*(line[at] for line in (answer.gauge_p10, answer.gauge_p50, answer.gauge_p90))), degC
                ),
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


def _weather(sheet: DutySheet, ambient: str | None, system: System, notes: list[str]) -> Weather:
    """The air outside along the drive: as given, or that of the duty all the way."""
    if ambient is None:
        return Weather(at=(0.0,), ambient=(sheet.facts["ambient"].value,), timed=False)
    weather = read_weather(ambient, system=system)
    notes += weather.notes
    return weather


def _routed(
    path: Path, start: Duty, weather: Weather, speed: str | None, system: System, notes: list[str]
) -> tuple[Profile, tuple[str, ...]]:
    """Profile of a GPX file, and what was done to get it."""
    limits = read_limits(speed, system=system, notes=notes) if speed else ()
    route = read_route(path, duty=start, weather=weather, limits=limits)
    return route.profile, route.remarks


def _pieces(profile: Profile) -> tuple[list[Text], list[float]]:
    """Pieces of a route of one length, and the times at their ends; what stands at the end is a piece of its own."""
    time, distance = np.asarray(profile.time, float), np.asarray(profile.distance, float)
    whole = float(distance[-1])
    marks = [whole * i / PIECES for i in range(PIECES + 1)]
    names: list[Text] = [
        sentence("{begin} to {end}", {"begin": Quantity(a, DISTANCE, 1), "end": Quantity(b, DISTANCE, 1)})
        for a, b in pairwise(marks)
    ]
    ends = [float(time[np.argmax(distance >= mark - 1.0)]) for mark in marks[1:]]
    if float(time[-1]) - ends[-1] > STOP:
        return [*names, "stop at the end"], [*ends, float(time[-1])]
    return names, [*ends[:-1], float(time[-1])]


def _start_of(
    sheet: DutySheet,
    weather: Weather,
    altitude: str | None,
    air_conditioning: str | None,
    system: System,
    notes: list[str],
) -> Duty:
    """What the drive does not say, with weather, height of the start and air conditioning where they are given."""
    from toptank.knowledge.sheet import duty

    start = dataclasses.replace(duty(sheet), ambient=weather.ambient[0])
    if altitude is not None:
        start = dataclasses.replace(
            start, altitude=between("altitude", altitude, ALTITUDE, -450.0, 5400.0, system, notes)
        )
    if air_conditioning is not None:
        start = dataclasses.replace(start, air_conditioning=parse_choice(air_conditioning, OFF_ON, "air conditioning"))
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


def _vehicles(
    job: Job, plan: str | None, chosen: Chosen | None, draws: int, seed: int, go_on: CancelCheck
) -> PossibleVehicles:
    """Possible vehicles as they are or after a plan."""
    if plan is None:
        vehicle, known_by = _possible(job, draws, seed, go_on)
        return PossibleVehicles(vehicle, draws, known_by, ())
    vehicle, done = _repaired(job, plan, chosen, draws, seed, go_on)
    return PossibleVehicles(vehicle, draws, WITH_EVIDENCE, done)


def _possible(job: Job, draws: int, seed: int, go_on: CancelCheck) -> tuple[Vehicle, str]:
    """Possible vehicles: as the evidence leaves them with their causes, or without evidence as the sheet has them."""
    told = job.evidence
    if told.readings or told.findings or told.changes:
        return resampled(infer_posterior(question_of(job), seed, go_on), draws, seed).vehicle, WITH_EVIDENCE
    return drawn(job.sheet, draws, seed), "sheet"


def _repaired(
    job: Job, plan: str, chosen: Chosen | None, draws: int, seed: int, go_on: CancelCheck
) -> tuple[Vehicle, tuple[str, ...]]:
    """Possible vehicles as the work of a plan would leave them, and that work.

    What a plan asks less of the vehicle is no work: it is said of the drive, as legs or air conditioning.
    """
    chosen = chosen or choose(job, seed=seed, go_on=go_on)
    work = [remedy for remedy in plan_of(chosen, plan).remedies if remedy.group != ASKS_LESS]
    subjects = subjects_of(job, possible_vehicles(job, chosen.weighed, draws, seed), draws, seed)
    return repaired(subjects, work), tuple(remedy.id for remedy in work)


def _unsure(sheet: DutySheet, draws: int, seed: int) -> Unsure:
    """What the day of each draw differs by."""
    day = draw_duty(sheet, draws, seed)
    facts = sheet.facts
    return Unsure(ambient=day.ambient - facts["ambient"].value, head_wind=day.head_wind - facts["head_wind"].value)
