"""A plan that was taken stays taken; a reading goes to its duty, whatever that is called by now."""

from pathlib import Path

import pytest

from toptank.shop.ask import service
from toptank.shop.cache import answer_cache
from toptank.shop.edit import complaint_form, edit, row_names
from toptank.shop.record import job_verbs, plan_note, plan_taken
from toptank.shop.record.store import document
from toptank.units.refusal import Refusal


@pytest.fixture
def number(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> int:
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path))
    return job_verbs.open_example().job


def test_the_plan_that_was_taken_last_counts(number: int) -> None:
    assert plan_note.taken(job_verbs.record(number)) is None
    plan_taken.take(number, ["replace_cap"])
    plan_taken.take(number, ["top_up_bleed"])
    job_verbs.add_note(number, "hums at idle")
    assert plan_note.taken(job_verbs.record(number)) == ("top_up_bleed",)
    assert service.open_job(str(number)).plan_taken == ("top_up_bleed",)  # whoever asks for the order of the job


def test_work_that_was_taken_stays_weighable_whatever_is_found_out_later(number: int) -> None:
    """A plan that no choice holds any more: the order is out, the work is done, its check drive still to come."""
    beaten = ("set_timing", "clear_exhaust")
    assert beaten not in [one.ids for one in answer_cache.chosen(job_verbs.stored_job(number)).outlooks]
    plan_taken.take(number, beaten)
    chosen = answer_cache.chosen(job_verbs.stored_job(number))
    assert plan_taken.plan_of(chosen, None).ids == beaten
    assert [one.cost for one in chosen.outlooks[1:]] == sorted(one.cost for one in chosen.outlooks[1:])
    assert len({one.ids for one in chosen.outlooks}) == len(chosen.outlooks)


def _no_work() -> None:
    raise AssertionError("it was worked on first")


def test_an_unknown_plan_is_refused_before_any_work(number: int) -> None:
    job = job_verbs.stored_job(number)
    road = answer_cache.Road(legs="3 miles up 6 % at 45 mph", plan="replace the cap + paint it red")
    with pytest.raises(Refusal, match="'paint it red' is no remedy"):
        answer_cache.road(number, job, road, _no_work)
    for ask in (answer_cache.order, answer_cache.check_drive):
        with pytest.raises(Refusal, match="'replace the cab' is no remedy; did you mean 'replace the radiator cap'"):
            ask(job, "Replace the cab", _no_work)


def test_a_reading_goes_to_the_row_that_was_meant_though_it_was_renamed_and_moved(number: int) -> None:
    rows = row_names.names_of(job_verbs.record(number).shown)["duty"]
    edit.set_field(number, "duty.1.name", "up to the quarry", row=rows[1])
    edit.remove_row(number, "duty", 0)
    edit.add_reading(number, 1, {"gauge": "219", "words": ""}, row=rows[1])
    told = complaint_form.rows_of(document.parsed(job_verbs.record(number).shown.text), "reading")[-1]
    assert told == {"duty": "up to the quarry", "gauge": "219 °F"}
    edit.remove_row(number, "duty", 0)
    with pytest.raises(Refusal, match="taken out by somebody"):
        edit.add_reading(number, 1, {"gauge": "219"}, row=rows[1])
