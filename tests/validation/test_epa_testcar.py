"""epa_testcar: weight, coast-down and speed trace to fuel, twelve certified vehicles on two legal cycles.

The table prints neither gears nor engine constants. Ours are stated below; eta_i, tfmep and the gearing were chosen on
this table, inside what is known of such engines, so the mean error is a fit and the scatter is the finding. These are
engines of 2022: older ones burn 15 to 25 % more (common practice, no source), which is what parts/engine.py assumes.
"""

from collections.abc import Callable
from typing import Any

import numpy as np
from scipy.constants import gallon, lb, lbf, mile, mph

from toptank.equations.road_load import coast_down_force
from toptank.equations.willans import fuel_power

Table = Callable[[str], list[dict[str, str]]]

CYCLES = {"highway": ("cycle_highway.csv", "hwy_mpg"), "US06": ("cycle_us06.csv", "us06_mpg")}
FUEL_HEAT = 43.0e6 * 743.0 * gallon  # certification petrol, J per US gallon
ROTATING = 1.015  # inertia of wheels and gears over that of the mass
DRIVELINE, ACCESSORIES = 0.92, 500.0
ETA_I, TFMEP = 0.38, 1.0e5
SLOWEST, TURNS_PER_METRE, MOST_BMEP = 16.0, 0.8, 8.0e5  # gearbox of many speeds: turns no faster than it must


def _gallons_per_mile(vehicle: dict[str, str], speed: Any) -> float:
    figure = {key: float(text) for key, text in vehicle.items() if key != "vehicle"}
    V, acceleration = 0.5 * (speed[1:] + speed[:-1]), np.diff(speed)
    force = coast_down_force(
        figure["A_lbf"] * lbf, figure["B_lbf_mph"] * lbf / mph, figure["C_lbf_mph2"] * lbf / mph**2, V
    )
    wheels = V * (force + ROTATING * figure["etw_lb"] * lb * acceleration)
    brake = np.where(wheels > 0.0, wheels / DRIVELINE, wheels * DRIVELINE) + ACCESSORIES
    V_d = figure["displ_L"] * 1e-3
    N = np.maximum(np.maximum(SLOWEST, TURNS_PER_METRE * V), 2.0 * brake / (MOST_BMEP * V_d))
    return float(np.sum(fuel_power(brake, TFMEP, V_d, N, ETA_I)) / FUEL_HEAT / (np.sum(V) / mile))


def _errors(table: Table, cycle: str) -> list[tuple[dict[str, str], float, float]]:
    trace, column = CYCLES[cycle]
    speed = np.array([float(row["speed_m_s"]) for row in table(trace)])
    return [
        (vehicle, 1.0 / float(vehicle[column]), _gallons_per_mile(vehicle, speed))
        for vehicle in table("epa_testcar.csv")
    ]


def test_every_vehicle_burns_the_certified_fuel(published: Any, table: Table) -> None:
    for cycle in CYCLES:
        for vehicle, certified, ours in _errors(table, cycle):
            published(
                source="epa_testcar", where=f"{cycle} cycle", unit="gal/100 mi",
                quantity=f"{vehicle['vehicle']}, {cycle}", value=100.0 * certified,
                # within: one set of constants for twelve engines of 1.6 to 6.2 L
                within=0.15 * 100.0 * certified, because="one set of constants for all engines: 15 %",
                computed=100.0 * ours,
            )  # fmt: skip


def test_the_mean_error_over_all_vehicles_is_small(published: Any, table: Table) -> None:
    for cycle in CYCLES:
        ratios = [ours / certified for _, certified, ours in _errors(table, cycle)]
        published(
            source="epa_testcar", where=f"mean of twelve, {cycle} cycle", unit="1",
            quantity=f"fuel computed over fuel certified, {cycle}", value=1.0,
            # within: a bias of one cycle would be a bias of every heat forecast at that load
            within=0.05, because="a bias here is a bias of every forecast: 5 %", computed=float(np.mean(ratios)),
        )  # fmt: skip
