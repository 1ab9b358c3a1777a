"""What was typed in one go is taken back in one go; what others did, and what was pressed, is a step of its own."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from toptank.shop.edit import edit, edit_groups, row_names
from toptank.shop.record import job_verbs
from toptank.shop.record.store import document

NOON = datetime(2026, 7, 1, 12, tzinfo=UTC)


class _Clock:
    def __init__(self) -> None:
        self.seconds = 0.0

    def now(self) -> str:
        return (NOON + timedelta(seconds=self.seconds)).isoformat(timespec="milliseconds")


@pytest.fixture
def clock(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> _Clock:
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path))
    one = _Clock()
    monkeypatch.setattr(job_verbs, "now", one.now)
    return one


@pytest.fixture
def number(clock: _Clock) -> int:
    return job_verbs.open_example().job


def _type(number: int, path: str, text: str, sitting: str) -> None:
    saved = edit.set_field(number, path, text, sitting=sitting)
    assert not isinstance(saved, edit.Clash)


def _numbers(number: int) -> list[list[int]]:
    return [[one.number for one in burst] for burst in edit_groups.bursts(job_verbs.history(number))]


def _whole(number: int, revision: int | None = None) -> dict[str, object]:
    return document.parsed(job_verbs.record(number, revision=revision).shown.text)


def test_a_slow_typist_makes_one_step_and_every_revision_stays(number: int, clock: _Clock) -> None:
    said = "hums on the hill"
    for place in range(2, len(said), 5):
        clock.seconds += 7.0
        _type(number, "job.complaint", said[:place], "one page")
    before = _whole(number, 1)
    _type(number, "core.rows", "4", "one page")
    # another field is another step: whoever takes back a wrong figure keeps the story
    assert _numbers(number) == [[1], [2, 3, 4], [5]]
    edit.undo(number)
    edit.undo(number)
    assert _whole(number) == before


def test_undo_goes_back_burst_by_burst_and_a_burst_lasts_a_minute(number: int, clock: _Clock) -> None:
    for seconds, rows in ((0, "4"), (59, "2"), (61, "4"), (130, "2")):
        clock.seconds = seconds
        _type(number, "core.rows", rows, "one page")
    assert _numbers(number) == [[1], [2, 3], [4], [5]]
    for revision in (4, 3, 1):
        edit.undo(number)
        assert _whole(number) == _whole(number, revision)


def test_what_somebody_else_or_a_press_did_is_a_step_of_its_own(number: int) -> None:
    _type(number, "core.rows", "4", "one page")
    _type(number, "fan.diameter", "20 in", "another page")
    _type(number, "core.rows", "2", "one page")
    edit.add_row(number, "reading", {"duty": "farm gate", "gauge": "218 F"})
    _type(number, "core.rows", "3", "one page")
    _type(number, "cap.pressure", "13 psi", "one page")
    edit.set_field(number, "cap.pressure", "15 psi")  # by no page
    assert _numbers(number) == [[1], [2], [3], [4], [5], [6], [7], [8]]
    assert isinstance(edit.set_field(number, "core.rows", "5", base="4", sitting="one page"), edit.Clash)


def test_rows_keep_their_names_when_a_burst_is_taken_back(number: int) -> None:
    names = row_names.names_of(job_verbs.record(number).shown)["duty"]
    for key in ("speed", "grade", "ambient"):
        _type(number, f"duty.1.{key}", {"speed": "31 mph", "grade": "3 %", "ambient": "71 F"}[key], "one page")
    edit.undo(number)
    assert row_names.names_of(job_verbs.record(number).shown)["duty"] == names
