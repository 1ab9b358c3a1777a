"""Balances of volume: what to drain, what to add, and what cannot be reached."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toptank.media import coolant
from toptank.studies.choose.coolant.mix import exchanged_volume, left_after_rinsing, points, recipe, refill, with_premix

QUART = 0.946352946e-3  # of a US gallon of 231 cubic inches
SEA = 101_325.0

shares = st.floats(0.0, 0.7)
drained_shares = st.floats(0.2, 0.95)


# common practice, no source: worked examples as shops print them; concentrate counts as pure there
@pytest.mark.parametrize(
    ("capacity", "now", "wanted", "drained"),
    [(16, 0.3, 0.5, 4.57), (12, 0.2, 0.5, 4.5), (17.5, 0.7, 0.5, 5.0), (16, 0.45, 0.5, 1.45), (15, 0.6, 0.5, 2.5)],
)
def test_worked_examples_of_the_trade(capacity: float, now: float, wanted: float, drained: float) -> None:
    found = recipe(capacity * QUART, 0.8, now, wanted)
    assert len(found.rounds) == 1
    assert found.drained / QUART == pytest.approx(drained, abs=0.05)
    added = found.rounds[0].concentrate if wanted > now else found.rounds[0].water
    assert added == pytest.approx(found.drained)


def test_concentrate_that_is_not_pure_takes_more_of_it() -> None:
    # by hand, shares of glycol: 16 qt x (0.50 - 0.30) / (0.95 - 0.30) = 4.923; with 93 %: 5.079; with 96 %: 4.848
    for strength, drained in ((0.95, 4.923), (0.93, 5.079), (0.96, 4.848)):
        assert recipe(16 * QUART, 0.8, 0.3, 0.5, strength=strength).drained / QUART == pytest.approx(drained, abs=0.001)


@given(now=shares, wanted=shares, drainable=drained_shares, strength=st.floats(0.93, 1.0))
def test_the_rounds_hold_what_they_promise(now: float, wanted: float, drainable: float, strength: float) -> None:
    capacity = 0.015
    found = recipe(capacity, drainable, now, wanted, strength=strength)
    glycol = now * capacity
    for one in found.rounds:
        assert 0.0 < one.drained <= drainable * capacity * (1 + 1e-9)
        assert one.concentrate + one.water == pytest.approx(one.drained)
        glycol += one.concentrate * strength - one.drained * glycol / capacity
        assert glycol / capacity == pytest.approx(one.share, abs=1e-9)
    assert found.reached == pytest.approx(glycol / capacity, abs=1e-9)
    assert abs(found.reached - wanted) < 1e-6 if found.reaches else found.reached != wanted


def test_what_one_drain_cannot_do_takes_two() -> None:
    # by hand: 20 qt of water, 40 % drains. First 8 qt of concentrate: 40 %. Then 20 x 0.10 / 0.60 = 3.33 qt: 50 %
    found = recipe(20 * QUART, 0.4, 0.0, 0.5)
    assert [one.drained / QUART for one in found.rounds] == pytest.approx([8.0, 3.333], abs=0.001)
    assert [one.share for one in found.rounds] == pytest.approx([0.4, 0.5])
    assert found.reaches


def test_what_two_drains_cannot_do_is_said() -> None:
    # by hand: a fifth drains, water; after n rounds 1 - 0.8^n: 0.2, 0.36, 0.488, 0.590
    found = recipe(0.016, 0.2, 0.0, 0.5)
    assert not found.reaches
    assert found.reached == pytest.approx(0.36)
    assert found.rounds_needed == 4


def test_plain_water_is_never_reached_by_thinning_alone() -> None:
    assert not recipe(0.016, 0.8, 0.5, 0.0).reaches
    assert recipe(0.016, 1.0, 0.5, 0.0).reaches


def test_a_system_that_is_right_is_left_alone() -> None:
    found = recipe(0.016, 0.8, 0.5, 0.5)
    assert (found.rounds, found.reached, found.reaches) == ((), 0.5, True)


def test_after_a_flush_concentrate_goes_in_for_half_of_the_whole_system() -> None:
    # common practice, no source: after a flush, concentrate for half of the total capacity first, then water
    found = refill(16 * QUART, 0.8, 0.0, 0.5)
    assert found.concentrate / QUART == pytest.approx(8.0)
    assert found.water / QUART == pytest.approx(4.8)
    assert found.reaches
    assert found.reached == pytest.approx(0.5)


def test_a_block_that_keeps_more_than_half_cannot_be_brought_to_half_at_once() -> None:
    found = refill(0.016, 0.4, 0.0, 0.5)
    assert not found.reaches
    assert (found.reached, found.water) == (pytest.approx(0.4), 0.0)


@given(now=st.floats(0.0, 0.49), drainable=st.floats(0.05, 0.99))
def test_premix_never_gives_its_own_share_to_a_block_that_keeps_weaker_coolant(now: float, drainable: float) -> None:
    found = with_premix(0.016, drainable, now, 0.5)
    assert found.exchanged is None
    assert now <= found.reached < 0.5


def test_premix_after_a_flush_gives_what_drains_of_its_half() -> None:
    assert with_premix(0.016, 0.8, 0.0, 0.5).reached == pytest.approx(0.4)  # by hand: 0.8 x 0.5


def test_premix_can_do_less_than_its_own_share() -> None:
    # by hand: 16 qt from 20 to 40 % with 50 %: 16 x 0.2 / 0.3 = 10.67 qt
    found = with_premix(16 * QUART, 0.8, 0.2, 0.4)
    assert found.exchanged is not None
    assert found.exchanged / QUART == pytest.approx(10.667, abs=0.001)


def test_the_same_strength_on_both_sides_changes_nothing() -> None:
    assert exchanged_volume(0.016, 0.5, 0.6, 0.5) == math.inf
    assert exchanged_volume(0.016, 0.5, 0.4, 0.8) == math.inf


def test_rinsing_halves_what_is_left_where_half_drains() -> None:
    # by hand: 50, 25, 12.5, 6.25 %
    assert [left_after_rinsing(0.5, n) for n in (1, 2, 3, 4)] == pytest.approx([0.5, 0.25, 0.125, 0.0625])


# engine_manual2013: freeze limits of shop mixes, whole degrees; concentrate holds 93 to 96 % glycol
@pytest.mark.parametrize(("share", "celsius"), [(0.4, -24.0), (0.5, -37.0), (0.6, -52.0)])
def test_freeze_points_of_shop_mixes_of_ethylene_glycol(share: float, celsius: float) -> None:
    assert float(coolant.freeze_point(share, 0.0)) - 273.15 == pytest.approx(celsius, abs=1.5)


# The same manual's figures for propylene are those of propylene glycol itself, not of a concentrate with 95 % of it.
@pytest.mark.parametrize(("share", "celsius"), [(0.4, -21.0), (0.5, -33.0), (0.6, -49.0)])
def test_freeze_points_of_propylene_glycol_itself(share: float, celsius: float) -> None:
    freeze = points(share, 1.0, SEA, 0.0).freeze
    assert freeze is not None
    assert freeze - 273.15 == pytest.approx(celsius, abs=1.5)


def test_a_cap_raises_the_boiling_point_and_a_very_strong_mix_is_not_followed() -> None:
    found = points(0.475, 0.0, SEA, 103_421.0)
    assert found.boil_open is not None
    assert found.boil_capped is not None
    # physics of the trade, half and half: 223 to 226 °F open, 262 to 265 °F under 15 psi (four shop texts)
    assert (found.boil_open - 255.372) * 1.8 == pytest.approx(224.5, abs=2.5)
    assert (found.boil_capped - 255.372) * 1.8 == pytest.approx(263.5, abs=2.5)
    assert points(0.7, 0.0, SEA, 0.0).freeze is None
