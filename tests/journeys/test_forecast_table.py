"""A forecast on the screen: nothing in it can be misread."""

import math
import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from toptank.interfaces.cli.tables.forecast_table import band, ended, show_forecast
from toptank.interfaces.cli.tables.table import console
from toptank.knowledge.sheet import duty_fields, fields
from toptank.shop.answers.answers import Forecast
from toptank.shop.answers.forecast import forecast_answer
from toptank.shop.answers.words.figures import STATUS_WORDS
from toptank.shop.ask import service
from toptank.units.declaration import Declaration
from toptank.units.dimension import TEMPERATURE_RISE

Say = Callable[..., Any]
ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize(
    ("kelvin", "shown"),
    [
        ((10.0, 20.0, 30.0), "20 (10\N{EN DASH}30)"),
        ((-19.0, 12.0, 47.0), "12 (-19 to 47)"),
        ((-47.0, -30.0, -19.0), "-30 (-47 to -19)"),
        ((-0.3, 0.2, 5.0), "0 (0\N{EN DASH}5)"),
        ((math.nan, 20.0, 30.0), "20 (any to 30)"),
        ((math.nan, math.nan, 30.0), "any (any to 30)"),
        ((math.nan, math.nan, math.nan), "any"),
    ],
)
def test_a_band_with_a_negative_end_is_not_written_with_a_dash(kelvin: tuple[float, ...], shown: str) -> None:
    assert band(kelvin, TEMPERATURE_RISE, "metric") == shown


def test_what_no_vehicle_does_is_left_out_of_how_they_ended() -> None:
    assert ended({0: 0.66, 1: 0.34}) == "the thermostat holds it 66 %; it settles with the thermostat wide open 34 %"
    assert ended({0: 0.998, 3: 0.002}) == "the thermostat holds it 100 %"


@pytest.fixture(scope="module")
def minibus() -> Forecast:
    """A forecast with several duties, worked out once."""
    return service.forecast(service.open_job(str(ROOT / "examples" / "orchard-minibus.toml")), draws=50)


@pytest.mark.parametrize("columns", [30, 40, 50, 60, 70, 80, 120])
def test_every_duty_and_every_figure_is_on_a_screen_of_any_width(
    minibus: Forecast, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], columns: int
) -> None:
    monkeypatch.setattr(console, "width", columns)
    show_forecast(minibus, "us")
    lines = capsys.readouterr().out.splitlines()
    table = " ".join(" ".join(lines).partition("Most likely value")[0].split())
    for duty in forecast_answer(minibus).duties:
        for word in duty.name.split():
            assert word in table
        low, middle, high = (round(1.8 * float(end) + 32.0) for _, end in duty.gauge_degC)
        assert f"{middle} ({low}\N{EN DASH}{high})" in table
    assert max(map(len, lines)) <= columns


@pytest.mark.parametrize("code", STATUS_WORDS)
def test_every_status_has_its_words(code: int) -> None:
    assert len(ended({code: 1.0})) > len("it boi 100 %")


def _on_the_screen(say: Say, *words: object) -> str:
    answer = say(*words)
    assert (answer.code, answer.err) == (0, "")
    return " ".join(answer.out.split())


def test_too_few_draws_to_weigh_assumptions_are_told(say: Say, examples: Any) -> None:
    words = ("forecast", examples / "first-job.toml", "--draws", 60)
    screen = _on_the_screen(say, *words, "--full")
    told = re.search(r"60 simulations are too few to tell apart (\d+) facts .*? at least (\d+)", screen)
    assert told is not None
    answer = say(*words, "--json").record
    assert answer["duties"][0]["widest"] == []
    assert any("duty 'long grade': widest is empty: 60 simulations are too few" in one for one in answer["remarks"])
    enough = say("forecast", examples / "first-job.toml", "--draws", told[2], "--json").record
    assert len(enough["duties"][0]["widest"]) > 0
    assert not any("widest" in one for one in enough["remarks"])


def test_what_cannot_be_measured_is_not_offered_as_a_check(say: Say, examples: Any) -> None:
    words = ("forecast", examples / "first-job.toml", "--draws", 600)
    assert "Measure first: " in _on_the_screen(say, *words)
    screen = _on_the_screen(say, *words, "--full")
    assert "not measured" not in screen
    assert "Check: cannot" not in screen
    assert "Cannot be measured in the shop; " in screen
    assert "Check: " in screen


def _declarations() -> dict[str, Declaration]:
    return {**dict(fields()), **{f"duty.{key}": one for key, one in duty_fields().items()}}


def test_every_field_says_how_to_measure_it_or_that_a_bay_cannot() -> None:
    for path, declaration in _declarations().items():
        told = declaration.in_the_bay()
        assert "not measured" not in told, path
        assert declaration.measurable() == (not told.startswith("cannot be measured in the shop")), path
        assert told == declaration.measure or told.startswith("cannot be measured in the shop"), path


def test_a_field_without_a_way_to_measure_it_keeps_what_is_known() -> None:
    declaration = replace(next(iter(_declarations().values())), measure="not measured: 4 to 6 psi")
    assert declaration.in_the_bay() == "cannot be measured in the shop; 4 to 6 psi"
    assert replace(declaration, measure="not measured").in_the_bay() == "cannot be measured in the shop"
