"""A job carried whole to another record: every revision, note, answer and file, and nothing of anybody else's."""

import dataclasses
import sqlite3
import zipfile
from contextlib import closing
from pathlib import Path

import pytest

from toptank.shop.record.store import jobs_and_revisions as kept
from toptank.shop.record.store import notes_and_answers
from toptank.shop.record.store.attachments import attach, content
from toptank.shop.record.store.backup import back_up
from toptank.shop.record.store.carried_whole import bring_in, carry_out
from toptank.shop.record.store.opening import Store, opened
from toptank.shop.record.store.record import JobRecord
from toptank.units.refusal import Refusal

AT, LATER = "2026-01-02T03:04:05.000+00:00", "2026-01-03T03:04:05.000+00:00"
LOG = b"188 F at the pass\n" * 2000


def _text(title: str) -> str:
    return f"""format = "toptank-job-1"
[job]
title = "{title}"
[vehicle]
like = "pickup-1970s-v8-air"
[[duty]]
name = "usual"
"""


def _fill(store: Store, log: Path, *titles: str) -> None:
    for title in titles:
        log.write_bytes(title.encode() + LOG)
        job = kept.add_job(store, _text(title), author="M", note="", at=AT).job
        kept.save(store, job, _text(f"{title} again"), based_on=1, author="M", note="why", at=AT)
        notes_and_answers.add_note(store, job, f"note on {title}", author="", at=AT)
        attach(store, job, log, at=AT)
        notes_and_answers.keep_answer(
            store, job, 2, kind="forecast", seed=3, draws=50, equations_version="2026.2", at=AT, answer="{}"
        )


def _without_numbers(record: JobRecord) -> tuple[object, ...]:
    """What a record says, but for the numbers that another record gives anew, and the note of the way it came."""
    notes = tuple(one for one in record.notes if not one.text.startswith("imported whole"))
    answers = tuple(dataclasses.replace(one, number=0) for one in record.answers)
    return dataclasses.replace(record.shown, job=0), record.newest, notes, record.attachments, answers


def test_a_job_goes_whole_into_another_record_beside_what_is_there(tmp_path: Path) -> None:
    parcel, log = tmp_path / "bus.zip", tmp_path / "drive.csv"
    with opened(tmp_path / "here" / "jobs.sqlite") as here, opened(tmp_path / "there" / "jobs.sqlite") as there:
        _fill(here, log, "Van", "Bus")
        _fill(there, log, "Cab")
        cab = kept.record(there, 1)
        assert carry_out(here, 2, parcel, at=AT, replace=False) == 1
        assert bring_in(there, parcel, author="K", at=LATER) == ((2, 2),)
        came = kept.record(there, 2)
        assert _without_numbers(came) == _without_numbers(kept.record(here, 2))
        assert [one.title for one in kept.history(there, 2)] == ["Bus", "Bus again"]
        assert [one.parent for one in kept.history(there, 2)] == [None, 1]
        assert (came.notes[-1].text, came.notes[-1].author) == ("imported whole; it was job 2", "K")
        assert content(there, 2, came.attachments[0].checksum)[1] == b"Bus" + LOG
        assert kept.record(there, 1) == cab


def test_nothing_of_another_customer_is_in_the_file(tmp_path: Path) -> None:
    parcel = tmp_path / "bus.zip"
    with opened(tmp_path / "here" / "jobs.sqlite") as here:
        _fill(here, tmp_path / "drive.csv", "Van", "Bus")
        carry_out(here, 2, parcel, at=AT, replace=False)
    with zipfile.ZipFile(parcel) as packed:
        assert len([name for name in packed.namelist() if name.startswith("attachments/")]) == 1
        assert all(b"Van" not in packed.read(name) for name in packed.namelist())
        store = Path(packed.extract("jobs.sqlite", tmp_path / "out"))
    with closing(sqlite3.connect(store)) as connection:
        assert connection.execute("SELECT number FROM job").fetchall() == [(2,)]


def test_a_backup_brought_in_adds_all_its_jobs_as_new_ones(tmp_path: Path) -> None:
    whole, log = tmp_path / "shop.zip", tmp_path / "drive.csv"
    with opened(tmp_path / "here" / "jobs.sqlite") as here, opened(tmp_path / "there" / "jobs.sqlite") as there:
        _fill(here, log, "Van", "Bus")
        _fill(there, log, "Cab")
        back_up(here, whole, at=AT, replace=False)
        assert bring_in(there, whole, author="", at=LATER) == ((1, 2), (2, 3))
        assert {row.number: row.title for row in kept.listed(there)} == {1: "Cab again", 2: "Van again", 3: "Bus again"}


def test_a_damaged_file_adds_nothing(tmp_path: Path) -> None:
    parcel = tmp_path / "bus.zip"
    with opened(tmp_path / "here" / "jobs.sqlite") as here, opened(tmp_path / "there" / "jobs.sqlite") as there:
        _fill(here, tmp_path / "drive.csv", "Bus")
        carry_out(here, 1, parcel, at=AT, replace=False)
        whole = parcel.read_bytes()
        brought = 0
        for place in range(0, len(whole), max(len(whole) // 40, 1)):
            parcel.write_bytes(whole[:place] + bytes([whole[place] ^ 0x55]) + whole[place + 1 :])
            try:
                bring_in(there, parcel, author="", at=LATER)
            except Refusal:
                pass
            else:  # a sign of the zip that nobody reads
                brought += 1
                assert _without_numbers(kept.record(there, brought)) == _without_numbers(kept.record(here, 1))
            assert len(kept.listed(there)) == brought
        assert brought < 8


def test_a_job_that_is_not_there_leaves_no_file(tmp_path: Path) -> None:
    parcel = tmp_path / "none.zip"
    with opened(tmp_path / "here" / "jobs.sqlite") as here, pytest.raises(Refusal, match="is not there"):
        carry_out(here, 7, parcel, at=AT, replace=False)
    assert [one.name for one in tmp_path.iterdir()] == ["here"]
