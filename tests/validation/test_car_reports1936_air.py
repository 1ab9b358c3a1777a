"""car_reports1936: what fan, bonnet, cowl, wind and speed did to large cars on the road (reports of 1922 to 1939).

Nobody says which cars. Ours is one large car in its middle values, and where the reports speak of three fans, one with
a stronger and one with a weaker fan. Effects in K are told at the reports' own mean of 65 K between water and air, 70 K
on the hill and at top speed, heat and flow of the water taken as unchanged, as the reports reckon.
"""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from scipy.constants import inch, mph

from toptank.system.duty import Duty
from toptank.system.population import solve

SOURCE = "car_reports1936"
AMBIENT = 293.15
NO_FAN = {"strength": 0.0}
STRONG = {"fan": {"pressure_coefficient": 0.8}, "grille": {"ram_coefficient": 0.15, "bay_loss_coefficient": 2.0}}
WEAK = {"fan": {"pressure_coefficient": 0.4, "diameter": 17.7 * inch, "belt_ratio": 1.0}}
SECOND_GEAR = 2.0

Car = Callable[..., Any]


def _road(miles_an_hour: float, **duty: float) -> Duty:
    return Duty(ambient=AMBIENT, speed=miles_an_hour * mph, **duty)


HILL = _road(32.0, grade=0.09, gear=SECOND_GEAR)


def _per_kelvin(car: Any, duty: Duty) -> float:
    """Heat of the core over water less outside air [W/K]."""
    balance = solve(car, duty)
    return float(np.ravel(balance.core_heat / (balance.T_engine_out - AMBIENT))[0])


def _hotter(after: Any, before: Any, duty: Duty, mean: float) -> float:
    """By how much the water is hotter after a change, at equal heat and a mean of so much above the air [K]."""
    return mean * (_per_kelvin(before, duty) / _per_kelvin(after, duty) - 1.0)


def _without_fan(large_old_car: Car, **changes: dict[str, float]) -> Any:
    return large_old_car(**{**changes, "fan": {**changes.get("fan", {}), **NO_FAN}})


def test_a_fan_taken_off_costs_what_it_cost(published: Any, large_old_car: Car) -> None:
    for where, duty, mean, value, within, because in (
        ("road tests, 60 mph", _road(60.0), 65.0, 9.5, 4.75, "sizes of single cars: half of it"),
        ("road tests, hill", HILL, 70.0, 17.0, 14.0, "another make measured 3 K there: 14 K apart"),
    ):
        published(
            source=SOURCE, where=where, quantity=f"water hotter without its fan, {where}", unit="K", value=value,
            within=within, because=because,
            computed=_hotter(_without_fan(large_old_car), large_old_car(), duty, mean),
        )  # fmt: skip


@pytest.mark.parametrize(
    ("car", "changes", "value", "speed", "gear"),
    [
        ("V16", STRONG, 1.35, 40.0, 1.0),
        ("V16, second speed", STRONG, 1.39, 88.0, 1.0),
        ("V12", WEAK, 1.12, 40.0, 1.0),
    ],
)
def test_a_fan_raises_the_conductance_by_what_the_critical_air_tells(
    published: Any, large_old_car: Car, car: str, changes: dict[str, dict[str, float]], value: float, speed: float,
    gear: float,
) -> None:  # fmt: skip
    duty = _road(speed, gear=gear)
    ratio = _per_kelvin(large_old_car(**changes), duty) / _per_kelvin(_without_fan(large_old_car, **changes), duty)
    published(
        source=SOURCE, where="1936 and 1939 reports, critical air temperature", unit="1", value=value,
        quantity=f"conductance with its fan over that without, {car}",
        # within: a critical air temperature is good to 4 K of 60 to 80
        within=0.10, because="4 K on each of two critical temperatures, 60 to 80 K below 100 °C", computed=ratio,
    )  # fmt: skip


def test_louvres_in_the_bonnet_cool_by_what_they_cooled(published: Any, large_old_car: Car) -> None:
    louvred = large_old_car(grille={"vents": 1.0})
    for where, duty, mean, value in (("in general", _road(45.0), 65.0, -7.0), ("hill", HILL, 70.0, -10.0)):
        published(
            source=SOURCE, where=f"road tests, louvred bonnet, {where}", unit="K", value=value,
            quantity=f"water hotter with a louvred bonnet, {where}",
            # within: the louvres' area is not told; as large as the bay's own way out is our choice
            within=0.5 * abs(value), because="area of the louvres not told: half of it",
            computed=_hotter(louvred, large_old_car(), duty, mean),
        )  # fmt: skip


def test_a_following_wind_at_equal_heat_costs_what_it_cost(published: Any, large_old_car: Car) -> None:
    car, still, wind = large_old_car(), _road(60.0), _road(60.0, head_wind=-5.0)
    published(
        source=SOURCE, where="road tests, following wind", unit="K", value=5.0,
        quantity="water hotter with 5 m/s of wind from behind at 60 mph, equal heat",
        # within: wind and speed are not told
        within=2.5, because="wind not told: half of it",
        computed=65.0 * (_per_kelvin(car, still) / _per_kelvin(car, wind) - 1.0),
    )  # fmt: skip


def test_a_cowl_adds_a_third_of_air_standing_and_nothing_on_the_road(published: Any, large_old_car: Car) -> None:
    bare, cowled = large_old_car(), large_old_car(shroud={"present": 1.0})
    standing = Duty(ambient=AMBIENT, engine_speed=1000.0 / 60.0)
    air = [float(np.ravel(solve(car, standing).air_capacity_rate)[0]) for car in (bare, cowled)]
    published(
        source=SOURCE, where="fan tests: about one third more air", unit="1", value=1.33,
        quantity="air of a cowled fan over that of a bare one, standing",
        # within: "about"
        within=0.10, because="told as about a third", computed=air[1] / air[0],
    )  # fmt: skip
    published(
        source=SOURCE, where="fan tests: a cowl alone gave none on the road", unit="1", value=1.0,
        quantity="conductance of a cowled fan over that of a bare one, 45 mph",
        # within: a degree on each of two readings of 40 to 60 K
        within=0.04, because="two readings of 40 to 60 K to a degree",
        computed=_per_kelvin(cowled, _road(45.0)) / _per_kelvin(bare, _road(45.0)),
    )  # fmt: skip


def test_driving_faster_costs_no_more_than_half_again_what_it_cost(published: Any, large_old_car: Car) -> None:
    car = large_old_car()
    slow, *faster = (float(np.ravel(solve(car, _road(at)).T_engine_out)[0]) for at in (60.0, 75.0, 80.0))
    for at, value, T in ((75, 6.0, faster[0]), (80, 8.0, faster[1])):
        published(
            source=SOURCE, where=f"road tests, 60 to {at} mph", unit="K", value=value,
            quantity=f"water hotter at {at} mph than at 60",
            # within: heat and air of an unknown car; both grow, and their difference is what is read
            within=0.6 * value, because="the difference of two growths of an unknown car: 60 %", computed=T - slow,
        )  # fmt: skip


def test_what_cannot_be_met_together_is_known_and_does_not_drift(large_old_car: Car) -> None:
    """Two rows of the reports, and what ours gives instead.

    Louvres gave 20 K at top speed and 7 K in general: with one bay and one core the ratio of air does not depend on
    speed, so that ours gives 8 to 12 K at both. A following wind was told without its speed: at equal road speed less
    drag outweighs less air, and ours is then no hotter.
    """
    louvred = _hotter(large_old_car(grille={"vents": 1.0}), large_old_car(), _road(85.0), 70.0)
    assert -12.0 < louvred < -8.0
    still, wind = (
        float(np.ravel(solve(large_old_car(), _road(60.0, head_wind=of)).T_engine_out)[0]) for of in (0.0, -5.0)
    )
    assert -4.0 < wind - still < 1.0
