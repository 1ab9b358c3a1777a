"""A mechanic names a job: by its number in the record, by its file, or by the word demo."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Say = Callable[..., Any]
COMMANDS = (("forecast",), ("diagnose",), ("choose",), ("fit",), ("order", "--pdf", "order.pdf"))


@pytest.fixture
def store(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """Return the folder of a record of the test, in which a bare number would be a file."""
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "store"))
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_a_number_means_the_newest_revision_of_the_stored_job(say: Say, store: Path, job_text: str) -> None:
    file = store / "job.toml"
    file.write_text(job_text, encoding="utf-8")
    say("job", "new", file)
    file.write_text(job_text.replace('title = "', 'title = "Second look at the ', 1), encoding="utf-8")
    say("job", "save", 1, file, "--based-on", 1)

    by_number, by_file = (say("fit", named, "--json").record for named in (1, file))
    assert by_number == by_file
    assert by_number["title"].startswith("Second look at the ")


def test_a_file_that_is_called_like_a_number_or_like_the_example_is_named_with_its_folder(
    say: Say, store: Path, job_text: str
) -> None:
    for name in ("1", "demo"):
        (store / name).write_text(job_text, encoding="utf-8")
    assert say("fit", "1").code == 2
    assert say("fit", "./1", "--json").record == say("fit", "./demo", "--json").record
    assert say("fit", "demo", "--json").record["invented"] is True


@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.parametrize("number", ["7", "0", "9" * 5000])
@pytest.mark.usefixtures("store")
def test_every_command_that_takes_a_job_looks_a_number_up_in_the_record(
    say: Say, command: tuple[str, ...], number: str
) -> None:
    said = say(*command, number)
    assert (said.code, said.out) == (2, "")
    assert "toptank job list" in said.err
    assert said.err.count("\n") == 1
