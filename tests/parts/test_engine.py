"""The engine by hand: power, fuel, heat to the coolant, and what late ignition adds."""

from collections.abc import Callable
from math import radians
from typing import Any

import numpy as np
import pytest

from toptank.parts.engine import Engine

ENGINE = {
    "displacement": 0.005, "full_load_pressure": 8e5, "indicated_efficiency": 0.35, "friction_pressure": 1.4e5,
    "coolant_share_idle": 0.40, "coolant_share_full": 0.25, "late_ignition": 0.0,
}  # fmt: skip


def _heat(power: Any = 30e3, speed: Any = 40.0, rho: Any = 1.2, **engine: Any) -> Any:
    return Engine(**ENGINE | engine).heat(power=power, speed=speed, rho=rho)


def test_full_load_is_the_mean_pressure_times_half_the_swept_volume_a_turn() -> None:
    # 8 bar x 5 L x 50 1/s / 2 = 100 kW; air of half the density gives half
    assert Engine(**ENGINE).most_power(speed=50.0, rho=1.2) == pytest.approx(100e3)
    assert Engine(**ENGINE).most_power(speed=50.0, rho=0.6) == pytest.approx(50e3)


def test_fuel_is_brake_and_lost_power_over_the_indicated_efficiency() -> None:
    fuel, _, load = _heat()
    # lost: 1.4 bar x 5 L x 40 / 2 = 14 kW; (30 + 14) / 0.35; load: 30 of 8 bar x 5 L x 40 / 2 = 80 kW
    assert (fuel, load) == pytest.approx((44e3 / 0.35, 0.375))


def test_the_coolants_share_falls_from_idle_to_full_load_and_never_reaches_all() -> None:
    power = np.linspace(0.0, 80e3, 33)
    fuel, heat, load = _heat(power)
    share = heat / fuel
    assert share[0] == pytest.approx(0.40)
    assert 0.25 < share[-1] < 0.27
    assert np.all(np.diff(share) < 0.0)
    assert np.all(np.diff(heat) > 0.0)  # and yet more work always means more heat
    assert np.all(heat + power < fuel)  # the exhaust takes its part
    assert load[-1] == pytest.approx(1.0)


def test_ten_degrees_late_cost_fuel_and_heat_as_told() -> None:
    """From memory, weakly sourced: fuel up 5 to 8 %, heat to the coolant up 5 to 12 %, at equal power."""
    (fuel, heat, _), (late_fuel, late_heat, _) = _heat(), _heat(late_ignition=radians(10.0))
    assert 1.05 < late_fuel / fuel < 1.08
    assert 1.05 < late_heat / heat < 1.12
    assert _heat(late_ignition=radians(-5.0)) == (fuel, heat, 0.375)  # a little early is no gain


def test_a_choked_exhaust_costs_with_load_and_nothing_at_idle() -> None:
    free, choked = _heat(np.array([0.0, 40e3, 80e3])), _heat(np.array([0.0, 40e3, 80e3]), exhaust_back_pressure=4e4)
    extra = choked[0] - free[0]
    # 0.4 bar x load x 5 L x 40 / 2 / 0.35: nothing, 5.71 and 11.43 kW
    assert extra == pytest.approx([0.0, 4e3 * 0.5 / 0.35, 4e3 / 0.35])


def test_a_wrong_mixture_heats_by_its_factor_and_an_engine_turned_by_the_hill_burns_nothing() -> None:
    assert _heat(mixture_heat=1.1)[1] == pytest.approx(1.1 * _heat()[1])
    assert _heat(power=-60e3) == pytest.approx((0.0, 0.0, 0.0))


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    same_one_by_one(
        _heat, power=[-5e3, 10e3, 90e3], speed=[12.0, 30.0, 60.0], rho=[1.2, 1.0, 0.9],
        late_ignition=[-0.1, 0.0, 0.2], exhaust_back_pressure=[0.0, 2e4, 5e4],
    )  # fmt: skip
