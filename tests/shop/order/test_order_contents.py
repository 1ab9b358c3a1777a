"""What the work order says: facts with their marks, quantities, steps in order, readings, prices, one picture."""

import dataclasses
import re
import xml.etree.ElementTree as ElementTree
from typing import Any

import pytest

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.knowledge.sheet import Fact, Provenance, declaration_of
from toptank.shop.answers.words import naming, wording
from toptank.shop.ask import service, verify
from toptank.shop.job.evidence_file import Confirmed
from toptank.shop.job.price_book import known_parts
from toptank.shop.order import cautions, coolant_work, parts_list, steps, writing
from toptank.shop.order.check_drive import Ends, Expected
from toptank.shop.order.gauge_picture import gauge_picture
from toptank.shop.order.record import Order
from toptank.shop.record import plan_taken as plan_verbs
from toptank.units.dialect import spoken
from toptank.units.refusal import Refusal


def test_no_cause_is_stated_as_certain(order: Order) -> None:
    assert all(one.chance.endswith("%") and "100" not in one.chance for one in order.causes)
    assert "%" in order.cause
    customer = " ".join(words for _, lines in order.customer.sections for words in lines)
    assert "not proved yet" in customer
    assert "chances in 10" in customer


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
        assert ("qt (assumed)" in work.recipe[0]) == marks
        assert ("(assumed)" in work.fill) == marks
    assert set(paths) <= set(chosen.job.sheet.facts)
    assert diagnosed.job.worst_day == ()  # the example names no worst day: the day that is offered is an assumption


def test_of_the_day_complained_of_nothing_that_was_told_is_called_assumed(order: Order) -> None:
    """The farm gate at 92 °F was told; that it is the worst day was not."""
    worst = [one for one in order.readings if "(worst day)" in one.duty]
    assert worst
    assert not any("assumed" in one.duty for one in order.readings)
    assert any("The worst day (assumed)" in words for words in dict(order.appendix)["What the figures rest on"])
    assert "92 °F outside)" in dict(order.customer.sections)["What it will do"][0]


def test_the_paper_says_how_much_likelier_in_words(order: Order) -> None:
    said = " ".join(one.speaks for one in order.causes)
    assert "times more likely" in said
    assert not re.search(r"[×÷]\s*\d", said)


def test_the_customers_page_speaks_to_the_customer(order: Order) -> None:
    words = " ".join(line for _, lines in order.customer.sections for line in lines)
    assert not re.search(r"\bcustomer\b", words, re.IGNORECASE)


def test_the_road_test_allows_at_a_short_stop_what_the_forecast_counts_as_held(order: Order) -> None:
    """docs/decisions/stops.md: 15 °F above the limit of the road for minutes. The example asks for 225 °F."""
    assert any("over at 225 °F" in words for words in order.stop)
    assert any("short stop" in words and "240 °F" in words for words in order.stop)


def test_metric_paper_has_no_us_units(metric: Order) -> None:
    figures = " ".join([*metric.coolant, *(one.after + one.day for one in metric.readings), *metric.stop])
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
    # to a quarter of a quart, as it is measured out at the bench: 4.75
    assert "8 qt of concentrate, then about 4 3/4 qt of water" in work.fill
    assert "8 qt of concentrate, then about 4 3/4 qt of distilled water" in " ".join(work.recipe)


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
        job = dataclasses.replace(chosen.job, limit=370.0, limit_said=said)  # lower than what he complained of
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
    assert words.index("Cool down") < words.index("Road test")


def test_steps_come_in_the_order_of_the_work(drained: Order) -> None:
    words = " ".join(" ".join((step.words, *step.boxes)) for step in drained.steps)
    marks = ("Cool down", "Drain", "Flush", "Fill and bleed", "Leak test", "Road test", "overnight")
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
    assert made.found == made.cause == "fan clutch slipping"
    assert ("What we found", ("We found: fan clutch slipping.",)) in made.customer.sections
    assert not any("Before buying parts" in step.words for step in made.steps)


def test_a_plan_with_the_cooling_cut_off_is_driven_with_it_off(answers: tuple[Any, Any]) -> None:
    diagnosed, chosen = answers
    kinds = {any(remedy.group == "load" for remedy in one.remedies): one for one in chosen.outlooks}
    assert set(kinds) == {True, False}
    for cuts, outlook in kinds.items():
        made = writing.order(chosen.job, plan=plan_verbs.written(outlook.ids), diagnosed=diagnosed, chosen=chosen)
        assert any("A/C off throughout" in words for words in made.stop) == cuts
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
    said = dict(driven.customer.sections)["The road test"]
    assert said[0].startswith("(Simulated, for the example.)")
    assert any("stays cool on your worst day" in line for line in said)
    assert "The road test" not in dict(order.customer.sections)
    assert verified.verdict.worst_day.hardest in [day.name for day in chosen.worst_day]


def test_prices_add_up(answers: tuple[Any, Any], order: Order) -> None:
    _, chosen = answers
    figures = [float(one.price.removeprefix("$").replace(",", "")) for one in order.parts]
    parts, work, together = (float(one.price.removeprefix("$").replace(",", "")) for one in order.totals)
    assert sum(figures) == parts
    assert parts + work == pytest.approx(together, abs=1.0)
    assert together == pytest.approx(chosen.recommended.cost, abs=1.0)
    assert any("invented examples" in words for words in dict(order.customer.sections)["What it costs"])


def test_every_part_that_is_sized_is_a_part_of_the_price_book() -> None:
    assert {*parts_list.SIZED_BY, *parts_list.SAID} <= set(known_parts())


def test_the_paper_warns_of_what_hurts_in_this_job_and_of_nothing_else() -> None:
    """No refrigerant where there is no air conditioning, no acid for a new radiator, no lifting for a cap."""
    by_id = {one.id: one for one in REMEDIES}
    facts = dict(service.demo_job().sheet.facts)

    def said(*ids: str, opened: bool = False, cooled: bool = True, drive: float = 0.0) -> str:
        known = facts | {
            "condenser.present": dataclasses.replace(facts["condenser.present"], value=float(cooled)),
            "fan.drive": dataclasses.replace(facts["fan.drive"], value=drive),
        }
        return " ".join(cautions.cautions([by_id[one] for one in ids], known, "us", opened=opened))

    for one in REMEDIES:
        assert "hot system" in said(one.id)
        assert "manual and local codes" in said(one.id)
    radiator = said("aluminium_radiator_2_row", "drain_fill_bleed", opened=True)
    for words in ("poisonous to people and pets", "Axle stands", "A/C lines", "fan and belts", "exhaust hose"):
        assert words in radiator
    for words in ("Acid", "solder", "electric fan", "Battery", "timing light"):
        assert words not in radiator
    assert "A/C lines" not in said("aluminium_radiator_2_row", cooled=False)
    assert "Acid cleaners" in said("rod_core")
    assert "aluminum" in said("rod_core")
    assert "Old solder is lead" in said("recore_3_row")
    assert "electric fan can start by itself" in said("replace_cap", drive=2.0)
    assert "Battery off" in said("two_electric_fans")
    assert "Axle stands" not in said("replace_cap")
    assert "poisonous" not in said("set_timing")
    assert "No flame" in said("set_timing")


def test_us_paper_is_american_and_metric_paper_british(order: Order, metric: Order) -> None:
    """One dialect on a sheet: aluminum, color, install with °F; aluminium, colour, fit with °C."""
    american, british = (" ".join(_words_of(one)) for one in (order, metric))
    assert not re.search(r"alumin*ium|colour|neutralise|deionised|\bbonnet\b", american)
    assert not re.search(r"\bcolor\b|neutralize|deionized|\bhood\b|\binstall\b", british)


def test_a_figure_that_is_written_both_ways_is_printed_in_one() -> None:
    assert spoken("leave 1 to 2 in (25 to 50 mm) below", "us") == "leave 1 to 2 in below"
    assert spoken("leave 1 to 2 in (25 to 50 mm) below", "metric") == "leave 25 to 50 mm below"
    assert spoken("at 9 °F (-13 °C)", "metric") == "at -13 °C"


def _words_of(order: Order) -> list[str]:
    """Every word of ours on both pages; the example's own words and its offer's name left out."""
    customer = [words for _, lines in order.customer.sections for words in lines if not words.startswith("“")]
    steps = [words for step in order.steps for words in (step.words, *step.told, *step.boxes)]
    return [*customer, *steps, *order.correction, *order.coolant, *order.cautions, *order.stop]


def test_where_no_plan_holds_there_is_no_order(answers: tuple[Any, Any]) -> None:
    _, chosen = answers
    with pytest.raises(Refusal, match="no remedy on the list holds"):
        plan_verbs.plan_of(dataclasses.replace(chosen, recommended=None), None)
    with pytest.raises(Refusal, match="is no remedy"):
        plan_verbs.plan_of(chosen, "fit a bigger hammer")
    with pytest.raises(Refusal, match="is not a plan of this job"):
        plan_verbs.plan_of(chosen, "replace_cap,set_timing,hood_louvers")
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
            boils_after=Ends(boils, boils, boils), limit=limit, under_limit=0.9,
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
