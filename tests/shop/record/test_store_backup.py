"""A backup brings everything back, or says why it cannot, and then changes nothing."""

import hashlib
import json
import sqlite3
import zipfile
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from toptank.shop.record.store import jobs_and_revisions as kept
from toptank.shop.record.store import notes_and_answers
from toptank.shop.record.store.attachments import attach, content
from toptank.shop.record.store.backup import back_up, jobs_in
from toptank.shop.record.store.opening import Store, opened, reading
from toptank.shop.record.store.record import JobRecord, StoreTrouble
from toptank.shop.record.store.restoring import restore
from toptank.units.refusal import Refusal

AT = "2026-01-02T03:04:05.000+00:00"
LOG = b"188 F at the pass\n" * 2000
Parts = dict[str, bytes]


def _text(title: str) -> str:
    return f"""format = "toptank-job-1"
[job]
title = "{title}"
[vehicle]
like = "pickup-1970s-v8-air"
[[duty]]
name = "usual"
"""


def _fill(store: Store, log: Path) -> None:
    log.write_bytes(LOG)
    for title in ("Van", "Bus"):
        job = kept.add_job(store, _text(title), author="M", note="", at=AT).job
        kept.save(store, job, _text(f"{title} again"), based_on=1, author="M", note="why", at=AT)
        notes_and_answers.add_note(store, job, f"note on {title}", author="", at=AT)
        attach(store, job, log, at=AT)
    notes_and_answers.keep_answer(
        store, 1, 2, kind="forecast", seed=3, draws=50, equations_version="2026.2", at=AT, answer="{}"
    )


def _all(store: Store) -> list[tuple[JobRecord, tuple[object, ...]]]:
    numbers = [row.number for row in kept.listed(store)]
    return [(kept.record(store, number), kept.history(store, number)) for number in numbers]


@pytest.fixture(scope="module")
def backup(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("shop")
    with opened(folder / "jobs.sqlite") as store:
        _fill(store, folder / "log")
        assert back_up(store, folder / "backup.zip", at=AT, replace=False) == 2
    assert sorted(path.name for path in folder.iterdir()) == [
        "backup.zip", "jobs.sqlite", "jobs.sqlite.attachments", "log",
    ]  # fmt: skip
    return folder / "backup.zip"


def test_everything_comes_back(backup: Path, tmp_path: Path) -> None:
    with opened(backup.with_name("jobs.sqlite")) as store:
        before = _all(store)
    with opened(tmp_path / "jobs.sqlite") as store:
        assert restore(store, backup, at=AT, force=False) == (2, None)
        assert _all(store) == before
        assert content(store, 2, hashlib.sha256(LOG).hexdigest())[1] == LOG
        # and work goes on: numbers go on, and the log is still written ahead
        assert kept.add_job(store, _text("Coupe"), author="", note="", at=AT).job == 3
        with reading(store) as connection:
            assert connection.exec_driver_sql("PRAGMA journal_mode").scalar_one() == "wal"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["jobs.sqlite", "jobs.sqlite.attachments"]


def test_a_backup_is_one_moment_of_a_store_in_use(tmp_path: Path, backup: Path) -> None:
    with opened(tmp_path / "jobs.sqlite") as store:
        restore(store, backup, at=AT, force=False)
        with closing(sqlite3.connect(store.file, isolation_level=None)) as other:
            other.execute("BEGIN IMMEDIATE")
            other.execute("INSERT INTO note (job, at, author, text) VALUES (1, 't', '', 'not yet said')")
            back_up(store, tmp_path / "again.zip", at=AT, replace=False)
            other.execute("COMMIT")
    with opened(tmp_path / "other" / "jobs.sqlite") as other_store:
        restore(other_store, tmp_path / "again.zip", at=AT, force=False)
        assert [note.text for note in kept.record(other_store, 1).notes] == ["note on Van"]


def test_a_store_that_holds_jobs_is_not_overwritten(backup: Path, tmp_path: Path) -> None:
    with opened(tmp_path / "jobs.sqlite") as store:
        kept.add_job(store, _text("Ours"), author="", note="", at=AT)
        with pytest.raises(Refusal, match="holds 1 job, and a restore would put others in their place"):
            restore(store, backup, at=AT, force=False)
        assert [row.title for row in kept.listed(store)] == ["Ours"]
        jobs, before = restore(store, backup, at=AT, force=True)
        assert jobs == 2
        assert [row.title for row in kept.listed(store)] == ["Van again", "Bus again"]
    assert before is not None
    with opened(tmp_path / "second" / "jobs.sqlite") as store:  # what was there is not lost
        restore(store, before, at=AT, force=False)
        assert [row.title for row in kept.listed(store)] == ["Ours"]


def test_a_backup_that_exists_is_not_replaced_unasked(backup: Path, tmp_path: Path) -> None:
    out = tmp_path / "out.zip"
    out.write_text("ours", encoding="utf-8")
    with opened(backup.with_name("jobs.sqlite")) as store:
        with pytest.raises(Refusal, match="exists already"):
            back_up(store, out, at=AT, replace=False)
        back_up(store, out, at=AT, replace=True)
    assert zipfile.is_zipfile(out)


def test_a_store_whose_attachment_is_lost_is_not_backed_up_as_if_it_were_whole(tmp_path: Path) -> None:
    with opened(tmp_path / "jobs.sqlite") as store:
        _fill(store, tmp_path / "log")
        (lies,) = (path for path in store.attachments.rglob("*") if path.is_file())
        lies.write_bytes(b"x")
        with pytest.raises(StoreTrouble, match="does not fit its checksum"):
            back_up(store, tmp_path / "out.zip", at=AT, replace=False)
        lies.unlink()
        with pytest.raises(StoreTrouble, match="is lost"):
            back_up(store, tmp_path / "out.zip", at=AT, replace=False)
    assert not (tmp_path / "out.zip").exists()
    assert list(tmp_path.glob(".*")) == []


def _refused(damaged: Path, folder: Path) -> str:
    """Return what is said; the store stays empty, and can still be used."""
    with opened(folder / "jobs.sqlite") as store:
        with pytest.raises(Refusal) as refused:
            restore(store, damaged, at=AT, force=False)
        assert jobs_in(store) == 0
    assert not list(folder.glob(".restore*"))
    assert "take an older backup; the store is as it was" in str(refused.value)
    return str(refused.value)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=40)
@given(share=st.floats(0.0, 0.999))
def test_a_backup_cut_short_is_refused(backup: Path, tmp_path: Path, share: float) -> None:
    whole, cut = backup.read_bytes(), tmp_path / "cut.zip"
    cut.write_bytes(whole[: int(share * len(whole))])
    assert "is damaged" in _refused(cut, tmp_path)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=100)
@given(share=st.floats(0.0, 1.0, exclude_max=True), flip=st.integers(1, 255))
def test_a_backup_with_a_byte_changed_is_refused_or_says_the_same(
    backup: Path, tmp_path: Path, share: float, flip: int
) -> None:
    spoilt = bytearray(backup.read_bytes())
    spoilt[int(share * len(spoilt))] ^= flip
    damaged, empty = tmp_path / "flipped.zip", tmp_path / "flipped.sqlite"
    damaged.write_bytes(spoilt)
    for file in tmp_path.glob("flipped.sqlite*"):
        if file.is_file():
            file.unlink()
    with opened(empty, anew=True) as store:
        refused = ""
        try:
            restore(store, damaged, at=AT, force=False)
        except Refusal as refusal:
            refused = str(refusal)
        if refused:
            assert "is damaged" in refused or "newer toptank" in refused
            assert jobs_in(store) == 0
        else:  # a zip holds bytes that mean nothing, such as the time of a file: then nothing else may differ
            with opened(backup.with_name("jobs.sqlite")) as before:
                assert _all(store) == _all(before)


def _without_manifest(parts: Parts) -> None:
    del parts["manifest.json"]


def _manifest_of_nonsense(parts: Parts) -> None:
    parts["manifest.json"] = b"[[[["


def _manifest_with(change: Callable[[dict[str, dict[str, object]]], object]) -> Callable[[Parts], None]:
    def spoil(parts: Parts) -> None:
        manifest = json.loads(parts["manifest.json"])
        change(manifest["files"])
        parts["manifest.json"] = json.dumps(manifest).encode()

    return spoil


def _other_store(parts: Parts) -> None:
    parts["jobs.sqlite"] = b"SQLite format 3\x00" + bytes(8000)
    _manifest_with(lambda files: files.update({"jobs.sqlite": _entry(parts["jobs.sqlite"])}))(parts)


def _without_attachment(parts: Parts) -> None:
    name = next(name for name in parts if name.startswith("attachments/"))
    del parts[name]
    _manifest_with(lambda files: files.pop(name))(parts)


def _climbing_out(parts: Parts) -> None:
    parts["../../evil"] = b"x"
    _manifest_with(lambda files: files.update({"../../evil": _entry(b"x")}))(parts)


def _entry(content: bytes) -> dict[str, object]:
    return {"sha256": hashlib.sha256(content).hexdigest(), "size": len(content)}


@pytest.mark.parametrize(
    ("spoil", "why"),
    [
        (_without_manifest, "list of checksums is missing"),
        (_manifest_of_nonsense, "list of checksums is missing or cannot be read"),
        (_manifest_with(lambda files: files["jobs.sqlite"].update(sha256="0" * 64)), "jobs.sqlite does not fit"),
        (_manifest_with(lambda files: files["jobs.sqlite"].update(size=5)), "jobs.sqlite does not fit"),
        (_manifest_with(lambda files: files["jobs.sqlite"].update(size=-1)), "a size that cannot be"),
        (_manifest_with(lambda files: files.update(x=_entry(b"x"))), "not what its list says: x"),
        (_manifest_with(lambda files: files.pop("jobs.sqlite")), "list of checksums is missing"),
        (lambda parts: parts.update(x=b"x"), "not what its list says: x"),
        (_other_store, "its store"),
        (_without_attachment, "is not in it"),
        (_climbing_out, "evil does not fit its checksum"),
    ],
)
def test_a_backup_whose_list_does_not_fit_is_refused_with_the_reason(
    backup: Path, tmp_path: Path, spoil: Callable[[Parts], None], why: str
) -> None:
    with zipfile.ZipFile(backup) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    spoil(parts)
    wrong = tmp_path / "inner" / "wrong.zip"
    wrong.parent.mkdir()
    with zipfile.ZipFile(wrong, "w") as packed:
        for name, inside in parts.items():
            packed.writestr(name, inside)
    assert why in _refused(wrong, wrong.parent)
    assert [path.name for path in tmp_path.iterdir()] == ["inner"]


def test_a_store_that_does_not_hold_together_is_refused_though_its_checksum_fits(backup: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(backup) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    inner = tmp_path / "inner.sqlite"
    inner.write_bytes(parts["jobs.sqlite"])
    with closing(sqlite3.connect(inner)) as file, file:
        file.execute("INSERT INTO note (job, at, author, text) VALUES (99, 't', '', 'of no job')")
    with closing(sqlite3.connect(inner)) as file:
        file.execute("PRAGMA journal_mode = DELETE")  # so that all of it is in the one file
    parts["jobs.sqlite"] = inner.read_bytes()
    _manifest_with(lambda files: files.update({"jobs.sqlite": _entry(parts["jobs.sqlite"])}))(parts)
    wrong = tmp_path / "wrong.zip"
    with zipfile.ZipFile(wrong, "w") as packed:
        for name, inside in parts.items():
            packed.writestr(name, inside)
    assert "its store does not hold together" in _refused(wrong, tmp_path)


def test_what_is_no_backup_is_refused(tmp_path: Path, backup: Path) -> None:
    letter = tmp_path / "letter.zip"
    letter.write_text("Dear customer", encoding="utf-8")
    assert "is damaged" in _refused(letter, tmp_path)
    with opened(tmp_path / "jobs.sqlite") as store, pytest.raises(Refusal, match="is not a file"):
        restore(store, tmp_path / "nothing.zip", at=AT, force=False)
    assert "is damaged" in _refused(backup.with_name("jobs.sqlite"), tmp_path)
