"""Facts of the trade, each *common practice, no source*: what a mechanic would laugh at if it came out otherwise."""

import dataclasses
from typing import Any

import numpy as np
import pytest

from toptank.knowledge.draws import draws
from toptank.knowledge.typical import typical_sheet
from toptank.media.coolant import boiling_temperature
from toptank.system.duty import Duty
from toptank.system.population import solve
from toptank.system.vehicle import Vehicle

MPH, PSI, N = 0.44704, 6894.757, 1000


def _kelvin(degrees_F: float) -> float:
    return (degrees_F + 459.67) / 1.8


def _fahrenheit(kelvin: Any) -> Any:
    return np.asarray(kelvin) * 1.8 - 459.67


def _with(vehicle: Vehicle, part: str, **values: float) -> Vehicle:
    changed = {name: np.full(N, value) for name, value in values.items()}
    return dataclasses.replace(vehicle, **{part: dataclasses.replace(getattr(vehicle, part), **changed)})


# The grade of a "long climb" is nowhere told; 4 % at 45 mph is our choice.
CLIMB = Duty(ambient=_kelvin(90), speed=45 * MPH, grade=0.04, air_conditioning=1.0)
FLAT = Duty(ambient=_kelvin(85), speed=55 * MPH)
IDLE = Duty(ambient=_kelvin(90), air_conditioning=1.0)


@pytest.fixture(scope="module")
def pickup() -> Vehicle:
    """A 1970s half-ton pickup, small V8, air conditioning, two-row core with 0.2 mm of scale."""
    return _with(draws(typical_sheet("pickup-1970s-v8-air"), N, 7), "core", scale_thickness=0.2e-3)


def test_the_old_pickup_climbs_at_210_to_215(pickup: Vehicle) -> None:
    """Common practice, no source: two-row core with scale, 90 °F, air conditioning, long climb: 210 to 215 °F."""
    low, high = np.percentile(_fahrenheit(solve(pickup, CLIMB).T_gauge), (10, 90))
    assert low <= 210.0
    assert high >= 215.0


def test_on_the_flat_it_sits_at_190_to_200(pickup: Vehicle) -> None:
    """Common practice, no source: 195 to 205 °F on a flat road at 90 °F with a scaled two-row core.

    Here 85 °F and no air conditioning, which take 5 °F off: 188 to 202 °F.
    """
    assert 188.0 <= np.median(_fahrenheit(solve(pickup, FLAT).T_gauge)) <= 202.0


def test_a_clean_dense_three_row_core_brings_it_down_by_10_to_25(pickup: Vehicle) -> None:
    """Common practice, no source: three clean rows with more fins take 10 to 25 °F off the climb."""
    better = _with(pickup, "core", scale_thickness=0.0, rows=3.0, fin_density=14 / 0.0254, blocked_face=0.0)
    drop = np.median(solve(pickup, CLIMB).T_gauge - solve(better, CLIMB).T_gauge) * 1.8
    assert 10.0 <= drop <= 25.0


def test_warm_coolant_is_ambient_and_a_hundred_degrees(pickup: Vehicle) -> None:
    """Common practice, no source: warmed-up coolant of an old V8 on the flat is about ambient + 100 °F."""
    assert abs(np.median(_fahrenheit(solve(pickup, FLAT).T_gauge)) - 185.0) < 15.0


def test_a_slipping_clutch_hurts_at_idle_more_than_on_the_road(pickup: Vehicle) -> None:
    """Common practice, no source: a slipping clutch shows at idle first."""
    slipping = _with(pickup, "fan_clutch", engaged_ratio=0.3)
    at_idle = np.median(solve(slipping, IDLE).T_gauge - solve(pickup, IDLE).T_gauge)
    on_the_road = np.median(solve(slipping, FLAT).T_gauge - solve(pickup, FLAT).T_gauge)
    assert at_idle > on_the_road + 3.0


def test_a_missing_shroud_hurts_at_idle_more_than_on_the_road(pickup: Vehicle) -> None:
    """Common practice, no source: without a shroud it runs hot at idle and not at speed."""
    bare = _with(pickup, "shroud", present=0.0)
    at_idle = np.median(solve(bare, IDLE).T_gauge - solve(pickup, IDLE).T_gauge)
    on_the_road = np.median(solve(bare, FLAT).T_gauge - solve(pickup, FLAT).T_gauge)
    assert at_idle > on_the_road + 3.0


def test_less_flow_means_more_drop_over_the_core(pickup: Vehicle) -> None:
    """Common practice, no source: a large drop from top to bottom under load means little flow."""
    healthy, starved = solve(pickup, CLIMB), solve(_with(pickup, "water_pump", wear=0.75), CLIMB)
    drops = [np.median(balance.T_top_tank - balance.T_bottom_hose) for balance in (healthy, starved)]
    assert drops[1] > 1.2 * drops[0]


def test_a_15_psi_cap_with_50_50_boils_at_about_265() -> None:
    """Common practice, no source: 15 psi and 50/50 boil at about 265 °F."""
    assert abs(_fahrenheit(boiling_temperature(101325.0 + 15 * PSI, 0.5, 0.0)) - 265.0) < 4.0


@pytest.mark.parametrize("mix", [0.0, 0.5])
def test_a_pound_of_cap_is_worth_two_to_three_degrees_and_not_twenty(mix: float) -> None:
    """A saying that is wrong: "each pound of cap is worth 20 degrees". It is 1.7 to 3.3 °F from 0 to 22 psi."""
    caps = (0, 4, 7, 13, 16, 22)
    points = [float(_fahrenheit(boiling_temperature(101325.0 + cap * PSI, mix, 0.0))) for cap in caps]
    gains = np.diff(points) / np.diff(caps)
    assert np.all(gains > 1.7)
    assert np.all(gains < 3.3)
    assert np.all(np.diff(gains) < 0.0)


@pytest.mark.parametrize("name", ["saloon-1980s-four-air", "van-1980s-rear-four", "wagon-1990s-v6-air"])
def test_an_electric_fan_takes_125_to_350_watts(name: str) -> None:
    """From memory, no source: 10 to 25 A each, 125 to 350 W; motors turn seven tenths of it into work (judgement)."""
    vehicles = draws(typical_sheet(name), N, 7)
    hot = dataclasses.replace(IDLE, ambient=_kelvin(100))
    running = _with(vehicles, "fan", switch_on=325.0, switch_off=320.0)
    balance = solve(running, hot)
    each = np.median(balance.fan_power / vehicles.fan.count) / 0.7
    assert 125.0 <= each <= 350.0
