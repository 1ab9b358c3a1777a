"""Fins and end losses: solved anew, and in their limits."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_bvp

from toptank.equations.core_loss import contraction_loss, core_pressure_drop, expansion_loss
from toptank.equations.fin import fin_efficiency
from toptank.equations.fouling import fouling_resistance


def test_the_efficiency_is_that_of_the_heat_equation() -> None:
    h, k_f, delta_f, L_f = 150.0, 110.0, 0.06e-3, 6e-3
    m2 = 2.0 * h / (k_f * delta_f)
    x = np.linspace(0.0, L_f, 50)
    solution = solve_bvp(
        lambda _, T: np.array([T[1], m2 * T[0]]),
        lambda root, tip: np.array([root[0] - 1.0, tip[1]]),
        x,
        np.array([np.ones_like(x), np.zeros_like(x)]),
        tol=1e-8,
    )
    heat = -k_f * delta_f * solution.sol(0.0)[1]
    assert abs(fin_efficiency(h, k_f, delta_f, L_f) - heat / (2.0 * h * L_f)) < 1e-6


@given(h=st.floats(1.0, 500.0), k_f=st.floats(40.0, 400.0), L_f=st.floats(1e-3, 2e-2))
def test_a_longer_fin_is_less_efficient_and_gives_more_heat(h: float, k_f: float, L_f: float) -> None:
    short, long = (fin_efficiency(h, k_f, 0.08e-3, length) for length in (L_f, 2.0 * L_f))
    assert 0.0 < long < short <= 1.0
    assert 2.0 * long >= short * (1 - 1e-12)


def test_in_still_air_every_fin_is_perfect() -> None:
    assert abs(fin_efficiency(0.0, 300.0, 0.08e-3, 5e-3) - 1.0) < 1e-9


def test_an_open_face_has_no_end_losses() -> None:
    # kays1984: no contraction, no expansion, even flow; the fit of the jet misses 1 by half a percent
    assert abs(contraction_loss(1.0, 1.0)) < 1e-3
    assert expansion_loss(1.0, 1.0) == 0.0


@given(sigma=st.floats(0.2, 0.95), f=st.floats(0.01, 0.2))
def test_cold_air_loses_only_friction_and_ends(sigma: float, f: float) -> None:
    K_c, K_e = contraction_loss(sigma, 1.0), expansion_loss(sigma, 1.0)
    drop = core_pressure_drop(10.0, 1.2, 1.2, sigma, K_c, K_e, f, 30.0)
    assert abs(drop / (0.5 * 10.0**2 / 1.2 * (K_c + K_e + 30.0 * f)) - 1.0) < 1e-12


@given(rho_2=st.floats(0.8, 1.19), sigma=st.floats(0.5, 0.9))
def test_heating_the_air_costs_pressure(rho_2: float, sigma: float) -> None:
    cold, hot = (core_pressure_drop(10.0, 1.2, rho, sigma, 0.1, 0.1, 0.05, 30.0) for rho in (1.2, rho_2))
    assert hot > cold


def test_half_a_millimetre_of_scale_at_one_watt_per_metre_kelvin() -> None:
    assert fouling_resistance(0.5e-3, 1.0) == 5e-4
