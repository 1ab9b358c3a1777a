"""The two hoses by hand: the area that costs one dynamic head, and a hose that collapses."""

from collections.abc import Callable
from math import pi

import numpy as np
import pytest

from toptank.parts.hoses import Hoses


def test_the_area_is_the_bore_over_the_root_of_the_loss() -> None:
    hoses = Hoses(top_bore=0.04, bottom_bore=0.05, loss_coefficient=4.0, collapse=0.0)
    assert hoses.top_area() == pytest.approx(pi / 4 * 0.04**2 / 2.0)
    assert hoses.bottom_area(pump_speed=50.0) == pytest.approx(pi / 4 * 0.05**2 / 2.0)


@pytest.mark.parametrize(("inches", "psi"), [(1.25, 4.2), (1.5, 2.1), (1.75, 1.1)])
def test_sixty_gallons_a_minute_cost_what_a_hand_calculation_says(inches: float, psi: float) -> None:
    """Hand calculation with K 2.5 and 1025 kg/m3; printed to a tenth of a psi, hence within 0.1."""
    area = Hoses(top_bore=inches * 0.0254, loss_coefficient=2.5).top_area()
    loss = 0.5 * 1025.0 * (60.0 * 6.30902e-5 / area) ** 2
    assert loss / 6894.757 == pytest.approx(psi, abs=0.1)


def test_a_collapsing_bottom_hose_loses_the_stated_share_and_the_top_hose_nothing() -> None:
    sound, weak = Hoses(collapse=0.0), Hoses(collapse=0.75)
    fast, idle = {"pump_speed": 3000.0 / 60.0}, {"pump_speed": 750.0 / 60.0}
    assert weak.bottom_area(**fast) == pytest.approx(0.25 * sound.bottom_area(**fast))
    # the suction goes with the square of the speed: at idle it is a sixteenth, and hardly closes the hose
    assert weak.bottom_area(**idle) == pytest.approx((1.0 - 0.75 / 16.0) * sound.bottom_area(**idle))
    assert weak.bottom_area(pump_speed=90.0) == pytest.approx(weak.bottom_area(**fast))
    assert weak.top_area() == sound.top_area()


def test_more_bends_act_as_a_narrower_hose() -> None:
    loss = np.linspace(1.0, 10.0, 10)
    for area in (Hoses(loss_coefficient=loss).top_area(), Hoses(loss_coefficient=loss).bottom_area(pump_speed=40.0)):
        assert np.all(np.diff(area) < 0.0)


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    same_one_by_one(
        lambda **hoses: (Hoses(**hoses).top_area(), Hoses(**hoses).bottom_area(pump_speed=40.0)),
        top_bore=[0.03, 0.04], bottom_bore=[0.04, 0.045], collapse=[0.0, 0.5], loss_coefficient=[2.0, 3.0],
    )  # fmt: skip
