"""A folder of closed jobs against what they turned out to be."""

import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from toptank.shop.answers.schemas import schemas

Say = Callable[..., Any]

PICKUP = """
format = "toptank-job-1"
[vehicle]
like = "pickup-1970s-v8-air"
[[duty]]
name = "town"
ambient = "90 F"
speed = "0 mph"
[[reading]]
duty = "town"
gauge = "240 F"
"""
"""Invented, like the three jobs made of it: what was wrong was seen in two, in the third nothing points to it."""

BELT = """
[[check]]
name = "turn the pulley by hand"
outcome = "belt gone"
decisive = true
[confirmed]
causes = ["belt slips"]
how = "seen"
"""

GAUGE = """
[[check]]
name = "second thermometer"
outcome = "45 F"
decisive = true
[confirmed]
causes = ["gauge lies"]
how = "seen"
"""

RARE = """
[confirmed]
causes = ["pump turns the wrong way"]
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder with three closed jobs, an open one and a file that is no job."""
    jobs = {"belt": BELT, "gauge": GAUGE, "rare": RARE, "open": ""}
    for name, more in jobs.items():
        (tmp_path / f"{name}.toml").write_text(PICKUP + more, encoding="utf-8")
    (tmp_path / "notes.txt").write_text("not a job", encoding="utf-8")
    return tmp_path


def test_three_closed_jobs_are_scored_in_json_alike_every_time(say: Say, folder: Path) -> None:
    answer, again = (say("evaluate", folder, "--json", "--seed", 3).record for _ in range(2))
    assert answer == again
    assert answer["seed"] == 3
    Draft202012Validator(schemas()["answer-evaluate"]).validate(answer)
    each = {one["name"]: one for one in answer["each"]}
    assert list(each) == ["belt", "gauge", "rare"]
    assert answer["cases"] == 3
    assert (each["belt"]["rank"], each["gauge"]["rank"]) == (1, 1)
    assert each["rare"]["rank"] > 3
    assert answer["top_1_pct"] == pytest.approx(200 / 3, abs=0.1)
    assert answer["top_3_pct"] == pytest.approx(200 / 3, abs=0.1)
    assert each["belt"]["first"] == "belt_slips"
    chances = [max(one["probability_pct"] / 100.0, 1e-4) for one in answer["each"]]
    expected = sum(math.log(chance) for chance in chances) / 3
    # probabilities are printed to a hundredth of a percent: of the rare one, that is some percent of itself
    assert answer["log_score_nat"] == pytest.approx(expected, abs=0.05)
    assert answer["log_score_of_prior_nat"] < answer["log_score_nat"]
    assert set(answer["complaint_alone"]) >= {"top_1_pct", "top_3_pct", "log_score_nat", "calibration"}
    assert answer["complaint_alone"]["log_score_nat"] < answer["log_score_nat"]
    _check_calibration(answer["calibration"])


def _check_calibration(bands: list[dict[str, float]]) -> None:
    """Every repair counts once a job: of the three that were needed none is lost."""
    for band in bands:
        assert band["from_pct"] <= band["stated_pct"] <= band["to_pct"]
        assert 0.0 <= band["found_pct"] <= 100.0
    found = sum(band["repairs"] * band["found_pct"] / 100.0 for band in bands)
    assert found == pytest.approx(3, abs=0.05)  # one repair a job
    assert bands[-1]["found_pct"] == 100.0  # what was seen was so


def test_the_table_names_every_job_and_the_scores(say: Say, folder: Path) -> None:
    shown = say("evaluate", folder)
    assert (shown.code, shown.err) == (0, "")
    text = " ".join(shown.out.split())
    for part in (
        "belt",
        "gauge",
        "rare",
        "first place",
        "67 %",
        "among the first three",
        "log score",
        "predicted and actual",
    ):
        assert part in text
    assert "in the usual order" in text


@pytest.mark.parametrize("command", [("evaluate",), ("diagnose", "JOB", "--learn-from")])
def test_a_folder_that_teaches_nothing_is_refused(say: Say, tmp_path: Path, examples: Path, command: Any) -> None:
    words = [examples / "first-job.toml" if word == "JOB" else word for word in command]
    empty = tmp_path / "empty"
    empty.mkdir()
    still_open = tmp_path / "open"
    still_open.mkdir()
    (still_open / "job.toml").write_text(PICKUP, encoding="utf-8")
    for place, limit in (
        (empty, "holds no closed job"),
        (still_open, "holds no closed job"),
        (tmp_path / "nowhere", "is not a folder"),
        (still_open / "job.toml", "is not a folder"),
    ):
        answer = say(*words, place)
        assert (answer.code, answer.out) == (2, "")
        assert answer.err.count("\n") == 1
        assert f"folder = {place}: {limit}" in answer.err


SPOILT = {
    "anvil": (PICKUP.replace("pickup-1970s-v8-air", "spaceship") + BELT, "vehicle.like = spaceship"),
    "churn": (PICKUP + BELT.replace("belt slips", "belt slipps"), "did you mean 'belt slipping'?"),
    "wheel": (PICKUP + BELT.replace("how =", "hwo ="), "confirmed.hwo"),
    "zebra": ("format = ", "zebra.toml"),
}
"""Files that cannot be read, with what is said of each."""


def test_jobs_that_cannot_be_read_are_left_out_and_named(say: Say, folder: Path) -> None:
    """Spoilt files among a shop's closed jobs must not cost the answer from all the others."""
    for name, (spoilt, _) in SPOILT.items():
        (folder / f"{name}.toml").write_text(spoilt, encoding="utf-8")
    answer = say("evaluate", folder, "--json").record
    assert [one["name"] for one in answer["each"]] == ["belt", "gauge", "rare"]
    for (name, (_, part)), sentence in zip(SPOILT.items(), answer["left_out"], strict=True):
        assert sentence.startswith(f"{name}.toml was left out: ")
        assert part in sentence


def test_of_a_folder_with_nothing_readable_the_reason_is_told(say: Say, tmp_path: Path) -> None:
    (tmp_path / "zebra.toml").write_text("format = ", encoding="utf-8")
    answer = say("evaluate", tmp_path)
    assert (answer.code, answer.out) == (2, "")
    assert "holds no closed job; zebra.toml was left out" in answer.err
