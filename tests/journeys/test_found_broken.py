"""What was found broken when a shop tried the product, each with what must be so instead."""

import dataclasses
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import TYPE_CHECKING, Any, cast

import numpy as np
import polars as pl
import pytest

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.interfaces.web.drawing.loop_picture import loop_picture
from toptank.knowledge.draws import draws
from toptank.knowledge.sheet import duty_fields, sections
from toptank.knowledge.typical import typical
from toptank.shop.answers.answers import Chosen, Diagnosed
from toptank.shop.answers.summaries.verdict_summary import works, worst_day_now
from toptank.shop.ask import fit as fit_verbs
from toptank.shop.ask import service
from toptank.shop.ask.coolant.coolant import guessed_parts
from toptank.shop.ask.what_if import Changes, what_if
from toptank.shop.cache import ensemble_cache
from toptank.shop.edit import edit
from toptank.shop.edit.change_words import change_words
from toptank.shop.edit.form import FIRST_OF_A_SHEET
from toptank.shop.job.evidence_file import Confirmed
from toptank.shop.job.job_file import job_of
from toptank.shop.log.log_clock import seconds
from toptank.shop.log.log_columns import head_of
from toptank.shop.log.noted_table import NotedRow, table_text
from toptank.shop.order import writing
from toptank.shop.record import job_verbs, plan_taken
from toptank.studies.choose.coolant.cap_choice import choose_cap
from toptank.studies.route.drive_forecast import DriveForecast
from toptank.units import dimension as dimensions
from toptank.units.conversion import unit_of
from toptank.units.dialect import spoken
from toptank.units.dimension import ALTITUDE, DISPLACEMENT, LENGTH, Dimension
from toptank.units.display import show_estimate
from toptank.units.quantity import parse, parse_choice
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    pass

PSI = 6894.757293168
ALUMINIUM = "aluminium_radiator_2_row"


def _offer_by_itself(chosen: Chosen) -> tuple[str, ...]:
    """The plan of the example's own offer: that radiator and what it forces, the coolant."""
    return next(one.ids for one in chosen.outlooks if set(one.ids) == {ALUMINIUM, "drain_fill_bleed"})


@pytest.fixture
def _own_store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "jobs.sqlite"))


def test_the_cap_starts_from_the_one_that_the_maker_specified() -> None:
    """A car made for 13 psi is not sent to a 10 psi cap: that boils sooner. Only a weak part asks for less."""
    sound = ("hoses, old or unknown", "radiator, copper and brass, sound")
    answer = choose_cap(370.0, 0.0, 0.5, 0.0, sound, stamped=13.0 * PSI)
    assert answer.chosen is not None
    assert answer.chosen.pressure == pytest.approx(13.0 * PSI)
    assert "less pressure boils sooner" in answer.reason
    nobody_looked = ("radiator seams, old and soldered",)
    made_for_15 = choose_cap(380.0, 700.0, 0.5, 0.0, nobody_looked, stamped=15.0 * PSI, guessed=True)
    assert made_for_15.chosen is not None
    assert made_for_15.chosen.pressure == pytest.approx(15.0 * PSI)
    weak = choose_cap(355.0, 0.0, 0.5, 0.0, ("soldered core made for 7 psi",), stamped=13.0 * PSI)
    assert weak.chosen is not None
    assert weak.chosen.pressure <= 7.0 * PSI


def test_american_and_british_spellings_are_both_read() -> None:
    assert parse_choice("aluminum", ("copper-brass", "aluminium"), "core.material") == 1.0
    assert parse_choice("gasoline", ("petrol", "diesel"), "engine.fuel") == 0.0


def test_a_section_that_is_misspelt_is_named_and_not_printed_as_the_program_holds_it() -> None:
    document: dict[str, object] = {
        "format": "toptank-job-2", "vehicle": {"like": "minibus-1970s-v8-air"}, "duty": [{"name": "hill"}],
        "cor": {"rows": 3},
    }  # fmt: skip
    with pytest.raises(Refusal) as said:
        job_of(document)
    assert "[cor]" in str(said.value)
    assert "{" not in str(said.value)
    assert "did you mean 'core'" in str(said.value)


@pytest.mark.usefixtures("_own_store")
def test_a_closed_job_is_changed_by_nobody_who_does_not_open_it_again_first() -> None:
    number = job_verbs.open_example().job
    job_verbs.close(number, ["fan_clutch_slips"], how="seen")
    changes: tuple[Callable[[], object], ...] = (
        lambda: edit.set_field(number, "core.rows", "4"),
        lambda: edit.add_row(number, "changed", {"part": "cap", "effect": "none"}),
        lambda: edit.set_units(number, "metric"),
        lambda: job_verbs.save_text(number, job_verbs.record(number).shown.text, based_on=2),
    )
    for change in changes:
        with pytest.raises(Refusal, match="is closed"):
            change()
    assert job_verbs.newest_revision(number) == 2
    job_verbs.add_note(number, "the customer rang: all well")
    job_verbs.reopen(number)
    edit.set_field(number, "core.rows", "4")
    assert "rows = 4" in job_verbs.record(number).shown.text


@pytest.mark.usefixtures("_own_store")
def test_undo_takes_back_one_field_at_a_time() -> None:
    number = job_verbs.open_example().job
    for path, text in (("core.rows", "4"), ("core.rows", "2"), ("fan.diameter", "18 in")):
        edit.set_field(number, path, text, sitting="one page")
    edit.undo(number)
    text = job_verbs.record(number).shown.text
    assert 'diameter = "19 in"' in text
    assert "rows = 2" in text
    edit.undo(number)
    assert "rows = 3" in job_verbs.record(number).shown.text


def test_fit_judges_the_plan_that_was_taken_and_not_the_radiator_that_is_in() -> None:
    job = dataclasses.replace(service.demo_job(), plan_taken=("recore_4_row", "drain_fill_bleed"))
    (offer,) = job.fit.offers
    bare = dataclasses.replace(offer, name="offer 1", facts={})
    none_on_offer = dataclasses.replace(job, fit=dataclasses.replace(job.fit, offers=()))
    (one,) = fit_verbs.fit_job(none_on_offer).fits
    assert "recore_4_row" in one.candidate.remedies
    named = [fit_verbs.name(one, "us") for one in fit_verbs.fit_job(job).fits]
    assert named[0].startswith("recore, 4-row")
    assert named[1] == offer.name
    with_bare = dataclasses.replace(job, fit=dataclasses.replace(job.fit, offers=(offer, bare)))
    assert "offer 1" not in [fit_verbs.name(one, "us") for one in fit_verbs.fit_job(with_bare).fits]


def test_the_radiator_on_offer_is_weighed_and_can_be_ordered(demo_diagnosed: Diagnosed, demo_chosen: Chosen) -> None:
    """The shop asks first whether this one will hold, and whether it goes in."""
    ids = _offer_by_itself(demo_chosen)
    made = writing.order(demo_chosen.job, plan=ALUMINIUM, diagnosed=demo_diagnosed, chosen=demo_chosen)
    assert made.plan == ids
    assert any(part.size.startswith("welded aluminum, two rows of 1 in") for part in made.parts)


def test_an_order_can_be_written_for_any_plan_of_known_remedies(demo_diagnosed: Diagnosed) -> None:
    """Whatever the choice lists: somebody may have decided already."""
    plan = ("replace_cap", "hood_louvers")
    job = plan_taken.asked_for(demo_diagnosed.job, ",".join(plan))
    assert job.plan_taken == plan


@pytest.mark.usefixtures("_own_store")
def test_what_was_ordered_is_recorded_once_and_later_steps_are_about_it() -> None:
    number = job_verbs.open_example().job
    plan = (ALUMINIUM, "drain_fill_bleed")
    assert plan_taken.ordered(number, plan) is not None
    assert plan_taken.ordered(number, plan) is None
    assert job_verbs.stored_job(number).plan_taken == plan


def test_what_if_of_a_closed_job_is_about_the_vehicle_as_it_left_the_shop(demo_diagnosed: Diagnosed) -> None:
    job = demo_diagnosed.job
    confirmed = Confirmed(causes=("fan_clutch_slips",), contributing=(), how="seen")
    closed = dataclasses.replace(job, confirmed=confirmed, plan_taken=("replace_fan_clutch", "air_conditioning_off"))
    open_still = dataclasses.replace(closed, confirmed=None)
    for one in (closed, open_still):
        ensemble_cache.remember(dataclasses.replace(demo_diagnosed, job=one))
    before, after = (what_if(one, Changes(), duty="ridge climb") for one in (open_still, closed))
    assert after.rests_on == before.rests_on == "diagnosis"
    assert after.gauge.p50 < before.gauge.p50 - 2.0
    assert any("With the work that was done: replace the fan clutch" in words for words in after.remarks)
    assert not any("With the work" in words for words in before.remarks)


def test_a_crossflow_core_is_drawn_with_its_tank_beside_it_and_a_us_loop_has_no_kilowatts() -> None:
    loop = what_if(service.demo_job(), Changes()).loop
    down = loop_picture(loop, "us", title="down", limit=380.0)
    across = loop_picture(dataclasses.replace(loop, crossflow=True), "us", title="across", limit=380.0)
    assert "tank-beside" in across
    assert "tank-beside" not in down
    assert "kW" not in down
    assert "Btu/min" in down
    assert "kW" in loop_picture(loop, "metric", title="down", limit=380.0)


def test_the_headline_of_a_road_test_says_what_it_means_for_the_customer() -> None:
    """A run that was 13 °F over the middle and took the worst day from 80 to 58 % is not headed "As forecast."."""
    said = works("as forecast", 0.9, proves=True, cool=True)
    assert said == "It stayed under the limit, but ran on the hot side of the forecast."
    worst = worst_day_now(0.58, 0.80, "long climb")
    assert worst == (
        "Worst day (long climb): 6 chances in 10 to stay cool; the order says 8 chances in 10, before this road test."
    )


def test_advice_for_a_drive_names_the_speed_of_the_climb_that_ends_in_the_peak() -> None:
    """A hill at 35 mph that boils was advised "38 instead of 50", the speed of a low rise long before."""
    time = np.arange(0.0, 600.0, 10.0)
    speed = np.where(time < 200.0, 22.0, np.where(time < 500.0, 15.0, 0.0))
    grade = np.where(time < 100.0, 0.03, np.where(time < 200.0, 0.0, np.where(time < 500.0, 0.06, 0.0)))
    road = SimpleNamespace(profile=SimpleNamespace(time=time, speed=speed, grade=grade), peak_time=560.0)
    asked = cast("DriveForecast", road)
    assert DriveForecast.climbing_speed.__get__(asked) == pytest.approx(15.0)
    road.climbing_speed = 15.0
    assert not DriveForecast.climbs_alike.__get__(asked)
    road.peak_time, road.climbing_speed = 90.0, 22.0
    assert DriveForecast.climbing_speed.__get__(asked) == pytest.approx(22.0)


@pytest.mark.parametrize(
    ("clocks", "minutes"),
    [
        (("2:05 pm", "2:20", "2:35"), (0, 15, 30)),
        (("11:50 am", "12:05", "1:10 pm"), (0, 15, 80)),
        (("11:50", "12:05 am", "12:20"), (0, 15, 30)),
        (("2:05 pm", "2:20 pm", "2:35 pm"), (0, 15, 30)),
    ],
)
def test_a_log_that_says_pm_once_loses_no_line(clocks: tuple[str, ...], minutes: tuple[int, ...]) -> None:
    found, _ = seconds(pl.Series(clocks), head_of("clock"), "", decimal_comma=False)
    assert list(found - found[0]) == pytest.approx([60.0 * one for one in minutes])
    if "pm" in clocks[0]:
        assert found[0] == pytest.approx((14 * 60 + 5) * 60.0)


def test_lines_that_are_noted_on_the_page_may_say_pm() -> None:
    rows = [
        NotedRow(at=at, gauge=gauge, speed="35", grade="6", air_conditioning="on")
        for at, gauge in (("12:50 pm", "190"), ("1:05", "205"), ("1:10 pm", "212"))
    ]
    assert "12:50 pm,190 °F" in table_text(rows, "us")


def test_a_radiator_with_plastic_tanks_is_not_rodded_out_or_recored() -> None:
    """The sheet asks for tanks and metal: a copper core between crimped plastic tanks can be opened by nobody."""
    sheet = typical("coupe-1980s-v8-air").sheet
    facts = dict(sheet.facts)
    told = {"core.material": 0.0, "core.tanks": 1.0}
    for path, value in told.items():
        facts[path] = dataclasses.replace(facts[path], value=value, spread=0.0)
    vehicle = draws(dataclasses.replace(sheet, facts=facts), 8, 1)
    remedies = {one.id: one for one in REMEDIES}
    ids = ("rod_core", "recore_as_it_was", "recore_3_row", "recore_4_row", "recore_two_pass")
    assert all(float(np.max(np.asarray(remedies[one].fits(vehicle)))) == 0.0 for one in ids)
    metal = dataclasses.replace(vehicle, core=dataclasses.replace(vehicle.core, tanks=np.zeros(8)))
    assert all(float(np.min(np.asarray(remedies[one].fits(metal)))) > 0.0 for one in ids)
    assert guessed_parts(facts)[0] == "radiator, crimped plastic tanks"
    assert "core.tanks" in FIRST_OF_A_SHEET


def test_the_area_of_a_trailer_is_explained_in_the_units_in_which_it_is_asked() -> None:
    measure = duty_fields()["trailer_drag_area"].in_the_bay()
    assert "13 to 17 ft2" in spoken(measure, "us")
    assert "m2" not in spoken(measure, "us")
    assert "1.2 to 1.6 m2" in spoken(measure, "metric")
    assert "ft2" not in spoken(measure, "metric")


@pytest.mark.usefixtures("_own_store")
def test_what_is_odd_in_a_job_is_told_when_it_is_opened(tmp_path: Path, say: Callable[..., Any]) -> None:
    file = tmp_path / "odd.toml"
    file.write_text(
        'format = "toptank-job-2"\n[job]\ntitle = "odd"\n[vehicle]\nlike = "minibus-1970s-v8-air"\n'
        '[core]\nrows = 8\n[[duty]]\nname = "hill"\n',
        encoding="utf-8",
    )
    told = say("job", "new", file)
    assert "Job 1 opened" in told.out
    assert "core.rows = 8" in told.out


def test_the_record_speaks_in_the_words_of_the_form() -> None:
    assert change_words("core.rows: 4", "us") == "Rows of tubes, front to back: 4"
    assert change_words("duty.1.trailer_mass: 3500 lb", "us") == "Condition 2, weight of the trailer: 3500 lb"
    assert change_words("job.complaint: taken out", "us") == "Complaint: taken out"
    assert change_words("worst_day 1 taken out", "us") == "Condition of the worst day 1: taken out"
    assert change_words("fan_clutch.kind: none", "metric").endswith(": none")
    assert change_words("the customer rang: all well", "us") == "the customer rang: all well"
    for path in (f"{section}.{key}" for section, keys in sections().items() for key in keys):
        assert path not in change_words(f"{path}: 1", "us"), path


def test_an_estimate_is_no_metric_figure_in_disguise() -> None:
    assert show_estimate(100.0, ALTITUDE, "us") == "330 ft"
    assert show_estimate(0.005, LENGTH, "us") == "0.2 in"
    assert show_estimate(0.005, LENGTH, "metric") == "5 mm"
    assert show_estimate(0.626 * 0.0254, LENGTH, "us") == "0.626 in"
    assert show_estimate(5.0e-3, DISPLACEMENT, "us") == "305 in3"


@pytest.mark.parametrize("dimension", [one for one in vars(dimensions).values() if isinstance(one, Dimension)])
def test_a_british_shop_has_miles_and_psi_beside_degrees_celsius(dimension: Dimension) -> None:
    unit = unit_of(dimension, "uk")
    wanted = {"temperature": "°C", "speed": "mph", "pressure": "psi", "length": "in", "distance": "mi", "mass": "kg",
              "volume": "L", "swept volume": "L", "altitude": "ft"}  # fmt: skip
    assert unit == wanted.get(dimension.name, unit)
    assert unit in (dimension.us, dimension.metric)
    if unit not in ("", "1"):
        told = parse(f"3 {unit}", dimension, system="uk", field="it").value
        assert told == pytest.approx(parse("3", dimension, system="uk", field="it").value)
