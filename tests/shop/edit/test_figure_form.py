"""A figure of the complaint is proposed as a reading at the condition it was read at, and counts once confirmed."""

import pytest

from toptank.shop.edit.figure_form import proposed_figures
from toptank.shop.job.job import Job
from toptank.shop.job.job_file import job_of
from toptank.shop.record.store.document import parsed

TEXT = """format = "toptank-job-2"
[job]
title = "pickup"
complaint = "Hits 230 F on the grade, 210 F on the highway. It was 95 degrees out. 148,000 miles on it."
[vehicle]
like = "pickup-1970s-v8-air"
[[duty]]
name = "the pass"
ambient = { value = "80 F", how = "assumed" }
speed = "45 mph"
grade = "6 %"
"""


def _job(text: str) -> Job:
    return job_of(parsed(text))


def test_a_reading_goes_to_the_condition_it_was_read_at_and_a_new_one_is_added_where_there_is_none() -> None:
    assert _job(TEXT).evidence.readings == ()
    told = {one.quote: one for one in proposed_figures(_job(TEXT))}
    climb = _job(told["230 F"].written(TEXT))
    assert [(one.duty, one.low) for one in climb.evidence.readings] == [
        ("the pass", pytest.approx((230.0 + 459.67) / 1.8))
    ]
    road = _job(told["210 F"].written(TEXT))
    assert [duty.name for duty in road.duties] == ["the pass", "on the road"]
    assert road.evidence.readings[0].duty == "on the road"


def test_the_weather_fills_only_what_nobody_has_said() -> None:
    weather = next(one for one in proposed_figures(_job(TEXT)) if one.quote.startswith("95"))
    assert _job(weather.written(TEXT)).duties[0].facts["ambient"].value == pytest.approx((95.0 + 459.67) / 1.8)
    measured = TEXT.replace('{ value = "80 F", how = "assumed" }', '"80 F"')
    assert not [one for one in proposed_figures(_job(measured)) if one.quote.startswith("95")]


def test_the_mileage_is_proposed_once() -> None:
    mileage = next(one for one in proposed_figures(_job(TEXT)) if one.quote.startswith("148,000"))
    job = _job(mileage.written(TEXT))
    assert job.evidence.history.distance == pytest.approx(148_000 * 1609.344)
    assert not [one for one in proposed_figures(job) if one.quote.startswith("148,000")]


def test_what_is_written_down_already_is_proposed_no_more() -> None:
    text = TEXT
    for _ in range(6):
        if not (left := proposed_figures(_job(text))):
            break
        text = left[0].written(text)
    assert proposed_figures(_job(text)) == ()
    assert len(_job(text).evidence.readings) == 2


WORDS = TEXT.replace(
    "Hits 230 F on the grade, 210 F on the highway. It was 95 degrees out. 148,000 miles on it.",
    "Boils over on the pass, runs hot in stop and go, fine on the freeway.",
)


def _all_written(text: str) -> Job:
    for _ in range(9):
        if not (left := proposed_figures(_job(text))):
            break
        text = left[0].written(text)
    assert proposed_figures(_job(text)) == ()
    return _job(text)


def test_how_hot_it_ran_becomes_a_reading_in_words_at_the_condition_named() -> None:
    assert _job(WORDS).evidence.readings == ()
    job = _all_written(WORDS)
    assert {one.duty: one.words for one in job.evidence.readings} == {
        "the pass": "boiled", "in traffic": "hot", "on the road": "fine",
    }  # fmt: skip
    speeds = {duty.name: duty.facts["speed"].value for duty in job.duties}
    assert speeds["in traffic"] == pytest.approx(12 * 0.44704)
    assert speeds["on the road"] == pytest.approx(60 * 0.44704)


def test_a_climb_that_the_job_has_not_is_one_with_a_grade() -> None:
    job = _all_written(WORDS.replace('grade = "6 %"', 'grade = "0 %"'))
    climb = next(duty for duty in job.duties if duty.name == "on a climb")
    assert climb.facts["grade"].value == pytest.approx(0.06)


def test_a_heat_of_no_place_is_read_where_the_job_runs_hot_and_not_where_a_figure_was_read() -> None:
    plain = _job(WORDS.replace("Boils over on the pass, runs hot in stop and go, fine on the freeway", "It runs hot"))
    (only,) = proposed_figures(plain)
    assert only.told == "hot, the pass"
    both = _job(
        WORDS.replace(
            "Boils over on the pass, runs hot in stop and go, fine on the freeway", "Overheats on the pass, 240 F"
        )
    )
    assert [one.told for one in proposed_figures(both)] == ["gauge: 240 °F, the pass"]


UNSAID = """format = "toptank-job-2"
[job]
title = "Saloon"
complaint = "COMPLAINT"
[vehicle]
like = "saloon-1980s-four-air"
[[duty]]
name = "where it runs hot"
"""


def test_a_condition_of_which_nobody_said_where_it_was_is_not_the_idle_that_a_complaint_tells() -> None:
    """It stands still only because nobody wrote a speed."""
    job = _all_written(UNSAID.replace("COMPLAINT", "It overheats at idle and is fine on the highway."))
    assert {one.duty: one.words for one in job.evidence.readings} == {"standing": "hot", "on the road": "fine"}


@pytest.mark.parametrize(
    ("complaint", "drive"),
    [
        ("It has a viscous fan clutch.", "viscous clutch"),
        ("The belt fan was taken off for one electric fan.", None),
        ("It has a belt fan and an electric fan in front.", None),
        ("The fan is noisy.", None),
    ],
)
def test_the_kind_of_fan_is_proposed_where_the_words_name_one_kind(complaint: str, drive: str | None) -> None:
    found = [one for one in proposed_figures(_job(UNSAID.replace("COMPLAINT", complaint))) if "fan" in one.told]
    assert [one.values[0][:2] for one in found] == ([("fan.drive", drive)] if drive else [])
    if found:
        written = _job(found[0].written(UNSAID.replace("COMPLAINT", complaint)))
        assert written.sheet.facts["fan.drive"].value == 0.0
        assert "fan" not in " ".join(one.told for one in proposed_figures(written))


def test_what_was_tried_is_proposed_with_what_it_did() -> None:
    job = _all_written(UNSAID.replace("COMPLAINT", "It overheats. New radiator and water pump, no difference."))
    assert {(one.part, one.effect) for one in job.evidence.changes} == {("radiator", "none"), ("water_pump", "none")}


def test_two_figures_of_a_needle_that_swings_are_one_range() -> None:
    job = _all_written(UNSAID.replace("COMPLAINT", "The needle goes up to 230 F, drops to 180 F, then climbs again."))
    (read,) = job.evidence.readings
    assert (read.low, read.high) == (pytest.approx((180.0 + 459.67) / 1.8), pytest.approx((230.0 + 459.67) / 1.8))


def test_with_and_without_air_conditioning_are_two_conditions() -> None:
    text = "Hot in traffic with the air conditioning on. Fine in traffic with the air conditioning off."
    job = _all_written(UNSAID.replace("COMPLAINT", text))
    cooled = {duty.name: duty.facts["air_conditioning"].value for duty in job.duties}
    assert {(cooled[one.duty], one.words) for one in job.evidence.readings} == {(1.0, "hot"), (0.0, "fine")}
