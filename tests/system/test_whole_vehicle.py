"""The whole vehicle beside what others saw of whole vehicles; where only sign and size can be compared, it says so."""

import dataclasses
from typing import Any

import numpy as np
import pytest

from toptank.knowledge.draws import draws
from toptank.knowledge.sheet import overlay
from toptank.knowledge.typical import typical_sheet
from toptank.shop.ask.core_bench import rate
from toptank.system.balance import Status
from toptank.system.duty import Duty
from toptank.system.population import solve
from toptank.system.vehicle import Vehicle

MPH, FPI, GPM, N = 0.44704, 1.0 / 0.0254, 6.309e-5, 1000

DENTED = 2.0
"""Kind of the fins that nearly all cores before the 1950s have."""


def _with(vehicle: Vehicle, part: str, **values: float) -> Vehicle:
    changed = {name: np.full(N, value) for name, value in values.items()}
    return dataclasses.replace(vehicle, **{part: dataclasses.replace(getattr(vehicle, part), **changed)})


@pytest.mark.parametrize("name", ["pickup-1970s-v8-air", "wagon-1990s-v6-air", "pickup-1990s-diesel-air"])
def test_a_healthy_vehicle_holds_40_mph_on_the_grade_of_the_towing_trial(name: str) -> None:
    """SAE J2807: 5.8 % in the mean, 100 °F, air conditioning on, at least 40 mph; here without a trailer.

    Spread over what is typical of the era, the median draw must neither boil nor want for power.
    """
    climb = Duty(ambient=(100 + 459.67) / 1.8, speed=40 * MPH, grade=0.058, altitude=300.0, air_conditioning=1.0)
    balance = solve(draws(typical_sheet(name), N, 7), climb)
    assert np.median(balance.margin_to_boiling()) > 5.0
    assert np.mean(balance.power_short > 0.0) < 0.05
    assert np.mean(balance.status >= Status.BOILS) < 0.25


def _heat_per_kelvin(vehicle: Vehicle, speed: float) -> Any:
    balance = solve(vehicle, Duty(ambient=300.0, speed=speed, grade=0.05))
    return balance.core_heat / (balance.T_top_tank - 300.0)


@pytest.mark.parametrize("name", ["pickup-1970s-v8-air", "saloon-1950s-six", "truck-1970s-six"])
def test_ten_fins_for_eight_give_a_tenth_more_heat_on_the_road(name: str) -> None:
    """car_reports1936: 8 to 10 fins an inch gave 10 % more heat on the road; within 5 points, cores differ.

    Its cars had dented fins: louvers, which start the boundary layer afresh whatever their number, give less.
    """
    wide_open = _with(draws(typical_sheet(name), N, 7), "thermostat", smallest_opening=1.0)
    before, after = (
        _heat_per_kelvin(_with(wide_open, "core", fin_kind=DENTED, fin_density=fins * FPI), 30 * MPH)
        for fins in (8.0, 10.0)
    )
    assert 100.0 * (np.median(after / before) - 1.0) == pytest.approx(10.0, abs=5.0)


def test_two_thin_cores_beat_one_thick_one() -> None:
    """car_reports1936: two cores of 2 1/8 in, 1/2 in apart, gave 10 to 12 % more than one of 3.3 in.

    Ours gives some 6 %: it lets the louvers of the second core start afresh no more than those of one deep core.
    """
    wide_open = _with(draws(typical_sheet("pickup-1970s-v8-air"), N, 7), "thermostat", smallest_opening=1.0)
    wide_open = _with(wide_open, "core", fin_density=8.0 * FPI)
    split = _heat_per_kelvin(_with(wide_open, "core", rows=2.0, tube_width=0.054, row_pitch=0.0667), 30 * MPH)
    thick = _heat_per_kelvin(_with(wide_open, "core", rows=1.0, tube_width=0.0838), 30 * MPH)
    assert 1.02 < np.median(split / thick) < 1.15


def test_a_shroud_gives_more_air_standing_still() -> None:
    """car_reports1936: a cowl gave about a third more air standing still. Sign only: ours gives far more, see below.

    With the bare blades 1/2 in from the core ours gives 1.7 times the air, 2 in away 2.4 times, 4 in away 4 times.
    """
    bolted = _with(draws(typical_sheet("pickup-1970s-v8-air"), N, 7), "fan", drive=1.0)
    standing = Duty(ambient=300.0)
    bare = solve(_with(bolted, "shroud", present=0.0, fan_to_core=0.012), standing).air_capacity_rate
    assert np.median(solve(bolted, standing).air_capacity_rate / bare) > 1.2


def _bench(gpm: float, **facts: float) -> float:
    """Heat of a clean three-row core, smooth tubes, 4 m/s of air."""
    sheet = typical_sheet("pickup-1970s-v8-air")
    given = {"rows": 3.0, "scale_thickness": 0.0, "scale_conductivity": 1.0, "blocked_face": 0.0} | facts
    paths = {f"core.{key}": value for key, value in given.items()} | {"doubts.tube_enhancement": 1.0}
    changed = {path: dataclasses.replace(sheet.facts[path], value=value) for path, value in paths.items()}
    return rate(overlay(sheet, changed), flow=gpm * GPM, T_coolant_in=374.8, T_air_in=305.4, V_face=4.0).heat


@pytest.mark.parametrize(
    ("gpm", "millimetres", "percent"),
    [(30, 0.1, -2.5), (30, 0.2, -4.9), (30, 0.3, -7.2), (30, 0.5, -11.5), (60, 0.2, -6.0), (60, 0.5, -14.0)],
)
def test_scale_costs_what_our_trial_model_said(gpm: float, millimetres: float, percent: float) -> None:
    """Our own trial computation, for comparison: scale of 1 W/(m K) on a slightly other core; within a point."""
    lost = 100.0 * (_bench(gpm, scale_thickness=millimetres * 1e-3) / _bench(gpm) - 1.0)
    assert lost == pytest.approx(percent, abs=1.0)


@pytest.mark.parametrize(("gpm", "percent"), [(10, 4.2), (20, 6.8), (30, 25.5), (40, 24.5), (60, 7.0), (80, 4.5)])
def test_two_passes_gain_what_our_trial_model_said(gpm: float, percent: float) -> None:
    """Our own trial computation, for comparison: a large gain only where the tubes leave laminar flow."""
    gained = 100.0 * (_bench(gpm, passes=2.0) / _bench(gpm) - 1.0)
    assert gained == pytest.approx(percent, abs=5.0)
