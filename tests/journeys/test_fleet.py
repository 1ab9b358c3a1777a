"""A depot asks which vehicles to send: a table in, a ranked screen, a file and a picture out; many jobs in lines."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from toptank.shop.answers.schemas import schemas

FEW = ("--draws", "64", "--day", "100 F")
GPX = Path(__file__).parents[2] / "examples" / "demo-climb.gpx"


@pytest.fixture
def depot(tmp_path: Path) -> Path:
    """A table of three vehicles and one that cannot be built."""
    path = tmp_path / "depot.csv"
    path.write_text(
        "id,like,core.rows,grade [%]\nbus,minibus-1970s-v8-air,3,6\nsaloon,saloon-1950s-six,2,5\n"
        "pickup,pickup-1970s-v8-air,2,7\nwrong,saloon-1950s-six,99,5\n",
        encoding="utf-8",
    )
    return path


def test_a_screen_ranks_the_fleet_and_tells_what_was_left_out(say: Callable[..., Any], depot: Path) -> None:
    out, picture = depot.with_name("fleet.csv"), depot.with_name("fleet.png")
    answer = say("fleet", depot, *FEW, "--out", out, "--picture", picture)
    told = " ".join(answer.out.split())
    assert answer.code == 0
    assert "3 vehicles at 100 °F" in told
    for words in ("bus", "saloon", "pickup", "climb, 6 %", "Left out: depot.csv, line 5 (wrong): core.rows = 99"):
        assert words in told
    assert len(out.read_text(encoding="utf-8").splitlines()) == 1 + 3 + 1
    assert picture.read_bytes().startswith(b"\x89PNG")
    again = say("fleet", depot, *FEW, "--out", out)
    assert again.code == 2
    assert "exists already" in again.err


def test_the_record_for_a_program_follows_its_schema(say: Callable[..., Any], depot: Path) -> None:
    record = say("fleet", depot, *FEW, "--json").record
    Draft202012Validator(schemas()["answer-fleet"]).validate(record)
    assert [one["line"] for one in record["left_out"]] == [5]


def test_a_fleet_on_a_road_peaks_somewhere_on_it(say: Callable[..., Any], depot: Path) -> None:
    record = say("fleet", depot, *FEW, "--route", GPX, "--json").record
    assert record["road"] == GPX.name
    for one in record["vehicles"]:
        assert one["hottest_place"].startswith("after ")
        assert one["bears_degC"]["p10"] <= one["bears_degC"]["p50"] <= one["bears_degC"]["p90"]


def test_several_jobs_are_diagnosed_a_line_each_and_a_bad_one_is_told(
    say: Callable[..., Any], examples: Path, tmp_path: Path
) -> None:
    broken = tmp_path / "broken.toml"
    broken.write_text('format = "toptank-job-2"\n[vehicle]\nlike = "no-such"\n', encoding="utf-8")
    first = examples / "first-job.toml"
    answer = say("diagnose", first, broken, "demo", "--jsonl")
    assert answer.code == 1
    lines = [json.loads(line) for line in answer.out.splitlines()]
    assert [one["job"] for one in lines] == [str(first), str(broken), "demo"]
    assert lines[1]["left_out"]["value"] == "no-such"
    alone = say("diagnose", first, "--json").record
    assert {key: value for key, value in lines[0].items() if key != "job"} == alone
