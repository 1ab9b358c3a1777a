"""Crossflow: what the second law and symmetry demand."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from toptank.equations.effectiveness import (
    counterflow_of_passes,
    crossflow,
    crossflow_C_max_mixed,
    crossflow_C_min_mixed,
)

units = st.floats(0.01, 10.0)
ratios = st.floats(0.0, 1.0)


def _counterflow(NTU: float, C_r: float) -> float:
    if C_r > 0.999:
        return NTU / (1.0 + NTU)
    z = np.exp(-NTU * (1.0 - C_r))
    return float((1.0 - z) / (1.0 - C_r * z))


@given(NTU=units, C_r=ratios)
def test_no_crossflow_beats_counterflow(NTU: float, C_r: float) -> None:
    limit = max(_counterflow(NTU, C_r), _counterflow(NTU, 1.0)) + 1e-5
    assert 0.0 < crossflow(NTU, C_r) <= limit


@given(NTU=units, C_r=ratios)
def test_mixing_a_stream_never_helps(NTU: float, C_r: float) -> None:
    best = crossflow(NTU, C_r) + 5e-5
    assert crossflow_C_min_mixed(NTU, C_r) <= best
    assert crossflow_C_max_mixed(NTU, C_r) <= best


@given(NTU=units)
def test_against_an_endless_stream_all_arrangements_are_one(NTU: float) -> None:
    expected = 1.0 - np.exp(-NTU)
    for form in (crossflow, crossflow_C_min_mixed, crossflow_C_max_mixed):
        assert abs(form(NTU, 0.0) - expected) < 1e-6


@given(NTU=st.floats(0.01, 5.0), C_r=st.floats(0.2, 1.0))
def test_the_heat_is_the_same_seen_from_either_stream(NTU: float, C_r: float) -> None:
    own = crossflow(NTU, C_r)
    other = crossflow(NTU * C_r, 1.0 / C_r)
    assert abs(own * C_r - other) < 1e-6


@given(NTU=st.floats(0.01, 9.0), more=st.floats(0.01, 1.0), C_r=ratios)
def test_more_surface_gives_more_heat(NTU: float, more: float, C_r: float) -> None:
    assert crossflow(NTU + more, C_r) > crossflow(NTU, C_r)


@given(NTU=units, C_r=st.floats(0.01, 0.95))
def test_a_warmer_second_stream_gives_less_heat(NTU: float, C_r: float) -> None:
    assert crossflow(NTU, C_r + 0.05) < crossflow(NTU, C_r)


def test_twenty_terms_are_enough_for_ten_transfer_units() -> None:
    # Poisson tails from SciPy, five hundred terms
    from scipy.stats import poisson

    n = np.arange(500)
    for C_r in (0.1, 0.5, 0.9, 1.0):
        exact = np.sum(poisson.sf(n, 10.0) * poisson.sf(n, 10.0 * C_r)) / (10.0 * C_r)
        assert abs(crossflow(10.0, C_r) - exact) < 1e-5


def test_beyond_ten_transfer_units_the_effectiveness_is_held() -> None:
    assert crossflow(40.0, 0.5) == crossflow(10.0, 0.5)


@given(epsilon=st.floats(0.01, 0.95), C_r=ratios)
def test_one_pass_is_itself(epsilon: float, C_r: float) -> None:
    assert abs(counterflow_of_passes(epsilon, C_r, 1.0) - epsilon) < 1e-7


@given(epsilon=st.floats(0.01, 0.45), n=st.integers(2, 6))
def test_passes_of_equal_streams_follow_the_closed_form(epsilon: float, n: int) -> None:
    # kays1984, C_r = 1: n e / (1 + (n - 1) e)
    assert abs(counterflow_of_passes(epsilon, 1.0, float(n)) - n * epsilon / (1 + (n - 1) * epsilon)) < 1e-6
