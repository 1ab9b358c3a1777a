"""The condenser: an energy balance beside a published cycle, and its limits."""

from collections.abc import Callable
from math import exp
from typing import Any

import numpy as np
import pytest

from toptank.parts.condenser import BELT_EFFICIENCY, T_CONDENSING_LIMIT, Condenser

R134A, R12 = 0.0, 1.0
DAY = {"C_air": 1000.0, "T_air_in": 310.0, "V_face": 2.5}


def _load(T: Any = 308.15, engine_speed: Any = 40.0, on: Any = 1.0, **condenser: Any) -> Any:
    return Condenser(cooling_load=5000.0, **condenser).load(T_ambient=T, engine_speed=engine_speed, air_conditioning=on)


def test_the_stated_load_is_that_of_35_degrees_outside_at_2400_rpm() -> None:
    # judgement in the docstring: (308.15 - 283.15) / 25 = 1, 1.15 x 40 / 46 = 1
    assert _load() == pytest.approx(5000.0)


def test_a_hot_day_asks_more_and_a_slow_compressor_gives_less() -> None:
    assert np.all(np.diff(_load(np.array([290.0, 300.0, 310.0, 318.0]))) > 0.0)
    assert np.all(np.diff(_load(engine_speed=np.array([10.0, 20.0, 40.0, 70.0]))) > 0.0)


def test_off_or_absent_it_asks_nothing_and_gives_nothing() -> None:
    assert _load(on=0.0) == 0.0
    assert _load(present=0.0) == 0.0
    assert Condenser().balance(load=0.0, **DAY) == pytest.approx((0.0, 0.0, 310.0), abs=1e-9)


@pytest.mark.parametrize(("refrigerant", "ratio"), [(R134A, 1.35234), (R12, 1.34413)])
def test_the_balance_is_that_of_the_published_cycle(refrigerant: float, ratio: float) -> None:
    """CoolProp's cycle, 5 °C to 55 °C: heat over cooling 1.352 and 1.344; the fit states 1.1 %."""
    # 5 kW of cooling, air that takes 1000 (1 - exp(-0.45)) = 362.4 W/K: it must be 5000 ratio / 362.4 K below 55 °C
    T_air = 328.15 - 5000.0 * ratio / (1000.0 * (1.0 - exp(-0.45)))
    part = Condenser(conductance=450.0, refrigerant=refrigerant)
    heat, power, T_cond = part.balance(load=5000.0, **DAY | {"T_air_in": T_air})
    assert T_cond == pytest.approx(328.15, abs=0.3)  # 1.1 % of 6.8 kW over 362.4 W/K is 0.2 K
    assert heat == pytest.approx(5000.0 * ratio, rel=0.011)
    assert heat - BELT_EFFICIENCY * power == pytest.approx(5000.0)  # first law, less the belt


def test_with_air_to_spare_the_conductance_grows_with_the_root_of_the_velocity() -> None:
    heat, _, T_cond = Condenser(conductance=450.0).balance(load=5000.0, C_air=1e9, T_air_in=310.0, V_face=10.0)
    assert heat / (T_cond - 310.0) == pytest.approx(900.0, rel=1e-5)


def test_where_the_air_cannot_carry_it_the_cooling_falls_short_at_the_limit() -> None:
    heat, power, T_cond = Condenser().balance(load=5000.0, C_air=60.0, T_air_in=330.0, V_face=0.2)
    assert T_cond == pytest.approx(T_CONDENSING_LIMIT, abs=1e-6)
    assert heat <= 60.0 * (T_CONDENSING_LIMIT - 330.0)
    assert heat - BELT_EFFICIENCY * power < 5000.0
    # air as hot as the limit takes nothing, and nothing is asked of the engine
    assert Condenser().balance(load=5000.0, **DAY | {"T_air_in": 370.0})[:2] == pytest.approx((0.0, 0.0), abs=1e-6)


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    same_one_by_one(
        lambda load, T_air, **part: Condenser(**part).balance(load=load, C_air=800.0, T_air_in=T_air, V_face=2.0),
        load=[0.0, 4000.0, 9000.0], T_air=[300.0, 310.0, 345.0], refrigerant=[0.0, 1.0, 0.0],
        conductance=[300.0, 450.0, 600.0],
    )  # fmt: skip
