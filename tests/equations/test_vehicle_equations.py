"""Road, air and engine: identities and limits."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from toptank.equations.atmosphere import pressure_at_altitude, temperature_at_altitude
from toptank.equations.cold_friction import cold_friction
from toptank.equations.engine_heat import LIGHT, LOGGED_CYLINDER, friction_heat, gas_film_heat
from toptank.equations.heat_gain import temperature_change
from toptank.equations.ram import dynamic_pressure
from toptank.equations.road_load import coast_down_force, road_load_power
from toptank.equations.spark_timing import work_left
from toptank.equations.willans import brake_mean_pressure, fuel_power

G = 9.80665
grades = st.floats(-0.12, 0.12)
road = {"m": 2268.0, "C_rr": 0.015, "C_dA": 1.25, "rho": 1.12, "g": G}


@given(V=st.floats(0.1, 40.0), grade=grades)
def test_lifting_the_weight_costs_its_potential_energy(V: float, grade: float) -> None:
    power = road_load_power(m=2000.0, V=V, grade=grade, C_rr=0.0, C_dA=0.0, rho=1.2, g=G, U=V)
    assert np.isclose(power, 2000.0 * G * V * np.sin(np.arctan(grade)))


@given(V=st.floats(1.0, 40.0), grade=st.floats(0.0, 0.1), more=st.floats(0.001, 0.05))
def test_a_steeper_road_asks_more(V: float, grade: float, more: float) -> None:
    assert road_load_power(V=V, U=V, grade=grade + more, **road) > road_load_power(V=V, U=V, grade=grade, **road)


@given(V=st.floats(1.0, 40.0), wind=st.floats(0.1, 20.0))
def test_a_head_wind_asks_more(V: float, wind: float) -> None:
    assert road_load_power(V=V, U=V + wind, grade=0.0, **road) > road_load_power(V=V, U=V, grade=0.0, **road)


def test_a_standing_vehicle_asks_nothing() -> None:
    assert road_load_power(V=0.0, U=10.0, grade=0.06, **road) == 0.0


@given(V=st.floats(0.0, 40.0))
def test_a_level_road_is_a_polynomial_of_speed(V: float) -> None:
    force = coast_down_force(2268.0 * G * 0.015, 0.0, 0.5 * 1.12 * 1.25, V)
    assert np.isclose(road_load_power(V=V, U=V, grade=0.0, **road), force * V)


@given(z=st.floats(0.0, 4000.0))
def test_pressure_falls_with_altitude_as_the_weight_of_the_air(z: float) -> None:
    # hydrostatics: dp/dz = -rho g, by finite difference
    rho = pressure_at_altitude(z) / (287.053 * temperature_at_altitude(z))
    slope = (pressure_at_altitude(z + 0.5) - pressure_at_altitude(z - 0.5)) / 1.0
    assert np.isclose(slope, -rho * G * (6_356_766.0 / (6_356_766.0 + z)) ** 2, rtol=1e-4)


@given(U=st.floats(0.0, 50.0))
def test_twice_the_speed_is_four_times_the_ram(U: float) -> None:
    assert np.isclose(dynamic_pressure(1.14, 2.0 * U), 4.0 * dynamic_pressure(1.14, U))


@given(P_b=st.floats(0.0, 2e5), N=st.floats(8.0, 90.0))
def test_brake_power_over_fuel_power_never_exceeds_the_pistons(P_b: float, N: float) -> None:
    assert P_b <= 0.35 * fuel_power(P_b, 1.5e5, 5e-3, N, 0.35) + 1e-9


@given(P_b=st.floats(1e3, 1e5), N=st.floats(10.0, 60.0))
def test_the_willans_line_is_mean_pressures_over_efficiency(P_b: float, N: float) -> None:
    bmep = brake_mean_pressure(P_b, 5e-3, N)
    assert np.isclose(fuel_power(P_b, 1.5e5, 5e-3, N, 0.35) * 0.35, (bmep + 1.5e5) * 5e-3 * N / 2.0)


def test_an_engine_that_the_hill_turns_burns_nothing() -> None:
    assert fuel_power(-50e3, 1.5e5, 5e-3, 50.0, 0.35) == 0.0


def test_the_gas_film_of_a_light_idle_is_the_stated_share_and_grows_by_its_power() -> None:
    # 2 L in cylinders of the logged size at 5 MW/m3: 10 kW of fuel, 43 % of it; eight times the fuel: 8^(2/3) = 4 times
    one = gas_film_heat(2e-3 * LIGHT, 2e-3, LOGGED_CYLINDER, 0.43, 2.0 / 3.0, 1e9)
    assert one == pytest.approx(4300.0)
    assert gas_film_heat(16e-3 * LIGHT, 2e-3, LOGGED_CYLINDER, 0.43, 2.0 / 3.0, 1e9) == pytest.approx(4.0 * one)


def test_large_cylinders_give_less_a_litre() -> None:
    # wall over volume falls as size^(-1/3), Nu as Re^(3/4) raises the film as size^(1/6): 2^(-1/6) = 0.891
    small, large = (gas_film_heat(1e4, 2e-3, V_1, 0.43, 0.7, 1e9) for V_1 in (LOGGED_CYLINDER, 2.0 * LOGGED_CYLINDER))
    assert large / small == pytest.approx(0.891, abs=1e-3)


@given(P_f=st.floats(0.0, 3e5), most=st.floats(0.05, 0.9), k=st.floats(0.1, 0.8))
def test_the_gas_film_never_takes_more_than_work_and_exhaust_leave(P_f: float, most: float, k: float) -> None:
    heat = gas_film_heat(P_f, 2e-3, 5e-4, k, 0.7, most * P_f)
    assert 0.0 <= heat <= most * P_f * (1.0 + 1e-9) + 1e-4


def test_friction_is_mean_pressure_times_half_the_swept_volume_a_turn() -> None:
    # 1.5 bar x 2 L x 25 1/s / 2 = 3.75 kW, nine tenths of it
    assert friction_heat(1.5e5, 2e-3, 25.0, 0.9) == pytest.approx(3375.0)


def test_cold_oil_doubles_friction_and_warm_oil_adds_nothing() -> None:
    # 10W-40: about 190 mm2/s at 25 degC against 34 at 65: root 2.35; six tenths of the friction go with it: 1.8
    assert cold_friction(298.15, 0.6) == pytest.approx(1.82, abs=0.05)
    assert cold_friction(np.array([338.15, 360.0, 400.0]), 0.6) == pytest.approx(1.0)
    assert cold_friction(323.15, 0.6) == pytest.approx(1.18, abs=0.01)


def test_ten_degrees_from_the_best_spark_cost_two_percent_and_twenty_ten() -> None:
    # from memory (heywood1988, chapter 15): a parabola
    lost = 1.0 - work_left(np.radians([0.0, 10.0, 20.0, 30.0]))
    assert lost == pytest.approx([0.0, 0.024, 0.097, 0.219], abs=2e-3)
    assert work_left(3.0) > 0.0


def test_sixty_kilowatts_at_forty_gallons_a_minute() -> None:
    # 50 % glycol near 95 C: 1025 kg/m3, 3550 J/(kg K); hand calculation 6.53 K
    assert temperature_change(60e3, 40.0 * 6.30902e-5 * 1025.0, 3550.0) == pytest.approx(6.53, abs=0.01)
