"""A plan is recommended with what it takes to get it in; one that nothing gets in is not recommended."""

import dataclasses
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.knowledge.sheet import Fact, Provenance
from toptank.shop.answers.answers import Chosen, Diagnosed
from toptank.shop.answers.choice import choice_answer
from toptank.shop.answers.schemas import schemas
from toptank.shop.ask.choice import choose, plan_fit
from toptank.shop.ask.choice.worst_day import usual_worst_day
from toptank.shop.job.job import Job

INCH = 0.0254
ALUMINIUM = "aluminium_radiator_2_row"
OFFER = "welded aluminum, two rows of 1 in"


@pytest.fixture(scope="module")
def diagnosed(demo_diagnosed: Diagnosed) -> Diagnosed:
    return demo_diagnosed


KEEPS_THE_AIR_ON = 'format = "toptank-prices-1"\nlabour = 120\ngone_without = 100000\n'
"""A customer who goes without no cooled air: what is asked of him in place of a radiator costs more than any."""


def _chosen(job: Job, diagnosed: Diagnosed, book: Path) -> Chosen:
    return choose.choose(job, diagnosed=diagnosed, draws=400, price_book=book)


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("prices") / "book.toml"
    path.write_text(KEEPS_THE_AIR_ON, encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def chosen(diagnosed: Diagnosed, book: Path) -> Chosen:
    """On a day on which the clutch alone does not bring it back: a radiator is recommended."""
    return _chosen(_harder(diagnosed.job), diagnosed, book)


def _harder(job: Job) -> Job:
    """A named day, harder than the one complained of, and a customer who wants 212 °F at the most."""
    return dataclasses.replace(job, worst_day=usual_worst_day(job), limit=373.15)


def _measured(job: Job, key: str, value: float) -> Job:
    """The same job with one measure of the bay as a tape reads it."""
    fact = Fact(value=value, how=Provenance.MEASURED, spread=0.001, origin="job file")
    return dataclasses.replace(job, fit=dataclasses.replace(job.fit, facts={**job.fit.facts, key: fact}))


def _for_any_plan(job: Job) -> Job:
    """The same job with an offer that does not say which remedy it would be."""
    offers = tuple(dataclasses.replace(one, remedy="") for one in job.fit.offers)
    return dataclasses.replace(job, fit=dataclasses.replace(job.fit, offers=offers))


def _names(plan: Any) -> list[str]:
    return [remedy.id for remedy in plan.remedies]


def test_a_plan_with_the_radiator_on_offer_says_what_it_needs_to_go_in(chosen: Chosen) -> None:
    """The example's radiator on offer has a port on the other side and a neck 1/4 in too deep: both can be mended."""
    assert chosen.recommended is not None
    assert chosen.does_not_fit is None
    record: Any = choice_answer(chosen).record("us")
    Draft202012Validator(schemas()["answer-choose"]).validate(record)
    said = next(one["goes_in"] for one in record["plans"] if ALUMINIUM in one["plan"])
    assert said["with_changes"] is True
    for words in (OFFER, "won't fit as it is", "What it needs: another hose", "differ by 1/4 in", "Measure first: "):
        assert words in said["says"]
    bolted = next(one for one in record["plans"] if one["plan"] == ["replace_fan_clutch"])
    assert bolted["goes_in"] is None  # it brings nothing that must go in


def test_what_does_not_go_in_is_not_recommended_and_the_next_best_is(
    diagnosed: Diagnosed, chosen: Chosen, book: Path
) -> None:
    # The radiator on offer is 28 1/2 in wide, and would stand for whichever radiator is fitted.
    narrow = _measured(_for_any_plan(_harder(diagnosed.job)), "width_between", 27.0 * INCH)
    first, chosen = chosen, _chosen(narrow, diagnosed, book)
    assert first.recommended is not None
    assert chosen.does_not_fit is not None
    assert chosen.recommended is not None
    assert chosen.does_not_fit.ids == first.recommended.ids
    assert chosen.recommended.holds >= 0.5
    for plan in (
        chosen.recommended,
        *(branch.plan for branch in (chosen.decisive.branches if chosen.decisive else ())),
    ):
        assert plan is None or ALUMINIUM not in _names(plan)
    (told,) = (one for one in map(str, chosen.remarks) if "cannot be made to fit" in one)
    assert "width between the supports" in told
    record: Any = choice_answer(chosen).record("us")
    assert record["does_not_go_in"] == list(first.recommended.ids)
    said = next(one["goes_in"] for one in record["plans"] if one["plan"] == record["does_not_go_in"])
    assert (said["with_changes"], "a radiator smaller by 1 5/8 in" in said["says"]) == (False, True)
    assert plan_fit.barred(diagnosed.job) == ()
    assert any("width between the supports" in one for one in plan_fit.barred(narrow))


def test_a_slip_of_the_tape_is_measured_again_and_no_misfit(diagnosed: Diagnosed) -> None:
    gap = Fact(
        value=2.5 * INCH, how=Provenance.MEASURED, spread=0.001, origin="job file"
    )  # by the shroud it is 1 1/2 in less
    sheet = dataclasses.replace(diagnosed.job.sheet, facts={**diagnosed.job.sheet.facts, "shroud.fan_to_core": gap})
    slipped = _measured(dataclasses.replace(diagnosed.job, sheet=sheet), "shroud_depth", 2.75 * INCH)
    (core,) = (remedy for remedy in REMEDIES if remedy.id == ALUMINIUM)
    found = plan_fit.plan_fit(slipped, (core,))
    assert found is not None
    assert "Measure shroud and fan to core once more" in found.says("us")
    assert not any("agree" in item.name for item in found.rubs())


def test_a_measure_that_nobody_took_speaks_against_nothing(diagnosed: Diagnosed) -> None:
    facts = {
        key: dataclasses.replace(fact, how=Provenance.ASSUMED, origin="declared")
        for key, fact in diagnosed.job.fit.facts.items()
    }
    job = dataclasses.replace(diagnosed.job, fit=dataclasses.replace(diagnosed.job.fit, facts=facts, offers=()))
    (core,) = (remedy for remedy in REMEDIES if remedy.id == ALUMINIUM)
    found = plan_fit.plan_fit(job, (core,))
    assert found is not None
    assert found.goes_in
    assert "Measure first" in found.says("us")
    assert plan_fit.plan_fit(job, [one for one in REMEDIES if one.id == "recore_as_it_was"]) is None
