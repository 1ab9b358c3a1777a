"""A mechanic writes down in the terminal what he found and what the driver says, in the words of the screens."""

import re
import sys
from pathlib import Path

import pytest

from toptank.interfaces.cli.main import app
from toptank.interfaces.cli.screen import run
from toptank.shop.record import job_verbs
from toptank.studies.diagnose.evidence import Finding, Told

TEXT = """format = "toptank-job-2"
units = "us"

[job]
title = "Small saloon"
complaint = "Hot in town."

[vehicle]
like = "saloon-1950s-six"

[cap]
pressure = { value = "14 psi", how = "plate" }

[[duty]]
name = "town"
speed = "15 mph"
"""


@pytest.fixture
def number(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> int:
    """Return the number of a stored job."""
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "store"))
    file = tmp_path / "job.toml"
    file.write_text(TEXT, encoding="utf-8")
    return job_verbs.open_new(file).job


def _said(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    sys.argv, before = ["toptank", *words], sys.argv
    try:
        code = run(app)
    finally:
        sys.argv = before
    said = capsys.readouterr()
    return code, said.out + said.err


def _findings(number: int) -> tuple[Finding, ...]:
    return job_verbs.stored_job(number).evidence.findings


@pytest.mark.parametrize(("read", "share"), [("7 psi", 0.5), ("48 kPa", 0.5), ("0.48 bar", 0.5), ("50 %", 0.5)])
def test_a_cap_tester_reads_a_pressure_and_the_tool_works_out_the_share(
    read: str, share: float, number: int, capsys: pytest.CaptureFixture[str]
) -> None:
    """14 psi are stamped on it: 7 psi, 48 kPa or 0.48 bar are half of that."""
    assert _said(capsys, "job", "check", str(number), "cap tester", read)[0] == 0
    (found,) = _findings(number)
    assert (found.check, found.figure) == ("cap_tester", pytest.approx(share, abs=0.01))


def test_a_check_is_named_and_answered_in_the_words_of_the_screens(
    number: int, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ("Does the fan roar  when hot", "never roars", "--note", "cardboard on")
    assert _said(capsys, "job", "check", str(number), *words)[0] == 0
    assert _findings(number) == (Finding(check="fan_roar_hot", outcome="never_roars", note="cardboard on"),)


def test_a_slip_in_a_name_is_answered_with_the_name_that_was_meant(
    number: int, capsys: pytest.CaptureFixture[str]
) -> None:
    code, said = _said(capsys, "job", "check", str(number), "cap testr", "7 psi")
    assert (code, _findings(number)) == (2, ())
    assert "'cap tester'" in said
    code, said = _said(capsys, "job", "driver", str(number), "puddle under the nose")
    assert code == 2
    assert re.search("did you mean .*puddle or drips under it", said)


def test_an_outcome_that_a_check_cannot_have_changes_nothing(number: int, capsys: pytest.CaptureFixture[str]) -> None:
    code, said = _said(capsys, "job", "check", str(number), "level_cold", "purple")
    assert (code, _findings(number)) == (2, ())
    assert "low, full" in said


def test_what_the_driver_says_and_denies_is_written_down(number: int, capsys: pytest.CaptureFixture[str]) -> None:
    assert _said(capsys, "job", "driver", str(number), "puddle or drips under it", "--no")[0] == 0
    assert _said(capsys, "job", "driver", str(number), "uses_coolant")[0] == 0
    told = job_verbs.stored_job(number).evidence.symptoms
    assert told == (Told(symptom="puddle", denied=True), Told(symptom="uses_coolant"))
