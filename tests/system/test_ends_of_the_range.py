"""Vehicles and duties at the ends of their range: the answer stays possible, and says what it is."""

import dataclasses

import numpy as np

from toptank.knowledge.sheet import vehicle
from toptank.knowledge.typical import typical_sheet
from toptank.system.balance import Status
from toptank.system.duty import Duty
from toptank.system.population import solve


def test_the_bottom_hose_is_no_hotter_than_the_fluid_of_the_transmission_may_be() -> None:
    built = vehicle(typical_sheet("wagon-1990s-v6-air"))
    shut = dataclasses.replace(built, thermostat=dataclasses.replace(built.thermostat, smallest_opening=0.0))
    duties = Duty(ambient=np.linspace(265.0, 305.0, 5), in_gear=1.0, heater=1.0)
    assert solve(shut, duties).T_bottom_hose.max() < 430.0


def test_an_engine_beyond_its_top_speed_is_not_called_settled() -> None:
    built = vehicle(typical_sheet("tractor-1960s-diesel"))
    balance = solve(built, Duty(ambient=290.0, speed=20.0))
    sound = balance.status[0] not in (Status.REGULATED, Status.SETTLED)
    assert sound or balance.engine_speed[0] <= built.engine.top_speed
