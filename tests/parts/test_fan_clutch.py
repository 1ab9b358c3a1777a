"""The viscous clutch: cold, hot, between, and beside what shops are told."""

from collections.abc import Callable

import numpy as np
import pytest

from toptank.parts.fan_clutch import FanClutch

CLUTCH = FanClutch(engaged_ratio=0.8, released_ratio=0.3, engages=345.0, engaging_range=10.0)


def test_the_ratio_goes_from_released_to_engaged_over_the_stated_range() -> None:
    assert [CLUTCH.ratio(T_coil=T) for T in (250.0, 345.0, 350.0, 355.0, 450.0)] == pytest.approx(
        [0.3, 0.3, 0.55, 0.8, 0.8]
    )


def test_warmer_air_at_the_coil_never_slows_the_fan() -> None:
    T = np.linspace(280.0, 400.0, 241)
    for engaged in (0.1, 0.3, 0.8):  # worn out: engaged no faster than released
        clutch = FanClutch(engaged_ratio=engaged, released_ratio=0.3)
        assert np.all(np.diff(clutch.ratio(T_coil=T)) >= 0.0)


def test_a_worn_out_clutch_is_a_released_one() -> None:
    assert FanClutch(engaged_ratio=0.1, released_ratio=0.3).ratio(T_coil=400.0) == pytest.approx(0.3)


def test_the_typical_clutch_is_one_that_shops_are_told_of() -> None:
    """Web texts, no source: engaged 50 to 90 % of the shaft, released 20 to 33 %, at 70 to 80 °C of air."""
    typical = FanClutch()
    assert 0.50 <= typical.ratio(T_coil=400.0) <= 0.90
    assert 0.20 <= typical.ratio(T_coil=300.0) <= 0.33
    released, engaged = typical.ratio(T_coil=343.15 - 2.0), typical.ratio(T_coil=353.15 + 2.0)
    assert engaged - released == pytest.approx(typical.engaged_ratio - typical.released_ratio)


def test_a_released_clutch_drags_its_fan_at_a_tenth_to_a_quarter_of_the_shaft() -> None:
    """Common practice, no source: 10 to 25 % at 2,400 rpm."""
    assert 0.10 <= FanClutch().ratio(T_coil=300.0) <= 0.25


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    same_one_by_one(
        lambda T, engaged, engages: FanClutch(engaged_ratio=engaged, engages=engages).ratio(T_coil=T),
        T=[340.0, 350.0, 350.0], engaged=[0.8, 0.1, 0.9], engages=[345.0, 345.0, 347.0],
    )  # fmt: skip
