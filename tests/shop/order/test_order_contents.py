"""What the work order says: facts with their marks, quantities, steps in order, readings, prices, one picture."""

import dataclasses
import re
import xml.etree.ElementTree as ElementTree
from typing import Any

import pytest

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.knowledge.sheet import Fact, Provenance, declaration_of
from toptank.shop.answers import naming, wording
from toptank.shop.ask import choose, diagnose, service, verify
from toptank.shop.job.evidence_file import Confirmed
from toptank.shop.job.price_book import known_parts
from toptank.shop.order import cautions, coolant_work, fit_lines, parts_list, steps, writing
from toptank.shop.order.check_drive import Ends, Expected
from toptank.shop.order.gauge_picture import gauge_picture
from toptank.shop.order.record import Order
from toptank.shop.record import plan_taken as plan_verbs
from toptank.units.refusal import Refusal


@pytest.fixture(scope="module")
def answers() -> tuple[Any, Any]:
    """Return diagnosis and choice of the built-in example, with few draws."""
    job = service.demo_job()
    return diagnose.diagnose(job), choose.choose(job, draws=400)


@pytest.fixture(scope="module")
def order(answers: tuple[Any, Any]) -> Order:
    """Return the order of the built-in example."""
    diagnosed, chosen = answers
    return writing.order(chosen.job, diagnosed=diagnosed, chosen=chosen)


@pytest.fixture(scope="module")
def drained(answers: tuple[Any, Any]) -> Order:
    """Return the order of the surest plan for which the coolant is drained."""
    diagnosed, chosen = answers
    plans = [one for one in chosen.outlooks if any(remedy.group == "coolant" for remedy in one.remedies)]
    surest = max(plans, key=lambda one: one.holds)
    return writing.order(chosen.job, plan=plan_verbs.written(surest.ids), diagnosed=diagnosed, chosen=chosen)


@pytest.fixture(scope="module")
def metric(answers: tuple[Any, Any]) -> Order:
    """Return the same order in metric units."""
    diagnosed, chosen = answers
    return writing.order(chosen.job, system="metric", diagnosed=diagnosed, chosen=chosen)


def test_no_cause_is_stated_as_certain(order: Order) -> None:
    assert all(one.chance.endswith("%") and "100" not in one.chance for one in order.causes)
    assert "not findings" in order.cause_note
    customer = " ".join(words for _, lines in order.customer.sections for words in lines)
    assert "not a finding" in customer


def test_every_assumed_fact_on_the_paper_carries_its_mark(answers: tuple[Any, Any]) -> None:
    """Take every fact that the paper can name for assumed: then each of its figures has the mark, and without, none."""
    diagnosed, chosen = answers
    paths = [path for sized in parts_list.SIZED_BY.values() for _, path in sized]
    for how, marks in ((Provenance.ASSUMED, True), (Provenance.MEASURED, False)):
        facts = {path: dataclasses.replace(fact, how=how) for path, fact in chosen.job.sheet.facts.items()}
        for part, sized in parts_list.SIZED_BY.items():
            assert parts_list.size_of(part, facts, "us").count("(assumed)") == (len(sized) if marks else 0)
        drained = next(
            one for one in chosen.outlooks if any(remedy.id == coolant_work.DRAIN for remedy in one.remedies)
        )
        work = coolant_work.coolant_work(drained.remedies, facts, 370.0, "us")
        assert ("qt (assumed)" in work.lines[0]) == marks
        assert ("(assumed)" in work.fill) == marks
    assert set(paths) <= set(chosen.job.sheet.facts)
    assert diagnosed.job.worst_day == ()  # the example names no worst day: the day that is offered is an assumption


def test_the_offered_worst_day_is_marked_on_both_pages(order: Order) -> None:
    worst = [one for one in order.readings if "(worst day)" in one.duty]
    assert worst
    assert all("°F (assumed)" in one.day for one in worst)
    assert any("The worst day (assumed)" in words for words in order.assumptions)
    assert "outside (assumed)" in order.customer.picture_says


def test_metric_paper_has_no_us_units(metric: Order) -> None:
    figures = " ".join([*metric.coolant[:4], *(one.after + one.day for one in metric.readings), *metric.stop])
    assert "°C" in figures
    assert not re.search(r"°F|\bqt\b|\bmph\b", figures)


def test_the_quantities_are_those_of_the_balance_of_volumes() -> None:
    """16 qt, 80 % drains: after a flush half of 16 qt is concentrate, 8.0; 12.8 qt drained less 8.0 are water, 4.8."""
    facts = dict(service.demo_job().sheet.facts)
    facts["fill.capacity"] = Fact(value=16.0 * 0.000946352946, how=Provenance.MEASURED, spread=0.0, origin="job file")
    drained = [remedy for remedy in REMEDIES if remedy.id == "drain_fill_bleed"]
    work = coolant_work.coolant_work(drained, facts, 370.0, "us")
    assert "12.8 qt" in work.lines[0]
    assert "8.0 qt of concentrate first" in work.lines[1]
    assert "4.8 qt" in work.lines[1]
    assert "8.0 qt of concentrate, then about 4.8 qt of water" in work.fill


def test_an_open_system_is_looked_at_and_not_pumped_up() -> None:
    facts = dict(service.demo_job().sheet.facts)
    topped = [remedy for remedy in REMEDIES if remedy.id == "top_up_bleed"]
    for pressure, pumped in ((0.0, False), (48263.0, True)):
        facts["cap.pressure"] = Fact(value=pressure, how=Provenance.MEASURED, spread=0.0, origin="job file")
        work = coolant_work.coolant_work(topped, facts, 370.0, "us")
        (leak,) = (
            step.words for step in steps.steps(topped, work, None, facts, None, "us") if "Leak test" in step.words
        )
        assert ("pump to the cap's 7 psi" in leak) == pumped
        assert ("nothing is pumped" in leak) != pumped


def test_a_cap_whose_stamp_nobody_read_is_read_before_the_system_is_pumped_up() -> None:
    facts = dict(service.demo_job().sheet.facts)
    facts["cap.pressure"] = dataclasses.replace(facts["cap.pressure"], how=Provenance.ASSUMED)
    topped = [remedy for remedy in REMEDIES if remedy.id == "top_up_bleed"]
    work = coolant_work.coolant_work(topped, facts, 370.0, "us")
    (leak,) = (one.words for one in steps.steps(topped, work, None, facts, None, "us") if "Leak test" in one.words)
    assert "read the stamp of the cap first" in leak
    assert "pump to the cap's 15 psi" not in leak


def test_what_the_kind_of_system_asks_carries_its_mark() -> None:
    facts = dict(service.demo_job().sheet.facts)
    drained = [remedy for remedy in REMEDIES if remedy.id == "drain_fill_bleed"]
    for how, marked in ((Provenance.ASSUMED, True), (Provenance.MEASURED, False)):
        facts["cap.system"] = dataclasses.replace(facts["cap.system"], how=how)
        (asked,) = (line for line in coolant_work.coolant_work(drained, facts, 370.0, "us").lines if "system: " in line)
        assert asked.endswith("(assumed).") == marked


def test_a_limit_that_nobody_named_is_told_as_assumed(answers: tuple[Any, Any]) -> None:
    diagnosed, chosen = answers
    for said in (True, False):
        job = dataclasses.replace(chosen.job, limit_said=said)
        made = writing.order(job, diagnosed=diagnosed, chosen=dataclasses.replace(chosen, job=job))
        assert ("(assumed)" in made.customer.picture_says.partition("Dashes: ")[2]) != said
        customer = " ".join(words for _, lines in made.customer.sections for words in lines)
        assert ("as you named no limit" in customer) != said


def test_a_plan_that_opens_nothing_drains_nothing() -> None:
    facts = service.demo_job().sheet.facts
    cap = [remedy for remedy in REMEDIES if remedy.group == "cap"]
    work = coolant_work.coolant_work(cap, facts, 370.0, "us")
    assert not work.drained
    assert "Nothing is drained" in work.lines[0]
    words = " ".join(step.words for step in steps.steps(cap, work, None, facts, None, "us"))
    assert "Drain" not in words
    assert "Fill" not in words
    assert words.index("Cool down") < words.index("Check drive")


def test_steps_come_in_the_order_of_the_work(drained: Order) -> None:
    words = " ".join(" ".join((step.words, *step.boxes)) for step in drained.steps)
    marks = ("Cool down", "Drain by", "Flush", "Take out", "Fill and bleed", "Leak test", "Check drive", "overnight")
    places = [words.index(mark) for mark in marks]
    assert places == sorted(places)


@pytest.mark.parametrize(
    ("group", "place", "how", "says"),
    [
        ("core", 1.0, Provenance.MEASURED, "Cooler lines were opened"),
        ("core", 1.0, Provenance.ASSUMED, "If cooler lines were opened"),
        ("transmission cooler", 0.0, Provenance.MEASURED, "Cooler lines were opened"),
        ("cap", 1.0, Provenance.MEASURED, ""),
    ],
)
def test_fluid_is_checked_where_cooler_lines_are_opened(group: str, place: float, how: Provenance, says: str) -> None:
    """Place 1 is in the tank (parts/transmission_cooler)."""
    facts = dict(service.demo_job().sheet.facts)
    facts["transmission_cooler.place"] = Fact(value=place, how=how, spread=0.0, origin="job file")
    facts["drivetrain.kind"] = Fact(value=1.0, how=Provenance.MEASURED, spread=0.0, origin="job file")
    assert declaration_of("drivetrain.kind").choices[1] == "automatic"
    remedies = [next(remedy for remedy in REMEDIES if remedy.group == group)]
    check = steps.fluid_check(remedies, facts)
    assert check.startswith(says) if says else check == ""


def test_a_band_beyond_boiling_is_no_figure() -> None:
    """A gauge tells nothing beyond boiling: 100 °C is 212 °F."""
    assert wording.gauge_band(380.0, 390.0, 373.15, "us") == "boils"
    assert wording.gauge_band(363.15, 390.0, 373.15, "us") == "194 °F to boiling"
    assert wording.gauge_band(363.15, 368.15, 373.15, "metric") == "90 to 95 °C"
    assert wording.gauge_band(363.15, 363.15, 373.15, "metric") == "90 °C"


def test_a_chance_is_never_nought_or_certain() -> None:
    assert [wording.chance(share) for share in (0.0, 0.5, 1.0)] == ["under 1 %", "50 %", "over 99 %"]


def test_a_confirmed_cause_is_told_as_found_and_asks_for_no_check(answers: tuple[Any, Any]) -> None:
    diagnosed, chosen = answers
    confirmed = Confirmed(causes=("fan_clutch_slips",), contributing=(), how="seen")
    job = dataclasses.replace(chosen.job, confirmed=confirmed)
    made = writing.order(job, diagnosed=diagnosed, chosen=dataclasses.replace(chosen, job=job))
    assert made.found == "fan_clutch_slips"
    assert ("What it is", ("We found: fan clutch slips.",)) in made.customer.sections
    assert not any("Before parts are bought" in step.words for step in made.steps)


def test_the_answer_of_the_fit_stands_with_the_core(answers: tuple[Any, Any]) -> None:
    diagnosed, chosen = answers
    plan = next(
        plan_verbs.written(one.ids) for one in chosen.outlooks if any(remedy.group == "core" for remedy in one.remedies)
    )
    without = writing.order(chosen.job, plan=plan, diagnosed=diagnosed, chosen=chosen)
    words = ("Fan to core: rubs by 1/4 in (invented).",)
    asked = writing.order(chosen.job, plan=plan, diagnosed=diagnosed, chosen=chosen, fit=words)
    told = [line for step in asked.steps for line in step.told]
    assert words[0] in told
    assert any(line.startswith("Fit: ") for step in without.steps for line in step.told)
    assert not any(line.startswith("Fit: ") for line in told)


def test_what_is_no_work_has_no_box_to_tick(answers: tuple[Any, Any]) -> None:
    """A box is ticked when something was done: what a check may show, and how it fits, is only told."""
    (offer,) = answers[1].job.fit.offers
    made = _with_offers(answers, offer)
    boxes = [box for step in made.steps for box in step.boxes]
    first, *_ = made.steps
    assert first.told
    assert first.boxes == ()
    assert not any(box.startswith(("Fit: ", "Tight: ", "Written for", "Also on offer")) for box in boxes)
    assert any(box.startswith("Measure first: ") for box in boxes)


ALUMINIUM = "aluminium_radiator_2_row"


def _core_step(order: Order) -> str:
    return " ".join(next(step.told + step.boxes for step in order.steps if step.words.startswith("Fit an aluminium")))


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
    (misfit,) = (words for words in made.correction if "does not go in as it is" in words)
    assert made.correction[1] == misfit  # in the same breath as the plan
    assert "top port: side" in misfit
    assert "reach of the cap to depth of the neck" in misfit
    assert "bottom port: side" not in misfit
    (core,) = (one for one in made.parts if one.part == "2-row aluminium radiator")
    assert "core 2 1/8 in deep, 28 1/2 in × 21 in over all, top port 1 1/2 in left" in core.size
    assert "(as printed)" in core.size
    assert "offered at $390" in core.size
    assert "Another hose, led across" in _core_step(made)
    customer = " ".join(words for _, lines in made.customer.sections for words in lines)
    assert "does not go in without changes" in customer


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
    assert not any("does not go in" in words for words in made.correction)
    step = _core_step(made)
    assert "Written for the radiator on offer: the other one." in step
    assert f"Also on offer, {offer.name}: does not go in as it is." in step
    # 3 in is 7/8 in more than the 2 rows of 1 in that were forecast
    assert "Not the core that was forecast: it is 3 in deep" in _core_step(
        _with_offers(answers, _changed(right, core_depth=0.0762))
    )
    # an offer of another remedy is no offer of this one
    elsewhere = dataclasses.replace(right, remedy="recore_as_it_was")
    assert "on offer" not in _core_step(_with_offers(answers, elsewhere))


def test_a_plan_with_the_cooling_cut_off_is_driven_with_it_off(answers: tuple[Any, Any]) -> None:
    diagnosed, chosen = answers
    kinds = {any(remedy.group == "load" for remedy in one.remedies): one for one in chosen.outlooks}
    assert set(kinds) == {True, False}
    for cuts, outlook in kinds.items():
        made = writing.order(chosen.job, plan=plan_verbs.written(outlook.ids), diagnosed=diagnosed, chosen=chosen)
        assert any("Air conditioning off at every duty" in words for words in made.stop) == cuts
        assert any("air conditioning on" in one.day for one in made.readings) != cuts


def test_the_readings_of_the_worst_day_are_those_of_the_choice(answers: tuple[Any, Any], order: Order) -> None:
    _, chosen = answers
    by_duty = {one.duty.removesuffix(" (worst day)"): one.after for one in order.readings}
    for outlook in chosen.recommended.duties:
        low, high = ((end - 273.15) * 1.8 + 32.0 for end in (outlook.gauge.p10, outlook.gauge.p90))
        assert by_duty[outlook.duty] == f"{low:.0f} to {high:.0f} °F"


def test_once_it_was_driven_the_check_drive_stands_on_the_customers_page(
    answers: tuple[Any, Any], order: Order
) -> None:
    diagnosed, chosen = answers
    verified = verify.simulated(chosen, seed=1)
    driven = writing.order(chosen.job, diagnosed=diagnosed, chosen=chosen, verified=verified)
    said = dict(driven.customer.sections)["The check drive"]
    assert said[0].startswith("(Simulated, for the example.)")
    assert any("worst day stays under your limit" in line for line in said)
    assert "The check drive" not in dict(order.customer.sections)
    assert verified.verdict.worst_day.hardest in [day.name for day in chosen.worst_day]


def test_prices_add_up(answers: tuple[Any, Any], order: Order) -> None:
    _, chosen = answers
    figures = [float(one.price.removeprefix("$").replace(",", "")) for one in order.parts]
    parts, work, together = (float(one.price.removeprefix("$").replace(",", "")) for one in order.totals)
    assert sum(figures) == parts
    assert parts + work == pytest.approx(together, abs=1.0)
    assert together == pytest.approx(chosen.recommended.cost, abs=1.0)
    assert any("invented examples" in words for words in order.remarks)


def test_every_part_that_is_sized_is_a_part_of_the_price_book() -> None:
    assert {*parts_list.SIZED_BY, *parts_list.SAID} <= set(known_parts())


def test_every_plan_warns_of_what_hurts() -> None:
    for remedy in REMEDIES:
        said = " ".join(cautions.cautions([remedy], ()))
        for words in ("hot system", "poisonous", "belts", "axle stands", "Acid", "licensed practice", "local codes"):
            assert words in said


def test_where_no_plan_holds_there_is_no_order(answers: tuple[Any, Any]) -> None:
    _, chosen = answers
    with pytest.raises(Refusal, match="no remedy on the list holds"):
        plan_verbs.plan_of(dataclasses.replace(chosen, recommended=None), None)
    with pytest.raises(Refusal, match="is not a plan of this job"):
        plan_verbs.plan_of(chosen, "fit a bigger hammer")
    assert plan_verbs.plan_of(chosen, naming.plan(chosen.outlooks[-1].ids, "us").upper()) is chosen.outlooks[-1]


def test_the_order_is_written_for_the_plan_that_was_taken_unless_another_is_named(answers: tuple[Any, Any]) -> None:
    diagnosed, chosen = answers
    taken, other = [one for one in chosen.outlooks if one.remedies and one is not chosen.recommended][:2]
    job = dataclasses.replace(chosen.job, plan_taken=taken.ids)
    for named, plan in ((None, taken), (naming.plan(other.ids, "us"), other)):
        made = writing.order(job, plan=named, diagnosed=diagnosed, chosen=dataclasses.replace(chosen, job=job))
        assert made.correction[0].lower() == f"{naming.remedies(plan.ids, 'us')}.".lower()
    gone = dataclasses.replace(
        chosen, job=dataclasses.replace(job, plan_taken=("replace_cap", "set_timing", "hood_louvers"))
    )
    with pytest.raises(Refusal, match="was taken, and is not a plan of this job any more"):
        plan_verbs.plan_of(gone, None)


def test_the_picture_is_sound_and_lies_within_its_frame() -> None:
    """Bands far apart, and all in one place; limit below and above everything."""
    duty: Any = None
    for before, after, boils, limit in (
        ((380.0, 390.0, 420.0), (355.0, 360.0, 365.0), 398.0, 380.0),
        ((370.0, 370.0, 370.0), (370.0, 370.0, 370.0), 370.0, 370.0),
        ((360.0, 361.0, 362.0), (350.0, 351.0, 352.0), 373.0, 430.0),
        ((436.0, 472.0, 477.0), (358.0, 372.0, 396.0), 389.0, 380.0),
    ):
        one = Expected(
            duty=duty, worst=True, before=Ends(*before), after=Ends(*after), boils_before=Ends(boils, boils, boils),
            boils_after=Ends(boils, boils, boils), under_limit=0.9,
        )  # fmt: skip
        for system in ("us", "metric"):
            picture = ElementTree.fromstring(gauge_picture(one, limit, system))
            _, _, width, height = map(float, picture.attrib["viewBox"].split())
            for line in picture.iter():
                for key, value in line.attrib.items():
                    if key in ("x", "x1", "x2"):
                        assert 0.0 <= float(value) <= width
                    if key in ("y", "y1", "y2"):
                        assert 0.0 <= float(value) <= height
