"""What a complaint tells is proposed with its words, and counts once it is confirmed, and only then."""

from toptank.shop.edit.edit_document import with_row
from toptank.shop.edit.symptom_form import heard, symptom_row, ticked
from toptank.shop.job.job import Job
from toptank.shop.job.job_file import job_of
from toptank.shop.record.store.document import parsed

TEXT = """format = "toptank-job-2"
[job]
title = "pickup"
complaint = "Left a puddle under the nose, and the heater went cold. No steam."
[vehicle]
like = "pickup-1970s-v8-air"
[[duty]]
name = "town"
ambient = "90 F"
speed = "0 mph"
"""


def _job(text: str) -> Job:
    return job_of(parsed(text))


def test_words_of_the_complaint_are_proposed_with_the_words_they_rest_on() -> None:
    found = {one.symptom: one for one in heard(_job(TEXT))}
    assert not found["puddle"].denied
    assert "puddle" in found["puddle"].quote
    assert "heater" in found["heater_cold"].quote
    assert _job(TEXT).evidence.symptoms == ()


def test_a_proposal_that_is_confirmed_counts_and_is_proposed_no_more() -> None:
    one = next(one for one in heard(_job(TEXT)) if one.symptom == "puddle")
    job = _job(with_row(TEXT, "symptom", one.row))
    assert [(told.symptom, told.denied) for told in job.evidence.symptoms] == [("puddle", False)]
    assert "puddle" not in {other.symptom for other in heard(job)}
    assert [row.place for row in ticked(job)] == [0]


def test_a_proposal_that_is_not_so_is_kept_as_a_denial() -> None:
    one = next(one for one in heard(_job(TEXT)) if one.symptom == "heater_cold")
    job = _job(with_row(TEXT, "symptom", one.contrary_row))
    assert [(told.symptom, told.denied) for told in job.evidence.symptoms] == [("heater_cold", True)]
    assert ticked(job)[0].told.startswith("not so")


def test_a_question_answered_with_no_is_a_denial() -> None:
    job = _job(with_row(TEXT, "symptom", symptom_row("gurgle", yes=False)))
    assert job.evidence.symptoms[0].denied
