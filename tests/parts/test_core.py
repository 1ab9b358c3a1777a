"""The core by hand: a core of round numbers, every step of its geometry beside it."""

from collections.abc import Callable
from math import pi

import pytest

from toptank.parts.core import Core

# 0.6 m wide, 0.4 m high; 3 rows of tubes 16 x 2 mm, wall 0.1 mm, 10 mm apart; 500 fins a metre of 0.1 mm
CORE = {
    "face_width": 0.6, "face_height": 0.4, "rows": 3.0, "tube_width": 0.016, "tube_thickness": 0.002,
    "tube_wall": 0.0001, "tube_pitch": 0.01, "row_pitch": 0.018, "fin_density": 500.0, "fin_thickness": 0.0001,
}  # fmt: skip


def test_a_downflow_core_has_short_tubes_and_a_crossflow_core_long_ones() -> None:
    downflow, crossflow = Core(arrangement=0.0, **CORE), Core(arrangement=1.0, **CORE)
    # 600 mm / 10 mm = 60 tubes a row, 3 rows; turned by a quarter: 400 mm / 10 mm = 40 a row
    assert (downflow.tube_length(), downflow.tubes()) == pytest.approx((0.4, 180.0))
    assert (crossflow.tube_length(), crossflow.tubes()) == pytest.approx((0.6, 120.0))


def test_rows_add_their_pitch_to_the_depth() -> None:
    assert Core(**CORE).depth() == pytest.approx(0.052)  # 2 x 18 + 16 mm
    assert Core(**CORE | {"rows": 1.0}).depth() == pytest.approx(0.016)  # one row: the tube alone


def test_the_air_channel_is_the_gap_between_two_fins_and_two_tubes() -> None:
    core = Core(**CORE)
    assert core.channel() == pytest.approx((0.0079, 0.0019))  # 10 - 2 - 0.1 mm by 2 - 0.1 mm
    assert core.free_area_ratio() == pytest.approx(0.7505)  # 7.9 x 1.9 over 10 x 2
    assert core.channel_hydraulic_diameter() == pytest.approx(4 * 7.9e-3 * 1.9e-3 / (2 * (7.9e-3 + 1.9e-3)))


def test_swept_area_and_free_area_give_the_hydraulic_diameter() -> None:
    """kays1984, definition: D_h = 4 x free area x depth / swept area."""
    core = Core(**CORE)
    area, fin_share = core.air_area()
    assert 4.0 * core.free_area_ratio() * core.depth() / area == pytest.approx(core.channel_hydraulic_diameter())
    assert fin_share == pytest.approx(7.9 / 9.8)  # fins bound the channel on its long sides


def test_the_bore_is_a_flat_with_two_half_circles() -> None:
    area, perimeter, aspect = Core(**CORE).bore()
    # gap 2 - 0.2 = 1.8 mm, flat 16 - 2 = 14 mm
    assert area == pytest.approx(1.8e-3 * 14e-3 + pi / 4 * 1.8e-3**2)
    assert perimeter == pytest.approx(2 * 14e-3 + pi * 1.8e-3)
    assert aspect == pytest.approx(1.8 / 15.8)


def test_a_tube_as_thick_as_it_is_wide_is_round() -> None:
    area, perimeter, aspect = Core(**CORE | {"tube_width": 0.005, "tube_thickness": 0.005}).bore()
    assert (area, perimeter, aspect) == pytest.approx((pi / 4 * 4.8e-3**2, pi * 4.8e-3, 1.0))


def test_tubes_that_touch_still_leave_a_channel() -> None:
    core = Core(**CORE | {"tube_thickness": 0.01})
    assert core.fin_height() == pytest.approx(0.001)  # a tenth of the pitch, as the docstring says


def test_many_cores_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    columns = {"arrangement": [0.0, 1.0, 1.0], "rows": [1.0, 2.0, 4.0], "tube_pitch": [0.009, 0.011, 0.012]}
    same_one_by_one(lambda **core: Core(**core).tubes(), **columns)
    same_one_by_one(lambda **core: Core(**core).air_area(), **columns)
    same_one_by_one(lambda **core: Core(**core).bore(), tube_width=[0.01, 0.02], tube_thickness=[0.002, 0.003])
