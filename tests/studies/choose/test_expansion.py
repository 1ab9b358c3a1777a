"""Growth of a fill from cold to hot, and the bottle for it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toptank.studies.choose.coolant.expansion import ALUMINIUM, IRON, growth, liquid_growth, marks_in, recovery_bottle


# ashrae_glycol2009 densities, 50 % by volume; 20 °C to 80, 95, 105, 110 °C
@pytest.mark.parametrize(("hot", "percent"), [(80, 3.36), (95, 4.51), (105, 5.36), (110, 5.81)])
def test_growth_of_half_and_half(hot: float, percent: float) -> None:
    # within: density is doubtful by 0.1 % at each end
    assert 100 * liquid_growth(293.15, hot + 273.15, 0.5, 0.0) == pytest.approx(percent, abs=0.2)


def test_half_and_half_grows_by_five_point_four_percent_before_the_metal() -> None:
    assert 100 * liquid_growth(293.15, 378.15, 0.5, 0.0) == pytest.approx(5.4, abs=0.2)


def test_growth_of_water() -> None:
    # IAPWS: 20 to 95 °C, 3.78 %
    assert 100 * liquid_growth(293.15, 368.15, 0.0, 0.0) == pytest.approx(3.78, abs=0.2)


def test_metal_takes_some_of_it_and_aluminium_more_than_iron() -> None:
    # common practice, no source: 0.3 % (iron) and 0.55 % (aluminium) over 80 K
    liquid = liquid_growth(293.15, 373.15, 0.5, 0.0)
    assert 100 * (liquid - growth(293.15, 373.15, 0.5, 0.0, metal=IRON)) == pytest.approx(0.3)
    assert 100 * (liquid - growth(293.15, 373.15, 0.5, 0.0, metal=ALUMINIUM)) == pytest.approx(0.55)


def test_a_bottle_holds_a_tenth_to_an_eighth_of_the_system() -> None:
    # common practice, no source: 10 to 12 % of the system for a half and half mix, a third of it full when cold
    bottle = recovery_bottle(0.016, growth(293.15, 378.15, 0.5, 0.0))
    assert 0.10 <= bottle.volume / 0.016 <= 0.12
    assert bottle.cold_mark == pytest.approx(bottle.volume / 3)


@given(capacity=st.floats(0.004, 0.06), expansion=st.floats(0.02, 0.08))
def test_a_hot_bottle_keeps_half_of_the_expansion_free(capacity: float, expansion: float) -> None:
    bottle = recovery_bottle(capacity, expansion)
    assert bottle.hot_mark - bottle.cold_mark == pytest.approx(bottle.expansion)
    assert bottle.volume - bottle.hot_mark == pytest.approx(0.5 * bottle.expansion)


def test_a_bottle_that_would_run_over_has_no_marks() -> None:
    # by hand: 16 L x 5 % = 0.8 L; two thirds of 1.0 L are too little, of 1.3 L enough
    assert marks_in(0.0010, 0.016, 0.05) is None
    marks = marks_in(0.0013, 0.016, 0.05)
    assert marks is not None
    assert marks.hot_mark == pytest.approx(0.0013 / 3 + 0.0008)
