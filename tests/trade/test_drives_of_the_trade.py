"""What people told with a time to it, each *common practice, no source*, asked of typical vehicles in time."""

import dataclasses
from typing import Any

import numpy as np
import pytest

from toptank.knowledge.draws import draws
from toptank.knowledge.typical import typical_sheet
from toptank.system.drive_batch import BUCKETS, Drives, drive_all
from toptank.system.duty import Duty
from toptank.system.population import solve
from toptank.system.profile import Profile
from toptank.system.vehicle import Vehicle

MPH, MILE, N = 0.44704, 1609.344, BUCKETS[1]


def _kelvin(degrees_F: float) -> float:
    return (degrees_F + 459.67) / 1.8


def _fahrenheit(kelvin: Any) -> Any:
    return np.asarray(kelvin) * 1.8 - 459.67


def _typical(name: str, **changes: dict[str, float]) -> Vehicle:
    vehicles = draws(typical_sheet(name), N, 7)
    parts = {part: dataclasses.replace(getattr(vehicles, part), **values) for part, values in changes.items()}
    return dataclasses.replace(vehicles, **parts)


def _drive(vehicles: Vehicle, *legs: tuple[float, float, float, float], before: Duty | None, **duty: float) -> Drives:
    """Legs of seconds, miles an hour, grade and whether the engine runs."""
    seconds = [int(leg[0]) for leg in legs]
    speed, grade, running = (np.repeat([leg[i] for leg in legs], seconds) for i in (1, 2, 3))
    profile = Profile.of(
        time=np.arange(float(sum(seconds))), running=running, duty=Duty(speed=speed * MPH, grade=grade, **duty)
    )
    return drive_all(vehicles, profile, before=before)


def test_a_minute_at_a_light_raises_the_needle_where_the_fan_is_weak() -> None:
    """Told of a pickup with small electric fans and a thermostat stuck open: + 20 °F in a minute at a light.

    Ours gives a third of that: the sign is asked for, and 6 °F of the coolant at the least in the middle, falling again
    once under way, and far less with the fan it was cured with. Coolant, core and heated metal take up 75 kJ/K, so that
    the told figure asks for 14 kW beyond what is given off; the engine burns 14 kW at idle, of which two thirds stay.
    """
    stuck = {"smallest_opening": 1.0}
    weak = {"drive": 2.0, "diameter": 0.3, "motor_speed": 30.0, "switch_on": 345.0, "switch_off": 340.0}
    road, way = Duty(ambient=_kelvin(80), speed=60 * MPH), ((300, 60, 0, 1), (60, 0, 0, 1), (240, 45, 0, 1))
    rises: list[float] = []
    for fan in (weak, {"drive": 1.0, "diameter": 0.43}):
        shroud = {"present": 0.0 if fan is weak else 1.0}
        vehicles = _typical("truck-1970s-six", thermostat=stuck, fan=fan, shroud=shroud)
        gauge = _fahrenheit(_drive(vehicles, *way, before=road, ambient=_kelvin(80)).engine_out)
        rises.append(float(np.median(gauge[:, 359] - gauge[:, 299])))
        if fan is weak:
            assert np.median(gauge[:, 359] - gauge[:, -1]) > 5.0
    assert rises[0] > 6.0
    assert rises[1] < rises[0] - 3.0


def test_standing_without_a_shroud_the_needle_takes_some_ten_minutes_to_212() -> None:
    """Told of a four-cylinder sports car: 170 to 180 °F on the move, 212 °F after about ten minutes of standing.

    Of roadsters without a shroud that run cool on the move and would in the end stand above 213 °F: nobody is there
    within a minute, and half of them within 5 to 15 minutes.
    """
    vehicles = _typical("roadster-1960s-four", shroud={"present": 0.0})
    hot, road = {"ambient": _kelvin(95)}, Duty(ambient=_kelvin(95), speed=50 * MPH)
    ends = _fahrenheit(solve(vehicles, Duty(**hot)).T_gauge)
    gauge = _fahrenheit(_drive(vehicles, (1800, 0, 0, 1), before=road, **hot).gauge)
    told = (gauge[:, 0] < 195.0) & (ends > 213.0)
    assert np.sum(told) >= 10, "too few such vehicles to tell"
    there = np.argmax(gauge[told] >= 212.0, axis=1) / 60.0
    reached = np.any(gauge[told] >= 212.0, axis=1)
    assert np.mean(reached) >= 0.7
    assert np.min(there[reached]) > 1.0
    assert 5.0 < np.median(there[reached]) < 15.0


def test_a_clutch_that_snaps_in_late_makes_the_needle_swing() -> None:
    """Told: with a late on/off clutch the needle climbs, falls and climbs again on a steady hill."""
    late = {"engages": _kelvin(195), "engaging_range": 1.0, "lag": 60.0, "engaged_ratio": 0.9, "released_ratio": 0.2}
    swings: list[Any] = []
    for snaps in (1.0, 0.0):
        clutch = late | {"snaps": snaps, "hysteresis": 6.0}
        vehicles = _typical("pickup-1970s-v8-air", fan_clutch=clutch)
        road = Duty(ambient=_kelvin(90), speed=50 * MPH)
        gauge = _fahrenheit(_drive(vehicles, (3600, 40, 0.05, 1), before=road, ambient=_kelvin(90)).gauge)
        late_on = gauge[:, 1800:]
        middle = 0.5 * (late_on.max(axis=1) + late_on.min(axis=1))[:, None]
        turns = np.sum(np.diff(late_on > middle, axis=1), axis=1)
        swings.append((late_on.max(axis=1) - late_on.min(axis=1) > 8.0) & (turns >= 4))
    assert np.mean(swings[0]) > 0.1
    assert np.mean(swings[1]) == 0.0


@pytest.mark.parametrize("name", ["coupe-1980s-v8-air", "compact-1960s-six", "roadster-1960s-four"])
def test_a_hot_needle_within_a_quarter_mile_is_no_engine(name: str) -> None:
    """Told of a V8 car: gauge near the top within a quarter mile, and a second thermometer found 200 °F at the most.

    From cold, uphill and hard: no vehicle comes anywhere near in a quarter mile, nor in a whole one.
    """
    gauge = _fahrenheit(_drive(_typical(name), (160, 25, 0.06, 1), before=None, ambient=_kelvin(70)).gauge)
    quarter, mile = int(0.25 * MILE / (25 * MPH)), int(MILE / (25 * MPH))
    assert np.max(gauge[:, quarter]) < 150.0
    assert np.median(gauge[:, mile]) < 180.0
    assert np.all(gauge[:, mile] > gauge[:, 0] + 10.0)


def test_shut_down_hot_the_gauge_rises_by_ten_to_twenty_degrees() -> None:
    """From memory, no source: 10 to 20 °F after shut-down from a climb is normal; within minutes, then it cools."""
    road = Duty(ambient=_kelvin(90), speed=50 * MPH)
    way = ((900, 45, 0.05, 1), (1500, 0, 0, 0))
    drives = _drive(_typical("pickup-1970s-v8-air"), *way, before=road, ambient=_kelvin(90))
    gauge = _fahrenheit(drives.gauge)[~drives.boiled()]
    assert len(gauge) > 0.8 * N
    spike = gauge[:, 900:].max(axis=1) - gauge[:, 899]
    low, high = np.percentile(spike, (10, 90))
    assert low < 20.0
    assert high > 10.0
    assert 5.0 < np.median(spike) < 25.0
    assert np.median(gauge[:, 900:].argmax(axis=1)) < 300.0
    assert np.all(gauge[:, -1] < gauge[:, 900:].max(axis=1))


def test_under_way_again_it_falls_within_a_mile() -> None:
    """Told of a van whose clutch slipped: 225 to 230 °F at lights, under 210 °F within a mile of moving."""
    vehicles = _typical("pickup-1970s-v8-air", fan_clutch={"engaged_ratio": 0.35})
    hot = Duty(ambient=_kelvin(90), air_conditioning=1.0)
    way = ((120, 40, 0, 1),)
    gauge = _fahrenheit(_drive(vehicles, *way, before=hot, ambient=_kelvin(90), air_conditioning=1.0).gauge)
    stood_hot = gauge[:, 0] > 215.0
    assert np.sum(stood_hot) >= 10, "too few such vehicles to tell"
    fallen = gauge[stood_hot, 0] - gauge[stood_hot, int(MILE / (40 * MPH))]
    assert np.median(fallen) > 8.0
