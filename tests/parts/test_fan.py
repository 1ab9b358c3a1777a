"""The fan by hand: what turns it, the fan laws, and what a fault of its blades does."""

from collections.abc import Callable
from math import pi
from typing import Any

import numpy as np
import pytest

from toptank.equations.viscous_clutch import slip_torque_gain
from toptank.parts.fan import Fan
from toptank.units.declaration import declarations

CLUTCH, BOLTED, ELECTRIC = 0.0, 1.0, 2.0
# psi 1 and phi 0.5: at 20 1/s and 0.5 m in air of 1.2 kg/m3, 120 Pa without flow and 1.25 m3/s without pressure
ROUND = {"diameter": 0.5, "pressure_coefficient": 1.0, "flow_coefficient": 0.5, "power_coefficient": 1.6}
SWITCH = {"drive": ELECTRIC, "motor_speed": 40.0, "supply": 1.0, "switch_on": 366.0, "switch_off": 360.0}


def _pressure(speed: Any = 20.0, flow: Any = 0.0, rho: Any = 1.2, left: Any = 1.0, **fan: Any) -> Any:
    return Fan(**ROUND | fan).pressure(speed=speed, flow=flow, rho=rho, left=left)


def _speed(drive: float, at: Any, ratio: Any = 0.8, U: Any = 0.0, rho: Any = 1.15) -> Any:
    return Fan(drive=drive, motor_speed=40.0).speed(
        drive_speed=at, clutch_ratio=ratio, reference_speed=40.0, U=U, rho=rho, left=0.9
    )


def _power(speed: Any = 20.0, drive_speed: Any = 20.0, U: Any = 0.0, **fan: Any) -> Any:
    return Fan(**ROUND | {"drive": BOLTED} | fan).power(speed=speed, drive_speed=drive_speed, U=U, rho=1.2, left=1.0)


def _switched(T: float, air_conditioning: float = 0.0, **fan: float) -> float:
    electric = Fan(**SWITCH | fan)
    share = electric.mean_share(T_switch=T, air_conditioning=air_conditioning)
    return electric.drive_speed(engine_speed=50.0, share=share)


def test_a_belt_drives_by_its_pulleys_less_its_slip() -> None:
    fan = Fan(drive=BOLTED, belt_ratio=1.2, belt_slip=0.05)
    # 40 x 1.2 x 0.95
    assert fan.drive_speed(engine_speed=40.0, share=0.0) == pytest.approx(45.6)


def test_an_electric_fan_obeys_its_switch_and_not_the_engine() -> None:
    assert [_switched(T) for T in (350.0, 360.0, 363.0, 366.0, 380.0)] == pytest.approx([0.0, 0.0, 20.0, 40.0, 40.0])
    assert _switched(380.0, supply=0.8) == pytest.approx(32.0)


def test_the_air_conditioning_starts_the_electric_fan_only_where_it_is_wired_so() -> None:
    assert _switched(300.0, 1.0, with_air_conditioning=1.0) == pytest.approx(40.0)
    assert _switched(300.0, 1.0, with_air_conditioning=0.0) == 0.0


def test_pressure_has_the_two_ends_of_its_curve() -> None:
    assert _pressure() == pytest.approx(120.0)  # 1.2 x (20 x 0.5)^2
    assert _pressure(flow=1.25) == pytest.approx(0.0, abs=1e-9)  # 0.5 x 20 x 0.5^3
    assert _pressure(flow=1.6) < 0.0  # beyond it the blades are in the way


@pytest.mark.parametrize("ratio", [0.3, 0.5, 0.75, 1.5])
def test_flow_pressure_and_power_follow_the_fan_laws(ratio: float) -> None:
    """bleier1998: flow with speed, pressure with its square, power with its cube."""
    assert _pressure(20.0 * ratio, 0.8 * ratio) == pytest.approx(ratio**2 * _pressure(20.0, 0.8))
    assert _power(20.0 * ratio, 20.0 * ratio) == pytest.approx(ratio**3 * 480.0)  # 1.6 x 1.2 x 20^3 x 0.5^5


def test_two_fans_share_the_flow_and_take_twice_the_power() -> None:
    assert _pressure(flow=1.6, count=2.0) == pytest.approx(_pressure(flow=0.8))
    assert _power(count=2.0) == pytest.approx(960.0)


def test_a_fan_the_wrong_way_round_blows_against_the_road_and_one_without_blades_does_nothing() -> None:
    assert -120.0 < _pressure(backwards=1.0) < 0.0
    assert _pressure(strength=0.0) == pytest.approx(0.0)
    assert _pressure(strength=0.5, left=0.8) == pytest.approx(0.5 * 0.8 * 120.0)


def test_a_motor_without_current_lets_the_wind_turn_its_blades() -> None:
    """Judgement: an open circuit brakes nothing, so that the blades turn with the wind and are less in its way."""
    fan = Fan(**ROUND | {"drive": ELECTRIC, "motor_speed": 40.0})
    turning = {"clutch_ratio": 0.0, "reference_speed": 40.0, "U": 6.0, "rho": 1.2, "left": 1.0}
    dead = fan.speed(drive_speed=0.0, **turning)
    # they raise no moment at 1.25 of the flow at which they raise no pressure: 6 m/s / (1.25 x 0.5 x 4 / pi x 0.5 m)
    assert 0.8 * 15.1 < dead < 15.1
    through = {"flow": 6.0 * pi / 4.0 * 0.25, "rho": 1.2, "left": 1.0}
    assert fan.pressure(speed=0.0, **through) < 2.0 * fan.pressure(speed=dead, **through) < 0.0
    assert fan.speed(drive_speed=40.0, **turning | {"U": 0.0}) == pytest.approx(0.85 * 40.0, rel=0.01)


def test_each_drive_turns_the_fan_at_its_share() -> None:
    """The share seen at the reference speed on a mild day is the share given back: 0.8, 0.995, 0.85."""
    assert _speed(CLUTCH, 40.0) == pytest.approx(32.0)
    assert _speed(BOLTED, 40.0) == pytest.approx(0.995 * 40.0, rel=1e-6)
    assert _speed(ELECTRIC, 40.0) == pytest.approx(34.0)


def test_a_motor_is_rated_at_its_own_speed_whatever_the_clutch_was_read_at() -> None:
    fan = Fan(drive=ELECTRIC, motor_speed=50.0)
    loaded = fan.speed(drive_speed=50.0, clutch_ratio=0.3, reference_speed=40.0, U=0.0, rho=1.15, left=1.0)
    assert loaded == pytest.approx(0.85 * 50.0)


def test_a_clutch_slips_less_when_slow_and_in_thin_air() -> None:
    """The moment of the blades goes with density and the square of speed, that of the fluid with slip alone."""
    at = np.array([10.0, 20.0, 40.0, 80.0])
    assert np.all(np.diff(_speed(CLUTCH, at)) > 0.0)
    assert np.all(np.diff(_speed(CLUTCH, at) / at) < 0.0)
    assert _speed(CLUTCH, 40.0, rho=0.9) > 32.0


def test_wind_helps_to_turn_a_slipping_fan_and_a_bolted_one_hardly_feels_it() -> None:
    assert _speed(CLUTCH, 40.0, ratio=0.25, U=10.0) > 1.1 * _speed(CLUTCH, 40.0, ratio=0.25)
    assert _speed(BOLTED, 40.0, U=10.0) == pytest.approx(40.0, rel=0.01)


def _any_fan(n: int, seed: int) -> tuple[Fan, dict[str, Any]]:
    """Any blades that may be declared, with any gap and doubt, and the air through them."""
    rng = np.random.default_rng(seed)
    drawn = {
        name: rng.uniform(*declared.hard, n)
        for name, declared in declarations(Fan)
        if name in ("diameter", "pressure_coefficient", "flow_coefficient", "power_coefficient", "strength")
    }
    return Fan(**drawn), {"U": rng.uniform(0.0, 40.0, n), "rho": rng.uniform(0.7, 1.3, n), "left": rng.uniform(0, 2, n)}


def _through(fan: Fan, air: dict[str, Any]) -> dict[str, Any]:
    return {"flow": air["U"] * pi / 4.0 * fan.diameter**2, "rho": air["rho"], "left": air["left"]}


@pytest.mark.parametrize("seed", range(4))
def test_a_fan_without_driving_moment_gives_the_air_nothing(seed: int) -> None:
    """First law: wind turns free blades no faster than they would turn without pressure, and loses pressure by it."""
    fan, air = _any_fan(20_000, seed)
    blown = fan.speed(drive_speed=0.0, clutch_ratio=0.0, reference_speed=40.0, **air)
    assert np.all(fan.pressure(speed=blown, **_through(fan, air)) <= 1e-9)
    freely = _through(fan, air)["flow"] / (fan.flow_coefficient * fan.diameter**3 * np.sqrt(np.maximum(air["left"], 1)))
    assert np.all(blown <= freely * (1.0 + 1e-9))


@pytest.mark.parametrize("seed", range(4))
def test_no_fan_gives_the_air_more_than_the_shaft_gives_the_fan(seed: int) -> None:
    """First law, forwards and as a windmill: pressure times flow is never above moment times turning."""
    fan, air = _any_fan(20_000, seed)
    drive = np.random.default_rng(seed).uniform(0.0, 100.0, 20_000)
    speed = fan.speed(drive_speed=drive, clutch_ratio=0.5, reference_speed=40.0, **air)
    stiffness = slip_torque_gain(r=0.5, N_ref=40.0, rho=1.15, D=fan.diameter, c_P=fan.power_coefficient)
    to_the_fan = 2.0 * pi * stiffness * (drive - speed) * speed
    to_the_air = fan.pressure(speed=speed, **_through(fan, air)) * _through(fan, air)["flow"]
    assert np.any(to_the_fan > 0.0)
    assert np.any(to_the_fan < 0.0)
    assert np.all(to_the_air <= to_the_fan + 1e-9 * np.abs(to_the_air) + 1e-6)


def test_the_engine_pays_for_the_slip_of_the_clutch() -> None:
    """The moment at the fan is that at the pulley: at 16 of 20 1/s the pulley gives 20/16 of what the blades take."""
    assert _power(16.0, 20.0) == pytest.approx(480.0 * 0.8**3 / 0.8)
    assert _power(16.0, 20.0, drive=ELECTRIC) == pytest.approx(480.0 * 0.8**3)  # a motor's loss is its own


def test_a_fan_turned_by_the_wind_takes_nothing() -> None:
    turns = _speed(CLUTCH, 5.0, ratio=0.25, U=15.0)
    assert turns > 5.0
    assert _power(turns, 5.0, U=15.0, diameter=0.457, flow_coefficient=0.52, pressure_coefficient=0.86) == 0.0


def test_missing_blades_take_and_block_less_and_none_at_all_is_no_fan() -> None:
    """Half of the blades: half the pressure, half the power, half in the way. The clutch stays what it is."""
    assert _power(strength=0.5) == pytest.approx(240.0)
    assert _pressure(0.0, 1.0, strength=0.5) == pytest.approx(0.5 * _pressure(0.0, 1.0))
    assert _power(strength=0.0) == _pressure(20.0, 1.0, strength=0.0) == _pressure(0.0, 1.0, strength=0.0) == 0.0
    few, all_of_them = (
        Fan(drive=CLUTCH, strength=share).speed(
            drive_speed=40.0, clutch_ratio=0.5, reference_speed=40.0, U=0.0, rho=1.15, left=0.9
        )
        for share in (0.3, 1.0)
    )
    assert few > 1.2 * all_of_them


def test_a_fan_of_one_stage_runs_on_between_its_temperatures_until_the_lower_one() -> None:
    """It once stopped as soon as it was below the upper one: fans cycled in 20 to 54 s where 98 s were measured."""
    fan, share, seen = Fan(**SWITCH), 0.0, list[float]()
    for T in (359.0, 363.0, 366.5, 365.0, 361.0, 360.5, 359.5, 363.0):
        share = float(fan.switched_share(T_switch=T, share=share))
        seen.append(share)
    assert seen == [0.0, 0.0, 1.0, 1.0, 1.0, 1.0, 0.0, 0.0]


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    columns = {"drive": [0.0, 1.0, 2.0], "diameter": [0.3, 0.45, 0.6], "count": [1.0, 1.0, 2.0]}

    def at_work(speed: Any, **fan: Any) -> tuple[Any, Any, Any]:
        part = Fan(**fan)
        turns = part.speed(drive_speed=speed, clutch_ratio=0.7, reference_speed=40.0, U=3.0, rho=1.1, left=0.9)
        power = part.power(speed=turns, drive_speed=speed, U=3.0, rho=1.1, left=0.9)
        return turns, part.pressure(speed=turns, flow=0.5, rho=1.1, left=0.9), power

    same_one_by_one(at_work, speed=[15.0, 30.0, 40.0], **columns)
    same_one_by_one(
        lambda T, share, drive: (
            Fan(drive=drive).drive_speed(engine_speed=30.0, share=share),
            Fan(drive=drive).mean_share(T_switch=T, air_conditioning=0.0),
            Fan(drive=drive).switched_share(T_switch=T, share=share),
        ),
        T=[350.0, 362.0, 370.0], share=[0.0, 1.0, 0.0], drive=[2.0, 2.0, 1.0],
    )  # fmt: skip
