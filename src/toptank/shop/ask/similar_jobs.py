"""What closed jobs like one turned out to be: the shop's own experience, beside the chances and never in them.

A closed job is like another (judgement, no source) where it is of the same kind of vehicle, which the typical vehicle
says that both are like; or where it ran hot in the same manner: hot at the same of standing, moving and climbing, and
at none of the others. Both count more than one; of equals the newest come first. An invented job is like invented ones
alone.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple

from toptank.shop.answers.similar import CauseOfSimilar, SimilarAnswer, SimilarJob
from toptank.shop.ask.choice.worst_day import ran_hot
from toptank.shop.job.job import Job
from toptank.shop.record import job_verbs
from toptank.units.refusal import Refusal

MOST, LOOKED_AT = 12, 200
"""Jobs that are told of, the most alike first; newest closed jobs that are looked at."""

CLIMB, STANDS = 0.02, 1.0
"""From this grade [1] a road is a climb; up to this speed [m/s] a vehicle stands: judgement."""


class Turned(NamedTuple):
    """What a closed job says of itself."""

    vehicle: str
    manner: frozenset[str]
    causes: tuple[str, ...]
    invented: bool


def similar(number: int) -> SimilarAnswer:
    """Return the closed jobs that are like one, and what they were.

    Raises
    ------
    Refusal : if there is no such job
    """
    return similar_to(number, job_verbs.stored_job(number))


def similar_to(number: int, job: Job) -> SimilarAnswer:
    """Return the same for a job that was read already."""
    here = _turned(job)
    found: list[tuple[int, int, SimilarJob]] = []
    for shown in job_verbs.newest_closed(LOOKED_AT):
        there = _closed(shown.text)
        if shown.job == number or there is None or there.invented != here.invented:
            continue
        same_vehicle = bool(here.vehicle) and here.vehicle == there.vehicle
        same_manner = bool(here.manner) and here.manner == there.manner
        if same_vehicle or same_manner:
            told = SimilarJob(
                number=shown.job, title=shown.title, closed=shown.at, causes=there.causes,
                same_vehicle=same_vehicle, same_manner=same_manner,
            )  # fmt: skip
            found.append((same_vehicle + same_manner, shown.job, told))
    found.sort(key=lambda one: one[:2], reverse=True)
    jobs = tuple(told for _, _, told in found[:MOST])
    return SimilarAnswer(number=number, jobs=jobs, causes=_counted(jobs))


def _counted(jobs: Iterable[SimilarJob]) -> tuple[CauseOfSimilar, ...]:
    by_cause: dict[str, list[int]] = {}
    for job in jobs:
        for cause in dict.fromkeys(job.causes):
            by_cause.setdefault(cause, []).append(job.number)
    counted = [CauseOfSimilar(cause=cause, jobs=tuple(numbers)) for cause, numbers in by_cause.items()]
    return tuple(sorted(counted, key=lambda one: -len(one.jobs)))


@lru_cache(maxsize=2 * LOOKED_AT)
def _closed(text: str) -> Turned | None:
    """What the text of a closed job says; None where today's program cannot read it any more."""
    try:
        return _turned(job_verbs.job_of_text(text))
    except Refusal:
        return None


def _turned(job: Job) -> Turned:
    return Turned(
        vehicle=job.sheet.like,
        manner=_manner(job),
        causes=() if job.confirmed is None else tuple(job.confirmed.causes),
        invented=job.invented,
    )


def _manner(job: Job) -> frozenset[str]:
    """Where it ran hot: standing, moving, climbing."""
    places = {duty.name: _place(duty.facts["speed"].value, duty.facts["grade"].value) for duty in job.duties}
    return frozenset(places[name] for name in ran_hot(job))


def _place(speed: float, grade: float) -> str:
    if speed <= STANDS:
        return "standing"
    return "climbing" if grade >= CLIMB else "moving"
