"""A drive that is off by what the model misses: its peak is the highest point of its curve, and what boils stays so."""

import numpy as np
import pytest

from toptank.knowledge.model_discrepancy import missed_by_draw, off_along
from toptank.system.drive_batch import Drives
from toptank.system.duty import Duty
from toptank.system.profile import Profile

N = 400
TIME = np.arange(0.0, 600.0)
SPEED = np.where(TIME < 300.0, 20.0, 0.0)
"""A climb, then a stop where the gauge stands a little lower."""


def _drives(*, margin: float) -> tuple[Drives, Profile]:
    profile = Profile.of(time=TIME, duty=Duty(ambient=305.0, speed=SPEED, grade=np.where(SPEED > 0.0, 0.06, 0.0)))
    gauge = np.broadcast_to(np.where(SPEED > 0.0, 372.0, 371.5), (N, 600)).copy()
    nought = np.zeros((N, 600))
    drives = Drives(
        every=1, gauge=gauge, engine_out=gauge, boiling=gauge * 0.0 + 372.0 + margin, transmission=nought,
        opening=nought, fan_speed=nought, peak=gauge.max(axis=1), peak_step=gauge.argmax(axis=1),
        least_margin=np.full(N, margin), lost=np.zeros(N), short_of_power=np.zeros(N),
    )  # fmt: skip
    return drives, profile


def test_the_peak_is_the_highest_point_of_the_curve_and_lies_where_it_says() -> None:
    drives, profile = _drives(margin=30.0)
    off = off_along(drives, profile)
    assert off.peak == pytest.approx(off.gauge.max(axis=1))
    assert off.gauge[np.arange(N), off.peak_step] == pytest.approx(off.peak)
    # climb and stop are missed by numbers of their own: in many draws the stop comes out on top
    assert 0.2 < np.mean(off.peak_step >= 300) < 0.8


def test_the_least_margin_is_that_of_the_hottest_point() -> None:
    drives, profile = _drives(margin=30.0)
    off = off_along(drives, profile)
    assert off.least_margin == pytest.approx((off.boiling - off.engine_out).min(axis=1))


def test_a_draw_that_boils_is_left_at_its_boiling_point() -> None:
    drives, profile = _drives(margin=0.0)
    off = off_along(drives, profile)
    assert np.all(off.boiled())
    assert np.array_equal(off.gauge, drives.gauge)
    assert np.ptp(missed_by_draw(N, 20.0, 0.06)) > 1.0
