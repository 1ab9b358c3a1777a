"""From a job file to bands, figures, a chart."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from typer.core import TyperGroup
from typer.main import get_command

from toptank.interfaces.cli.main import app
from toptank.knowledge.forecast import Bands
from toptank.shop.answers.schemas import schemas

Say = Callable[..., Any]
FEW = ("--draws", 50)
SCREEN = 40
"""Lines of 80 columns that a summary has at most (issue 14)."""


@pytest.fixture(scope="session")
def check() -> Callable[[Any], None]:
    """Hold an answer against the schema of a forecast."""
    return Draft202012Validator(schemas()["answer-forecast"]).validate


def test_the_demo_forecasts_the_orchard_minibus(say: Say) -> None:
    answer = say("demo", "--json", "--draws", 600).record  # fewer cannot tell which assumption weighs most
    Draft202012Validator(schemas()["answer-demo"]).validate(answer)
    assert answer["invented"] is True
    assert [duty["name"] for duty in answer["duties"]] == ["river road", "ridge climb", "farm gate"]
    for duty in answer["duties"]:
        for figure in ("top_tank_degC", "gauge_degC", "margin_to_boiling_K", "air_to_boil_degC"):
            assert duty[figure]["p10"] <= duty[figure]["p50"] <= duty[figure]["p90"]
        # three, and where none of them can be measured the widest that can
        assert 3 <= len(duty["widest"]) <= 4
        assert all(one["measure"] for one in duty["widest"])
        # each share is rounded to a hundredth of a percent
        assert sum(duty["status_pct"].values()) == pytest.approx(100, abs=0.0051 * len(duty["status_pct"]))
        assert [one["share_pct"] for one in duty["widest"]] == sorted(
            (one["share_pct"] for one in duty["widest"]), reverse=True
        )
    river, ridge, _ = (duty["gauge_degC"]["p50"] for duty in answer["duties"])
    assert river < ridge


def test_the_example_job_is_forecast_with_what_was_read(say: Say, examples: Path, check: Callable[[Any], None]) -> None:
    answer = say("forecast", examples / "orchard-minibus.toml", "--json", *FEW).record
    check(answer)
    assert answer["facts"]["plate"] == 4
    assert answer["limit_degC"] == pytest.approx((220 - 32) / 1.8, abs=1e-3)
    ridge = answer["duties"][1]
    assert ridge["readings"] == [
        {"gauge_degC": pytest.approx((222 - 32) / 1.8, abs=1e-3), "words": "hot", "note": "read at the last bend"}
    ]


def test_us_and_metric_tell_the_same_forecast(say: Say, examples: Path, check: Callable[[Any], None]) -> None:
    us = say("forecast", examples / "first-job.toml", "--json", *FEW).record
    metric = say("forecast", examples / "first-job.toml", "--json", "--units", "metric", *FEW).record
    check(metric)
    assert metric["limit_degC"] == pytest.approx((220 - 32) / 1.8, abs=1e-3)
    assert {**metric, "remarks": []} == {**us, "remarks": []}


def test_every_figure_of_a_forecast_has_its_unit_in_its_key(say: Say, examples: Path) -> None:
    answer = say("forecast", examples / "first-job.toml", "--json", *FEW).record
    units = ("_degC", "_K", "_kW", "_rpm", "_L_per_min", "_m_per_s", "_pct", "_minutes")
    bands = {key for key, value in answer["duties"][0].items() if isinstance(value, dict) and "p50" in value}
    # beside the bands of every duty, when it boils, where more than the odd vehicle does
    assert len(bands - {"boils_after_minutes"}) == len(Bands.__dataclass_fields__)
    assert all(key.endswith(units) for key in bands)


def test_the_same_seed_gives_the_same_answer(say: Say, examples: Path) -> None:
    words = ("forecast", examples / "first-job.toml", "--json", *FEW)
    assert say(*words, "--seed", 5).out == say(*words, "--seed", 5).out != say(*words, "--seed", 6).out


def test_the_screen_names_duty_limit_and_caution(say: Say, examples: Path) -> None:
    answer = say("forecast", examples / "first-job.toml", *FEW)
    assert (answer.code, answer.err) == (0, "")
    for words in ("long grade", "invented", "220 °F", "Never open a hot system", "boil", "--full"):
        assert words in answer.out
    assert len(answer.out.splitlines()) <= SCREEN


def test_the_whole_forecast_says_what_it_rests_on_and_what_would_narrow_it(say: Say, examples: Path) -> None:
    answer = say("forecast", examples / "first-job.toml", "--full", *FEW)
    for words in ("estimated", "Most likely value (range, 8 times in 10)", "in the simulations", "biggest unknowns"):
        assert words in answer.out


@pytest.mark.parametrize(("name", "head"), [("gauge.png", b"\x89PNG\r\n"), ("gauge.svg", b"<?xml")])
def test_a_chart_is_written_beside_the_answer(say: Say, examples: Path, tmp_path: Path, name: str, head: bytes) -> None:
    out = tmp_path / name
    answer = say("forecast", examples / "first-job.toml", "--out", out, "--json", *FEW)
    assert json.loads(answer.out)["duties"]
    assert out.read_bytes().startswith(head)
    assert [path.name for path in tmp_path.iterdir()] == [name]


def test_force_replaces_a_chart(say: Say, examples: Path, tmp_path: Path) -> None:
    out = tmp_path / "gauge.svg"
    out.write_text("old", encoding="utf-8")
    assert say("forecast", examples / "first-job.toml", "--out", out, "--force", *FEW).code == 0
    assert out.stat().st_size > 1000


def test_signs_that_mean_something_elsewhere_are_plain_text_here(say: Say, tmp_path: Path, job_text: str) -> None:
    job = tmp_path / "job.toml"
    text = job_text.replace("Pickup that runs warm on the pass", "Pickup [/bold] for $x_{$ <b> & co")
    job.write_text(text.replace("long grade", "grade [/] a"), encoding="utf-8")
    answer = say("forecast", job, "--out", tmp_path / "gauge.svg", *FEW)
    assert (answer.code, answer.err) == (0, "")
    assert "Pickup [/bold] for $x_{$ <b> & co" in answer.out
    assert "grade [/] a" in answer.out


def test_demo_and_forecast_take_the_same_options() -> None:
    commands = get_command(app)
    assert isinstance(commands, TyperGroup)
    demo, forecast = ({one.name for one in commands.commands[name].params} for name in ("demo", "forecast"))
    assert demo >= {"units", "as_json", "out", "draws", "seed", "force"}
    assert forecast == (demo - {"road_test"}) | {"job"}  # the demo goes on from there
