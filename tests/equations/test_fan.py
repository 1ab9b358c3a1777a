"""Fans and pumps: the laws of similarity, and the balance of moments behind a slipping drive."""

from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from toptank.equations.fan import driven_speed, fan_power, fan_pressure, fan_torque, pressure_coefficient, wind_torque
from toptank.equations.pipe_loss import minor_loss
from toptank.equations.pump import pump_pressure
from toptank.equations.viscous_clutch import slip_torque_gain

speeds = st.floats(5.0, 80.0)
RHO, D, C_P = 1.15, 0.45, 1.6


@given(N=speeds, ratio=st.floats(0.3, 3.0), Q=st.floats(-1.0, 3.0))
def test_pressure_follows_the_fan_laws(N: float, ratio: float, Q: float) -> None:
    once = fan_pressure(RHO, N, D, Q, 0.86, 0.52)
    assert np.isclose(fan_pressure(RHO, ratio * N, D, ratio * Q, 0.86, 0.52), ratio**2 * once, atol=1e-9)
    assert np.isclose(fan_pressure(2.0 * RHO, N, D, Q, 0.86, 0.52), 2.0 * once, atol=1e-9)
    assert np.isclose(fan_pressure(RHO, N, 2.0 * D, 8.0 * Q, 0.86, 0.52), 4.0 * once, atol=1e-9)


@given(N=speeds, Q=st.floats(-1.0, 3.0))
def test_pressure_is_the_curve_of_its_coefficients(N: float, Q: float) -> None:
    psi = pressure_coefficient(Q / (N * D**3), 0.86, 0.52)
    assert np.isclose(fan_pressure(RHO, N, D, Q, 0.86, 0.52), psi * RHO * N**2 * D**2, atol=1e-9)


@given(Q=st.floats(0.01, 3.0))
def test_a_fan_that_stands_is_in_the_way(Q: float) -> None:
    assert fan_pressure(RHO, 0.0, D, Q, 0.86, 0.52) < 0.0
    assert fan_pressure(RHO, 0.0, D, -Q, 0.86, 0.52) > 0.0


@given(N=speeds)
def test_power_is_moment_times_turning(N: float) -> None:
    assert np.isclose(fan_power(RHO, N, D, C_P), fan_torque(RHO, N, D, C_P) * 2.0 * pi * N)


@given(N_in=speeds, k=st.floats(0.0, 100.0), U=st.floats(0.0, 20.0), c_w=st.floats(0.0, 3.0))
def test_the_moments_balance(N_in: float, k: float, U: float, c_w: float) -> None:
    N = driven_speed(N_in, k, RHO, D, C_P, c_w, U)
    driving = k * (N_in - N) + wind_torque(RHO, D, c_w, U)
    assert N >= 0.0
    assert abs(driving - fan_torque(RHO, N, D, C_P)) < 1e-8 * max(1.0, k * N_in)


@given(N_in=speeds, U=st.floats(0.1, 20.0))
def test_without_a_drive_the_fan_turns_with_the_wind(N_in: float, U: float) -> None:
    # c N^2 = w U^2, so that N D / U is the root of c_w / c_P
    assert np.isclose(driven_speed(N_in, 0.0, RHO, D, 1.6, 0.4, U), 0.5 * U / D)


@given(N_in=speeds, U=st.floats(0.0, 20.0))
def test_behind_a_stiff_drive_the_fan_turns_with_the_drive(N_in: float, U: float) -> None:
    assert np.isclose(driven_speed(N_in, 1e9, RHO, D, C_P, 1.2, U), N_in, rtol=1e-6)


@given(N_in=speeds, k=st.floats(0.001, 10.0), more=st.floats(1.01, 3.0))
def test_a_stiffer_drive_turns_a_fan_faster_and_never_beyond_itself(N_in: float, k: float, more: float) -> None:
    soft, stiff = (driven_speed(N_in, gain, RHO, D, C_P, 1.2, 0.0) for gain in (k, more * k))
    assert soft < stiff < N_in


@given(r=st.floats(0.1, 0.99), N_ref=speeds)
def test_a_clutch_gives_the_ratio_that_it_was_set_by(r: float, N_ref: float) -> None:
    k = slip_torque_gain(r, N_ref, RHO, D, C_P)
    assert np.isclose(driven_speed(N_ref, k, RHO, D, C_P, 0.0, 0.0), r * N_ref)


@given(r=st.floats(0.2, 0.9), N_ref=speeds)
def test_a_clutch_slips_more_at_speed(r: float, N_ref: float) -> None:
    k = slip_torque_gain(r, N_ref, RHO, D, C_P)
    assert driven_speed(2.0 * N_ref, k, RHO, D, C_P, 0.0, 0.0) / (2.0 * N_ref) < r


def test_a_standing_drive_in_still_air_leaves_the_fan_standing() -> None:
    assert driven_speed(0.0, 0.5, RHO, D, C_P, 1.2, 0.0) == pytest.approx(0.0, abs=1e-9)


@given(N=st.floats(5.0, 80.0), ratio=st.floats(0.3, 3.0), Q=st.floats(0.0, 5e-3))
def test_a_pump_follows_the_same_laws(N: float, ratio: float, Q: float) -> None:
    once = pump_pressure(N, Q, 30e3, 16.7, 3e-3)
    assert np.isclose(pump_pressure(ratio * N, ratio * Q, 30e3, 16.7, 3e-3), ratio**2 * once, atol=1e-6)


def test_a_pump_that_stands_is_in_the_way() -> None:
    assert pump_pressure(0.0, 1e-3, 30e3, 16.7, 3e-3) < 0.0


def test_a_loss_has_the_sign_of_the_flow() -> None:
    # an inch and a half of hose, K 2.5, 60 US gallons a minute of 1025 kg/m3: 2.1 psi by the textbook formula
    bore = pi * (1.5 * 0.0254) ** 2 / 4.0
    loss = minor_loss(2.5, 1025.0, 60.0 * 6.30902e-5, bore)
    assert loss == pytest.approx(2.1 * 6894.76, rel=0.03)
    assert minor_loss(2.5, 1025.0, -60.0 * 6.30902e-5, bore) == -loss
