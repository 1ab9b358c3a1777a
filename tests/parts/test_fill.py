"""The fill: air in the loop, and the mixtures that are believed."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from toptank.parts.fill import Fill
from toptank.units.declaration import declarations


def test_a_full_system_keeps_the_whole_head() -> None:
    assert Fill().head_left(air=0.0) == 1.0


def test_a_fifth_of_air_halves_the_head() -> None:
    assert Fill().head_left(air=0.2) == pytest.approx(0.5)  # the docstring's judgement: 1 / (1 + 25 x 0.04)


def test_more_air_always_takes_more_of_the_head_and_the_first_bubbles_take_little() -> None:
    left = Fill().head_left(air=np.linspace(0.0, 0.6, 61))
    assert np.all(np.diff(left) < 0.0)
    assert left[2] > 0.98  # 2 %: a bubble in the top tank
    assert left[-1] > 0.0


def test_a_mixture_beyond_60_percent_is_remarked_on() -> None:
    """Engine operator's manual: do not exceed 60 % of concentrate; makers ask for a third at the least."""
    declared = dict(declarations(Fill))["concentrate"]
    assert declared.plausible[1] == pytest.approx(0.60)
    assert declared.plausible[0] < 0.33
    assert declared.hard[0] == 0.0  # plain water is a fill too


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    def all_of_it(air: Any, may_be_missing: Any) -> tuple[Any, ...]:
        fill = Fill(air=air, may_be_missing=may_be_missing, gas=0.3)
        found = fill.air_at(load=0.5)
        return found, fill.head_left(air=found), fill.lift(air=found, rho=970.0), fill.wet(air=found)

    same_one_by_one(all_of_it, air=[0.0, 0.1, 0.4], may_be_missing=[0.1, 0.2, 0.15])


def test_what_the_upper_tank_holds_may_be_missing_and_then_the_level_must_be_lifted() -> None:
    fill = Fill(may_be_missing=0.15)
    assert fill.lift(air=0.15, rho=970.0) == 0.0
    assert fill.wet(air=0.15) == 1.0
    # 30 % more is gone: the pump must lift the rest by 0.3 of half a metre of height, and 30 of 85 tubes are dry
    assert fill.lift(air=0.45, rho=970.0) == pytest.approx(970.0 * 9.80665 * 0.5 * 0.30)
    assert fill.wet(air=0.45) == pytest.approx(55.0 / 85.0)


def test_a_leaking_gasket_fills_the_loop_with_gas_by_the_load() -> None:
    fill = Fill(air=0.02, gas=0.4)
    assert fill.air_at(load=0.0) == pytest.approx(0.02)
    assert fill.air_at(load=1.0) == pytest.approx(0.42)
    assert fill.air_at(load=3.0) == pytest.approx(0.42)


def test_a_loop_that_is_short_of_coolant_carries_air_round_by_the_load() -> None:
    """Common practice: half gone boils on a hill and may hold on the flat.

    A fifth of air at full load takes half the head of what is left, a twentieth at the quarter load of a flat road does
    not matter. As long as the upper tank holds some, none goes round.
    """
    half, topped = Fill(air=0.5, may_be_missing=0.15), Fill(air=0.15, may_be_missing=0.15)
    assert half.air_at(load=1.0) - half.air == pytest.approx(0.21)  # 0.6 of the 35 % that are missing
    assert half.air_at(load=0.25) - half.air == pytest.approx(0.0525)
    assert topped.air_at(load=1.0) == pytest.approx(0.15)
