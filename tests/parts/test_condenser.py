"""The condenser: an energy balance beside a published cycle, and its limits."""

from collections.abc import Callable
from math import exp
from typing import Any

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from toptank.parts.condenser import (
    ALL_IT_CAN,
    BELT_EFFICIENCY,
    FALL_PER_KELVIN,
    T_CONDENSING_LIMIT,
    T_EVAPORATING,
    Condenser,
)

R134A, R12 = 0.0, 1.0
DAY = {"T_ambient": 308.15, "C_air": 1000.0, "T_air_in": 310.0, "V_face": 2.5}
SPARE = {"engine_speed": 1e4}
"""A compressor with so much speed to spare that it always gives what is asked."""


def _load(T: Any = 308.15, engine_speed: Any = 40.0, on: Any = 1.0, **condenser: Any) -> Any:
    return Condenser(cooling_load=5000.0, **condenser).load(T_ambient=T, engine_speed=engine_speed, air_conditioning=on)


def test_the_stated_load_is_that_of_35_degrees_outside_at_2400_rpm() -> None:
    # judgement in the docstring: (308.15 - 283.15) / 25 = 1; 40 1/s is 2400 rpm
    assert _load() == pytest.approx(5000.0)


def test_a_hot_day_asks_more_and_a_slow_compressor_gives_less() -> None:
    assert np.all(np.diff(_load(np.array([290.0, 300.0, 310.0, 318.0]))) > 0.0)
    assert np.all(np.diff(_load(engine_speed=np.array([10.0, 20.0, 40.0, 70.0]))) > 0.0)


def test_a_hot_day_asks_a_slow_compressor_for_more_than_it_can_give() -> None:
    """At 113 °F 1.4 times as much is asked; at idle it gives 1.2 to 1.3 times as much, of a denser gas."""
    days = np.array([308.15, 318.15])
    idle, spare = _load(days, engine_speed=12.0), _load(days, engine_speed=1e4)
    assert spare[1] / spare[0] == pytest.approx(1.4)
    assert 1.15 < idle[1] / idle[0] < 1.3
    assert np.all(idle < 0.8 * spare)


def test_off_or_absent_it_asks_nothing_and_gives_nothing() -> None:
    assert _load(on=0.0) == 0.0
    assert _load(present=0.0) == 0.0
    assert Condenser().balance(load=0.0, **SPARE, **DAY) == pytest.approx((0.0, 0.0, 310.0), abs=1e-9)


@pytest.mark.parametrize(("refrigerant", "ratio"), [(R134A, 1.35234), (R12, 1.34413)])
def test_the_balance_is_that_of_the_published_cycle(refrigerant: float, ratio: float) -> None:
    """CoolProp's cycle, 5 °C to 55 °C: heat over cooling 1.352 and 1.344; the fit states 1.1 %."""
    # 5 kW of cooling, air that takes 1000 (1 - exp(-0.45)) = 362.4 W/K: it must be 5000 ratio / 362.4 K below 55 °C
    T_air = 328.15 - 5000.0 * ratio / (1000.0 * (1.0 - exp(-0.45)))
    part = Condenser(conductance=450.0, refrigerant=refrigerant)
    heat, power, T_cond = part.balance(load=5000.0, **SPARE, **DAY | {"T_air_in": T_air})
    assert T_cond == pytest.approx(328.15, abs=0.3)  # 1.1 % of 6.8 kW over 362.4 W/K is 0.2 K
    assert heat == pytest.approx(5000.0 * ratio, rel=0.011)
    assert heat - BELT_EFFICIENCY * power == pytest.approx(5000.0)  # first law, less the belt


def test_with_air_to_spare_the_conductance_grows_with_the_root_of_the_velocity() -> None:
    heat, _, T_cond = Condenser(conductance=450.0).balance(
        load=5000.0, **SPARE, T_ambient=308.15, C_air=1e9, T_air_in=310.0, V_face=10.0
    )
    assert heat / (T_cond - 310.0) == pytest.approx(900.0, rel=1e-5)


def test_where_the_air_cannot_carry_it_the_cooling_falls_short_at_the_limit() -> None:
    heat, power, T_cond = Condenser().balance(
        load=5000.0, **SPARE, T_ambient=308.15, C_air=60.0, T_air_in=330.0, V_face=0.2
    )
    assert T_cond == pytest.approx(T_CONDENSING_LIMIT, abs=1e-6)
    assert heat <= 60.0 * (T_CONDENSING_LIMIT - 330.0)
    assert heat - BELT_EFFICIENCY * power < 5000.0
    # air as hot as the limit takes nothing, and nothing is asked of the engine
    too_hot = Condenser().balance(load=5000.0, **SPARE, **DAY | {"T_air_in": 370.0})
    assert too_hot[:2] == pytest.approx((0.0, 0.0), abs=1e-6)


def test_a_compressor_that_gives_all_it_can_gives_less_the_hotter_it_condenses() -> None:
    """At idle and in hot air; with speed to spare only the work grows."""
    air = np.array([305.0, 315.0, 325.0])
    for speed, least_fall in ((10.0, 0.04), (1e4, 0.0)):
        heat, power, T_cond = Condenser().balance(load=4000.0, engine_speed=speed, **DAY | {"T_air_in": air})
        cooling = heat - BELT_EFFICIENCY * power
        assert np.all(np.diff(T_cond) > 5.0)
        assert np.all(np.diff(power) > 0.0)
        assert np.all(-np.diff(cooling) / cooling[1:] >= least_fall - 1e-9)


def test_the_balance_is_steady_up_to_the_limit() -> None:
    """Heat and temperature have no step where the air stops to suffice, at any speed, hardly any air included."""
    air = np.linspace(300.0, 357.0, 4000)
    for speed in (5.0, 12.0, 60.0):
        heat, _, T_cond = Condenser().balance(
            load=5000.0, engine_speed=speed, T_ambient=308.15, C_air=300.0, T_air_in=air, V_face=1.0
        )
        assert np.all(np.abs(np.diff(heat)) < 20.0)
        assert np.all(np.diff(T_cond) >= 0.0)
        assert T_cond[-1] == pytest.approx(T_CONDENSING_LIMIT)
        assert T_cond[0] < T_CONDENSING_LIMIT


def _cycle(T_evap: float, T_cond: float) -> float:
    """Heat over cooling of R134a by CoolProp: 10 K superheat, 5 K subcooling, isentropic efficiency 0.65."""
    low, high = (PropsSI("P", "T", T, "Q", 1, "R134a") for T in (T_evap, T_cond))
    h_1, s_1 = (PropsSI(output, "T", T_evap + 10.0, "P", low, "R134a") for output in "HS")
    h_2 = h_1 + (PropsSI("H", "P", high, "S", s_1, "R134a") - h_1) / 0.65
    h_3 = PropsSI("H", "T", T_cond - 5.0, "P", high, "R134a")
    return (h_2 - h_3) / (h_1 - h_3)


def test_a_cold_day_invents_no_work_for_the_compressor() -> None:
    """Condensing at 0 °C, below the evaporator, nothing is lifted; above it the work is that of the cycle."""
    for T_air in (253.15, 263.15, 273.15):
        heat, power, T_cond = Condenser().balance(load=500.0, **SPARE, **DAY | {"T_air_in": T_air})
        assert T_cond < T_EVAPORATING
        assert power == 0.0
        assert heat > 0.0
    for T_air in (281.0, 285.0, 290.0, 296.0, 299.0, 305.0):
        heat, power, T_cond = Condenser(refrigerant=R134A).balance(load=500.0, **SPARE, **DAY | {"T_air_in": T_air})
        cooling = heat - BELT_EFFICIENCY * power
        assert T_EVAPORATING < T_cond < 310.0
        # the straight line states 1 % of the ratio
        assert heat / cooling == pytest.approx(_cycle(T_EVAPORATING, float(T_cond)), rel=0.012)
        assert cooling == pytest.approx(500.0, rel=1e-3)


def test_the_fall_of_what_a_compressor_can_do_is_that_of_the_enthalpy_and_a_little_more() -> None:
    """CoolProp, R134a: between 45 and 65 °C a kilogram takes up 1.1 % less per kelvin; the filling falls besides."""

    def taken_up(T_cond: float) -> float:
        h_1 = PropsSI("H", "T", T_EVAPORATING + 10.0, "P", PropsSI("P", "T", T_EVAPORATING, "Q", 1, "R134a"), "R134a")
        return h_1 - PropsSI("H", "T", T_cond - 5.0, "P", PropsSI("P", "T", T_cond, "Q", 0, "R134a"), "R134a")

    by_enthalpy = (taken_up(318.15) - taken_up(338.15)) / 20.0 / taken_up(328.15)
    assert by_enthalpy == pytest.approx(0.011, abs=0.0005)
    assert by_enthalpy < FALL_PER_KELVIN < by_enthalpy + 0.008  # clearance of 4 to 5 %, from memory


def test_at_idle_a_compressor_of_common_size_gives_all_it_can() -> None:
    """From memory: 0.16 L, 1.25 turns a turn of the engine, filled to 0.72; density and enthalpy by CoolProp."""
    p = PropsSI("P", "T", T_EVAPORATING, "Q", 1, "R134a")
    h_1, rho = (PropsSI(output, "T", T_EVAPORATING + 10.0, "P", p, "R134a") for output in "HD")
    h_3 = PropsSI("H", "T", 323.15, "P", PropsSI("P", "T", 328.15, "Q", 0, "R134a"), "R134a")
    a_turn = 1.25 * 0.16e-3 * 0.72 * rho * (h_1 - h_3)
    assert 5000.0 / a_turn == pytest.approx(ALL_IT_CAN, rel=0.03)
    assert _load(engine_speed=11.0) < 11.0 * a_turn  # never more than it can


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    same_one_by_one(
        lambda load, T_air, N, **part: Condenser(**part).balance(
            load=load, T_ambient=308.15, engine_speed=N, C_air=800.0, T_air_in=T_air, V_face=2.0
        ),
        load=[0.0, 4000.0, 9000.0], N=[10.0, 40.0, 11.0], T_air=[300.0, 310.0, 345.0], refrigerant=[0.0, 1.0, 0.0],
        conductance=[300.0, 450.0, 600.0],
    )  # fmt: skip
