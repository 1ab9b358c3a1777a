"""One chance for one repair: however the day is named, on the order, after the road test, and in words."""

import dataclasses

import numpy as np
import pytest

from toptank.knowledge.sheet import DutySheet
from toptank.shop.answers import naming
from toptank.shop.answers.answers import Chosen, Diagnosed
from toptank.shop.answers.choice import choice_answer
from toptank.shop.answers.summaries.choice_summary import choice_summary
from toptank.shop.answers.wording import not_cured_words
from toptank.shop.ask import diagnose, service
from toptank.shop.ask.choose import choose
from toptank.shop.ask.verify import repair_of, simulated
from toptank.shop.ask.worst_day import ran_hot, told_hot, worst_day
from toptank.shop.job.job import Job
from toptank.shop.order.writing import order
from toptank.studies.verify.verdict import verdict
from toptank.units.sentence import said

DRAWS, SEED = 200, 3


@pytest.fixture(scope="module")
def job() -> Job:
    return service.demo_job()


@pytest.fixture(scope="module")
def diagnosed(job: Job) -> Diagnosed:
    return diagnose.diagnose(job, seed=SEED)


@pytest.fixture(scope="module")
def chosen(job: Job, diagnosed: Diagnosed) -> Chosen:
    return choose(job, seed=SEED, draws=DRAWS, diagnosed=diagnosed)


def _changed(day: DutySheet, **by: float) -> DutySheet:
    facts = {key: dataclasses.replace(day.facts[key], value=day.facts[key].value + more) for key, more in by.items()}
    return dataclasses.replace(day, name="named", facts={**day.facts, **facts})


def test_to_name_the_day_that_is_taken_anyway_moves_no_chance(job: Job, diagnosed: Diagnosed, chosen: Chosen) -> None:
    named = dataclasses.replace(job, worst_day=worst_day(job))
    again = choose(named, seed=SEED, draws=DRAWS, diagnosed=diagnosed)
    assert chosen.untold > 0.05, "else this test tells nothing"
    assert [one.ids for one in again.outlooks] == [one.ids for one in chosen.outlooks]
    assert [one.holds for one in again.outlooks] == [one.holds for one in chosen.outlooks]


@pytest.mark.parametrize(
    ("by", "counts"),
    [
        ({"grade": 0.01}, True),  # steeper, hotter: it would have run hot there all the more
        ({"ambient": 5.0}, True),
        ({"ambient": 0.3}, True),
        ({"ambient": -0.3}, True),  # what a figure loses in whole degrees Fahrenheit
        ({"grade": -0.02}, False),  # easier: nobody said that it runs hot there
        ({"ambient": -5.0}, False),
        ({"air_conditioning": -1.0}, False),
        ({"speed": 8.0}, False),  # driven otherwise: nobody said how hot it runs then
    ],
)
def test_it_was_told_to_run_hot_where_the_day_is_no_easier(job: Job, by: dict[str, float], counts: bool) -> None:
    hot = "ridge climb"
    assert hot in ran_hot(job)
    told = next(duty for duty in job.duties if duty.name == hot)
    named = dataclasses.replace(job, worst_day=(_changed(told, **by),))
    assert told_hot(named) == (("named",) if counts else ())


def test_the_road_test_names_the_chance_of_the_order(job: Job, chosen: Chosen) -> None:
    plan = chosen.recommended
    assert plan is not None
    driven = simulated(chosen, seed=SEED)
    assert driven.verdict.worst_day.holds_forecast == plan.holds
    repair = repair_of(job, chosen.weighed, plan.remedies, seed=SEED, draws=DRAWS)
    again = verdict(driven.drive, repair, SEED, propose=False).worst_day
    assert again.holds_forecast == pytest.approx(plan.holds, abs=0.01), "same rule, same simulations"
    assert 1.0 - np.mean(repair.hot_before) >= chosen.outlooks[0].holds


def test_a_check_that_decides_may_lead_to_the_plan_that_is_recommended(chosen: Chosen) -> None:
    if chosen.decisive is not None and chosen.recommended is not None:
        assert chosen.recommended.ids in [one.plan.ids for one in chosen.decisive.branches if one.plan is not None]


def test_the_check_of_the_diagnosis_stands_first_in_the_choice_on_the_order_and_for_the_customer(
    job: Job, diagnosed: Diagnosed, chosen: Chosen
) -> None:
    first = diagnosed.diagnosis.first_check
    assert first is not None, "else this test tells nothing"
    assert chosen.first_check == first.check
    assert chosen.decisive is None or chosen.decisive.check == first.check
    asked = choice_answer(chosen).check_first
    assert asked is not None
    name = naming.check(first.check, "us").name
    assert said(asked.name, "us") == name
    assert choice_summary(choice_answer(chosen), "us").answer.startswith(f"Make sure first: {name}.")
    paper = order(job, diagnosed=diagnosed, chosen=chosen)
    assert name in paper.steps[0].words
    assert any(f"First we check: {name}." in line for _, lines in paper.customer.sections for line in lines)
    alone = choose(job, seed=SEED, draws=DRAWS)
    assert alone.first_check == first.check, "a choice that is asked for by itself puts the same one first"


def test_a_customer_reads_nothing_of_simulations(job: Job, diagnosed: Diagnosed, chosen: Chosen) -> None:
    assert chosen.untold > 0.05, "else this test tells nothing"
    page = order(job, diagnosed=diagnosed, chosen=chosen).customer
    assert not [line for _, lines in page.sections for line in lines if "simulations" in line or "in 100" in line]


def test_it_is_said_what_counts_in_the_chance_and_not_in_the_gauge(chosen: Chosen) -> None:
    (words,) = not_cured_words(chosen.untold)
    assert f"In {100 * chosen.untold:.0f} of 100 simulations" in words
    assert words in [said(one, "us") for one in chosen.remarks]
    assert not_cured_words(0.0) == ()
