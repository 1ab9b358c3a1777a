"""The engine by hand: power, fuel, heat to the coolant, and what late ignition adds."""

from collections.abc import Callable
from math import radians
from typing import Any

import numpy as np
import pytest

from toptank.parts.engine import Burnt, Engine

ENGINE = {
    "displacement": 0.005, "cylinders": 8, "full_load_pressure": 8e5, "indicated_efficiency": 0.35,
    "friction_pressure": 1.4e5, "film_share": 0.43, "mixture": 1.0, "late_ignition": 0.0, "mixture_heat": 1.0,
}  # fmt: skip


def _burnt(power: Any = 30e3, speed: Any = 40.0, rho: Any = 1.2, **engine: Any) -> Burnt:
    return Engine(**ENGINE | engine).burnt(power=power, speed=speed, rho=rho, film_power=0.7, friction_share=0.9)


def _heat(*args: Any, **engine: Any) -> Any:
    burnt = _burnt(*args, **engine)
    return burnt.film + burnt.friction


def test_full_load_is_the_mean_pressure_times_half_the_swept_volume_a_turn() -> None:
    # 8 bar x 5 L x 50 1/s / 2 = 100 kW; air of half the density gives half
    assert Engine(**ENGINE).most_power(speed=50.0, rho=1.2) == pytest.approx(100e3)
    assert Engine(**ENGINE).most_power(speed=50.0, rho=0.6) == pytest.approx(50e3)


def test_fuel_is_brake_and_lost_power_over_the_indicated_efficiency() -> None:
    burnt = _burnt()
    # lost: 1.4 bar x 5 L x 40 / 2 = 14 kW; (30 + 14) / 0.35; load: 30 of 8 bar x 5 L x 40 / 2 = 80 kW
    assert (burnt.fuel, burnt.load) == pytest.approx((44e3 / 0.35, 0.375), rel=5e-3)
    # nine tenths of what is lost stays as heat
    assert burnt.friction == pytest.approx(0.9 * 14e3)


def test_the_coolants_share_falls_with_load_and_with_speed_and_the_exhaust_takes_its_part() -> None:
    """Six logged vehicles: 0.60 to 0.80 of the fuel at hot idle, 0.25 to 0.29 at full load (the reference's page)."""
    power = np.linspace(0.0, 80e3, 33)
    burnt = _burnt(power)
    share = (burnt.film + burnt.friction) / burnt.fuel
    assert np.all(np.diff(share) < 0.0)
    assert np.all(np.diff(burnt.film + burnt.friction) > 0.0)  # and yet more work always means more heat
    assert np.all(burnt.film + burnt.friction + power < 0.95 * burnt.fuel)
    assert 0.22 < share[-1] < 0.30
    idle = _burnt(800.0, 11.5)
    assert 0.60 < float((idle.film + idle.friction) / idle.fuel) < 0.80
    slow, fast = (_burnt(P, N) for P, N in ((40e3, 25.0), (40e3 * 3.0, 75.0)))  # the same load
    assert (slow.film / slow.fuel) / (fast.film / fast.fuel) == pytest.approx(3.0**0.3, rel=1e-3)


def test_a_carburettor_sends_part_of_the_fuel_out_unburnt_at_idle_and_little_on_the_road() -> None:
    """Common practice: a tenth and more at idle, some percent under way."""
    for power, speed, low, high in ((800.0, 11.5, 0.86, 0.96), (30e3, 40.0, 0.97, 1.0)):
        rich, lean = (_burnt(power, speed, mixture=kind, unburnt_idle=0.12).film for kind in (0.0, 1.0))
        assert low < float(rich / lean) < high


def test_an_idling_diesel_keeps_less_than_film_and_friction_would_give_as_its_cold_air_carries_off_heat() -> None:
    # 2 L, 13 1/s: drawn 0.5 x 0.9 x 1.2 x 2e-3 x 13 = 14.0 g/s; x 1,030 x 120 K = 1.74 kW leaves at the least
    diesel = {
        "fuel": 1.0,
        "displacement": 2e-3,
        "cylinders": 4,
        "indicated_efficiency": 0.42,
        "friction_pressure": 1.9e5,
    }
    burnt = _burnt(400.0, 13.0, **diesel)
    left = 0.99 * burnt.fuel - 0.42 * burnt.fuel - 1737.0
    assert 0.85 * left < float(burnt.film) < left
    assert 0.55 < float((burnt.film + burnt.friction) / burnt.fuel) < 0.75


def test_ten_degrees_late_cost_fuel_and_heat_as_told() -> None:
    """From memory, weakly sourced: fuel up 5 to 8 %, heat to the coolant up 5 to 12 %, at equal power under load.

    At idle, where the spark is late already by the vacuum advance that is not there, two to three times as much.
    """
    late = radians(10.0)
    road, road_late = _burnt(60e3), _burnt(60e3, late_ignition=late)
    assert 1.04 < float(road_late.fuel / road.fuel) < 1.08
    assert 1.05 < float(_heat(60e3, late_ignition=late) / _heat(60e3)) < 1.12
    idle, idle_late = _burnt(800.0, 11.5), _burnt(800.0, 11.5, late_ignition=late)
    assert 1.10 < float(idle_late.fuel / idle.fuel) < 1.22
    assert float(idle_late.film / idle.film) > 1.10
    assert float(_burnt(late_ignition=radians(-5.0)).film) == float(_burnt().film)  # a little early is no gain


def test_a_choked_exhaust_costs_with_load_and_nothing_at_idle() -> None:
    free, choked = (_burnt(np.array([0.0, 40e3, 80e3]), exhaust_back_pressure=pressure).fuel for pressure in (0.0, 4e4))
    # 0.4 bar x load x 5 L x 40 / 2 / 0.35: nothing, 5.71 and 11.43 kW
    assert choked - free == pytest.approx([0.0, 4e3 * 0.5 / 0.35, 4e3 / 0.35], rel=5e-3)


def test_a_wrong_mixture_heats_with_load_and_an_engine_turned_by_the_hill_burns_nothing() -> None:
    assert float(_burnt(80e3, mixture_heat=1.1).film / _burnt(80e3).film) == pytest.approx(1.1, abs=1e-3)
    assert float(_burnt(0.0, mixture_heat=1.1).film / _burnt(0.0).film) == pytest.approx(1.03)
    turned = _burnt(power=-60e3)
    assert (turned.fuel, turned.film, turned.load) == pytest.approx((0.0, 0.0, 0.0))
    assert float(turned.friction) > 0.0


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    same_one_by_one(
        _burnt, power=[-5e3, 10e3, 90e3], speed=[12.0, 30.0, 60.0], rho=[1.2, 1.0, 0.9],
        late_ignition=[-0.1, 0.0, 0.2], exhaust_back_pressure=[0.0, 2e4, 5e4], fuel=[0.0, 1.0, 0.0],
        mixture=[0.0, 0.0, 1.0],
    )  # fmt: skip
