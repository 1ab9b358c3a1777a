"""A store of any age opens; one of the future or of somebody else is left alone."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import create_engine

from toptank.shop.record.store import jobs_and_revisions as kept
from toptank.shop.record.store import migrations
from toptank.shop.record.store.migrations import MIGRATIONS, NEWEST
from toptank.shop.record.store.notes_and_answers import add_note, keep_answer
from toptank.shop.record.store.opening import opened
from toptank.shop.record.store.record import StoreTrouble

AT = "2026-01-02T03:04:05.000+00:00"
TEXT = """format = "toptank-job-1"
[job]
title = "Van"
[vehicle]
like = "pickup-1970s-v8-air"
[[duty]]
name = "usual"
"""


def _make(file: Path, version: int) -> None:
    engine = create_engine(f"sqlite:///{file}")
    with engine.begin() as connection:
        migrations.apply_missing(connection, upto=version)
    engine.dispose()


def _shape(file: Path) -> list[tuple[str, str, str]]:
    with closing(sqlite3.connect(file)) as connection:
        return sorted(connection.execute("SELECT type, name, coalesce(sql, '') FROM sqlite_master").fetchall())


def test_the_steps_are_numbered_without_a_gap() -> None:
    assert [step.number for step in MIGRATIONS] == list(range(1, NEWEST + 1))


@pytest.mark.parametrize("version", range(1, NEWEST))
def test_an_older_store_is_brought_up_to_date_with_all_that_it_holds(tmp_path: Path, version: int) -> None:
    old, new = tmp_path / "old.sqlite", tmp_path / "new.sqlite"
    _make(old, version)
    with closing(sqlite3.connect(old)) as file, file:  # written as a toptank of that version did
        file.execute("INSERT INTO job (opened) VALUES (?)", (AT,))
        row = (1, 1, None, AT, "M", "why", "Van", "", "open", kept.checksum(TEXT), TEXT)
        columns = "job, number, parent, at, author, note, title, complaint, state, checksum, text"
        file.execute(f"INSERT INTO revision ({columns}) VALUES ({', '.join('?' * len(row))})", row)
        file.execute("INSERT INTO note (job, at, author, text) VALUES (1, ?, 'M', 'runs hot')", (AT,))
    with opened(old) as store:
        found = kept.record(store, 1)
        assert (found.shown.text, found.shown.author, found.notes[0].text) == (TEXT, "M", "runs hot")
        assert (found.attachments, found.answers) == ((), ())
        kept.save(store, 1, TEXT, based_on=1, author="", note="", at=AT)
    with opened(new):
        pass
    assert _shape(old) == _shape(new)
    with closing(sqlite3.connect(old)) as file:
        applied = [number for (number,) in file.execute("SELECT number FROM applied_migration ORDER BY number")]
    assert applied == list(range(1, NEWEST + 1))


def test_a_step_that_fails_leaves_the_store_as_it_was(tmp_path: Path) -> None:
    file = tmp_path / "old.sqlite"
    _make(file, 1)
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.execute("CREATE TABLE answer (in_the_way TEXT)")  # the second step makes `attachment` first
    before = _shape(file)
    with pytest.raises(StoreTrouble), opened(file):
        pass
    assert _shape(file) == before


def test_a_store_of_a_newer_toptank_is_left_alone(tmp_path: Path) -> None:
    file = tmp_path / "new.sqlite"
    with opened(file) as store:
        kept.add_job(store, TEXT, author="", note="", at=AT)
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.execute("INSERT INTO applied_migration VALUES (?, 'from the future', ?)", (NEWEST + 1, AT))
    with (
        pytest.raises(StoreTrouble, match=f"has version {NEWEST + 1}, and this toptank knows up to {NEWEST}"),
        opened(file),
    ):
        pass


def test_somebody_elses_tables_are_left_alone(tmp_path: Path) -> None:
    file = tmp_path / "theirs.sqlite"
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.execute("CREATE TABLE songs (title TEXT)")
    before = _shape(file)
    with pytest.raises(StoreTrouble, match="songs: are tables of others"), opened(file):
        pass
    assert _shape(file) == before


def test_what_is_no_store_is_left_alone(tmp_path: Path) -> None:
    file = tmp_path / "letter.db"
    file.write_bytes(b"Dear customer, " * 500)
    with pytest.raises(StoreTrouble, match="is damaged, or is no store"), opened(file):
        pass
    assert file.read_bytes() == b"Dear customer, " * 500


def test_opening_again_changes_nothing(tmp_path: Path) -> None:
    file = tmp_path / "jobs.sqlite"
    with opened(file) as store:
        kept.add_job(store, TEXT, author="", note="", at=AT)
        add_note(store, 1, "runs hot", author="", at=AT)
    before = file.read_bytes()
    with opened(file) as store:
        assert kept.record(store, 1).notes[0].text == "runs hot"
    assert file.read_bytes() == before


def test_answers_of_an_older_store_outlive_the_change_of_their_table(tmp_path: Path) -> None:
    file = tmp_path / "old.sqlite"
    _make(file, 3)
    with closing(sqlite3.connect(file)) as old, old:
        old.execute("INSERT INTO job (opened) VALUES (?)", (AT,))
        row = (1, 1, None, AT, "M", "why", "Van", "", "open", kept.checksum(TEXT), TEXT)
        old.execute(f"INSERT INTO revision VALUES ({', '.join('?' * len(row))})", row)
        for number in (1, 2):
            answer = (number, 1, 1, "forecast", 5, 800, "2026.3", AT, f'{{"a": {number}}}')
            old.execute(f"INSERT INTO answer VALUES ({', '.join('?' * len(answer))})", answer)
    with opened(file) as store:
        added = keep_answer(
            store, 1, 1, kind="verdict", seed=1, draws=512, equations_version="2026.3", at=AT, answer='{"a": 3}'
        )
        keep_answer(store, 1, 1, kind="choice", seed=1, draws=400, equations_version="2026.3", at=AT, answer='{"a": 4}')
        found = kept.record(store, 1).answers
    assert [(one.number, one.kind, one.answer) for one in found] == [
        (1, "forecast", '{"a": 1}'), (2, "forecast", '{"a": 2}'), (3, "verdict", '{"a": 3}'),
        (4, "choice", '{"a": 4}'),
    ]  # fmt: skip
    assert added.number == 3
    with closing(sqlite3.connect(file)) as new, pytest.raises(sqlite3.IntegrityError, match="never changed"):
        new.execute("DELETE FROM answer")
