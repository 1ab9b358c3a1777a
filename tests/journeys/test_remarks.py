"""What an answer says beside its figures: what was guessed, what was not found, where the figures end."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Say = Callable[..., Any]
FEW = ("--draws", 50)

JOB = """format = "toptank-job-1"
[job]
limit = "{limit}"
[vehicle]
like = "pickup-1970s-v8-air"
[core]
blocked_face = "{closed}"
[fill]
concentrate = "{mix}"
[[duty]]
name = "road"
speed = "45 mph"
grade = "{grade}"
{ambient}
"""
USUAL = {"limit": "225 F", "closed": "0 %", "mix": "50 %", "grade": "0 %", "ambient": 'ambient = "90 F"'}


@pytest.fixture
def told(say: Say, tmp_path: Path) -> Callable[..., dict[str, Any]]:
    """Forecast the job above, but for what is said here."""

    def forecast(*words: object, **other: str) -> dict[str, Any]:
        job = tmp_path / "job.toml"
        job.write_text(JOB.format(**{**USUAL, **other}), encoding="utf-8")
        return say("forecast", job, "--json", *FEW, *words).record

    return forecast


def _among(remarks: list[str], *parts: str) -> int:
    return sum(all(part in one for part in parts) for one in remarks)


def test_an_ambient_that_nobody_named_is_told_and_counted_as_assumed(told: Callable[..., dict[str, Any]]) -> None:
    named, guessed = told(), told(ambient="")
    assert _among(named["remarks"], "ambient") == 0
    assert _among(guessed["remarks"], "duty 'road': ", "is not said and is taken as 90 °F") == 1
    assert guessed["facts"]["assumed"] == named["facts"]["assumed"] + 1
    assert guessed["facts"]["measured"] == named["facts"]["measured"] - 1


def test_what_a_duty_says_is_counted_with_the_rest(told: Callable[..., dict[str, Any]]) -> None:
    flat = told()
    loaded = told(ambient='ambient = { value = "90 F", how = "plate" }\ntrailer_mass = "2000 lb"')
    # two facts of parts, speed, grade, ambient
    assert (flat["facts"]["measured"], flat["facts"]["plate"]) == (5, 0)
    assert (loaded["facts"]["measured"], loaded["facts"]["plate"]) == (5, 1)
    # a trailer that is not there was no assumption
    assert loaded["facts"]["assumed"] == flat["facts"]["assumed"]


def test_where_it_boils_at_any_ambient_no_figure_is_given(told: Callable[..., dict[str, Any]]) -> None:
    # 45 mph up 12 % through a face that is nearly closed: no air there is cold enough
    answer = told(closed="90 %", grade="12 %")
    assert answer["duties"][0]["air_to_boil_degC"] == {"p10": None, "p50": None, "p90": None}
    assert answer["duties"][0]["limiting_ambient_degC"] == {"p10": None, "p50": None, "p90": None}
    for figure in ("air_to_boil", "limiting_ambient"):
        assert _among(answer["remarks"], figure, "9 in 10 or more", "at any ambient", "even at -100 °F") == 1
    assert _among(told()["remarks"], "at any ambient") == 0


def test_a_limit_below_the_thermostat_is_passed_at_any_ambient(told: Callable[..., dict[str, Any]]) -> None:
    # a thermostat of 180 °F or more holds the coolant above 150 °F however cold it is
    answer = told("--units", "metric", limit="150 F")
    (road,) = answer["duties"]
    assert road["limiting_ambient_degC"]["p10"] is None
    assert all(road["air_to_boil_degC"].values())
    assert _among(answer["remarks"], "limiting_ambient", "the limit of 66 °C", "even at -73 °C") == 1


def test_the_screen_says_any_where_there_is_no_figure(say: Say, tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text(JOB.format(**{**USUAL, "closed": "90 %", "grade": "12 %"}), encoding="utf-8")
    screen = " ".join(say("forecast", job, "--full", *FEW).out.split())
    assert "hits 225 °F when it is any temperature outside" in screen
    assert "100 % any" in screen
    assert "-100 (" not in screen
    assert "nan" not in screen


def test_a_bottom_hose_colder_than_its_mix_freezes_is_told(told: Callable[..., dict[str, Any]]) -> None:
    # 20 % of concentrate freezes near 18 °F, 50 % near -34 °F (labels, from memory)
    cold = 'ambient = "-30 F"'
    weak, strong = told(mix="20 %", ambient=cold), told(mix="50 %", ambient=cold)
    assert _among(weak["remarks"], "duty 'road': the lower hose", "20 % concentrate", "begins to freeze") == 1
    assert _among(strong["remarks"], "freeze") == 0
    assert _among(told(mix="20 %")["remarks"], "freeze") == 0


@pytest.fixture
def rated(say: Say, examples: Path, tmp_path: Path) -> Callable[..., list[str]]:
    """Rate the example core and return the remarks."""

    def rate(*words: str, mix: str = "50 %") -> list[str]:
        text = (examples / "bench-core.toml").read_text(encoding="utf-8").partition("[fill]")[0]
        file = tmp_path / "core.toml"
        file.write_text(f'{text}[fill]\nconcentrate = "{mix}"\n', encoding="utf-8")
        return say("core", file, "--json", *words).record["remarks"]

    return rate


def test_coolant_beyond_the_fits_is_told(rated: Callable[..., list[str]]) -> None:
    # media/coolant.py: fits hold to 398.15 K, which is 257 °F
    assert _among(rated("--coolant-in", "290 F"), "coolant-in, at 290 °F", "257 °F") == 1
    assert rated("--coolant-in", "256 F") == []


@pytest.mark.parametrize(
    ("words", "named"),
    [
        (("--coolant-in", "20 F", "--air-in", "0 F"), "coolant-in, at 20 °F"),
        (("--coolant-in", "35 F", "--air-in", "-20 F", "--coolant-flow", "5 gpm"), "coolant-out, at"),
    ],
)
def test_water_below_freezing_on_the_bench_is_told_once(
    rated: Callable[..., list[str]], words: tuple[str, ...], named: str
) -> None:
    remarks = rated(*words, mix="0 %")
    assert _among(remarks, named, "32 °F at which plain water begins to freeze") == 1
    assert _among(remarks, "freeze") == 1
    assert _among(rated(*words, mix="50 %"), "freeze") == 0
