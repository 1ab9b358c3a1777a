"""From a typical vehicle to a starting file and back to a forecast; the list."""

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from toptank.knowledge.sheet import declaration_of, duty_fields
from toptank.knowledge.sheet_text import BY_HAND, written_value
from toptank.knowledge.typical import typical, typical_names
from toptank.shop.answers.schemas import schemas
from toptank.shop.job.job_file import read_job
from toptank.units.dimension import TEMPERATURE

Say = Callable[..., Any]
FORECAST = ("pickup-1970s-v8-air", "van-1980s-rear-four", "tractor-1960s-diesel", "roadster-1960s-four")


def test_the_list_names_at_least_fourteen_vehicles(say: Say) -> None:
    answer = say("vehicles", "--json").record
    Draft202012Validator(schemas()["answer-vehicles"]).validate(answer)
    assert len(answer["vehicles"]) >= 14
    assert "minibus-1970s-v8-air" in say("vehicles").out


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("like", FORECAST)
def test_a_starting_file_can_be_forecast_as_it_is(say: Say, tmp_path: Path, like: str, units: str) -> None:
    file = tmp_path / "job.toml"
    assert say("sheet", "new", "--like", like, "--units", units, "--out", file).code == 0
    answer = say("forecast", file, "--draws", 50, "--json").record
    assert (answer["like"], answer["assumed_units"]) == (like, [])
    assert answer["facts"]["measured"] == 0


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("like", typical_names())
def test_a_starting_file_says_what_its_vehicle_says(say: Say, tmp_path: Path, like: str, units: str) -> None:
    file = tmp_path / "job.toml"
    file.write_text(say("sheet", "new", "--like", like, "--units", units).out, encoding="utf-8")
    job = read_job(file)
    for path, fact in typical(like).sheet.facts.items():
        # written as on a tape: half a percent is less than any of these figures is known to
        assert job.sheet.facts[path].value == pytest.approx(fact.value, rel=5e-3, abs=1e-12), path
        assert job.sheet.facts[path].how == fact.how
        assert job.sheet.facts[path].spread == pytest.approx(fact.spread, rel=0.02, abs=1e-12), path
        if declaration_of(path).dimension == TEMPERATURE:  # half a percent of the degrees that are shown
            assert job.sheet.facts[path].value - 273.15 == pytest.approx(fact.value - 273.15, rel=5e-3, abs=0.5), path


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("like", typical_names())
def test_a_starting_file_is_written_as_a_person_writes(say: Say, like: str, units: str) -> None:
    text = say("sheet", "new", "--like", like, "--units", units).out
    written = re.findall(r'(?:value|spread) = "?(-?[\d][^",}]*)', text)
    assert len(written) > 150
    for figure in written:
        number = figure.split()[0]
        assert re.fullmatch(r"-?\d+(\.\d+)?|\d+/\d+", number), figure
        assert "/" in number or len(number.replace(".", "").strip("-0")) <= 4, (
            figure
        )  # zeros behind are none of a person's digits
    assert "cannot be measured in the shop" in text
    assert "not measured" not in text


@pytest.mark.parametrize(
    ("metres", "written"),
    [
        (0.0158749, '"5/8 in"'),
        (0.015875, '"5/8 in"'),
        (0.66, '"26 in"'),
        (0.4699, '"18 1/2 in"'),
        (0.05, '"1 31/32 in"'),
        (0.0001, '"0.00394 in"'),  # thinner than a 64th: no fraction of a rule
        (0.0, '"0 in"'),
    ],
)
def test_inches_are_written_in_fractions_where_a_rule_has_them(metres: float, written: str) -> None:
    length = replace(declaration_of("core.tube_width"), hard=(0.0, 10.0))
    assert written_value(metres, length, "us", within=BY_HAND) == written


def test_nought_degrees_are_written_as_nought() -> None:
    ambient = duty_fields()["ambient"]
    assert written_value(255.3722222222222, ambient, "us", within=BY_HAND) == '"0 °F"'
    assert written_value(273.15, ambient, "metric") == '"0 °C"'


def test_both_unit_systems_write_the_same_vehicle(say: Say, tmp_path: Path) -> None:
    gauges: list[float] = []
    for units in ("us", "metric"):
        file = tmp_path / f"{units}.toml"
        say("sheet", "new", "--like", FORECAST[0], "--units", units, "--out", file)
        answer = say("forecast", file, "--draws", 50, "--units", "us", "--json").record
        gauges.append(answer["duties"][0]["gauge_degC"]["p50"])
    # each file rounds its own figures, to 0.4 % at most; a core's heat, and so 100 °F over the air, moves with a few
    assert gauges[0] == pytest.approx(gauges[1], abs=0.6)


def test_a_starting_file_comes_as_json_too(say: Say) -> None:
    answer = say("sheet", "new", "--like", FORECAST[0], "--json").record
    Draft202012Validator(schemas()["answer-sheet-new"]).validate(answer)
    assert 'format = "toptank-job-2"' in answer["text"]
