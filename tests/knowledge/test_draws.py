"""Draws are possible vehicles, spread as the sheet says, and stay put when something else is learnt."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from toptank.knowledge.draws import draw_duty, draw_fact, draws
from toptank.knowledge.sheet import Fact, Provenance, declaration_of, declared_sheet, duty_sheet, fields, overlay
from toptank.knowledge.typical import typical_sheet
from toptank.units.declaration import Declaration
from toptank.units.dimension import CHOICE, COUNT, LENGTH, YES_NO

seeds = st.integers(0, 2**32 - 1)

FREE = Declaration(
    means="a length far from its limits", dimension=LENGTH, hard=(1e-3, 100.0), plausible=(1, 10), typical=5.0,
    spread=0.5, measure="not measured",
)  # fmt: skip


def _fact(value: float, spread: float) -> Fact:
    return Fact(value=value, how=Provenance.ASSUMED, spread=spread, origin="here")


def test_the_same_seed_gives_the_same_vehicles_and_another_seed_others() -> None:
    sheet = declared_sheet()
    first, again, other = draws(sheet, 64, 1), draws(sheet, 64, 1), draws(sheet, 64, 2)
    assert np.array_equal(first.core.face_width, again.core.face_width)
    assert not np.array_equal(first.core.face_width, other.core.face_width)


def test_every_field_is_an_array_of_doubles() -> None:
    vehicles = draws(declared_sheet(), 32, 0)
    for path, _ in fields():
        section, _, key = path.partition(".")
        values = getattr(getattr(vehicles, section), key)
        assert (values.shape, values.dtype) == ((32,), np.float64), path


@given(seed=seeds)
def test_measuring_one_part_leaves_the_draws_of_the_others_alone(seed: int) -> None:
    guessed = declared_sheet()
    known = overlay(guessed, {"core.rows": _fact(4.0, 0.0), "fan.diameter": _fact(0.5, 0.001)})
    before, after = draws(guessed, 16, seed), draws(known, 16, seed)
    assert np.array_equal(before.core.face_width, after.core.face_width)
    assert np.array_equal(before.doubts.coolant_heat, after.doubts.coolant_heat)
    assert not np.array_equal(before.fan.diameter, after.fan.diameter)


@given(seed=seeds)
def test_measuring_the_fan_of_a_kind_hardly_moves_what_else_its_maker_chose(seed: int) -> None:
    """Parts of a sound vehicle hang together, so one that is measured moves the others: by a twelfth of their spread.

    The fan's diameter is a sixth of the way along which sound pickups lie, another field at most half of it, and their
    spread along it is 0.7 of any vehicle's: 1/6 x 1/2 x 0.3 is 0.025 of a spread for one spread of the fan.
    """
    guessed = typical_sheet("pickup-1970s-v8-air")
    spread = guessed.facts["core.face_width"].spread
    known = overlay(guessed, {"fan.diameter": _fact(0.5, 0.001)})
    before, after = draws(guessed, 64, seed), draws(known, 64, seed)
    assert np.max(np.abs(before.core.face_width - after.core.face_width)) < spread / 12.0


@given(seed=seeds, name=st.sampled_from(["tractor-1960s-diesel", "wagon-1990s-v6-air", "open-car-1930s-four"]))
def test_no_draw_leaves_the_hard_limits_or_piles_up_on_them(seed: int, name: str) -> None:
    vehicles = draws(typical_sheet(name), 200, seed)
    for path, declaration in fields():
        section, _, key = path.partition(".")
        values = getattr(getattr(vehicles, section), key)
        low, high = declaration.hard
        assert np.all((values >= low) & (values <= high)), path
        if declaration.dimension not in (CHOICE, YES_NO, COUNT) and np.ptp(values) > 0.0:
            assert len(np.unique(values)) == 200, path


@given(seed=seeds)
def test_a_spread_is_a_standard_deviation(seed: int) -> None:
    values = draw_fact(_fact(5.0, 0.5), FREE, "here", 4000, seed)
    assert np.mean(values) == pytest.approx(5.0, abs=0.002)
    assert np.std(values) == pytest.approx(0.5, rel=0.01)


@given(seed=seeds)
def test_a_relative_spread_is_log_normal_about_the_value(seed: int) -> None:
    path = "condenser.conductance"
    values = draw_fact(_fact(450.0, 0.25), declaration_of(path), path, 4000, seed)
    assert np.median(values) == pytest.approx(450.0, rel=0.002)
    # Standard deviation of the logarithm of a log-normal variable with this coefficient of variation.
    assert np.std(np.log(values)) == pytest.approx(math.sqrt(math.log(1.0 + 0.25**2)), rel=0.02)


def test_a_cut_distribution_is_the_truncated_normal() -> None:
    path = "core.blocked_face"
    values = draw_fact(_fact(0.0, 0.03), declaration_of(path), path, 2000, 3)
    low, high = declaration_of(path).hard
    published = stats.truncnorm(a=low / 0.03, b=high / 0.03, scale=0.03)
    assert stats.kstest(values, published.cdf).statistic < 0.002


def test_draws_are_stratified() -> None:
    values = np.sort(draw_fact(_fact(5.0, 0.5), FREE, "here", 1000, 11))
    slices = np.floor(stats.norm(5.0, 0.5).cdf(values) * 1000).astype(int)
    assert np.array_equal(slices, np.arange(1000))


@pytest.mark.parametrize(("path", "value", "others"), [("core.fin_kind", 0.0, 2), ("core.arrangement", 0.0, 1)])
def test_a_doubtful_choice_flips_as_often_as_it_is_doubted(path: str, value: float, others: int) -> None:
    drawn = draw_fact(_fact(value, 0.2), declaration_of(path), path, 1000, 5)
    counts = {code: int(np.sum(drawn == code)) for code in range(others + 1)}
    assert counts[int(value)] == pytest.approx(800, abs=2)
    assert all(count == pytest.approx(200 / others, abs=2) for code, count in counts.items() if code != value)


def test_what_is_certain_does_not_vary() -> None:
    assert np.ptp(draws(declared_sheet(), 100, 9).core.rows) == 0.0


def test_a_doubtful_count_stays_whole() -> None:
    drawn = draw_fact(_fact(3.0, 0.6), declaration_of("core.rows"), "core.rows", 500, 1)
    assert set(np.unique(drawn)) >= {2.0, 3.0, 4.0}
    assert np.array_equal(drawn, np.rint(drawn))


def test_two_fields_are_drawn_independently() -> None:
    vehicles = draws(declared_sheet(), 4000, 13)
    correlation = np.corrcoef(vehicles.core.face_width, vehicles.core.face_height)[0, 1]
    assert abs(correlation) < 4.0 / math.sqrt(4000)


def test_a_duty_is_drawn_too() -> None:
    days = draw_duty(duty_sheet("plain", {}), 500, 2)
    assert np.std(days.head_wind) == pytest.approx(1.0, rel=0.03)
    assert np.ptp(days.speed) == 0.0
