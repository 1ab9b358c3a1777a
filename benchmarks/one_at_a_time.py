"""The same balance, one draw at a time through SciPy's root finder: what `toptank.system.numerics.root` replaces.

Both roots are `scipy.optimize.brentq`; the pieces between them are the same functions, compiled for one vehicle.
"""

from functools import partial

import numpy as np
from scipy.optimize import brentq

from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jax
from toptank.system.sides.air_path import FASTEST, SLOWEST
from toptank.system.sides.air_side import Hint, air_at, problem
from toptank.system.sides.coolant_side import coolant_side
from toptank.system.steady import HOTTEST, OPEN_AIR, Setting, setting, trial
from toptank.system.vehicle import Vehicle


@jax.jit
def _state(vehicle: Vehicle, duty: Duty, given: Setting, T: float) -> object:
    loop = coolant_side(
        vehicle,
        given.tubes,
        T_engine_out=T,
        opening=vehicle.thermostat.opening(T=T),
        engine_speed=given.asked.engine_speed,
        p_air=given.day.p,
        heat=given.heat_guess,
        load=given.asked.drive_power / given.asked.most_power,
    )
    cooler = vehicle.transmission_cooler
    to_air, _ = cooler.split(
        heat=given.asked.transmission_heat, T_sink=given.day.T, C_sink=OPEN_AIR, T_ambient=given.day.T
    )
    return problem(
        vehicle,
        duty,
        given.day,
        given.asked,
        given.path,
        loop,
        T_engine_out=T,
        cooler_heat=to_air * cooler.to_core_air(),
    )


_setting = jax.jit(setting)
_air = jax.jit(lambda stated, V: air_at(stated, V).pressure_balance)
_trial = jax.jit(lambda vehicle, duty, given, T, V: trial(vehicle, duty, given, T, Hint(V, 0.0, 0.0), steps=1)[0])


def settle_with_scipy(vehicles: Vehicle, duty: Duty) -> np.ndarray:
    """Return the coolant temperature leaving the engine of every draw [K]."""
    draws = len(vehicles.core.rows)
    return np.array([_settle(jax.tree.map(partial(_one, i), vehicles), duty) for i in range(draws)])


def _one(i: int, field: np.ndarray) -> float:
    return float(field[i])


def _settle(vehicle: Vehicle, duty: Duty) -> float:
    given = _setting(vehicle, duty)

    def imbalance(T: float) -> float:
        stated = _state(vehicle, duty, given, T)
        V = brentq(lambda x: float(_air(stated, x)), SLOWEST, FASTEST, xtol=1e-10)
        return float(_trial(vehicle, duty, given, T, V).imbalance)

    return float(brentq(imbalance, float(given.day.T) - 1.0, HOTTEST, xtol=1e-8))
