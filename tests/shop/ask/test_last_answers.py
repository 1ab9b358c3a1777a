"""The last answer of a job is read from its record: whole, and told to be old where the job has changed since."""

from pathlib import Path

import pytest

from toptank.shop.answers.answers import Chosen, Diagnosed
from toptank.shop.answers.choice import ChoiceAnswer, choice_answer
from toptank.shop.answers.diagnosis import DiagnosisAnswer, diagnosis_answer
from toptank.shop.cache import last_answers
from toptank.shop.edit import edit
from toptank.shop.job.job import Job
from toptank.shop.record import job_verbs, own_prices
from toptank.shop.record.store.record import JobRecord


@pytest.fixture
def number(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> int:
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path))
    return job_verbs.open_example().job


def _read(number: int) -> tuple[JobRecord, Job]:
    record = job_verbs.record(number)
    return record, job_verbs.job_of_record(record)


def _kept(number: int, *answers: DiagnosisAnswer | ChoiceAnswer) -> tuple[JobRecord, Job]:
    record, job = _read(number)
    for answer in answers:
        last_answers.keep(record, job, answer)
    return _read(number)


def test_a_diagnosis_and_a_choice_come_back_as_they_were_shown(
    number: int, demo_diagnosed: Diagnosed, demo_chosen: Chosen
) -> None:
    found, plans = diagnosis_answer(demo_diagnosed), choice_answer(demo_chosen)
    assert last_answers.last_diagnosis(*_read(number)) is None
    record, job = _kept(number, found, plans)
    for last, shown in (
        (last_answers.last_diagnosis(record, job), found),
        (last_answers.last_choice(record, job), plans),
    ):
        assert last is not None
        assert last.holds
        assert last.answer.record("us") == shown.record("us")


def test_an_answer_is_old_once_what_it_rests_on_has_changed_and_not_by_a_title(
    number: int, demo_diagnosed: Diagnosed, demo_chosen: Chosen
) -> None:
    _kept(number, diagnosis_answer(demo_diagnosed), choice_answer(demo_chosen))
    edit.set_field(number, "job.title", "Another name")
    told = last_answers.last_diagnosis(*_read(number))
    assert told is not None
    assert told.holds
    edit.set_field(number, "job.limit", "210 F")  # of the plans alone
    found, plans = last_answers.last_diagnosis(*_read(number)), last_answers.last_choice(*_read(number))
    assert found is not None
    assert found.holds
    assert plans is not None
    assert not plans.holds
    edit.set_field(number, "core.rows", "4")
    found = last_answers.last_diagnosis(*_read(number))
    assert found is not None
    assert not found.holds


def test_prices_of_the_shop_make_the_plans_old(number: int, demo_chosen: Chosen) -> None:
    record, job = _kept(number, choice_answer(demo_chosen))
    own_prices.save({"labour": "150"})
    last = last_answers.last_choice(record, job)
    assert last is not None
    assert not last.holds


def test_the_same_answer_is_kept_once(number: int, demo_diagnosed: Diagnosed) -> None:
    answer = diagnosis_answer(demo_diagnosed)
    _kept(number, answer)
    record, _ = _kept(number, answer)
    assert [one.kind for one in record.answers] == ["diagnosis"]


def test_in_other_units_it_is_not_shown(number: int, demo_diagnosed: Diagnosed) -> None:
    _kept(number, diagnosis_answer(demo_diagnosed))
    edit.set_units(number, "metric")
    assert last_answers.last_diagnosis(*_read(number)) is None
