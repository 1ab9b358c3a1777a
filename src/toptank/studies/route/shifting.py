"""Where a drive takes a lower gear for the climb: engine, fan and pump then turn faster.

More heat is made there, but more air and coolant flow too, so that a steeper road can leave the gauge lower than a
gentler one in the higher gear. That a lower gear cools on a hill is common practice, no source.
"""

import dataclasses
from typing import Any, NamedTuple

import numpy as np

from toptank.system.drive_batch import Floats
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jax
from toptank.system.profile import Profile
from toptank.system.sides.heat_side import demand, weather
from toptank.system.vehicle import Vehicle

DRIVEN_BY, EVERY = 64, 5
"""Possible vehicles that are asked for their gear, and the steps between the moments at which they are."""

FASTER = 1.2
"""Engine speed over that on the level at the same speed from which a lower gear is taken [1]: gears lie 1.3 to 1.7
apart, a converter slips by a tenth more on a climb."""

LONG = 20.0
"""Time in the lower gear from which it is told [s]; judgement."""


class ShiftsDown(NamedTuple):
    """The middle vehicle takes a lower gear for a climb.

    time, distance : where it does so first [s], [m]
    engine_speed, instead_of : there, and on the level at the same speed [1/s]
    seconds : how long in all [s]
    """

    time: float
    distance: float
    engine_speed: float
    instead_of: float
    seconds: float


def shifts_down(vehicles: Vehicle, profile: Profile) -> ShiftsDown | None:
    """Where the middle one of possible vehicles (draw,) takes a lower gear than on the level; None: not for long."""
    crowd: Vehicle = jax.tree.map(_few, vehicles)
    duty: Duty = jax.tree.map(_now_and_then, profile.duty)
    speed = _middle_speed(crowd, duty)
    flat = _middle_speed(crowd, dataclasses.replace(duty, grade=np.zeros(len(speed))))
    lower = (speed > FASTER * flat) & (np.asarray(duty.speed) > 0.0) & (np.asarray(duty.grade) > 0.0)
    seconds = float(lower.sum()) * EVERY * float(profile.step)
    if seconds < LONG:
        return None
    first = int(np.argmax(lower))
    at = first * EVERY
    return ShiftsDown(
        time=float(profile.time[at]),
        distance=float(profile.distance[at]),
        engine_speed=float(speed[first]),
        instead_of=float(flat[first]),
        seconds=seconds,
    )


def _middle_speed(crowd: Vehicle, duty: Duty) -> Floats:
    """Engine speed of the middle vehicle [1/s] at duties (moment,), of vehicles (draw, 1)."""
    return np.median(np.atleast_2d(np.asarray(demand(crowd, duty, weather(duty)).engine_speed, float)), axis=0)


def _few(leaf: Any) -> Any:
    return np.asarray(leaf, float)[:DRIVEN_BY, None] if np.ndim(leaf) else leaf


def _now_and_then(leaf: Any) -> Any:
    return np.asarray(leaf, float)[::EVERY]
