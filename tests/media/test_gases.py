"""Air and refrigerants: laws, and what the open library says."""

import numpy as np
import pytest
from CoolProp.CoolProp import HAPropsSI, PropsSI
from hypothesis import given
from hypothesis import strategies as st

from toptank.media import air, metal, refrigerant

FLUIDS = ("R134a", "R12")
codes = st.sampled_from((0.0, 1.0))


@pytest.mark.parametrize("p", [70e3, 101325.0])
@pytest.mark.parametrize("R", [0.0, 0.4, 1.0])
@pytest.mark.parametrize("T", [274.0, 293.15, 308.15, 318.15])
def test_moist_air_follows_the_open_library(T: float, R: float, p: float) -> None:
    w = HAPropsSI("W", "T", T, "P", p, "R", R)
    assert air.humidity_ratio(T, R, p) == pytest.approx(w, rel=5e-3, abs=1e-6)
    assert air.density(T, p, w) == pytest.approx(1.0 / HAPropsSI("Vha", "T", T, "P", p, "W", w), rel=2e-3)
    assert air.heat_capacity(w) == pytest.approx(HAPropsSI("cp_ha", "T", T, "P", p, "W", w), rel=5e-3)
    assert air.conductivity(T) == pytest.approx(HAPropsSI("k", "T", T, "P", p, "W", w), rel=0.02)
    assert air.viscosity(T) == pytest.approx(HAPropsSI("mu", "T", T, "P", p, "W", w), rel=0.06)


def test_winter_air_holds_no_more_vapour_than_over_water() -> None:
    """At -20 °C, saturated: 0.622 x 125.4 Pa / 101325 Pa (Murphy and Koop 2005, from memory)."""
    assert air.humidity_ratio(253.15, 1.0, 101325.0) == pytest.approx(0.622 * 125.4 / 101325.0, rel=0.02)


@given(T=st.floats(235.0, 470.0), w=st.floats(0.0, 0.05))
def test_damp_and_warm_air_is_lighter(T: float, w: float) -> None:
    here = air.density(T, 101325.0, w)
    assert air.density(T, 101325.0, w + 0.005) < here
    assert air.density(T + 1.0, 101325.0, w) < here


@pytest.mark.parametrize(("code", "fluid"), [(0, "R134a"), (1, "R12")])
def test_refrigerant_pressure_follows_its_equation_of_state(code: int, fluid: str) -> None:
    for T in np.linspace(255.0, 365.0, 12):
        told = PropsSI("P", "T", float(T), "Q", 1, fluid)
        assert refrigerant.saturation_pressure(T, float(code)) == pytest.approx(told, rel=4e-3)


def _ratio(fluid: str, T_evap: float, T_cond: float) -> float:
    low, high = (PropsSI("P", "T", T, "Q", 1, fluid) for T in (T_evap, T_cond))
    h_1, s_1 = (PropsSI(output, "T", T_evap + 10.0, "P", low, fluid) for output in "HS")
    h_2 = h_1 + (PropsSI("H", "P", high, "S", s_1, fluid) - h_1) / 0.65
    return (h_2 - PropsSI("H", "T", T_cond - 5.0, "P", high, fluid)) / (
        h_1 - PropsSI("H", "T", T_cond - 5.0, "P", high, fluid)
    )


@pytest.mark.parametrize(("code", "limit"), [(0, 0.012), (1, 0.008)])
def test_the_cycle_rejects_what_its_state_points_say(code: int, limit: float) -> None:
    """A parabola in the condensing temperature cannot follow the rise to the critical point more closely."""
    for T_evap in (265.0, 273.0, 278.15, 290.0):
        r_0, r_1, r_2 = refrigerant.rejection_ratio_coefficients(T_evap, float(code))
        for T_cond in (300.0, 315.0, 328.15, 345.0, 358.0):
            x = T_cond - 328.15
            assert r_0 + x * (r_1 + x * r_2) == pytest.approx(_ratio(FLUIDS[code], T_evap, T_cond), rel=limit)


@given(T_evap=st.floats(250.0, 300.0), x=st.floats(-28.0, 60.0), code=codes)
def test_a_hotter_condenser_always_has_more_to_reject(T_evap: float, x: float, code: float) -> None:
    r_0, r_1, r_2 = refrigerant.rejection_ratio_coefficients(T_evap, code)
    assert r_1 + 2.0 * r_2 * x > 0.0
    assert r_0 + x * (r_1 + x * r_2) > 1.0


def test_copper_conducts_better_than_aluminium_and_aluminium_better_than_brass() -> None:
    assert metal.fin_conductivity(0.0) == metal.COPPER > metal.fin_conductivity(1.0) == metal.ALUMINIUM
    assert metal.tube_conductivity(0.0) == metal.BRASS < metal.tube_conductivity(1.0)
