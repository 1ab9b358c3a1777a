"""A shop keeps its jobs: opens, changes, closes, looks up, carries away, backs up."""

import json
import os
import re
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import pytest
import typer

from toptank.interfaces.cli.commands.job_attachment_commands import job
from toptank.interfaces.cli.screen import run

TEXT = """# as the driver told it
format = "toptank-job-1"

[job]
title = "Van [bold] of the bakery"
complaint = "Boils on the pass."

[vehicle]
like = "pickup-1970s-v8-air"

[[duty]]
name = "usual"
speed = 50
"""


class Said(NamedTuple):
    """What a command said."""

    code: int
    out: str
    err: str

    @property
    def record(self) -> Any:
        """Return the printed JSON; there is no complaint beside it."""
        assert (self.code, self.err) == (0, "")
        return json.loads(self.out)

    @property
    def refusal(self) -> str:
        """Return what was refused: one sentence in one line, exit 2, and nothing printed."""
        assert (self.code, self.out) == (2, "")
        assert self.err.startswith("toptank: ")
        assert self.err.count("\n") == 1
        assert "Traceback" not in self.err
        return self.err


Say = Callable[..., Said]


@pytest.fixture
def say(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> Say:
    """Run one command of the record in this process, on a store of the test."""
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "store"))
    app = typer.Typer(pretty_exceptions_enable=False, rich_markup_mode=None)
    app.add_typer(job, name="job")

    def job_words(*words: object) -> Said:
        monkeypatch.setattr(sys, "argv", ["toptank", "job", *map(str, words)])
        capsys.readouterr()
        code = run(app)
        printed = capsys.readouterr()
        return Said(code, printed.out, printed.err)

    return job_words


@pytest.fixture
def file(tmp_path: Path) -> Path:
    file = tmp_path / "job.toml"
    file.write_bytes(TEXT.encode())
    return file


def test_a_job_from_complaint_to_record(say: Say, file: Path, tmp_path: Path) -> None:
    opened = say("new", file, "--by", "M", "--why", "came in", "--json").record
    assert (opened["number"], opened["revision"], opened["state"], opened["author"]) == (1, 1, "open", "M")
    assert say("note", 1, "Fan roars late", "--by", "M").out == "Note saved with job 1.\n"

    out = tmp_path / "out.toml"
    assert "toptank job save 1" in say("export", 1, "--out", out).out
    out.write_bytes(out.read_bytes() + b'\n[[reading]]\nduty = "usual"\nwords = "hot"\n')
    assert say("save", 1, out, "--why", "road test", "--json").record["revision"] == 2

    how = 'turned by hand, "hot"'
    closed = say("close", 1, "--cause", "fan clutch slips", "--how", how, "--json").record
    assert (closed["revision"], closed["state"]) == (3, "closed")
    shown = say("show", 1, "--json").record
    # what is edited goes on in the newest format
    assert shown["text"].startswith(TEXT.replace("toptank-job-1", "toptank-job-2"))
    assert '[confirmed]\ncauses = ["fan_clutch_slips"]\nhow = "turned by hand, \\"hot\\""\n' in shown["text"]
    assert [note["text"] for note in shown["notes"]] == ["Fan roars late"]
    assert say("show", 1, "--revision", 1, "--json").record["text"] == TEXT

    assert say("reopen", 1, "--json").record["state"] == "open"
    assert say("revert", 1, "--to", 1, "--json").record["revision"] == 5
    assert say("show", 1, "--json").record["text"] == TEXT
    revisions = say("history", 1, "--json").record["revisions"]
    assert [one["revision"] for one in revisions] == [1, 2, 3, 4, 5]
    assert [one["parent"] for one in revisions] == [None, 1, 2, 3, 4]
    assert [one["state"] for one in revisions] == ["open", "open", "closed", "open", "open"]
    assert revisions[1]["note"] == "road test"


def test_what_is_shown_to_people(say: Say, file: Path) -> None:
    say("new", file)
    say("note", 1, "[red]plain[/red] text")
    shown = say("show", 1).out
    assert "Job 1: Van [bold] of the bakery (open)" in shown
    assert "[red]plain[/red] text" in shown
    assert "# as the driver told it" in shown
    assert "[bold]" in say("list").out
    assert "1" in say("history", 1).out


def test_signs_that_a_terminal_takes_for_orders_stay_off_it(say: Say, file: Path) -> None:
    file.write_bytes(TEXT.replace("as the driver", "as \u009b2J the driver").encode())
    say("new", file)
    assert "# as ?2J the driver" in say("show", 1).out
    assert "cannot be printed" in say("note", 1, "red \x1b[31m").refusal
    assert "cannot be printed" in say("note", 1, "half \udce4").refusal
    assert "by = " in say("note", 1, "x", "--by", "\x1b").refusal
    assert "why = " in say("new", file, "--why", "\udce4").refusal
    assert "how = " in say("close", 1, "--cause", "gauge lies", "--how", "\x1b").refusal
    assert "search = " in say("list", "--search", "\udce4").refusal


def test_list_and_search(say: Say, file: Path) -> None:
    assert say("list").out == "No jobs, or none that matches.\n"
    say("new", file)
    say("new", "--like", "roadster-1960s-four")
    say("close", 2, "--cause", "gauge lies")

    def numbers(*words: str) -> list[int]:
        return [row["number"] for row in say("list", *words, "--json").record["jobs"]]

    assert numbers() == [1, 2]
    assert numbers("--search", "BAKERY boils") == [1]
    assert numbers("--state", "closed") == [2]
    assert numbers("--state", "open", "--search", "roadster") == []
    assert "state = shut" in say("list", "--state", "shut").refusal


def test_two_people_at_one_job(say: Say, file: Path, tmp_path: Path) -> None:
    say("new", file)
    mine, theirs = tmp_path / "mine.toml", tmp_path / "theirs.toml"
    say("export", 1, "--out", mine)
    say("export", 1, "--out", theirs)
    assert say("save", 1, theirs).code == 0
    refused = say("save", 1, mine).refusal
    assert "based-on = 1: somebody has saved revision 2 of job 1 meanwhile" in refused
    assert mine.exists()
    assert say("save", 1, mine, "--based-on", 2).code == 0


def test_a_file_says_which_job_it_belongs_to(say: Say, file: Path, tmp_path: Path) -> None:
    say("new", file)
    say("new", "--like", "roadster-1960s-four")
    assert "say --based-on 1 if that is the one" in say("save", 1, file).refusal
    out = tmp_path / "out.toml"
    say("export", 1, "--out", out)
    assert "was made from revision 1 of job 1, not from one of job 2" in say("save", 2, out).refusal
    written = out.read_text(encoding="utf-8")
    out.write_text(re.sub("checksum .{12}", "checksum 0123456789ab", written), encoding="utf-8")  # of another store
    assert "not from one of job 1" in say("save", 1, out).refusal
    assert say("save", 1, file, "--based-on", 1, "--json").record["revision"] == 2


def test_a_job_goes_to_another_shop(say: Say, file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    say("new", file)
    say("note", 1, "ümläut, 90 °")
    out = tmp_path / "out.toml"
    say("export", 1, "--out", out)
    assert "exists already" in say("export", 1, "--out", out).refusal
    assert "not in it" not in say("export", 1, "--out", out, "--force").out
    say("attach", 1, file)
    assert "Its attachment is not in it" in say("export", 1, "--out", out, "--force").out
    assert say("export", 1, "--out", out, "--force", "--json").record["attachments_left"] == 1
    assert say("export", 1, "--out", out, "--force", "--json").record["text"] == out.read_bytes().decode()
    before = say("show", 1, "--json").record
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "other"))
    assert say("import", out, "--json").record["number"] == 1
    after = say("show", 1, "--json").record
    assert (after["text"], after["notes"]) == (before["text"], before["notes"])


def test_attachments(say: Say, file: Path, tmp_path: Path) -> None:
    say("new", file)
    log, back = tmp_path / "road.log", tmp_path / "back.log"
    log.write_bytes(os.urandom(1000))
    kept = say("attach", 1, log, "--json").record
    assert (kept["name"], kept["size_bytes"]) == ("road.log", 1000)
    assert kept["checksum"][:12] in say("show", 1).out
    assert say("fetch", 1, kept["checksum"][:12], "--out", back).code == 0
    assert back.read_bytes() == log.read_bytes()
    assert "exists already" in say("fetch", 1, kept["checksum"], "--out", back).refusal


def test_backup_and_restore(say: Say, file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    say("new", file)
    backup = tmp_path / "backup.zip"
    assert say("backup", backup).out == f"1 job saved to {backup}.\n"
    assert "add --force" in say("restore", backup).refusal
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "other"))
    assert say("restore", backup, "--json").record == {"file": str(backup), "jobs": 1, "before": None}
    assert say("show", 1, "--json").record["text"] == TEXT
    assert "What was there is in" in say("restore", backup, "--force").out
    backup.write_bytes(backup.read_bytes()[:-30])
    assert "is damaged" in say("restore", backup, "--force").refusal
    assert say("show", 1, "--json").record["text"] == TEXT


def test_a_diagnosis_and_a_forecast_are_kept_with_what_they_were_made_from(say: Say, file: Path) -> None:
    say("new", file)
    kept = say("forecast", 1, "--draws", 50, "--seed", 3, "--json").record
    assert (kept["kind"], kept["revision"], kept["draws"], kept["seed"]) == ("forecast", 1, 50, 3)
    assert kept["equations_version"] == kept["answer"]["equations_version"]
    assert kept["answer"]["duties"][0]["name"] == "usual"
    file.write_text(TEXT + '[[reading]]\nduty = "usual"\nwords = "hot"\n', encoding="utf-8")
    say("save", 1, file, "--based-on", 1)
    found = say("diagnose", 1, "--seed", 4, "--json").record
    assert (found["kind"], found["revision"], found["seed"]) == ("diagnosis", 2, 4)
    assert (found["draws"], found["equations_version"]) == (found["answer"]["draws"], kept["equations_version"])
    promised = say("choose", 1, "--draws", 200, "--seed", 5, "--json").record
    assert (promised["kind"], promised["revision"], promised["draws"], promised["seed"]) == ("choice", 2, 200, 5)
    assert promised["answer"]["plans"][0]["plan"] == []
    shown = say("show", 1, "--json").record["answers"]
    assert shown == [{key: value for key, value in one.items() if key != "job"} for one in (kept, found, promised)]
    assert "Saved forecast" in say("show", 1).out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("new",), "one of the two is needed"),
        (("new", "nothing.toml"), "does not exist"),
        (("new", "--like", "zeppelin"), "zeppelin"),
        (("show", "9"), "job = 9: is not there"),
        (("show", "x"), "toptank job show x"),
        (("note", "9", "x"), "is not there"),
        (("note", "1", " "), "must not be empty"),
        (("show", "1", "--revision", "9"), "has 1 to 1"),
        (("revert", "1", "--to", "0"), "has 1 to 1"),
        (("reopen", "1"), "is open already"),
        (("close", "1", "--cause", "fan clutch slip"), "did you mean 'fan clutch slipping'?"),
        (("close", "1", "--cause", "gauge lies", "--contributing", "x"), "contributing = x"),
        (("close", "1"), "--cause"),
        (("attach", "1", "nothing.jpg"), "cannot be read"),
        (("restore", "nothing.zip"), "is not a file"),
        (("backup", "no/such/folder/b.zip"), "its folder does not exist"),
        (("export", "1", "--out", "no/such/folder/x.toml"), "its folder does not exist"),
        (("import", "nothing.toml"), "does not exist"),
        (("histroy", "1"), "did you mean"),
    ],
)
def test_bad_input_gets_one_sentence(say: Say, file: Path, words: tuple[str, ...], said: str) -> None:
    say("new", file)
    assert said in say(*words).refusal
    assert say("history", 1, "--json").record["revisions"][-1]["revision"] == 1


def test_a_spoilt_file_changes_nothing(say: Say, file: Path) -> None:
    say("new", file)
    file.write_text(TEXT.replace("speed = 50", "speed = fast"), encoding="utf-8")
    assert "is not TOML" in say("save", 1, file, "--based-on", 1).refusal
    file.write_text(TEXT.replace("speed = 50", 'sped = "50 mph"'), encoding="utf-8")
    assert "sped" in say("save", 1, file, "--based-on", 1).refusal
    assert say("show", 1, "--json").record["newest"] == 1


def test_a_store_that_cannot_be_opened_is_told(
    say: Say, file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TOPTANK_STORE", str(file / "below"))
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    monkeypatch.setattr("tempfile.tempdir", None)
    assert "what was typed is kept in" in say("new", file).refusal
    monkeypatch.setenv("TOPTANK_STORE", "postgresql://u:secret@h/d")
    refused = say("list").refusal
    assert "is no file of SQLite" in refused
    assert "secret" not in refused
