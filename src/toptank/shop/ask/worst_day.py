"""The customer's worst day: as told, or the one that is offered."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING

from toptank.knowledge.sheet import Fact, Provenance, duty_sheet
from toptank.units.dimension import STEADY

if TYPE_CHECKING:
    from toptank.knowledge.sheet import DutySheet
    from toptank.shop.job.job import Job

WALKING = 2.5
"""Road speed below which a vehicle works where it stands [m/s]."""

LONG_CLIMB, LONG_STOP = 1500.0, 900.0
"""How long the climb of an offered worst day lasts, and the stop at its top [s]; judgement."""

HOT_DAY = 311.0
"""Ambient of the worst day where the customer names none: 100 degF [K]."""


def worst_day(job: Job) -> tuple[DutySheet, ...]:
    """The customer's worst-day duties, or the set that is offered: climb, flat and hot idle at 100 degF."""
    return job.worst_day or offered_worst_day(job)


def offered_worst_day(job: Job) -> tuple[DutySheet, ...]:
    """A long climb, the flat and hot idle after the climb at 100 degF, at the job's greatest height.

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
            "ambient": (max(HOT_DAY, max(duty.facts["ambient"].value for duty in job.duties)), 1.0),
            "altitude": (height, 30.0),
            "speed": (speed, 0.0),
            "grade": (grade, 0.0),
            "air_conditioning": (cooled, 0.0),
            "for": (lasts, 0.0),
        }
        facts = {
            key: Fact(value=value, how=Provenance.ASSUMED, spread=spread, origin="worst day that is offered")
            for key, (value, spread) in values.items()
        }
        return duty_sheet(name, facts, after)

    if quickest < WALKING:
        return tuple(_hot(duty, f"{duty.name}, hot day") for duty in job.duties)
    climb = f"long climb, {100 * steepest:.0f} %"
    return (
        made(climb, min(20.1, quickest), steepest, LONG_CLIMB),
        made("flat road, fast", min(29.1, 1.15 * quickest), 0.0, STEADY),
        made("hot idle after the climb", 0.0, 0.0, LONG_STOP, climb),
    )


def _hot(duty: DutySheet, name: str) -> DutySheet:
    """The same duty on the hot day."""
    ambient = duty.facts["ambient"]
    hotter = dataclasses.replace(ambient, value=max(ambient.value, HOT_DAY))
    return dataclasses.replace(duty, name=name, facts={**duty.facts, "ambient": hotter})
