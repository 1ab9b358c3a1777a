"""Tubes and ducts: more flow, more heat; no steps between regimes; the known limits."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from toptank.equations.duct import friction_developing, friction_rectangular, nusselt_developing, nusselt_rectangular
from toptank.equations.tube import END_OF_TRANSITION, friction_darcy, nusselt_tube, nusselt_turbulent

Re = np.geomspace(1.0, 1e5, 4000)
transitions = st.floats(1000.0, 4000.0)
prandtls = st.floats(1.5, 60.0)
aspects = st.floats(0.02, 1.0)
tubes = {"D_h": 4e-3, "L": 0.45}


@given(Re_tr=transitions, Pr=prandtls, alpha=aspects)
def test_more_flow_never_means_less_heat(Re_tr: float, Pr: float, alpha: float) -> None:
    assert np.all(np.diff(nusselt_tube(Re, Pr, alpha, Re_tr=Re_tr, **tubes)) >= -1e-12)


@given(Re_tr=transitions, Pr=prandtls, alpha=aspects, end=st.booleans())
def test_the_regimes_meet_without_a_step(Re_tr: float, Pr: float, alpha: float, end: bool) -> None:
    where = Re_tr * (END_OF_TRANSITION if end else 1.0)
    below, above = (nusselt_tube(where * side, Pr, alpha, Re_tr=Re_tr, **tubes) for side in (1 - 1e-9, 1 + 1e-9))
    assert abs(below / above - 1.0) < 1e-5


@given(Pr=prandtls, alpha=aspects)
def test_the_transition_lies_between_the_two_regimes(Pr: float, alpha: float) -> None:
    middle = nusselt_tube(3100.0, Pr, alpha, Re_tr=2300.0, **tubes)
    assert nusselt_tube(2300.0, Pr, alpha, Re_tr=2300.0, **tubes) < middle < nusselt_turbulent(4000.0, Pr, **tubes)


def test_slow_flow_in_a_long_tube_is_developed() -> None:
    assert abs(nusselt_tube(5.0, 6.0, 0.0, D_h=4e-3, L=40.0, Re_tr=2300.0) - 7.541) < 1e-3


def test_laminar_friction_is_hagen_poiseuille() -> None:
    laminar = np.geomspace(1.0, 1800.0, 50)
    assert np.allclose(friction_darcy(laminar, 0.01) * laminar, 64.0, rtol=2e-4)


@given(flow=st.floats(5e3, 1e6), roughness=st.floats(1e-4, 0.05))
def test_a_rough_wall_rubs_more(flow: float, roughness: float) -> None:
    assert friction_darcy(flow, roughness) > friction_darcy(flow, 0.0)


def test_the_plate_is_the_flattest_duct() -> None:
    # the published polynomial of the Nusselt number turns up by 0.3 % just before the square
    alpha = np.linspace(0.0, 0.9, 91)
    assert np.all(np.diff(nusselt_rectangular(alpha)) < 0.0)
    assert np.all(np.diff(friction_rectangular(alpha)) < 0.0)


def test_developing_flow_ends_as_developed_flow() -> None:
    assert abs(nusselt_developing(7.541, 100.0, 0.7) - 7.541) < 1e-3
    assert abs(friction_developing(24.0, 1e4) - 24.0) < 0.05


def test_developing_friction_begins_as_a_boundary_layer() -> None:
    # shah1978a: 3.44 / sqrt(x+) at the entrance
    assert abs(friction_developing(24.0, 1e-5) * np.sqrt(1e-5) / 3.44 - 1.0) < 0.01


@given(x=st.floats(1e-6, 1.0), Pr=st.floats(0.6, 60.0))
def test_a_shorter_duct_has_the_better_film(x: float, Pr: float) -> None:
    assert nusselt_developing(5.0, x, Pr) > nusselt_developing(5.0, 1.1 * x, Pr)
