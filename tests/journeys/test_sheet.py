"""From a typical vehicle to a starting file and back to a forecast; the list; the explanations."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from toptank.jobs.figures import FIGURES
from toptank.jobs.job_file import read_job
from toptank.jobs.schema import schemas
from toptank.knowledge.typical import typical, typical_names

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
    assert (answer["like"], answer["units"], answer["assumed_units"]) == (like, units, [])
    assert answer["facts"]["measured"] == 0


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("like", typical_names())
def test_a_starting_file_says_what_its_vehicle_says(say: Say, tmp_path: Path, like: str, units: str) -> None:
    file = tmp_path / "job.toml"
    file.write_text(say("sheet", "new", "--like", like, "--units", units).out, encoding="utf-8")
    job = read_job(file)
    for path, fact in typical(like).sheet.facts.items():
        assert job.sheet.facts[path].value == pytest.approx(fact.value, rel=1e-6, abs=1e-12), path
        assert job.sheet.facts[path].how == fact.how
        assert job.sheet.facts[path].spread == pytest.approx(fact.spread, rel=1e-5, abs=1e-12), path


def test_both_unit_systems_write_the_same_vehicle(say: Say, tmp_path: Path) -> None:
    gauges: list[float] = []
    for units in ("us", "metric"):
        file = tmp_path / f"{units}.toml"
        say("sheet", "new", "--like", FORECAST[0], "--units", units, "--out", file)
        answer = say("forecast", file, "--draws", 50, "--units", "us", "--json").record
        gauges.append(answer["duties"][0]["gauge_degF"]["p50"])
    assert gauges[0] == pytest.approx(gauges[1], abs=0.05)


def test_a_starting_file_comes_as_json_too(say: Say) -> None:
    answer = say("sheet", "new", "--like", FORECAST[0], "--json").record
    Draft202012Validator(schemas()["answer-sheet-new"]).validate(answer)
    assert 'format = "toptank-job-1"' in answer["text"]


@pytest.mark.parametrize("figure", [figure.name for figure in FIGURES])
def test_every_figure_is_explained(say: Say, figure: str) -> None:
    answer = say("explain", figure, "--json").record
    Draft202012Validator(schemas()["answer-explain"]).validate(answer)
    assert answer["name"] == figure
    assert answer["means"]
    assert answer["equations"] or answer["assumptions"]
    root = Path(__file__).parents[2] / "src" / "toptank"
    assert answer["files"]
    assert all((root / file).is_file() for file in answer["files"])
    assert answer["means"][:20] in " ".join(say("explain", figure).out.split())


def test_an_explanation_is_found_under_the_key_of_an_answer(say: Say) -> None:
    assert say("explain", "Air-To-Boil_degF", "--json").record["name"] == "air_to_boil"


def test_an_equation_comes_with_its_source(say: Say) -> None:
    assert say("explain", "top_tank", "--json").record["sources"]
