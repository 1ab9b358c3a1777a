"""What earlier versions wrote is read for ever, and means what it meant; written again, it carries ids."""

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from toptank.catalogue.causes.all_causes import CAUSE_IDS
from toptank.shop.edit import edit, row_names
from toptank.shop.job.former_format import upgraded
from toptank.shop.job.job_file import job_of, read_job
from toptank.shop.job.price_book import built_in, read_prices
from toptank.shop.order import after_work, ticks
from toptank.shop.record import job_verbs, plan_note
from toptank.shop.record.store import document
from toptank.shop.record.store.export import read_back

BEFORE = Path(__file__).parents[2] / "written_before"
FORMER = sorted((BEFORE / "toptank-job-1").rglob("*.toml"))


@pytest.mark.parametrize("file", FORMER, ids=lambda file: file.stem)
def test_a_job_of_the_first_format_means_what_the_same_job_means_brought_along(file: Path) -> None:
    tables = document.parsed(upgraded(file.read_text(encoding="utf-8")))
    assert job_of(tables) == read_job(file)
    checked: Any = tables.get("check", [])
    assert [one["name"] for one in checked] == [one.check for one in read_job(file).evidence.findings]
    confirmed: Any = tables.get("confirmed", {})
    assert set(confirmed.get("causes", [])) <= set(CAUSE_IDS)


@pytest.mark.parametrize("file", FORMER, ids=lambda file: file.stem)
def test_brought_along_it_keeps_every_comment_and_is_brought_along_once(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    made = upgraded(text)
    assert upgraded(made) == made
    assert made.splitlines()[0] == text.splitlines()[0].replace("toptank-job-1", "toptank-job-2")
    assert [line.partition("#")[2] for line in made.splitlines()] == [
        line.partition("#")[2] for line in text.splitlines()
    ]
    assert document.parsed(made)["format"] == "toptank-job-2"


def test_a_price_book_of_the_first_format_has_the_same_prices() -> None:
    book = read_prices(BEFORE / "toptank-prices-1.toml")
    assert dict(book.parts) == dict(built_in().parts)


@pytest.fixture
def former_store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a copy of the record as version 7 left it: job 1 with all kinds of notes, job 2 closed."""
    file = tmp_path / "jobs.sqlite"
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.executescript((BEFORE / "record-7.sql").read_text(encoding="utf-8"))
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path))
    return file


@pytest.mark.usefixtures("former_store")
def test_notes_of_an_older_record_say_what_they_are_about_and_keep_their_words() -> None:
    record = job_verbs.record(1)
    assert plan_note.taken(record) == ("replace_fan_clutch", "drain_fill_bleed")
    assert ticks.ticked(record) == {"Replace the fan clutch."}
    readings = [note for note in record.notes if after_work.is_after(note)]
    assert [(note.text, note.subject) for note in readings] == [
        ("after the work: farm gate: gauge 198 °F", '{"duty": "farm gate", "gauge": "198 °F"}')
    ]
    assert [note.text for note in record.notes][-1] == "hums at idle"
    assert [note.kind for note in record.notes] == [
        "plan_taken", "plan_taken", "step_done", "step_done", "step_open", "gauge_after", "",
    ]  # fmt: skip


@pytest.mark.usefixtures("former_store")
def test_the_history_of_an_older_record_stands_to_the_last_sign_and_can_be_taken_back_further() -> None:
    before = job_verbs.history(1)
    assert [one.note for one in before[-2:]] == ["check 3 taken out", "undone: back to revision 5"]
    assert "spin the fan, engine off" in before[-1].text
    names = row_names.names_of(before[-1])["check"]
    edit.undo(1)  # goes on from where the last undoing ended
    assert job_verbs.record(1).shown.note == "undone: back to revision 4"
    edit.undo(1)
    assert job_verbs.history(1)[: len(before)] == before
    assert len(names) == 4


@pytest.mark.usefixtures("former_store")
def test_an_older_job_that_is_written_on_carries_ids_and_its_rows_keep_their_names() -> None:
    shown = job_verbs.record(1).shown
    names = row_names.names_of(shown)["check"]
    told = job_verbs.stored_job(1).evidence
    edit.set_field(1, "check.2.note", "cold, six turns", row=names[2])
    after = job_verbs.record(1).shown
    assert 'format = "toptank-job-2"' in after.text
    assert 'name = "spin_fan"' in after.text
    assert 'part = "water_pump"' in after.text
    assert 'after_work = ["head_gasket", "thermostat_removed"]' in after.text
    assert row_names.names_of(after)["check"] == names
    assert job_verbs.stored_job(1).evidence.changes == told.changes
    assert job_verbs.stored_job(1).evidence.history == told.history
    assert [one.check for one in job_verbs.stored_job(1).evidence.findings] == [one.check for one in told.findings]


@pytest.mark.usefixtures("former_store")
def test_what_an_older_record_was_closed_with_is_known_by_its_ids() -> None:
    confirmed = job_verbs.stored_job(2).confirmed
    assert confirmed is not None
    assert confirmed.causes == ("gauge_reads_high", "coolant_low")
    assert confirmed.contributing == ("cap_weak",)


@pytest.mark.usefixtures("former_store")
def test_a_job_that_was_carried_away_before_is_saved_where_it_came_from(tmp_path: Path) -> None:
    file = BEFORE / "carried-record-1.toml"
    saved = tmp_path / "written_on.toml"
    saved.write_text(file.read_text(encoding="utf-8").replace("hot, six turns", "hot, seven turns"), encoding="utf-8")
    assert job_verbs.save(1, saved).number == 8


def test_notes_that_were_carried_away_before_are_understood() -> None:
    notes = read_back((BEFORE / "carried-record-1.toml").read_text(encoding="utf-8")).notes
    assert [(note.kind, note.subject) for note in notes[:2]] == [
        ("plan_taken", "replace_cap"),
        ("plan_taken", "replace_fan_clutch,drain_fill_bleed"),
    ]
