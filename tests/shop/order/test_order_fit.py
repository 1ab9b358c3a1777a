"""What the work order says of fit: the core on offer, what it meets, what is ordered for it."""

import dataclasses
from typing import Any

import pytest

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.shop.answers.words import naming
from toptank.shop.ask.choice.offered_prices import as_offered
from toptank.shop.order import coolant_work, fit_lines, steps, writing
from toptank.shop.order.record import Order
from toptank.shop.record import plan_taken as plan_verbs


def test_the_answer_of_the_fit_stands_with_the_core(answers: tuple[Any, Any]) -> None:
    diagnosed, chosen = answers
    plan = next(
        plan_verbs.written(one.ids) for one in chosen.outlooks if any(remedy.id == ALUMINIUM for remedy in one.remedies)
    )
    without = writing.order(chosen.job, plan=plan, diagnosed=diagnosed, chosen=chosen)
    words = ("Fan to core: rubs by 1/4 in (invented).",)
    asked = writing.order(chosen.job, plan=plan, diagnosed=diagnosed, chosen=chosen, fit=words)
    told = [line for step in asked.steps for line in step.told]
    assert words[0] in told
    # the example's offer rubs: the step says where and what is done about it, the sentence above says that it does
    assert any("does not match" in line for step in without.steps for line in step.boxes)
    assert not any(line.startswith("Fit: ") for line in told)


ALUMINIUM = "aluminium_radiator_2_row"


def _core_step(order: Order) -> str:
    name = naming.remedy(ALUMINIUM, "us").name
    return " ".join(
        next(step.told + step.boxes + step.notes for step in order.steps if step.words.lower().startswith(name))
    )


def _with_offers(answers: tuple[Any, Any], *offers: Any) -> Order:
    """Return the order of a plan with the aluminium radiator, with these radiators on offer."""
    diagnosed, chosen = answers
    plan = next(
        plan_verbs.written(one.ids) for one in chosen.outlooks if any(remedy.id == ALUMINIUM for remedy in one.remedies)
    )
    job = dataclasses.replace(chosen.job, fit=dataclasses.replace(chosen.job.fit, offers=offers))
    return writing.order(job, plan=plan, diagnosed=diagnosed, chosen=dataclasses.replace(chosen, job=job))


def _changed(offer: Any, **values: float) -> Any:
    facts = {key: dataclasses.replace(offer.facts[key], value=value) for key, value in values.items()}
    return dataclasses.replace(offer, facts={**offer.facts, **facts})


def test_the_order_is_written_for_the_radiator_on_offer_and_says_what_does_not_fit(answers: tuple[Any, Any]) -> None:
    """The example's offer has its top port left where the hose comes from the right, and a neck 1/4 in too deep."""
    (offer,) = answers[1].job.fit.offers
    made = _with_offers(answers, offer)
    (misfit,) = (words for words in made.correction if "won't fit without changes" in words)
    assert made.correction[1] == misfit  # in the same breath as the plan
    boxes = " ".join(box for step in made.steps for box in step.boxes)
    assert "Top port: side" in boxes
    assert "Reach of the cap to depth of the neck" in boxes
    assert "Bottom port: side" not in boxes
    (core,) = (one for one in made.parts if one.part == naming.part(ALUMINIUM, "us"))
    assert core.size == "welded aluminum, two rows of 1 in: 2 1/8 in deep, 28 1/2 in × 21 in over all"
    dearer = dataclasses.replace(offer, price="$410")
    paid = as_offered(answers[1].book, dataclasses.replace(answers[1].job.fit, offers=(dearer,)))
    made = _with_offers((answers[0], dataclasses.replace(answers[1], book=paid)), dearer)
    assert "$410" in [one.price for one in made.parts], "the part costs what its seller asks"
    assert "Another hose, routed clear" in _core_step(made)
    customer = " ".join(words for _, lines in made.customer.sections for words in lines)
    assert "won't fit without changes" in customer


@pytest.mark.parametrize(
    ("plan", "told"),
    [
        (("severe_duty_fan_clutch",), "gap between blades and core"),
        (("two_electric_fans",), "rated current of the alternator"),
    ],
)
def test_the_fan_of_a_plan_is_asked_for_fit_too(answers: tuple[Any, Any], plan: tuple[str, ...], told: str) -> None:
    """The issue: electric fans are checked against the alternator; a deeper clutch comes nearer to the core."""
    remedies = [remedy for remedy in REMEDIES if remedy.id in plan]
    job = answers[1].job
    fit = fit_lines.fit_lines(job, remedies, "us")
    assert any(told in line for line in fit.lines + fit.to_do)
    assert not any("saddle" in line for line in fit.lines + fit.to_do)
    work = coolant_work.coolant_work(remedies, job.sheet.facts, 370.0, "us")
    made = steps.steps(remedies, work, None, job.sheet.facts, fit, "us")
    assert any(told in line for step in made for line in step.told + step.boxes)


def test_of_two_radiators_on_offer_the_one_that_fits_is_ordered(answers: tuple[Any, Any]) -> None:
    (offer,) = answers[1].job.fit.offers
    right = dataclasses.replace(_changed(offer, top_port_side=1.0, neck_depth=0.01905), name="the other one")
    made = _with_offers(answers, offer, right)
    assert not any("won't fit" in words for words in made.correction)
    step = _core_step(made)
    assert any(one.size.startswith("the other one: ") for one in made.parts)
    assert "Written for the radiator on offer: the other one." in step
    assert f"Also on offer, {offer.name}: won't fit without changes." in step
    # 3 in is 7/8 in more than the 2 rows of 1 in that were forecast
    assert "Not the core that was forecast: it is 3 in deep" in _core_step(
        _with_offers(answers, _changed(right, core_depth=0.0762))
    )
    # an offer of another remedy is no offer of this one
    elsewhere = dataclasses.replace(right, remedy="recore_as_it_was")
    assert "on offer" not in _core_step(_with_offers(answers, elsewhere))


def test_what_is_no_work_has_no_box_to_tick(answers: tuple[Any, Any]) -> None:
    """A box is ticked when something was done: what a check may show, and how it fits, is only told."""
    (offer,) = answers[1].job.fit.offers
    made = _with_offers(answers, offer)
    boxes = [box for step in made.steps for box in step.boxes]
    before, *_ = made.steps
    assert before.words.startswith("Before buying parts: ")
    assert before.boxes == ()
    assert not any(box.startswith(("Fit: ", "Tight: ", "Written for", "Also on offer")) for box in boxes)
    assert any(box.startswith("Measure first: ") for box in boxes)
