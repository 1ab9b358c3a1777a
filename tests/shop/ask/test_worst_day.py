"""The day that plans are judged by: what was complained of, on a hot day; for a fleet a usual one."""

import dataclasses

import pytest

from toptank.shop.ask import service
from toptank.shop.ask.choice.worst_day import complained_of, usual_worst_day, worst_day
from toptank.shop.job.job import Job

F_90, F_100 = (90.0 + 459.67) / 1.8, (100.0 + 459.67) / 1.8


@pytest.fixture(scope="module")
def job() -> Job:
    return service.demo_job()


def _at(job: Job, ambient: float) -> Job:
    """The job with one weather in all of its conditions [K]."""
    duties = tuple(
        dataclasses.replace(
            duty,
            facts={**duty.facts, "ambient": dataclasses.replace(duty.facts["ambient"], value=ambient)},
        )
        for duty in job.duties
    )
    return dataclasses.replace(job, duties=duties)


def test_the_road_is_as_told_and_the_day_is_a_hot_one(job: Job) -> None:
    """Told at 70 degF: the day is one of 90; load, grade, speed and air conditioning are what they were."""
    mild = _at(job, 294.26)
    days = worst_day(mild)
    assert days
    for day in days:
        told = next(duty for duty in mild.duties if day.name.startswith(duty.name))
        assert day.facts["ambient"].value == pytest.approx(F_90, abs=0.01)
        for fact in ("speed", "grade", "air_conditioning", "trailer_mass"):
            assert day.facts[fact].value == told.facts[fact].value


def test_what_was_told_to_be_hotter_stays_as_told(job: Job) -> None:
    days = worst_day(_at(job, 314.0))
    assert [day.facts["ambient"].value for day in days] == [314.0] * len(days)


def test_a_day_that_is_named_is_the_day(job: Job) -> None:
    named = usual_worst_day(job)
    assert worst_day(dataclasses.replace(job, worst_day=named)) == named


def test_no_two_conditions_of_a_day_have_one_name(job: Job) -> None:
    """A condition that is called as another would be on the hot day: names are what everything after goes by."""
    mild = _at(job, 294.26)
    one, *others = complained_of(mild)
    like = next(duty for duty in mild.duties if one.name.startswith(duty.name))
    reading = next(each for each in mild.evidence.readings if each.duty == like.name)
    twin = dataclasses.replace(like, name=one.name)
    evidence = dataclasses.replace(
        mild.evidence, readings=(*mild.evidence.readings, dataclasses.replace(reading, duty=twin.name))
    )
    names = [day.name for day in worst_day(dataclasses.replace(mild, duties=(*mild.duties, twin), evidence=evidence))]
    assert len(names) == len(others) + 2
    assert len(set(names)) == len(names)


def test_a_usual_day_is_one_of_100_degrees_with_a_climb_a_flat_and_a_stop(job: Job) -> None:
    days = usual_worst_day(job)
    assert [day.facts["ambient"].value for day in days] == pytest.approx([F_100] * 3, abs=0.01)
    assert max(day.facts["grade"].value for day in days) >= 0.05
    assert min(day.facts["speed"].value for day in days) == 0.0
