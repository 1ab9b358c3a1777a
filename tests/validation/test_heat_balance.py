"""joel1996, gupta2013, engine_trials: heat balances of engines on the bench, the share that the coolant took.

Fuel, speed and water are the sheet's; the engine is that of the typical vehicle named beside it, as the package ships
it (calibrated), with the sheet's swept volume. Brake power is not asked: what an engine burns was weighed.
"""

import dataclasses
from collections.abc import Callable
from typing import Any

import pytest

from toptank.knowledge.sheet import vehicle
from toptank.knowledge.typical import typical

Table = Callable[[str], list[dict[str, str]]]

WITHIN, MEAN = 5.0, 4.0
"""Points of the fuel within which one sheet, and the mean of all, is to lie (case A08; issue of the calibration)."""

TOO_LITTLE = pytest.mark.xfail(
    strict=True, reason="too little heat under load with the constants that ship, docs/decisions/heat-balances.md"
)
SHEETS = {
    "T1": "joel1996", "T2": "joel1996", "T5": "gupta2013",
    "T6": "engine_trials", "T7": "engine_trials", "T8": "engine_trials",
}  # fmt: skip
OUTSIDE = ("T1", "T2", "T5", "T6", "T7")


def _share(row: dict[str, str]) -> float:
    """Share of the fuel's heat that film and friction give to coolant and oil, of the middle vehicle [%]."""
    middle = vehicle(typical(row["like"]).sheet)
    engine = dataclasses.replace(
        middle.engine, displacement=1e-3 * float(row["volume_L"]), cylinders=float(row["cylinders"]), late_ignition=0.0
    )
    fuel, turns = 1e3 * float(row["fuel_kW"]), float(row["rev_per_min"]) / 60.0
    rubbed = 0.5 * engine.friction_pressure * engine.displacement * turns
    burnt = engine.burnt(
        power=engine.indicated_efficiency * fuel - rubbed, speed=turns, rho=1.2,
        film_power=middle.doubts.film_power, friction_share=middle.doubts.friction_share,
    )  # fmt: skip
    assert burnt.fuel == pytest.approx(fuel, rel=0.01)
    return float(100.0 * middle.doubts.coolant_heat * (burnt.film + burnt.friction) / burnt.fuel)


def _measured(row: dict[str, str]) -> float:
    return 100.0 * float(row["coolant_kW"]) / float(row["fuel_kW"])


@pytest.mark.parametrize(
    "trial", [pytest.param(trial, marks=TOO_LITTLE if trial in OUTSIDE else ()) for trial in SHEETS]
)
def test_the_coolant_takes_the_share_of_the_trial_sheet(published: Any, table: Table, trial: str) -> None:
    row = next(row for row in table("heat_balance.csv") if row["trial"] == trial)
    per_litre = float(row["fuel_kW"]) / float(row["volume_L"])
    published(
        source=SHEETS[trial], where=f"trial {trial}, {row['volume_L']} L by {row['volume_from']}", unit="%",
        quantity=f"coolant's share of the fuel, {per_litre:.0f} kW of fuel a litre, {row['rev_per_min']} rpm",
        # within: like engines differ by 9 % of their heat (logged vehicles), 3 points; the sheets by as much again
        value=_measured(row), within=WITHIN, computed=_share(row),
        because="shares of like engines differ by 3 points, illustrative sheets by more",
    )  # fmt: skip


@TOO_LITTLE
def test_the_mean_error_of_all_sheets_is_small_and_one_in_five_at_most_is_beyond_its_band(table: Table) -> None:
    errors = [_share(row) - _measured(row) for row in table("heat_balance.csv")]
    assert abs(sum(errors) / len(errors)) < MEAN
    assert sum(abs(error) > WITHIN for error in errors) <= len(errors) / 5.0


def test_swept_volumes_of_the_sheets_are_those_of_the_calibration_and_hold_the_air_that_was_drawn(table: Table) -> None:
    """Air at 1.2 kg/m3 and a filling of 0.85; oil engines are never throttled, T1's 44 g/s fill 1.7 L at the least."""
    volumes = {row["trial"]: float(row["volume_L"]) for row in table("heat_balance.csv")}
    drawn = {"T1": (14.0 * 3.146, 3000.0), "T2": (182e3 / 1800.0, 1750.0), "T8": (3.8e3 / 60.0, 1900.0)}  # [g/s, rpm]
    per_turn = {trial: air / (1.2 * 0.85 * rpm / 120.0) for trial, (air, rpm) in drawn.items()}
    assert volumes["T2"] == pytest.approx(per_turn["T2"], rel=0.05)
    assert volumes["T8"] == pytest.approx(per_turn["T8"], rel=0.05)
    assert volumes["T1"] > per_turn["T1"]
    assert volumes["T6"] == pytest.approx(4 * 0.7854 * 0.85**2 * 0.95, rel=1e-3)
    assert volumes["T7"] == pytest.approx(6 * 0.7854 * 0.75**2 * 0.90, rel=1e-3)
