"""Margins: the ambient temperature at which a duty would boil, or reach a limit, with the balance solved there.

SAE J1393 calls them air-to-boil and limiting ambient temperature and adds degree for degree; here the clutch, the
condenser and the coolant are asked what they would really do on that hotter day.
"""

import dataclasses

from toptank.media import coolant
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import as_arrays, jnp
from toptank.system.numerics.root import Bracket, bracketed_root
from toptank.system.sides.air_side import Hint, first_hint
from toptank.system.sides.heat_side import demand, weather
from toptank.system.steady import PATIENT, Steps, setting, trial
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real

COLDEST = 200.0
"""Lowest ambient temperature looked at [K]."""


def boiling_point(vehicle: Vehicle, duty: Duty) -> Real:
    """Boiling point of what is in the system under its cap at the altitude of a duty [K]."""
    held = weather(duty).p + vehicle.cap.held_pressure()
    return coolant.boiling_temperature(held, vehicle.fill.concentrate, vehicle.fill.glycol)


def limiting_ambient(vehicle: Vehicle, duty: Duty, T_limit: Real, *, steps: Steps = PATIENT) -> Real:
    """Ambient temperature [K] at which the coolant leaving the engine would settle at T_limit [K]."""
    vehicle, duty, T = as_arrays((vehicle, duty, T_limit))

    def residual(ambient: Real, hint: Hint) -> tuple[Real, Real, Hint]:
        day = dataclasses.replace(duty, ambient=ambient)
        at, hint = trial(vehicle, day, setting(vehicle, day), T, hint, steps=steps.velocity)
        return -at.imbalance, ambient, hint

    bracket = Bracket(jnp.full_like(T, COLDEST), T - 100.0, T - 60.0, T - 30.0, T, jnp.zeros_like(T))
    first = first_hint(vehicle, duty, demand(vehicle, duty, weather(duty)))
    return bracketed_root(residual, bracket, first, steps=steps.temperature)[0]


def air_to_boil(vehicle: Vehicle, duty: Duty) -> Real:
    """Ambient temperature at which a duty would boil [K]."""
    return limiting_ambient(vehicle, duty, boiling_point(vehicle, duty))
