"""Nothing that was saved is overwritten, forgotten or mixed up."""

import hashlib
import sqlite3
import stat
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from toptank.shop.record import job_verbs
from toptank.shop.record.store import jobs_and_revisions as kept
from toptank.shop.record.store import notes_and_answers
from toptank.shop.record.store.opening import Store, opened, reading, store_file
from toptank.shop.record.store.record import StoreTrouble
from toptank.units.refusal import Refusal

AT = "2026-01-02T03:04:05.000+00:00"


def _text(title: str = "Van", complaint: str = "") -> str:
    return f"""# a remark that must stay
format = "toptank-job-1"
[job]
title = "{title}"
complaint = "{complaint}"
[vehicle]
like = "pickup-1970s-v8-air"
[[duty]]
name = "usual"
"""


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with opened(tmp_path / "jobs.sqlite") as store:
        yield store


def _add(store: Store, title: str = "Van", complaint: str = "") -> int:
    return kept.add_job(store, _text(title, complaint), author="", note="", at=AT).job


def _save(store: Store, job: int, title: str, based_on: int) -> int:
    return kept.save(store, job, _text(title), based_on=based_on, author="M", note="why", at=AT).number


def test_every_revision_stays_as_it_was_saved(store: Store) -> None:
    job = _add(store, "first")
    assert (_save(store, job, "second", 1), _save(store, job, "third", 2)) == (2, 3)
    assert [one.text for one in kept.history(store, job)] == [_text(title) for title in ("first", "second", "third")]
    assert [one.parent for one in kept.history(store, job)] == [None, 1, 2]
    assert kept.revision(store, job, 1).text == _text("first")
    assert kept.revision(store, job).title == "third"
    second = kept.revision(store, job, 2)
    assert (second.author, second.note, second.at) == ("M", "why", AT)
    assert second.checksum == hashlib.sha256(_text("second").encode()).hexdigest()


def test_a_save_upon_somebody_elses_save_is_refused_with_both_numbers(store: Store) -> None:
    job = _add(store)
    _save(store, job, "theirs", 1)
    with pytest.raises(Refusal, match="based-on = 1: somebody has saved revision 2 of job 1") as refused:
        _save(store, job, "ours", 1)
    assert not isinstance(refused.value, StoreTrouble)
    assert [one.title for one in kept.history(store, job)] == ["Van", "theirs"]
    assert _save(store, job, "ours", 2) == 3


def test_a_save_upon_a_revision_that_never_was_is_refused(store: Store) -> None:
    with pytest.raises(Refusal, match="the newest is 1"):
        _save(store, _add(store), "ours", 7)


@pytest.mark.parametrize("job", [0, -1, 2, 10**30])
def test_a_job_that_is_not_there_is_told(store: Store, job: int) -> None:
    _add(store)
    with pytest.raises(Refusal, match="is not there"):
        kept.record(store, job)


@pytest.mark.parametrize("number", [0, -1, 2, 10**30])
def test_a_revision_that_is_not_there_is_told(store: Store, number: int) -> None:
    with pytest.raises(Refusal, match="job 1 has 1 to 1"):
        kept.revision(store, _add(store), number)


def test_a_document_that_is_no_job_is_never_kept(store: Store) -> None:
    with pytest.raises(Refusal, match="vehicle"):
        kept.add_job(store, 'format = "toptank-job-1"\n', author="", note="", at=AT)
    assert kept.listed(store) == ()


@pytest.mark.parametrize("table", ["job", "revision", "note", "attachment", "answer"])
@pytest.mark.parametrize("what", ["UPDATE {} SET at = 'x'", "DELETE FROM {}"])
def test_the_file_itself_refuses_to_forget(store: Store, table: str, what: str) -> None:
    job = _add(store)
    notes_and_answers.add_note(store, job, "hot", author="", at=AT)
    notes_and_answers.keep_answer(
        store, job, 1, kind="forecast", seed=1, draws=2, equations_version="v", at=AT, answer="{}"
    )
    change = what.format(table).replace("job SET at", "job SET opened")
    with closing(sqlite3.connect(store.file)) as file:
        digest = "0" * 64
        file.execute("INSERT INTO attachment (job, checksum, name, size, at) VALUES (1, ?, 'n', 1, 't')", (digest,))
        with pytest.raises(sqlite3.IntegrityError, match="never changed or taken out"):
            file.execute(change)


def test_a_text_that_was_changed_behind_our_back_is_told(store: Store) -> None:
    job = _add(store)
    with closing(sqlite3.connect(store.file)) as file:
        file.execute("DROP TRIGGER no_update_of_revision")
        file.execute("UPDATE revision SET text = replace(text, 'Van', 'Bus')")
        file.commit()
    with pytest.raises(StoreTrouble, match="job 1, revision 1: is damaged"):
        kept.revision(store, job)


def test_an_answer_is_kept_with_what_it_was_made_from(store: Store) -> None:
    job = _add(store)
    _save(store, job, "second", 1)
    notes_and_answers.keep_answer(
        store, job, 1, kind="diagnosis", seed=5, draws=800, equations_version="2026.2", at=AT, answer='{"a": 1}'
    )
    (answer,) = kept.record(store, job).answers
    assert (answer.kind, answer.revision, answer.seed, answer.draws) == ("diagnosis", 1, 5, 800)
    assert (answer.equations_version, answer.at, answer.answer) == ("2026.2", AT, '{"a": 1}')


def test_an_answer_to_a_revision_that_never_was_is_not_kept(store: Store) -> None:
    job = _add(store)
    with pytest.raises(StoreTrouble):
        notes_and_answers.keep_answer(
            store, job, 9, kind="forecast", seed=1, draws=2, equations_version="v", at=AT, answer="{}"
        )
    assert kept.record(store, job).answers == ()


@pytest.mark.parametrize(
    ("search", "found"),
    [
        ("van", [1]),
        ("ÜBER van", [1]),
        ("strasse", [2]),
        ("50 %", [2]),
        ("5_ %", []),
        ("clutch", [1]),
        ("clutch strasse", []),
        ("x'OR'1'='1", []),
        ("%'--", []),
        ("van';DROP TABLE job", []),
        ("", [1, 2]),
    ],
)
def test_search_looks_at_titles_complaints_and_notes_whatever_their_capitals(
    store: Store, search: str, found: list[int]
) -> None:
    _add(store, "Van", "boils über the pass")
    _add(store, "Bus", "Straße, 50 % grade")
    notes_and_answers.add_note(store, 1, "Fan CLUTCH drags", author="", at=AT)
    assert [row.number for row in kept.listed(store, search=search)] == found


def test_search_finds_a_job_as_it_is_now_only(store: Store) -> None:
    job = _add(store, "Wagon")
    _save(store, job, "Coupe", 1)
    assert kept.listed(store, search="wagon") == ()
    (row,) = kept.listed(store, search="coupe")
    assert (row.number, row.revision, row.state, row.notes) == (job, 2, "open", 0)


def test_an_acknowledged_save_is_on_the_disk(store: Store) -> None:
    with reading(store) as connection:
        # SQLite's manual on the pragma: 2 is FULL, the log is synced after each transaction
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar_one() == 2
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar_one() == 1
        assert connection.exec_driver_sql("PRAGMA journal_mode").scalar_one() == "wal"


def test_the_record_is_its_owners_only(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.delenv("TOPTANK_STORE", raising=False)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "share"))
    with opened() as store:
        assert store.file == tmp_path / "share" / "toptank" / "jobs.sqlite"
        _add(store)
        rights = {path.name: stat.S_IMODE(path.stat().st_mode) for path in (store.file, store.file.parent)}
        beside = [stat.S_IMODE(path.stat().st_mode) for path in store.file.parent.iterdir()]
    assert rights == {"jobs.sqlite": 0o600, "toptank": 0o700}
    assert set(beside) == {0o600}


@pytest.mark.parametrize(
    ("named", "file"),
    [
        ("some/folder", "some/folder/jobs.sqlite"),
        ("some/shop.db", "some/shop.db"),
        ("sqlite:///some/shop", "some/shop"),
    ],
)
def test_the_setting_names_a_folder_a_file_or_an_address(
    monkeypatch: pytest.MonkeyPatch, named: str, file: str
) -> None:
    monkeypatch.setenv("TOPTANK_STORE", named)
    assert store_file() == Path(file)


@pytest.mark.parametrize("named", ["postgresql://u:secret@h/d", "sqlite://", "sqlite:///:memory:", "://"])
def test_an_address_of_another_kind_is_refused_and_its_password_not_shown(
    monkeypatch: pytest.MonkeyPatch, named: str
) -> None:
    monkeypatch.setenv("TOPTANK_STORE", named)
    with pytest.raises(Refusal, match="is no file of SQLite") as refused:
        store_file()
    assert "secret" not in str(refused.value)


def test_going_back_is_a_new_revision(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path))
    file = tmp_path / "job.toml"
    for number, title in enumerate(("first", "second")):
        file.write_text(_text(title), encoding="utf-8")
        job_verbs.save(1, file, based_on=1) if number else job_verbs.open_new(file)
    back = job_verbs.revert(1, 1)
    assert (back.number, back.parent, back.text) == (3, 2, _text("first"))
    assert job_verbs.record(1, revision=2).shown.title == "second"
