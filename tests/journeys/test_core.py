"""A core on the bench."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from toptank.shop.answers.schemas import schemas

Say = Callable[..., Any]


def _rate(say: Say, file: Path, *more: object) -> dict[str, Any]:
    return say("core", file, "--json", *more).record


def test_the_example_core_sheds_what_its_coolant_loses(say: Say, examples: Path) -> None:
    answer = _rate(say, examples / "bench-core.toml", "--coolant-flow", "40 gpm", "--coolant-in", "200 F")
    Draft202012Validator(schemas()["answer-core"]).validate(answer)
    assert 32 < answer["air_out_degC"] < 93
    assert 32 < answer["coolant_out_degC"] < 93
    # 50/50 at 195 °F: 1.03 kg/L and 3.6 kJ/(kg K) within 3 % (ASHRAE Fundamentals, from memory)
    carried = 40 * 3.785412e-3 / 60 * 1030 * 3.6 * ((200 - 32) / 1.8 - answer["coolant_out_degC"])
    assert answer["heat_kW"] == pytest.approx(carried, rel=0.05)


def test_more_air_and_more_coolant_shed_more_heat(say: Say, examples: Path) -> None:
    file = examples / "bench-core.toml"
    slow = _rate(say, file, "--face-velocity", "2 m/s", "--coolant-flow", "20 gpm")
    windy = _rate(say, file, "--face-velocity", "6 m/s", "--coolant-flow", "20 gpm")
    both = _rate(say, file, "--face-velocity", "6 m/s", "--coolant-flow", "60 gpm")
    assert slow["heat_kW"] < windy["heat_kW"] < both["heat_kW"]
    assert slow["air_pressure_drop_Pa"] < windy["air_pressure_drop_Pa"]
    assert windy["coolant_pressure_drop_kPa"] < both["coolant_pressure_drop_kPa"]


def test_the_regime_of_the_tubes_follows_the_flow(say: Say, examples: Path) -> None:
    regimes = [
        _rate(say, examples / "bench-core.toml", "--coolant-flow", flow)["regime"]
        for flow in ("10 gpm", "50 gpm", "120 gpm")
    ]
    assert regimes == ["laminar", "transition", "turbulent"]


def test_us_and_metric_rate_the_same_core(say: Say, examples: Path) -> None:
    file = examples / "bench-core.toml"
    us, metric = _rate(say, file), _rate(say, file, "--units", "metric")
    Draft202012Validator(schemas()["answer-core"]).validate(metric)
    assert metric == us


def test_the_screen_tells_heat_and_regime(say: Say, examples: Path) -> None:
    answer = say("core", examples / "bench-core.toml")
    assert (answer.code, answer.err) == (0, "")
    assert "kW" in answer.out
    assert "Reynolds" in answer.out
