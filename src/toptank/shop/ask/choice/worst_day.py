"""The customer's worst day: as told, or what he complained of on a hot day.

A repair is judged on what the customer came for: who boils in the queue is not judged on a pass that nobody named.
"""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING

from toptank.knowledge.sheet import Fact, Provenance, duty_sheet
from toptank.units.dimension import STEADY, TEMPERATURE
from toptank.units.sentence import Quantity, joined, sentence

if TYPE_CHECKING:
    from collections.abc import Sequence

    from toptank.knowledge.sheet import DutySheet
    from toptank.shop.job.job import Job
    from toptank.studies.diagnose.evidence import Reading
    from toptank.units.sentence import Text

WALKING = 2.5
"""Road speed below which a vehicle works where it stands [m/s]."""

LONG_CLIMB, LONG_STOP = 1500.0, 900.0
"""How long the climb of a usual worst day lasts, and the stop at its top [s]; judgement."""

HOT_DAY = 305.37
"""Ambient that the worst day has at least: 90 degF, the summer's day for which sound vehicles are known [K]; common
practice, no source."""

HOTTEST_USUAL = 310.93
"""Ambient of the usual worst day of a fleet of which no complaint is known: 100 degF [K]."""

HOT = 2
WARM = 8.0
"""How far below the customer's limit a figure still counts as running warm [K]; judgement."""

OFFERED = "worst day that is offered"
"""Origin of what nobody said of it."""


def worst_day(job: Job) -> tuple[DutySheet, ...]:
    """The customer's worst-day duties, or the conditions in which it ran hot, on a hot day."""
    return job.worst_day or complained_of(job)


def complained_of(job: Job) -> tuple[DutySheet, ...]:
    """The conditions of the complaint in which it ran hottest, on a hot day.

    Road, traffic, load and air conditioning are as told, and so is what came before. It is as hot as it was told to be
    anywhere in the complaint, and at least `HOT_DAY`. Where no condition was hot all of them count.
    """
    days, ambient = _hottest(job), _ambient(job)
    names = _names(days, ambient, taken={duty.name for duty in job.duties})
    return tuple(_on_hot_day(duty, ambient, names) for duty in days)


def told_as(job: Job) -> dict[str, str]:
    """The conditions of the worst day that are those of the complaint but for the weather, and their names there."""
    return {day.name: told.name for day in worst_day(job) for told in job.duties if _alike(day, told)}


def _alike(one: DutySheet, other: DutySheet) -> bool:
    return all(fact.value == other.facts[key].value for key, fact in one.facts.items() if key != "ambient")


def _hottest(job: Job) -> list[DutySheet]:
    """The conditions of the complaint in which it ran hottest; all of them where none was hot."""
    heat = {
        duty.name: max((_heat(one, job.limit) for one in _readings(job, duty.name)), default=0) for duty in job.duties
    }
    hottest = max(heat.values())
    return [duty for duty in job.duties if hottest == 0 or heat[duty.name] == hottest]


def _ambient(job: Job) -> float:
    return max(HOT_DAY, *(duty.facts["ambient"].value for duty in job.duties))


def ran_hot(job: Job) -> tuple[str, ...]:
    """The conditions of which a reading says that it ran hot."""
    return tuple(
        duty.name for duty in job.duties if any(_heat(one, job.limit) == HOT for one in _readings(job, duty.name))
    )


def worst_day_says(job: Job) -> Text:
    """Say in one sentence which day plans are judged by, and how to change it."""
    days = worst_day(job)
    told = {
        "names": joined([repr(duty.name) for duty in days]),
        "ambient": Quantity(max(duty.facts["ambient"].value for duty in days), TEMPERATURE),
    }
    if job.worst_day:
        return sentence("Plans are judged by the worst day that the customer named: {names}, up to {ambient}.", told)
    return sentence(
        "Plans are judged by what the customer complained of, {names}, at {ambient} outside. Is it used for more, "
        "such as a pass or a trailer? Name it as the worst day.",
        told,
    )


def usual_worst_day(job: Job) -> tuple[DutySheet, ...]:
    """Climb, flat and hot idle after the climb at 100 degF, at the job's greatest height: for who complains of nothing.

    The climb is at least 5 %, and as steep, loaded and windy as the hardest of the job's own duties. No faster than a
    little beyond what those are driven at; of what never moves, its own duties.
    """
    height = max(duty.facts["altitude"].value for duty in job.duties)
    quickest = max(duty.facts["speed"].value for duty in job.duties)
    cooled = max(duty.facts["air_conditioning"].value for duty in job.duties)

    steepest = max(0.05, max(duty.facts["grade"].value for duty in job.duties))
    burden = {
        key: (max(duty.facts[key].value for duty in job.duties), 0.0)
        for key in ("trailer_mass", "trailer_drag_area", "head_wind")
    }

    def made(name: str, speed: float, grade: float, lasts: float, after: str = "") -> DutySheet:
        values = burden | {
            "ambient": (max(HOTTEST_USUAL, max(duty.facts["ambient"].value for duty in job.duties)), 1.0),
            "altitude": (height, 30.0),
            "speed": (speed, 0.0),
            "grade": (grade, 0.0),
            "air_conditioning": (cooled, 0.0),
            "for": (lasts, 0.0),
        }
        facts = {
            key: Fact(value=value, how=Provenance.ASSUMED, spread=spread, origin=OFFERED)
            for key, (value, spread) in values.items()
        }
        return duty_sheet(name, facts, after)

    if quickest < WALKING:
        return complained_of(job)
    climb = f"long climb, {100 * steepest:.0f} %"
    return (
        made(climb, min(20.1, quickest), steepest, LONG_CLIMB),
        made("flat road, fast", min(29.1, 1.15 * quickest), 0.0, STEADY),
        made("hot idle after the climb", 0.0, 0.0, LONG_STOP, climb),
    )


def _heat(reading: Reading, limit: float) -> int:
    """How hot it ran: `HOT`, 1 warm, 0 neither."""
    figure = reading.figure or reading.low or 0.0
    if reading.words in ("hot", "boiled") or reading.needle == "red" or figure >= limit:
        return HOT
    return int(reading.words == "warm" or reading.needle == "three quarters" or figure >= limit - WARM)


def _readings(job: Job, duty: str) -> list[Reading]:
    return [one for one in job.evidence.readings if one.duty == duty and one.place != "transmission"]


def _names(days: Sequence[DutySheet], ambient: float, taken: set[str]) -> dict[str, str]:
    """What conditions are called on the hot day; each by a name that no other has."""
    names: dict[str, str] = {}
    for duty in days:
        name = duty.name if duty.facts["ambient"].value >= ambient else f"{duty.name} on a hot day"
        plain, number = name, 2
        while name in names.values() or (name != duty.name and name in taken):
            name, number = f"{plain} {number}", number + 1
        names[duty.name] = name
    return names


def _on_hot_day(duty: DutySheet, ambient: float, names: dict[str, str]) -> DutySheet:
    """The same condition on the hot day; what was told to be as hot stays as it is."""
    after = names.get(duty.after, duty.after)
    told = duty.facts["ambient"]
    if told.value >= ambient:
        return dataclasses.replace(duty, after=after)
    hot = Fact(value=ambient, how=Provenance.ASSUMED, spread=1.0, origin=OFFERED)
    return dataclasses.replace(duty, name=names[duty.name], after=after, facts={**duty.facts, "ambient": hot})
