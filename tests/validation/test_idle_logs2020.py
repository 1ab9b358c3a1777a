"""idle_logs2020: a 1.5 L petrol car idling from cold, three mornings; coolant, engine speed, fuel estimated.

The engine's speed and the fuel of the log go in, the coolant comes out; nothing is fitted to this car. It is one of the
six vehicles from which the heat of an idling engine was read off (docs/decisions/engine-heat.md).
"""

import dataclasses
from collections.abc import Callable
from typing import Any

import jax
import numpy as np
import pytest
from numpy.typing import NDArray

from toptank.equations.cold_friction import cold_friction
from toptank.knowledge.sheet import vehicle
from toptank.knowledge.typical import typical_sheet
from toptank.system.drive import onward, warm_start
from toptank.system.duty import Duty
from toptank.system.nodes import heat_capacities
from toptank.system.vehicle import Vehicle

RUNS = (1, 2, 3)
SECONDS, FIRST_ENDS = 1200, 590
"""Length of the longest log, and end of the first [s]."""

OUTSIDE = (25.2, 28.0, 28.0)
"""Intake air at the start, taken for the air outside [degC]."""


def _car(**engine: float) -> Vehicle:
    """The 1.5 L car: figures of the log where it has them, else those of the typical small saloon; light alloy."""
    small = vehicle(typical_sheet("saloon-1980s-four-air"))
    lighter = {"displacement": 1.496e-3, "aluminium": 0.6, "accessories": 300.0, "mixture": 1.0, "metal": 52e3} | engine
    return dataclasses.replace(
        small,
        engine=dataclasses.replace(small.engine, **lighter),
        fill=dataclasses.replace(small.fill, capacity=5.5e-3),
        thermostat=dataclasses.replace(small.thermostat, starts_opening=359.7),
        fan=dataclasses.replace(small.fan, switch_on=368.15, switch_off=365.15),
        transmission_cooler=dataclasses.replace(small.transmission_cooler, place=0.0),
    )


@pytest.fixture(scope="module")
def warmed_up(table: Any) -> Callable[[int, Vehicle], tuple[NDArray[np.float64], NDArray[np.float64]]]:
    """Return a maker of the coolant [degC] second by second, as logged and as ours, of one run."""
    time = np.arange(float(SECONDS))

    def course(car: Vehicle, duties: Duty, T: float) -> Any:
        first = jax.tree.map(lambda leaf: leaf[0], duties)
        start = warm_start(car, first, T_coolant=T, T_oil=T, T_core=first.ambient)
        return onward(car, duties, np.ones(SECONDS), 1.0, start)[0].T_engine_out

    compiled = jax.jit(course)

    def make(run: int, car: Vehicle) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        rows = table(f"idle_logs2020_{run}.csv")
        coolant, rpm, fuel = (
            np.interp(time, [float(row["seconds"]) for row in rows], [float(row[key]) for row in rows])
            for key in ("coolant_degC", "engine_rpm", "fuel_kW")
        )
        engine, turns = car.engine, rpm / 60.0
        # What the log burns beyond friction, that of oil some kelvin behind the coolant, goes to shaft and compressor.
        cold = cold_friction(coolant + 273.15 - 6.0, car.doubts.cold_friction)
        rubbed = 0.5 * engine.friction_pressure * engine.displacement * turns * cold
        given = np.maximum(0.97 * fuel * 1e3 * engine.indicated_efficiency - rubbed - engine.accessories, 0.0)
        asked = Duty(ambient=OUTSIDE[run - 1] + 273.15, engine_speed=turns, shaft_load=given)
        duties = jax.tree.map(lambda leaf: np.broadcast_to(np.asarray(leaf, float), (SECONDS,)), asked)
        return coolant, np.asarray(compiled(jax.tree.map(float, car), duties, coolant[0] + 273.15)) - 273.15

    return make


def _reaches(degC: float, T: NDArray[np.float64]) -> float:
    """When a temperature is first reached [s]."""
    return float(np.interp(degC, np.maximum.accumulate(T[:FIRST_ENDS]), np.arange(FIRST_ENDS)))


OUTLIER = pytest.mark.xfail(
    strict=True,
    reason="this light engine warms up quicker than the middle of all logged vehicles, by 8 K when it is left out of "
    "the calibration: not met, and told in docs/calibration.md",
)


@OUTLIER
def test_nothing_fitted_our_engine_warms_up_as_the_log(published: Any, warmed_up: Any) -> None:
    for run in RUNS:
        logged, ours = warmed_up(run, _car())
        for seconds in (100, 200, 400):
            published(
                source="idle_logs2020", where=f"run {run}, coolant {seconds} s after the start", unit="degC",
                quantity=f"coolant of a 1.5 L engine idling from cold, nothing fitted, run {run}",
                value=float(logged[seconds]), computed=float(ours[seconds]),
                # within: a band of 8 to 14 K in mid warm-up holds a vehicle left out
                within=7.0, because="fuel estimated to 10 %, mass and film of like engines differ by 20 and 9 %",
            )  # fmt: skip


@OUTLIER
def test_nothing_fitted_it_reaches_80_in_the_time_of_the_log_within_a_fifth(published: Any, warmed_up: Any) -> None:
    for run in RUNS:
        logged, ours = (_reaches(80.0, T) for T in warmed_up(run, _car()))
        published(
            source="idle_logs2020", where=f"run {run}, coolant at 80 °C", unit="s", value=logged, computed=ours,
            quantity=f"time to 80 °C of a 1.5 L engine idling from cold, nothing fitted, run {run}",
            # within: fuel estimated to 10 %, heat over mass of like engines differs by 20 %
            within=0.20 * logged, because="fuel estimated to 10 %, heat over mass of like engines differs by 20 %",
        )  # fmt: skip


@OUTLIER
def test_with_its_thermostat_open_it_idles_at_the_stamp(published: Any, warmed_up: Any) -> None:
    """It climbs on towards its fan at 95 °C, the log's from 1,000 s on, ours later: not good, and not asked here."""
    for run in RUNS[1:]:
        logged, ours = warmed_up(run, _car())
        for seconds in (800, 950):
            published(
                source="idle_logs2020", where=f"run {run}, coolant {seconds} s after the start", unit="degC",
                quantity=f"coolant of a 1.5 L engine idling with its thermostat open, run {run}",
                value=float(logged[seconds]), computed=float(ours[seconds]),
                # within: opening and range of this thermostat are typical ones
                within=4.0, because="thermostat and core are typical ones",
            )  # fmt: skip


def test_what_warms_with_the_coolant_weighs_what_the_log_asks_for() -> None:
    """The logs ask for 15 to 40 kJ/K with a share of the fuel between 0.35 and 0.7."""
    warm = heat_capacities(_car())
    assert 15e3 < warm.metal + warm.coolant < 40e3
