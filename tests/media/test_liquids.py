"""Water and coolant: limits, laws, and the tables of others."""

from typing import Any

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st
from iapws import IAPWS97

from toptank.media import coolant, mixture, water

PSI = 6894.757293168361
GLYCOLS = (0.0, 1.0)

temperatures = st.floats(240.0, 398.0)
shares = st.floats(0.0, 0.7)
glycols = st.sampled_from(GLYCOLS)
pressures = st.floats(6e4, 3.2e5)


def _fahrenheit(T: float) -> float:
    return T * 1.8 - 459.67


@given(T=st.floats(273.2, 398.0))
def test_liquid_water_follows_the_industrial_formulation(T: float) -> None:
    """Within what the fits leave open, and 0.1 % between the two formulations and at 3 bar."""
    told: Any = IAPWS97(T=T, P=0.3)  # its attributes are set while it runs
    assert water.density(T) == pytest.approx(told.rho, rel=2e-4)
    assert water.heat_capacity(T) == pytest.approx(1e3 * told.cp, rel=2e-3)
    assert water.conductivity(T) == pytest.approx(told.k, rel=1e-2)  # the release of 2011 against that of 2008
    assert water.viscosity(T) == pytest.approx(told.mu, rel=3e-3)


@pytest.mark.parametrize(("T", "p"), [(263.15, 286.5), (253.15, 125.4), (243.15, 50.9), (233.15, 19.1)])
def test_undercooled_water_keeps_a_vapour_pressure(T: float, p: float) -> None:
    """Murphy and Koop 2005, Q. J. R. Meteorol. Soc. 131, equation 10; values from memory."""
    assert water.saturation_pressure(T) == pytest.approx(p, rel=0.01)


@given(T=st.floats(240.0, 600.0))
def test_boiling_under_the_vapour_pressure_gives_the_temperature_back(T: float) -> None:
    assert water.boiling_temperature(water.saturation_pressure(T)) == pytest.approx(T, abs=1e-6)


@given(p=pressures, share=shares, glycol=glycols)
def test_a_mix_boils_where_its_vapour_pressure_is_the_pressure(p: float, share: float, glycol: float) -> None:
    T = coolant.boiling_temperature(p, share, glycol)
    assert coolant.saturation_pressure(T, share, glycol) == pytest.approx(p, rel=1e-5)


@given(p=pressures, share=st.floats(0.02, 0.7), glycol=glycols)
def test_concentrate_and_pressure_raise_the_boiling_point(p: float, share: float, glycol: float) -> None:
    T = coolant.boiling_temperature(p, share, glycol)
    assert coolant.boiling_temperature(p, share - 0.02, glycol) < T
    assert coolant.boiling_temperature(p + 500.0, share, glycol) > T


@pytest.mark.parametrize(
    ("low", "high", "of_water", "of_half"),
    [(0, 4, 3.10, 3.24), (4, 7, 2.64, 2.76), (7, 13, 2.25, 2.35), (13, 16, 1.95, 2.04), (16, 22, 1.74, 1.82)],
)
def test_a_psi_is_worth_less_the_more_there_are(low: float, high: float, of_water: float, of_half: float) -> None:
    """°F per psi at sea level: IAPWS-95 for water, Raoult's law for 50 % of pure glycol, both by open libraries."""
    half = 0.5 / mixture.GLYCOL_SHARES[0]
    for share, told in ((0.0, of_water), (half, of_half)):
        ends = [_fahrenheit(coolant.boiling_temperature(101325.0 + cap * PSI, share, 0.0)) for cap in (low, high)]
        assert (ends[1] - ends[0]) / (high - low) == pytest.approx(told, abs=0.015)


@given(T=st.floats(274.0, 398.0), glycol=glycols)
def test_without_concentrate_coolant_is_water(T: float, glycol: float) -> None:
    assert coolant.density(T, 0.0, glycol) == pytest.approx(water.density(T), rel=1e-3)
    assert coolant.heat_capacity(T, 0.0, glycol) == pytest.approx(water.heat_capacity(T), rel=4e-3)
    assert coolant.conductivity(T, 0.0, glycol) == pytest.approx(water.conductivity(T), rel=4e-3)
    assert coolant.viscosity(T, 0.0, glycol) == pytest.approx(water.viscosity(T), rel=8e-3)
    assert coolant.freeze_point(0.0, glycol) == 273.15


@given(T=temperatures, share=st.floats(0.1, 0.68), glycol=glycols)
def test_more_concentrate_carries_and_conducts_less_and_flows_worse(T: float, share: float, glycol: float) -> None:
    more = share + 0.02
    assert coolant.heat_capacity(T, more, glycol) < coolant.heat_capacity(T, share, glycol)
    assert coolant.conductivity(T, more, glycol) < coolant.conductivity(T, share, glycol)
    assert coolant.viscosity(T, more, glycol) > coolant.viscosity(T, share, glycol)


@given(T=temperatures, share=shares, glycol=glycols)
def test_warmer_coolant_is_thinner_and_lighter(T: float, share: float, glycol: float) -> None:
    thawed = max(T, coolant.freeze_point(share, glycol) + 5.0)
    assert coolant.viscosity(thawed + 1.0, share, glycol) <= coolant.viscosity(thawed, share, glycol)
    assert coolant.density(thawed + 6.0, share, glycol) <= coolant.density(thawed, share, glycol) + 0.2  # 4 °C


# ASHRAE Handbook-Fundamentals, inhibited glycols by volume, as carried by the open EnergyPlus engine
# glycol, share, °C, kg/m3, J/(kg K), W/(m K) or none, mPa s
TABLE = (
    (1, 0.4, 0, 1045.12, 3636, 0.385, 12.37),
    (1, 0.4, 20, 1036.24, 3702, 0.402, 4.57),
    (1, 0.4, 60, 1012.30, 3834, 0.425, 1.30),
    (1, 0.4, 80, 997.25, 3900, 0.430, 0.88),
    (1, 0.4, 110, 970.81, 3999, 0.431, 0.59),
    (1, 0.4, 125, 955.86, 4049, 0.428, 0.51),
    (1, 0.5, 0, 1052.71, 3455, None, 18.4),
    (1, 0.5, 20, 1042.87, 3532, None, 6.65),
    (1, 0.5, 60, 1017.04, 3686, None, 1.75),
    (1, 0.5, 80, 1001.05, 3763, None, 1.12),
    (1, 0.5, 110, 973.20, 3879, None, 0.69),
    (1, 0.5, 125, 957.55, 3937, None, 0.57),
    (0, 0.7, 0, 1107.50, 2782, 0.312, 17.79),
    (0, 0.7, 20, 1098.48, 2878, 0.322, 7.53),
    (0, 0.7, 60, 1074.60, 3072, 0.337, 2.13),
    (0, 0.7, 95, 1047.32, 3242, 0.345, 0.99),
    (0, 0.7, 125, 1019.19, 3387, 0.347, 0.60),
)


@pytest.mark.parametrize("row", TABLE, ids=lambda row: f"{row[0]}-{row[1]}-{row[2]}")
def test_propylene_and_strong_mixes_follow_the_tables(
    row: tuple[float, float, float, float, float, float | None, float],
) -> None:
    """Limits are what measurements of inhibited mixes scatter by; 70 % is extrapolated and holds them too."""
    glycol, share, celsius, rho, c_p, k, mu = row
    place = (celsius + 273.15, share, glycol)
    assert coolant.density(*place) == pytest.approx(rho, rel=0.01)
    assert coolant.heat_capacity(*place) == pytest.approx(c_p, rel=0.015)
    if k is not None:
        assert coolant.conductivity(*place) == pytest.approx(k, rel=0.03)
    assert coolant.viscosity(*place) == pytest.approx(1e-3 * mu, rel=0.08)


@pytest.mark.parametrize(("glycol", "fluid"), [(0.0, "AEG"), (1.0, "APG")])
@given(T=st.floats(278.0, 373.0), share=st.floats(0.1, 0.6))
def test_the_fits_follow_the_library_that_they_were_made_from(
    glycol: float, fluid: str, T: float, share: float
) -> None:
    rho, c_p, k, mu = (PropsSI(output, "T", T, "P", 3e5, f"INCOMP::{fluid}[{share}]") for output in "DCLV")
    assert coolant.density(T, share, glycol) == pytest.approx(rho, rel=1e-3)
    assert coolant.heat_capacity(T, share, glycol) == pytest.approx(c_p, rel=8e-3)
    assert coolant.conductivity(T, share, glycol) == pytest.approx(k, rel=4e-3)
    assert coolant.viscosity(T, share, glycol) == pytest.approx(mu, rel=0.06)


def test_the_freeze_point_falls_and_then_stays() -> None:
    for glycol in GLYCOLS:
        points = coolant.freeze_point(np.linspace(0.0, 0.7, 71), glycol)
        assert (np.diff(points) <= 0.0).all()
        assert points[-1] == points[-3]  # beyond 60 % by mass nothing is promised


def test_volume_and_mass_are_turned_into_each_other_at_20_degrees() -> None:
    """By hand: 0.5 x 1113.2 over 0.5 x (1113.2 + 998.2); 0.5 x 1036.1 over 0.5 x (1036.1 + 998.2)."""
    assert mixture.glycol_mass_fraction(0.5, 0.0) == pytest.approx(0.52723, abs=1e-5)
    assert mixture.glycol_mass_fraction(0.5, 1.0) == pytest.approx(0.50932, abs=1e-5)
    assert mixture.water_mole_fraction(0.5, 0.0) == pytest.approx(62.0678 / (62.0678 + 18.0153), abs=1e-6)
    assert mixture.water_mole_fraction(0.0, 1.0) == 1.0
