"""The drivetrain by hand: gears, converter, and the heat that stays in the gearbox."""

from collections.abc import Callable
from math import pi
from typing import Any

import numpy as np
import pytest

from toptank.parts.drivetrain import IN_AUTOMATIC_FLUID, IN_MANUAL_OIL, Drivetrain
from toptank.parts.engine import Engine

MANUAL, AUTOMATIC = 0.0, 1.0
TOP, NEXT, LOW, AS_NEEDED = 1.0, 2.0, 3.0, 0.0
ENGINE = Engine(displacement=0.005, full_load_pressure=8e5, idle_speed=12.0, top_speed=70.0)
# 6 pi m/s turn a tyre of 0.3 m ten times a second: 30, 45 and 75 1/s in the three gears
GEARS = {
    "axle_ratio": 3.0, "tyre_radius": 0.3, "top_ratio": 1.0, "second_ratio": 1.5, "third_ratio": 2.5,
    "efficiency": 0.9, "stall_speed": 30.0,
}  # fmt: skip
ROAD = 6.0 * pi


def _chosen(gear: Any = TOP, wheel_power: Any = 18e3, speed: Any = ROAD, **drivetrain: Any) -> Any:
    return Drivetrain(**{"kind": MANUAL} | GEARS | drivetrain).choose(
        speed=speed, wheel_power=wheel_power, gear=gear, engine=ENGINE, rho=1.2
    )


def test_each_gear_turns_the_engine_by_its_ratio() -> None:
    assert Drivetrain(**GEARS).turbine_speed(speed=ROAD, ratio=1.5) == pytest.approx(45.0)
    assert _chosen(TOP)[0] == pytest.approx(30.0)
    assert _chosen(NEXT)[0] == pytest.approx(45.0)
    assert _chosen(LOW, speed=ROAD / 2)[0] == pytest.approx(37.5)


def test_a_manual_gearbox_keeps_its_share_of_the_losses() -> None:
    # 18 kW at the wheels of 20 kW at the crankshaft; 35 % of the 2 kW lost (judgement) heat the gearbox
    assert _chosen() == pytest.approx((30.0, 20e3, IN_MANUAL_OIL * 2e3))


def test_a_steep_hill_takes_a_lower_gear_and_a_fast_road_the_highest() -> None:
    # full load at 30 1/s is 60 kW, three quarters of it 45 kW; at 45 1/s 90 and 67.5 kW
    assert _chosen(AS_NEEDED, 40e3)[0] == pytest.approx(30.0)
    assert _chosen(AS_NEEDED, 45e3)[0] == pytest.approx(45.0)
    # at twice the speed the next gear would race beyond 70 1/s, however steep it is
    assert _chosen(AS_NEEDED, 200e3, speed=2.0 * ROAD)[0] == pytest.approx(60.0)


def test_a_converter_slips_as_told_when_cruising_and_climbing() -> None:
    """Told, no source: 2 to 5 % when cruising, 5 to 15 % on a climb; here load 1/4 at 2100, 3/4 at 2700 rpm."""
    automatic = Drivetrain(**GEARS)
    assert 0.02 < automatic.slip(load=0.25, speed=35.0) < 0.05
    assert 0.05 < automatic.slip(load=0.75, speed=45.0) < 0.15
    assert automatic.slip(load=0.0, speed=35.0) == pytest.approx(0.0, abs=1e-12)
    assert np.all(np.diff(automatic.slip(load=0.5, speed=np.linspace(15.0, 70.0, 50))) <= 0.0)


def test_the_slip_is_that_of_the_load_and_speed_it_leads_to() -> None:
    automatic = Drivetrain(kind=AUTOMATIC, **GEARS)
    n, power, _ = _chosen(NEXT, 60e3, kind=AUTOMATIC)
    slip = automatic.slip(load=power / ENGINE.most_power(speed=n, rho=1.2), speed=n)
    assert n * (1.0 - slip) == pytest.approx(45.0, rel=0.005)  # four rounds
    # a pull that would stall it: never more than the stated 60 %
    assert automatic.slip(load=1.2, speed=20.0) == pytest.approx(0.6)


def test_a_slow_road_takes_a_gear_in_which_the_engine_turns() -> None:
    # at half the speed 15, 22.5 and 37.5 1/s; below 1.6 x 12 = 19.2 it would labour (judgement)
    assert _chosen(AS_NEEDED, 1e3, speed=ROAD / 2)[0] == pytest.approx(22.5)


def test_what_slips_is_power_of_the_engine_and_heat_of_the_fluid() -> None:
    n, power, heat = _chosen(kind=AUTOMATIC)
    slip = 1.0 - 30.0 / n
    assert 0.01 < slip < 0.2
    assert power == pytest.approx(20e3 / (1.0 - slip), rel=1e-6)
    assert heat == pytest.approx(IN_AUTOMATIC_FLUID * (power - 18e3))


def test_a_locked_converter_does_not_slip_in_the_highest_gear_only() -> None:
    assert _chosen(TOP, kind=AUTOMATIC, lock_up=1.0)[0] == pytest.approx(30.0)
    assert _chosen(NEXT, kind=AUTOMATIC, lock_up=1.0)[0] > 45.0


def test_the_engine_never_turns_slower_than_its_idle() -> None:
    for kind in (MANUAL, AUTOMATIC):
        assert _chosen(TOP, 0.0, speed=0.0, kind=kind) == pytest.approx((12.0, 0.0, 0.0))


def test_a_stalled_converter_at_idle_takes_its_moment_by_the_square_of_the_speed() -> None:
    # full load at idle 8 bar x 5 L x 12 / 2 = 24 kW; idle at 12 of a stall at 30 1/s: (12 / 30)^2 = 0.16 of it
    automatic, manual = (Drivetrain(**GEARS, kind=kind) for kind in (AUTOMATIC, MANUAL))
    assert automatic.standing_drag(engine=ENGINE, idle=ENGINE.idle_speed, in_gear=1.0, rho=1.2) == pytest.approx(3840.0)
    assert automatic.standing_drag(engine=ENGINE, idle=ENGINE.idle_speed, in_gear=0.0, rho=1.2) == 0.0
    assert manual.standing_drag(engine=ENGINE, idle=ENGINE.idle_speed, in_gear=1.0, rho=1.2) == 0.0


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    same_one_by_one(
        _chosen, gear=[AS_NEEDED, TOP, LOW, AS_NEEDED], wheel_power=[0.0, 20e3, 30e3, 60e3],
        speed=[1.0, 20.0, 10.0, 22.0], kind=[MANUAL, AUTOMATIC, AUTOMATIC, AUTOMATIC], lock_up=[0.0, 1.0, 0.0, 0.0],
    )  # fmt: skip
