"""The water pump by hand: belt, affinity laws, and what boiling at the eye takes away."""

from collections.abc import Callable

import numpy as np
import pytest

from toptank.parts.water_pump import FULL_HEAD_MARGIN, STATED_SPEED, WaterPump

PUMP = WaterPump(belt_ratio=1.05, belt_slip=0.1, dead_head=36e3, free_flow=4e-3)


def test_a_belt_drives_by_its_pulleys_less_its_slip() -> None:
    assert PUMP.speed(engine_speed=40.0) == pytest.approx(37.8)  # 40 x 1.05 x 0.9


def test_the_stated_head_and_flow_are_the_ends_of_the_curve_at_2000_rpm() -> None:
    assert PUMP.pressure(speed=2000.0 / 60.0, flow=0.0) == pytest.approx(36e3)
    assert PUMP.pressure(speed=2000.0 / 60.0, flow=4e-3) == pytest.approx(0.0, abs=1e-6)
    assert PUMP.pressure(speed=2000.0 / 60.0, flow=2e-3) == pytest.approx(27e3)  # parabola: 36 (1 - 1/4)


@pytest.mark.parametrize("ratio", [0.35, 0.5, 2.0])
def test_flow_goes_with_speed_and_pressure_with_its_square(ratio: float) -> None:
    """karassik2008, affinity laws."""
    once = PUMP.pressure(speed=STATED_SPEED, flow=3e-3)
    assert PUMP.pressure(speed=ratio * STATED_SPEED, flow=ratio * 3e-3) == pytest.approx(ratio**2 * once)


def test_a_pump_that_stands_is_in_the_way() -> None:
    assert PUMP.pressure(speed=0.0, flow=1e-3) < 0.0
    assert PUMP.pressure(speed=0.0, flow=0.0) == 0.0


def test_the_head_is_full_well_below_boiling_and_falls_steadily_towards_it() -> None:
    """From memory: 2 to 5 psi at the eye keep the head; what is left at boiling, 40 %, is judgement."""
    assert 2.0 < FULL_HEAD_MARGIN / 6894.757 < 5.0
    assert PUMP.head_left(eye_margin=np.array([25e3, 60e3, 2e5])) == pytest.approx(1.0)
    assert PUMP.head_left(eye_margin=np.array([0.0, -1e4, -1e5])) == pytest.approx(0.4)
    assert PUMP.head_left(eye_margin=12.5e3) == pytest.approx(0.7)  # half way by symmetry
    assert np.all(np.diff(PUMP.head_left(eye_margin=np.linspace(0.0, 25e3, 50))) > 0.0)


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    same_one_by_one(
        lambda speed, flow, head: WaterPump(dead_head=head).pressure(speed=speed, flow=flow),
        speed=[10.0, 30.0, 0.0], flow=[1e-3, -1e-3, 2e-3], head=[2e4, 3e4, 4e4],
    )  # fmt: skip
    same_one_by_one(lambda margin: PUMP.head_left(eye_margin=margin), margin=[-1e4, 5e3, 2e4, 1e5])
