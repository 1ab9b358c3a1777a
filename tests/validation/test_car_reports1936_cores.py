"""car_reports1936: cores exchanged in one car, fins and rows, and a cowl on the road (experimental reports to 1940).

The cars and cores of the reports are not described. What they say of a change is asked of typical vehicles, at the mean
of the trials' 30, 45 and 60 mph, thermostat open. The fins of the day were dented: a boundary layer that starts afresh
from dent to dent (`equations/plate.py`). Plain fins would gain 19 to 22 % from ten for eight, louvered ones 3 to 8 %.
"""

import dataclasses
from collections.abc import Callable
from typing import Any

import numpy as np
from scipy.constants import inch, mph

from toptank.knowledge.sheet import vehicle
from toptank.knowledge.typical import typical_sheet
from toptank.system.duty import Duty
from toptank.system.population import solve
from toptank.system.vehicle import Vehicle

AMBIENT = 300.0
TRIALS = np.array([30.0, 45.0, 60.0]) * mph
VEHICLES = ("open-car-1930s-four", "saloon-1950s-six", "pickup-1970s-v8-air", "truck-1970s-six")
DENTED, BOLTED = 2.0, 1.0


def _with(whole: Vehicle, part: str, **values: float) -> Vehicle:
    return dataclasses.replace(whole, **{part: dataclasses.replace(getattr(whole, part), **values)})


def _wide_open(name: str) -> Vehicle:
    return _with(vehicle(typical_sheet(name)), "thermostat", smallest_opening=1.0)


def _heat_per_kelvin(whole: Vehicle) -> Any:
    """Heat of the core over the mean of top and bottom less ambient [W/K], as the reports reckon it, at each speed."""
    balance = solve(whole, Duty(ambient=AMBIENT, speed=TRIALS, grade=0.05))
    return balance.core_heat / (0.5 * (balance.T_top_tank + balance.T_bottom_hose) - AMBIENT)


def _gain(after: Vehicle, before: Vehicle) -> float:
    """Mean gain of heat over the trials' speeds [%]."""
    return 100.0 * float(np.mean(_heat_per_kelvin(after) / _heat_per_kelvin(before)) - 1.0)


def _gain_of_dented(name: str, after: Callable[[Vehicle], Vehicle], before: Callable[[Vehicle], Vehicle]) -> float:
    core = _with(_wide_open(name), "core", fin_kind=DENTED)
    return _gain(after(core), before(core))


def _fins(per_inch: float) -> Callable[[Vehicle], Vehicle]:
    return lambda whole: _with(whole, "core", fin_density=per_inch / inch)


def _tubes(*, rows: float, tube_width: float, row_pitch: float) -> Callable[[Vehicle], Vehicle]:
    return lambda whole: _with(
        whole, "core", rows=rows, tube_width=tube_width, row_pitch=row_pitch, fin_density=8.0 / inch
    )


def test_ten_fins_for_eight_give_a_tenth_more_heat(published: Any) -> None:
    for name in VEHICLES:
        published(
            source="car_reports1936", where="core trials, 8 to 10 fins an inch", unit="%", value=10.0,
            quantity=f"heat gained by 10 fins for 8, {name}",
            # within: the reports' own conditions differ by 5 points at one core (12 to 16.7 %), and cores differ
            within=5.0, because="one core gave 12 to 16.7 % by condition: 5 points",
            computed=_gain_of_dented(name, _fins(10.0), _fins(8.0)),
        )  # fmt: skip


def test_two_thin_cores_give_more_than_one_thick_one(published: Any) -> None:
    # the half inch between the two holds no fins: as deep as both cores together
    split = _tubes(rows=2.0, tube_width=2.125 * inch, row_pitch=2.125 * inch)
    thick = _tubes(rows=1.0, tube_width=3.3 * inch, row_pitch=3.3 * inch)
    for name in VEHICLES:
        published(
            source="car_reports1936", where="core trials, 10 to 12 %", unit="%", value=11.0,
            quantity=f"heat gained by two cores of 2 1/8 in for one of 3.3 in, {name}",
            # within: as for the fins; 8 fins an inch is our choice, the report has none
            within=5.0, because="as for the fins: 5 points", computed=_gain_of_dented(name, split, thick),
        )  # fmt: skip


def test_five_rows_in_the_depth_of_three_gain_nothing(published: Any) -> None:
    # tubes of 1/2 in are our choice; the report staggers the five rows, which we cannot
    three, five = (
        _tubes(rows=rows, tube_width=0.5 * inch, row_pitch=2.25 * inch / (rows - 1.0)) for rows in (3.0, 5.0)
    )
    for name in VEHICLES:
        published(
            source="car_reports1936", where="core trials, 2 3/4 in deep, 8 fins an inch: about equal", unit="%",
            quantity=f"heat gained by five rows for three in one depth, {name}", value=0.0,
            # within: the reports call 10 % a gain, so that what they call about equal is less
            within=10.0, because="10 % is called a gain there", computed=_gain_of_dented(name, five, three),
        )  # fmt: skip


def test_a_cowl_alone_gains_nothing_on_the_road(published: Any) -> None:
    for name in VEHICLES:
        bolted = _with(_wide_open(name), "fan", drive=BOLTED)
        bare, cowled = (_with(bolted, "shroud", present=fitted, fan_to_core=0.5 * inch) for fitted in (0.0, 1.0))
        published(
            source="car_reports1936", where="fan reports, rear or front cowl alone: none", unit="%", value=0.0,
            quantity=f"heat gained by a cowl on the road, a loss counts as none, {name}",
            # within: a degree of a mean of 40 to 60 K above the air, on each of two readings, is 4 %
            within=4.0, because="two readings of 40 to 60 K to a degree", computed=max(_gain(cowled, bare), 0.0),
        )  # fmt: skip
