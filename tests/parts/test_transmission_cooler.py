"""The transmission cooler: where its heat goes, and that all of it goes somewhere."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from toptank.parts.transmission_cooler import T_FLUID_LIMIT, TransmissionCooler

NONE, IN_TANK, AHEAD, ELSEWHERE = 0.0, 1.0, 2.0, 3.0
PLENTY = 1e9  # capacity rate of a sink that does not warm up


def _split(heat: Any = 4000.0, T_sink: Any = 370.0, C_sink: Any = PLENTY, place: Any = IN_TANK) -> Any:
    cooler = TransmissionCooler(place=place, conductance=200.0, case_conductance=25.0)
    return cooler.split(heat=heat, T_sink=T_sink, C_sink=C_sink, T_ambient=300.0)


def test_each_place_heats_what_it_sits_in() -> None:
    places = np.array([NONE, IN_TANK, AHEAD, ELSEWHERE])
    assert np.array_equal(TransmissionCooler(place=places).to_coolant(), [0.0, 1.0, 0.0, 0.0])
    assert np.array_equal(TransmissionCooler(place=places).to_core_air(), [0.0, 0.0, 1.0, 0.0])


def test_cooler_and_case_share_the_heat_by_their_conductances() -> None:
    # 200 (T - 370) + 25 (T - 300) = 4000 W: T = 380 K, 2 kW to the coolant, 2 kW from the case
    assert _split() == pytest.approx((2000.0, 380.0), rel=1e-5)


def test_without_a_cooler_the_case_carries_all_of_it() -> None:
    assert _split(heat=2000.0, place=NONE) == pytest.approx((0.0, 380.0))  # 300 + 2000 / 25


def test_a_trickle_of_coolant_takes_no_more_than_it_can_carry() -> None:
    passed, T_fluid = _split(C_sink=20.0)
    assert 0.0 < passed < 20.0 * (T_fluid - 370.0) * (1.0 + 1e-12)
    assert T_fluid > _split()[1]


def test_the_fluid_stops_at_its_limit_unless_the_sink_is_hotter() -> None:
    assert _split(heat=20e3, place=NONE)[1] == T_FLUID_LIMIT
    assert _split(heat=50e3)[1] == T_FLUID_LIMIT
    assert _split(heat=50e3, T_sink=440.0) == pytest.approx((0.0, 440.0))


def test_an_idle_transmission_is_warmed_by_the_coolant() -> None:
    passed, T_fluid = _split(heat=0.0)
    assert passed < 0.0
    assert 300.0 < T_fluid < 370.0
    assert -passed == pytest.approx(25.0 * (T_fluid - 300.0))  # what the coolant gives, the case loses


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    columns = {"heat": [0.0, 3000.0, 9000.0, 2000.0], "place": [NONE, IN_TANK, AHEAD, ELSEWHERE]}
    same_one_by_one(_split, C_sink=[100.0, 5000.0, 900.0, PLENTY], T_sink=[300.0, 370.0, 310.0, 300.0], **columns)
