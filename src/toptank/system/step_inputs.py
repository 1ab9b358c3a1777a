"""What each step of a drive brings, whatever the temperatures: worked out for many steps at once, ahead of them."""

from typing import NamedTuple

from toptank.media import coolant
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jax, jnp
from toptank.system.sides.air_path import AirWay, Driven
from toptank.system.sides.air_side import Hint, first_hint
from toptank.system.sides.heat_side import Demand, Weather, demand, engine_heat, idles, surface_conductance, weather
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real

VAPORISING = 2.2e6
"""Heat that turns a kilogram of coolant into steam near 115 degC [J/kg]; from memory."""

SHUT = 30e3
"""Pressure under the cap from which it carries out as a pressure cap does; below, by degrees as an open neck [Pa]."""

BUOYANT = 0.03
"""Speed over idle at which a shut-down engine's pump would move what rises by itself [1]; judgement."""


JUMP = {
    "speed": 2.0, "grade": 0.015, "engine_speed": 3.0, "air_conditioning": 0.4, "in_gear": 0.4, "gear": 0.4,
    "running": 0.4,
}  # fmt: skip
"""Change from one step to the next beyond which the flows are sought anew: speed [m/s], grade [1], engine speed [1/s],
switches [1]; judgement."""


class StepInputs(NamedTuple):
    """What one step brings.

    duty, running : what is asked; 0 with the engine shut down [1]
    day, driven : the air, what driving does to it
    asked, idles : what is asked of a warm engine; whether it idles [1]
    jumps : whether something that is asked changes so much at once that the flows are far from those of a step before
    near : rough velocity under the fan, near which to look for it
    heat_guess : rough heat to the coolant [W]
    T_boiling : boiling point under the cap [K]
    lost_per_heat : share of the system's volume that goes past the cap for the heat that boils it off [1/J]
    surface, heater : conductances from the coolant to the outside and the cabin [W/K]
    """

    duty: Duty
    running: Real
    day: Weather
    driven: Driven
    asked: Demand
    idles: Real
    jumps: Real
    near: Hint
    heat_guess: Real
    T_boiling: Real
    lost_per_heat: Real
    surface: Real
    heater: Real


def step_inputs(vehicle: Vehicle, way: AirWay, duty: Duty, running: Real) -> StepInputs:
    """What one step at a duty brings a vehicle; `way` is that of its air."""
    day = weather(duty)
    asked = demand(vehicle, duty, day)
    rough = engine_heat(vehicle, asked, day, fan_power=0.0 * day.T, compressor_power=asked.cooling_load / 3)
    mix = (vehicle.fill.concentrate, vehicle.fill.glycol)
    T_boiling = coolant.boiling_temperature(day.p + vehicle.cap.held_pressure(), *mix)
    steam = (1.0 + carried_out(vehicle)) / VAPORISING / coolant.density(T_boiling, *mix)
    turns = asked._replace(engine_speed=asked.engine_speed * jnp.maximum(running, BUOYANT))
    return StepInputs(
        duty=duty,
        running=running,
        day=day,
        driven=Driven.of(vehicle, duty, day, way),
        asked=asked,
        idles=idles(duty),
        jumps=jnp.zeros_like(running) > 0.5,
        near=first_hint(vehicle, duty, turns),
        heat_guess=rough.coolant * running,
        T_boiling=T_boiling,
        lost_per_heat=steam / vehicle.fill.capacity,
        surface=surface_conductance(vehicle, duty),
        heater=duty.heater_share() * vehicle.heater.conductance,
    )


def carried_out(vehicle: Vehicle) -> Real:
    """Liquid that steam carries past the cap over its own mass [1], by the pressure that the cap holds."""
    held, doubts = vehicle.cap.held_pressure(), vehicle.doubts
    shut = jnp.clip(held / SHUT, 0.0, 1.0)
    return doubts.carry_out_open + shut * (doubts.carry_out_pressed - doubts.carry_out_open)


def all_step_inputs(vehicle: Vehicle, way: AirWay, duties: Duty, running: Real) -> StepInputs:
    """The same for many steps; duties and `running` have the axis (step,), and so has all of the answer."""

    def one(duty: Duty, runs: Real) -> StepInputs:
        return step_inputs(vehicle, way, duty, runs)

    return jax.vmap(one)(duties, running)._replace(jumps=jumps(duties, running))


def jumps(duties: Duty, running: Real) -> Real:
    """At which steps something that is asked changes at once by more than a `JUMP`; duties have the axis (step,).

    Whatever differs from draw to draw on one drive, weather, is left out: many draws then jump together.
    """
    asked = {name: getattr(duties, name) for name in JUMP if name != "running"} | {"running": running}
    found = [jnp.abs(jnp.diff(values, prepend=values[:1])) > JUMP[name] for name, values in asked.items()]
    return jnp.any(jnp.stack(found), axis=0).at[0].set(True)  # a drive goes in pieces: what was before is not known
