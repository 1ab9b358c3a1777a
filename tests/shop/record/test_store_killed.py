"""Killed in the middle of saving: what was acknowledged is there, what is there is whole."""

import os
import select
import signal
import sqlite3
import subprocess
import sys
import time
from contextlib import closing
from pathlib import Path

from toptank.shop.record.store import jobs_and_revisions as kept
from toptank.shop.record.store.opening import opened

WRITERS = 4
FIRST, THEN = 80, 120
"""Saves acknowledged before two writers are killed, and before the others are: 200, as the task has it."""

AT = "2026-01-02T03:04:05.000+00:00"

# Each saves upon the newest revision, tries again after a clash, and says so only once a save has come back.
WRITER = """
import sys
from pathlib import Path
from toptank.shop.record.store import jobs_and_revisions as kept
from toptank.shop.record.store.opening import opened
from toptank.units.refusal import Refusal

who, text = sys.argv[2], sys.stdin.read()
sys.stdout.write("ready\\n"), sys.stdout.flush()
for number in range(100_000):
    note = f"{who}-{number}"
    while True:
        with opened(Path(sys.argv[1])) as store:
            try:
                newest = kept.revision(store, 1).number
                saved = kept.save(store, 1, text.replace("Van", note), based_on=newest, author=who, note=note, at="t")
                break
            except Refusal as refusal:
                if refusal.field != "based-on":
                    raise
    sys.stdout.write(f"{saved.number} {note}\\n"), sys.stdout.flush()
"""

REMARK = "# a remark, so that a revision takes more than one page of the store's file\n"
TEXT = (
    """format = "toptank-job-1"
[job]
title = "Van"
[vehicle]
like = "pickup-1970s-v8-air"
[[duty]]
name = "usual"
"""
    + 80 * REMARK
)


def _start(file: Path, who: int) -> subprocess.Popen[bytes]:
    command = [sys.executable, "-c", WRITER, str(file), f"w{who}"]
    process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    assert process.stdin is not None
    process.stdin.write(TEXT.encode())
    process.stdin.close()
    return process


def _acknowledged(writers: list[subprocess.Popen[bytes]], enough: int) -> dict[int, bytes]:
    """Read what the writers say until so many saves are acknowledged in all."""
    said = {writer.stdout.fileno(): b"" for writer in writers if writer.stdout}
    deadline = time.monotonic() + 120
    while sum(text.count(b"-") for text in said.values()) < enough:
        assert time.monotonic() < deadline, said
        for pipe in select.select(list(said), [], [], 1.0)[0]:
            said[pipe] += os.read(pipe, 65536)
    return said


def test_what_was_acknowledged_survives_a_kill_in_the_middle_of_200_saves(tmp_path: Path) -> None:
    file = tmp_path / "jobs.sqlite"
    with opened(file) as store:
        kept.add_job(store, TEXT, author="", note="", at=AT)
    writers = [_start(file, who) for who in range(WRITERS)]
    try:
        # two die early, while the others hold on and write over whatever these left behind; then the rest
        said = _acknowledged(writers, FIRST)
        for writer in writers[:2]:
            os.kill(writer.pid, signal.SIGKILL)
        for pipe, text in _acknowledged(writers[2:], THEN).items():
            said[pipe] += text
    finally:
        for writer in writers:
            writer.kill()
    for writer in writers:
        assert writer.wait() == -signal.SIGKILL, writer.stderr.read() if writer.stderr else ""
        assert writer.stdout is not None
        said[writer.stdout.fileno()] += writer.stdout.read()  # acknowledged before the kill, not read yet
        writer.stdout.close()
        assert writer.stderr is not None
        writer.stderr.close()
    lines = [line for text in said.values() for line in text.decode().split("\n")[:-1] if line != "ready"]
    acknowledged = {int(line.split()[0]): line.split()[1] for line in lines}
    assert FIRST + THEN <= len(acknowledged) == len(lines)
    with opened(file) as store:
        revisions = {one.number: one for one in kept.history(store, 1)}  # each is checked against its checksum
        for number, note in acknowledged.items():
            assert revisions[number].note == note
            assert revisions[number].text == TEXT.replace("Van", note)
        assert list(revisions) == list(range(1, len(revisions) + 1))
        # a writer may have been killed between the save and its word: at most one each
        assert len(revisions) - 1 <= len(acknowledged) + WRITERS
        assert (
            kept.save(store, 1, TEXT, based_on=len(revisions), author="", note="", at=AT).number == len(revisions) + 1
        )
    with closing(sqlite3.connect(file)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []


def test_several_programs_may_make_the_same_store_at_once(tmp_path: Path) -> None:
    file = tmp_path / "shop" / "jobs.sqlite"
    script = "import sys; from pathlib import Path; from toptank.shop.record.store.opening import opened\n"
    script += "with opened(Path(sys.argv[1])): pass"
    makers = [subprocess.Popen([sys.executable, "-c", script, str(file)], stderr=subprocess.PIPE) for _ in range(4)]
    assert [maker.communicate()[1].decode() for maker in makers] == [""] * 4
    with opened(file) as store:
        assert kept.listed(store) == ()
