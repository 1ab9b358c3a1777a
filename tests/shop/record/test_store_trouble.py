"""A full disk, a locked file: one clear sentence, and what was typed is kept."""

import contextlib
import re
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from toptank.shop.edit import edit
from toptank.shop.record import export_verbs, job_verbs
from toptank.shop.record.store import opening
from toptank.shop.record.store.record import StoreTrouble

TEXT = """format = "toptank-job-1"
[job]
title = "Van"
[vehicle]
like = "pickup-1970s-v8-air"
[[duty]]
name = "usual"
"""
KEPT = re.compile(r"what was typed is kept in (\S+);")

LITTLE_ROOM = """
import resource, signal, sys
from pathlib import Path
from toptank.shop.record import export_verbs, job_verbs
from toptank.units.refusal import Refusal

signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
verb, room = sys.argv[1], int(sys.argv[2])
typed = sys.stdin.read()
resource.setrlimit(resource.RLIMIT_FSIZE, (room, room))
try:
    job_verbs.add_note(1, typed) if verb == "note" else job_verbs.attach(1, Path(sys.argv[3]))
except Refusal as refusal:
    sys.exit(str(refusal))
"""


@pytest.fixture
def shop(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Iterator[Path]:
    """Return the folder of a store with one job; whatever is kept elsewhere goes to a folder of the test."""
    shop, elsewhere = tmp_path / "shop", tmp_path / "elsewhere"
    elsewhere.mkdir()
    monkeypatch.setenv("TOPTANK_STORE", str(shop))
    monkeypatch.setenv("TMPDIR", str(elsewhere))
    monkeypatch.setattr("tempfile.tempdir", None)
    (tmp_path / "job.toml").write_text(TEXT, encoding="utf-8")
    job_verbs.open_new(tmp_path / "job.toml")
    yield shop
    monkeypatch.setattr("tempfile.tempdir", None)


def _kept(said: str, folder: Path) -> str:
    found = KEPT.search(said)
    assert found is not None, said
    path = Path(found[1])
    assert path.parent == folder
    assert path.stat().st_mode & 0o077 == 0
    return path.read_bytes().decode()


def test_a_locked_store_is_told_and_the_input_kept(shop: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(opening, "WAIT", 0.1)
    changed = TEXT.replace("Van", "Bus") + "# as I typed it\r\n"
    (tmp_path / "job.toml").write_bytes(changed.encode())
    with closing(sqlite3.connect(shop / "jobs.sqlite", isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StoreTrouble, match="is locked by another program") as note:
            job_verbs.add_note(1, "half an hour of typing")
        with pytest.raises(StoreTrouble, match="is locked by another program") as save:
            job_verbs.save(1, tmp_path / "job.toml", based_on=1)
        with pytest.raises(StoreTrouble, match="is locked by another program") as new:
            job_verbs.open_like("roadster-1960s-four", system="us")
        assert job_verbs.record(1).shown.text == TEXT  # reading goes on meanwhile
        other.execute("ROLLBACK")
    assert _kept(str(note.value), tmp_path / "elsewhere") == "half an hour of typing"
    assert _kept(str(save.value), tmp_path / "elsewhere") == changed
    assert 'format = "toptank-job-2"' in _kept(str(new.value), tmp_path / "elsewhere")
    assert job_verbs.save(1, tmp_path / "job.toml", based_on=1).text == changed


def test_work_goes_on_with_a_copy_of_a_locked_store(
    shop: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with closing(sqlite3.connect(shop / "jobs.sqlite", isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        other.execute("INSERT INTO note (job, at, author, text) VALUES (1, 't', '', 'not yet said')")
        shutil.copytree(shop, tmp_path / "copy")
        monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "copy"))
        job_verbs.add_note(1, "on the copy")
        assert [note.text for note in job_verbs.record(1).notes] == ["on the copy"]
        other.execute("ROLLBACK")


def _in_little_room(verb: str, typed: str, room: int, *words: object) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-c", LITTLE_ROOM, verb, str(room), *map(str, words)]
    return subprocess.run(command, input=typed, capture_output=True, check=False, text=True, timeout=60)


def test_a_full_disk_is_told_and_the_input_kept(shop: Path, tmp_path: Path) -> None:
    # The log of the store takes the note's pages and the pages around it, the kept file the note alone. The table of
    # contents of the log takes 32 KiB.
    typed = "hot " * 9_000
    answer = _in_little_room("note", typed, 40 * 1024)
    assert answer.returncode == 1
    assert "the disk is full or fails" in answer.stderr
    assert "Traceback" not in answer.stderr
    assert _kept(answer.stderr, tmp_path / "elsewhere") == typed
    assert job_verbs.record(1).notes == ()
    job_verbs.add_note(1, typed)  # with room again, it goes in
    with closing(sqlite3.connect(shop / "jobs.sqlite")) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_where_nothing_can_be_kept_anywhere_the_input_is_shown(shop: Path) -> None:
    answer = _in_little_room("note", "hot " * 300, 100)
    assert answer.returncode == 1
    assert "could not be kept anywhere else either: hot hot hot" in answer.stderr
    assert "Traceback" not in answer.stderr
    assert shop.is_dir()


def test_a_full_disk_under_the_attachments_leaves_no_half_file(shop: Path, tmp_path: Path) -> None:
    (tmp_path / "log").write_bytes(bytes(500_000))
    answer = _in_little_room("attach", "", 100_000, tmp_path / "log")
    assert (answer.returncode, "cannot be kept: File too large" in answer.stderr) == (1, True)
    assert [path for path in shop.rglob("*") if path.is_file() and "attachments" in str(path)] == []
    assert job_verbs.record(1).attachments == ()


def _mounted(folder: Path, *options: str) -> None:
    """Mount a small disk, or skip: only root may.

    Root is bound by no rights of a folder, so nothing else gives it the errors of a full disk and of a read-only one.
    """
    folder.mkdir(exist_ok=True)
    mount = ["mount", "-t", "tmpfs", "-o", ",".join(options), "none", str(folder)]
    if shutil.which("mount") is None or subprocess.run(mount, capture_output=True, check=False).returncode:
        pytest.skip("no right to mount a small disk here")


@pytest.mark.parametrize("state", ["full", "for reading only"])
def test_reading_and_backing_up_go_on_where_nothing_can_be_written(
    shop: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, state: str
) -> None:
    """And closing, a field, a row that cannot be saved are kept elsewhere, as a note is."""
    small = tmp_path / "small"
    job_verbs.add_note(1, "seen before")
    (tmp_path / "log").write_bytes(b"188 F at the pass")
    kept = job_verbs.attach(1, tmp_path / "log")
    _mounted(small, "size=600k")
    try:
        shutil.copytree(shop, small / "shop")
        if state == "full":
            with contextlib.suppress(OSError), (small / "filler").open("wb", buffering=0) as filler:
                while filler.write(bytes(4096)):
                    pass
        else:
            subprocess.run(["mount", "-o", "remount,ro", str(small)], check=True)
        monkeypatch.setenv("TOPTANK_STORE", str(small / "shop"))
        assert [note.text for note in job_verbs.record(1).notes] == ["seen before"]
        assert [row.title for row in job_verbs.listed()] == ["Van"]
        assert job_verbs.attachment(1, kept.checksum)[1] == b"188 F at the pass"
        assert export_verbs.back_up(tmp_path / "elsewhere" / "mine.zip") == 1
        with pytest.raises(StoreTrouble) as close:
            job_verbs.close(1, ["thermostat_stuck"], how="opened at 150 F in the pan")
        assert "opened at 150 F in the pan" in _kept(str(close.value), tmp_path / "elsewhere")
        with pytest.raises(StoreTrouble) as field:
            edit.set_field(1, "core.rows", "3")
        assert "core.rows = 3" in _kept(str(field.value), tmp_path / "elsewhere")
        with pytest.raises(StoreTrouble) as row:
            edit.add_reading(1, 0, {"low": "215 F"})
        assert "low = 215 F" in _kept(str(row.value), tmp_path / "elsewhere")
    finally:
        subprocess.run(["umount", str(small)], check=True)
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "new shop"))
    assert export_verbs.restore(tmp_path / "elsewhere" / "mine.zip") == (1, None)
    assert [note.text for note in job_verbs.record(1).notes] == ["seen before"]


def _write_notes_until_it_fails() -> None:
    for number in range(50):
        job_verbs.add_note(1, f"{number} " + "hot " * 5_000)


def test_a_disk_that_is_really_full_is_told(shop: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    small = tmp_path / "small"
    small.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=400k", "none", str(small)]
    if shutil.which("mount") is None or subprocess.run(mount, capture_output=True, check=False).returncode:
        # Only root may mount. Without it the tests above still hold, with a limit on the size of a file for a full
        # disk; nothing but a disk of its own gives the other error of a full one, so this has no second way.
        pytest.skip("no right to mount a small disk here")
    try:
        shutil.copytree(shop, small / "shop")
        monkeypatch.setenv("TOPTANK_STORE", str(small / "shop"))
        with pytest.raises(StoreTrouble, match="the disk is full or fails") as full:
            _write_notes_until_it_fails()
        last = int(_kept(str(full.value), tmp_path / "elsewhere").split()[0])
        assert last > 0
        # what went in before is still there, from a copy with more room
        shutil.copytree(small / "shop", tmp_path / "copy")
        monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "copy"))
        assert len(job_verbs.record(1).notes) == last
        job_verbs.add_note(1, "work goes on")
    finally:
        subprocess.run(["umount", str(small)], check=True)
