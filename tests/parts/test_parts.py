"""The other parts, each as a rig would report it."""

import numpy as np
import pytest

from toptank.parts.cap import Cap
from toptank.parts.condenser import Condenser
from toptank.parts.drivetrain import Drivetrain
from toptank.parts.engine import Engine
from toptank.parts.fan import Fan
from toptank.parts.fan_clutch import FanClutch
from toptank.parts.fill import Fill
from toptank.parts.gauge import Gauge
from toptank.parts.shroud import Shroud
from toptank.parts.thermostat import Thermostat
from toptank.parts.transmission_cooler import TransmissionCooler
from toptank.parts.water_pump import FULL_HEAD_MARGIN, WaterPump

WARM = np.linspace(300.0, 400.0, 101)


def test_a_thermostat_opens_from_ajar_to_full_and_stays_there() -> None:
    thermostat = Thermostat(starts_opening=355.0, opening_range=10.0, smallest_opening=0.01)
    opening = thermostat.opening(T=WARM)
    assert np.all(np.diff(opening) >= 0.0)
    assert opening[0] == 0.01
    assert thermostat.opening(T=360.0) == pytest.approx(0.505)
    assert opening[-1] == 1.0


def test_a_thermostat_stuck_part_open_is_so_hot_and_cold() -> None:
    stuck = Thermostat(smallest_opening=0.4, largest_opening=0.4)
    np.testing.assert_allclose(stuck.opening(T=WARM), 0.4)


def test_a_thermostat_that_closes_the_bypass_nearly_shuts_it() -> None:
    closing, leaving = Thermostat(closes_bypass=1.0), Thermostat(closes_bypass=0.0)
    assert closing.bypass(opening=1.0) < 0.05 * closing.bypass(opening=0.0)
    assert leaving.bypass(opening=1.0) == leaving.bypass(opening=0.0)


def test_a_pump_loses_head_only_near_the_boiling_point_and_never_all() -> None:
    left = WaterPump().head_left(eye_margin=np.linspace(-1e5, 2e5, 301))
    assert np.all(np.diff(left) >= 0.0)
    assert left[0] == pytest.approx(0.4)
    assert WaterPump().head_left(eye_margin=FULL_HEAD_MARGIN) == 1.0


def test_pump_flow_goes_with_speed_and_head_with_its_square() -> None:
    pump = WaterPump()
    assert pump.pressure(speed=60.0, flow=4e-3) == pytest.approx(4.0 * pump.pressure(speed=30.0, flow=2e-3))
    assert pump.pressure(speed=2000.0 / 60.0, flow=pump.free_flow) == pytest.approx(0.0, abs=1e-9)


def test_a_clutch_goes_from_released_to_engaged_as_its_coil_warms() -> None:
    clutch = FanClutch(released_ratio=0.25, engaged_ratio=0.8, engages=345.0, engaging_range=8.0)
    ratio = clutch.ratio(T_coil=WARM)
    assert np.all(np.diff(ratio) >= 0.0)
    assert (ratio[0], ratio[-1]) == pytest.approx((0.25, 0.8))


def _speed(fan: Fan, drive_speed: float, ratio: float, U: float = 0.0) -> float:
    return float(fan.speed(drive_speed=drive_speed, clutch_ratio=ratio, reference_speed=40.0, U=U, rho=1.15))


def test_a_clutch_reaches_its_ratio_at_the_reference_speed_and_slips_more_beyond() -> None:
    """A moment that grows with slip against one that grows with speed squared."""
    fan = Fan()
    assert _speed(fan, 40.0, 0.8) == pytest.approx(32.0, rel=1e-9)
    assert _speed(fan, 80.0, 0.8) / 80.0 < 0.8 < _speed(fan, 12.0, 0.8) / 12.0


def test_a_bolted_fan_turns_with_its_pulley_whatever_the_clutch() -> None:
    bolted = Fan(drive=1.0)
    assert _speed(bolted, 40.0, 0.1) == _speed(bolted, 40.0, 0.9) == pytest.approx(39.8, rel=1e-3)


def test_wind_turns_a_fan_that_nothing_drives() -> None:
    assert _speed(Fan(), 0.0, 0.3, U=8.0) > _speed(Fan(), 0.0, 0.3, U=4.0) > 0.0


def test_an_electric_fan_runs_hot_or_with_the_air_conditioning() -> None:
    fan = Fan(drive=2.0, switch_off=355.0, switch_on=365.0, with_air_conditioning=1.0)

    def turns(T: float, on: float) -> float:
        return float(fan.drive_speed(engine_speed=50.0, T_switch=T, air_conditioning=on))

    assert turns(350.0, 0.0) == 0.0
    assert turns(370.0, 0.0) == turns(350.0, 1.0) == pytest.approx(fan.motor_speed * fan.supply)


def test_a_fan_set_the_wrong_way_round_pushes_against_the_ram_air() -> None:
    right, wrong = (Fan(backwards=way).pressure(speed=30.0, flow=0.0, rho=1.1, left=1.0) for way in (0.0, 1.0))
    assert right > 0.0 > wrong > -right


def test_without_a_shroud_the_fan_draws_through_its_own_circle_only() -> None:
    fitted, missing = (Shroud(present=present) for present in (1.0, 0.0))
    size = {"fan_diameter": 0.43, "fans": 1.0, "face_area": 0.26}
    assert missing.fan_share(**size) == pytest.approx(np.pi / 4.0 * 0.43 * 0.43 / 0.26)
    assert missing.fan_share(**size) < fitted.fan_share(**size)
    assert missing.leak_area(**size) > fitted.leak_area(**size)


def test_a_weak_cap_holds_its_share_and_a_gauge_shows_its_error() -> None:
    assert Cap(pressure=1e5, holds=0.6).held_pressure() == pytest.approx(6e4)
    assert Gauge(sender_offset=3.0, error=-5.0).reading(T_engine_out=370.0) == pytest.approx(368.0)


def test_air_in_the_loop_costs_head() -> None:
    left = [Fill(air=share).head_left() for share in (0.0, 0.1, 0.2, 0.4)]
    assert left[0] == 1.0
    assert left[2] == pytest.approx(0.5)
    assert np.all(np.diff(left) < 0.0)


@pytest.mark.parametrize("place", [0.0, 1.0, 2.0, 3.0])
def test_a_transmission_sheds_what_it_makes(place: float) -> None:
    cooler = TransmissionCooler(place=place)
    passed_on, T_fluid = cooler.split(heat=4000.0, T_sink=350.0, C_sink=3000.0, T_ambient=300.0)
    assert passed_on + cooler.case_conductance * (T_fluid - 300.0) == pytest.approx(
        min(4000.0, passed_on + cooler.case_conductance * (430.0 - 300.0))
    )
    assert (passed_on == 0.0) == (place == 0.0)


def test_a_condenser_gives_the_air_more_than_it_takes_from_the_cabin_and_more_so_on_a_hot_day() -> None:
    condenser = Condenser(present=1.0)
    cool, hot = (condenser.balance(load=5000.0, C_air=1500.0, T_air_in=T, V_face=3.0) for T in (300.0, 315.0))
    assert 5000.0 < cool[0] < hot[0]
    assert 0.0 < cool[1] < hot[1]
    assert cool[2] < hot[2]


def test_a_condenser_without_air_falls_short_of_the_cooling() -> None:
    heat, power, T = Condenser(present=1.0).balance(load=5000.0, C_air=50.0, T_air_in=315.0, V_face=0.1)
    assert heat < 5000.0
    assert power > 0.0
    assert T < 360.0


def test_a_steeper_pull_takes_a_lower_gear_and_more_heat_in_the_converter() -> None:
    drivetrain, engine = Drivetrain(kind=1.0), Engine()
    pulls = {"speed": 20.0, "gear": 0.0, "engine": engine, "rho": 1.15}
    easy, hard = (drivetrain.choose(wheel_power=power, **pulls) for power in (5e3, 70e3))
    assert hard[0] > easy[0]
    assert hard[2] > easy[2] > 0.0
    assert easy[1] > 5e3


def test_only_an_automatic_held_in_gear_heats_its_fluid_at_standstill() -> None:
    drags = [
        float(Drivetrain(kind=kind).standing_drag(engine=Engine(), in_gear=in_gear, rho=1.2))
        for kind, in_gear in ((0.0, 1.0), (1.0, 0.0), (1.0, 1.0))
    ]
    assert drags[:2] == [0.0, 0.0]
    assert 300.0 < drags[2] < 10e3


@pytest.mark.parametrize("speed", [12.0, 50.0])
def test_an_engine_gives_the_coolant_more_the_more_it_pulls_and_never_more_than_it_burns(speed: float) -> None:
    engine = Engine()
    fuel, heat, load = engine.heat(power=np.linspace(0.0, 30e3, 20), speed=speed, rho=1.2)
    assert np.all(np.diff(heat) >= 0.0)
    assert np.all(heat < 0.6 * fuel)
    assert load[0] == 0.0
    late = Engine(late_ignition=engine.late_ignition + 8.0).heat(power=10e3, speed=speed, rho=1.2)
    assert late[1] > engine.heat(power=10e3, speed=speed, rho=1.2)[1]
