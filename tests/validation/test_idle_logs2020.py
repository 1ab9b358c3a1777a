"""idle_logs2020: a 1.5 L petrol car idling from cold, three mornings; coolant, engine speed, fuel estimated.

The engine's speed and the fuel of the log go in, the coolant comes out. Thermostat shut, small core, light engine.

What an idling engine gives its coolant, by the balance of its heat: 1.8 g/s of exhaust, 300 to 400 K above the air
(from memory), carry off 0.6 to 0.8 of 5 kW, alternator and pumps take a tenth, little is left unburnt. Two thirds stay
in the engine; our 40 % (from memory) are too few, cold or hot. See docs/decisions/idle-heat.md.
"""

import dataclasses
from collections.abc import Callable
from typing import Any

import jax
import numpy as np
import pytest
from numpy.typing import NDArray

from toptank.knowledge.sheet import vehicle
from toptank.knowledge.typical import typical_sheet
from toptank.system.drive import cold_start, onward
from toptank.system.duty import Duty
from toptank.system.nodes import heat_capacities
from toptank.system.vehicle import Vehicle

RUNS = (1, 2, 3)
SECONDS, FIRST_ENDS = 1200, 590
"""Length of the longest log, and end of the first [s]."""

IDLING = {"coolant_share_idle": 0.65, "coolant_share_full": 0.65}
"""A third to the exhaust, no work given but to the accessories."""
OUTSIDE = (25.2, 28.0, 28.0)
"""Intake air at the start, taken for the air outside [degC]."""


def _car(**engine: float) -> Vehicle:
    """The 1.5 L car: figures of the log where it has them, else those of the typical small saloon; light alloy."""
    small = vehicle(typical_sheet("saloon-1980s-four-air"))
    lighter = {"displacement": 1.496e-3, "aluminium": 0.6, "accessories": 0.0} | engine
    return dataclasses.replace(
        small,
        engine=dataclasses.replace(small.engine, **lighter),
        fill=dataclasses.replace(small.fill, capacity=5.5e-3),
        thermostat=dataclasses.replace(small.thermostat, starts_opening=357.2, smallest_opening=0.0),
        transmission_cooler=dataclasses.replace(small.transmission_cooler, place=0.0),
    )


@pytest.fixture(scope="module")
def warmed_up(table: Any) -> Callable[[int, Vehicle], tuple[NDArray[np.float64], NDArray[np.float64]]]:
    """Return a maker of the coolant [degC] second by second, as logged and as ours, of one run."""
    time = np.arange(float(SECONDS))

    def course(car: Vehicle, duties: Duty) -> Any:
        first = jax.tree.map(lambda leaf: leaf[0], duties)
        return onward(car, duties, np.ones(SECONDS), 1.0, cold_start(car, first))[0].T_engine_out

    compiled = jax.jit(course)

    def make(run: int, car: Vehicle) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        rows = table(f"idle_logs2020_{run}.csv")
        coolant, rpm, fuel = (
            np.interp(time, [float(row["seconds"]) for row in rows], [float(row[key]) for row in rows])
            for key in ("coolant_degC", "engine_rpm", "fuel_kW")
        )
        engine, turns = car.engine, rpm / 60.0
        rubbed = 0.5 * engine.friction_pressure * engine.displacement * turns
        given = np.maximum(fuel * 1e3 * engine.indicated_efficiency - rubbed, 0.0)
        asked = Duty(ambient=OUTSIDE[run - 1] + 273.15, engine_speed=turns, shaft_load=given)
        duties = jax.tree.map(lambda leaf: np.broadcast_to(np.asarray(leaf, float), (SECONDS,)), asked)
        return coolant, np.asarray(compiled(jax.tree.map(float, car), duties)) - 273.15

    return make


def _reaches(degC: float, T: NDArray[np.float64]) -> float:
    """When a temperature is first reached [s]."""
    return float(np.interp(degC, np.maximum.accumulate(T[:FIRST_ENDS]), np.arange(FIRST_ENDS)))


def test_nothing_fitted_our_engine_warms_up_too_slowly(published: Any, warmed_up: Any) -> None:
    """Far off, and said so: 35 to 40 % of the fuel's heat are too little for an engine that idles."""
    for run in RUNS:
        logged, ours = warmed_up(run, _car())
        for seconds in (100, 200, 400):
            published(
                source="idle_logs2020", where=f"run {run}, coolant {seconds} s after the start", unit="degC",
                quantity=f"coolant of a 1.5 L engine idling from cold, nothing fitted, run {run}",
                value=float(logged[seconds]), computed=float(ours[seconds]),
                # within: what it is off by; see the docstring
                within=33.0, because="not good: our typical share of the fuel's heat, 40 %, is too low at idle",
            )  # fmt: skip


def test_with_the_heat_that_the_exhaust_leaves_it_is_half_as_far_off(published: Any, warmed_up: Any) -> None:
    """Nothing fitted but that share, which the balance of heat gives; the rest is too much iron that warms along."""
    for run in RUNS:
        logged, ours = warmed_up(run, _car(**IDLING))
        for seconds in (100, 200, 400):
            published(
                source="idle_logs2020", where=f"run {run}, coolant {seconds} s after the start", unit="degC",
                quantity=f"coolant of a 1.5 L engine idling from cold, 65 % of the fuel's heat, run {run}",
                value=float(logged[seconds]), computed=float(ours[seconds]),
                # within: the lower block takes up heat sooner than that of a light engine does
                within=17.0, because="lower block and oil of our engine take up heat too soon",
            )  # fmt: skip


def test_one_mass_fitted_to_the_first_morning_tells_the_other_two(published: Any, warmed_up: Any) -> None:
    """65 % of the fuel's heat (no brake output, a third to the exhaust), the mass fitted to 80 °C of the first run."""

    def reaches(run: int, metal: float) -> tuple[float, float, Vehicle]:
        car = _car(coolant_share_idle=0.65, coolant_share_full=0.5, metal=metal)
        logged, ours = (_reaches(80.0, T) for T in warmed_up(run, car))
        return logged, ours, car

    light, heavy = 5e3, 45e3
    for _ in range(8):
        metal = 0.5 * (light + heavy)
        logged, ours, _ = reaches(1, metal)
        light, heavy = (metal, heavy) if ours < logged else (light, metal)
    for run in (2, 3):
        logged, ours, car = reaches(run, light)
        published(
            source="idle_logs2020", where=f"run {run}, coolant at 80 °C", unit="s", value=logged, computed=ours,
            quantity=f"time to 80 °C of a 1.5 L engine idling from cold, mass fitted to run 1, run {run}",
            # within: the fuel is estimated to 10 %, the thermometer reads whole degrees
            within=0.15 * logged, because="fuel estimated to 10 %, thermometer in whole degrees",
        )  # fmt: skip
        # Later on the thermostat fills the core; at the end, the fan not yet on, the coolant climbs again.
        later_logged, later_ours = warmed_up(run, car)
        for seconds in (720, 900, 1070):
            published(
                source="idle_logs2020", where=f"run {run}, coolant {seconds} s after the start", unit="degC",
                quantity=f"coolant of a 1.5 L engine idling with its thermostat open, mass fitted to run 1, run {run}",
                value=float(later_logged[seconds]), computed=float(later_ours[seconds]),
                # within: when the core has filled hangs on a thermostat and a core that nobody measured
                within=9.0, because="thermostat, core and what stands in them are typical ones",
            )  # fmt: skip
    # What warms with the coolant: heads, part of the block and the coolant; the log asks for 15 to 40 kJ/K.
    warm = heat_capacities(car)
    assert 15e3 < warm.metal + warm.coolant < 40e3
