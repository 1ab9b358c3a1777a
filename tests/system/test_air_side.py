"""The air of whole vehicles: hot ground, a fan that blows the wrong way, openings in the bonnet, a ring that chokes."""

import dataclasses
from typing import Any

import numpy as np
import pytest
from scipy.constants import mph

from toptank.knowledge.sheet import vehicle
from toptank.knowledge.typical import typical_sheet
from toptank.system.duty import Duty
from toptank.system.population import solve
from toptank.system.vehicle import Vehicle

PICKUP, SALOON, OLD = (
    vehicle(typical_sheet(name)) for name in ("pickup-1970s-v8-air", "saloon-1980s-four-air", "open-car-1930s-four")
)
HOT = {"ambient": 305.0, "air_conditioning": 1.0}


def _with(whole: Vehicle, part: str, **values: Any) -> Vehicle:
    return dataclasses.replace(whole, **{part: dataclasses.replace(getattr(whole, part), **values)})


def test_among_cars_on_hot_asphalt_the_grille_breathes_warmer_air_and_leaves_it_behind_when_moving() -> None:
    """Common practice, no source: 3 to 8 K above the shade standing; half of it at walking pace and a little more."""
    doubts = dataclasses.replace(PICKUP.doubts, hot_ground=5.0)
    whole = dataclasses.replace(PICKUP, doubts=doubts, shroud=dataclasses.replace(PICKUP.shroud, recirculation=0.0))
    speeds = np.array([0.0, 4.0, 25.0])
    shade, queue = (
        solve(whole, Duty(ambient=305.0, speed=speeds, among_cars=among)).T_core_air_in for among in (0.0, 1.0)
    )
    assert queue - shade == pytest.approx([5.0, 2.5, 0.125], abs=0.02)


def test_five_kelvin_at_the_grille_are_felt_by_a_vehicle_with_nothing_to_spare() -> None:
    shade, queue = (
        float(np.ravel(solve(PICKUP, Duty(**HOT, in_gear=1.0, among_cars=among)).T_gauge)[0]) for among in (0.0, 1.0)
    )
    assert 2.0 < queue - shade < 8.0


@pytest.mark.parametrize("speed", [0.0, 20.0])
def test_an_electric_fan_the_wrong_way_round_moves_less_air_and_never_none(speed: float) -> None:
    duty = Duty(**HOT, speed=speed)
    right, wrong = (solve(_with(SALOON, "fan", backwards=turned), duty) for turned in (0.0, 1.0))
    air = [float(np.ravel(balance.air_capacity_rate)[0]) for balance in (right, wrong)]
    assert 0.25 * air[0] < air[1] < 0.85 * air[0]


def test_a_reversed_fan_breathes_the_air_of_the_bay_at_standstill() -> None:
    balance = solve(_with(SALOON, "fan", backwards=1.0), Duty(**HOT))
    warmed = float(np.ravel(balance.T_core_air_in - 305.0)[0])
    assert warmed > 0.12 * float(np.ravel(balance.T_engine_out - 305.0)[0])


def test_a_ring_that_chokes_takes_the_road_s_air_and_nothing_at_standstill() -> None:
    standing, road = Duty(**HOT), Duty(**HOT, speed=30.0)
    bladeless = _with(PICKUP, "fan", strength=0.0)  # a hotter clutch would make up for some of it

    def kept(whole: Vehicle, duty: Duty) -> float:
        air = [solve(one, duty).air_capacity_rate for one in (_with(whole, "shroud", chokes=0.5), whole)]
        return float(np.ravel(air[0] / air[1])[0])

    assert kept(PICKUP, standing) == pytest.approx(1.0, abs=0.01)
    # half of the ram pressure: the root of a half if all losses went with the square, a half if all were laminar
    assert 0.5 < kept(bladeless, road) < 0.75


def test_louvres_in_the_bonnet_let_more_air_through_on_the_road_and_hardly_any_at_standstill() -> None:
    at = Duty(ambient=300.0, speed=np.array([0.0, 45.0 * mph]))
    shut, open_bonnet = (solve(_with(OLD, "grille", vents=vents), at) for vents in (0.0, 1.0))
    gain = np.asarray(open_bonnet.air_capacity_rate) / np.asarray(shut.air_capacity_rate)
    assert 1.15 < gain[1] < 1.6
    assert 1.0 <= gain[0] < 1.2
