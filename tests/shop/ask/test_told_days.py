"""The worst day is the customer's own queue: as long and as loaded as each simulated vehicle met it."""

import dataclasses

import numpy as np
import pytest

from toptank.knowledge.conditions import draw_conditions
from toptank.knowledge.sheet import DutySheet, Fact
from toptank.shop.ask import service
from toptank.shop.ask.choice.told_days import as_told
from toptank.shop.ask.choice.worst_day import told_as, worst_day
from toptank.shop.job.job import Job
from toptank.studies.diagnose.ensemble import drawn_vehicles, unsettled

N, SEED = 32, 5


@pytest.fixture(scope="module")
def job() -> Job:
    return service.demo_job()


def test_a_day_that_is_the_complaint_but_for_the_weather_is_known_by_its_name(job: Job) -> None:
    named = {day.name for day in worst_day(job)}
    assert set(told_as(job)) == named
    assert set(told_as(job).values()) <= {duty.name for duty in job.duties}
    assert told_as(dataclasses.replace(job, worst_day=worst_day(job))) == told_as(job), "named or not"


def test_each_vehicle_stays_in_its_queue_as_long_as_it_did(job: Job) -> None:
    """Only the weather of a hotter day is drawn anew; what the customer did not tell is drawn without him."""
    told = draw_conditions(job.sheet, job.duties, N, SEED)
    days = worst_day(job)
    other = dataclasses.replace(days[0], name="another", facts={**days[0].facts, "grade": _steeper(days[0])})
    drawn = draw_conditions(job.sheet, [*days, other], N, SEED + 1)
    severity = np.zeros((N, 1))
    vehicles = drawn_vehicles(job.sheet, N, SEED)
    met = as_told(job, unsettled(vehicles, vehicles, severity, told), drawn)
    for day, name in told_as(job).items():
        assert np.array_equal(met[day].timing.duration, told[name].timing.duration)
        assert np.array_equal(met[day].duty.speed, told[name].duty.speed)
        assert met[day].after == drawn[day].after
        weather = told if day == name else drawn
        assert np.array_equal(met[day].duty.ambient, weather[day].duty.ambient)
    assert met["another"] == drawn["another"]


def _steeper(day: DutySheet) -> Fact:
    return dataclasses.replace(day.facts["grade"], value=day.facts["grade"].value + 0.02)
