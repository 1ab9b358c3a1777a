"""What was found broken when a shop tried the product, each with what must be so instead."""

import dataclasses
from collections.abc import Callable
from pathlib import Path

import pytest

from toptank.interfaces.web.drawing.loop_picture import loop_picture
from toptank.shop.answers.answers import Chosen, Diagnosed
from toptank.shop.ask import fit as fit_verbs
from toptank.shop.ask import service
from toptank.shop.ask.what_if import Changes, what_if
from toptank.shop.cache import ensemble_cache
from toptank.shop.edit import edit
from toptank.shop.job.evidence_file import Confirmed
from toptank.shop.job.job_file import job_of
from toptank.shop.order import writing
from toptank.shop.record import job_verbs, plan_taken
from toptank.studies.choose.coolant.cap_choice import choose_cap
from toptank.units.quantity import parse_choice
from toptank.units.refusal import Refusal

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
