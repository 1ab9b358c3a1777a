"""A condition as it is met: so many minutes of it, from where the one before left the vehicle.

`drive` in coarse steps: the same masses, flows and slow parts, `STEPS` of them however long the condition is, the first
ones short. What follows the coolant late (wax, clutch) is held to a share of the way where a step is longer than it
takes: it comes to rest at the same place, and does not ring. A condition that somebody calls steady is settled.
"""

from dataclasses import dataclass, replace
from typing import Any, NamedTuple

from toptank.system.actuator_state import ActuatorState
from toptank.system.balance import Balance, Status
from toptank.system.drive import (
    SOUGHT,
    Fixed,
    Flows,
    State,
    advance,
    fixed_of,
    flows_of,
    paths_of,
)
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import as_arrays, fori, jax, jnp
from toptank.system.sides.heat_side import GRAVITY
from toptank.system.steady import RACING
from toptank.system.step_inputs import StepInputs, step_inputs
from toptank.system.trajectory import AT_THE_BOIL, WIDE_OPEN, Trajectory
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real
from toptank.units.declaration import declare
from toptank.units.dimension import DURATION, STEADY, TIME

STEPS = 24
"""Steps of a condition; with a shorter first one, each longer than the one before by `GROWTH`."""

GROWTH = 1.07
"""Length of a step over that of the one before [1]: the first of ten minutes then takes 10 s, the last 49."""

SHARE_OF_LAG = 0.5
"""How much of its own time a slow part follows in one step, at most [1]: more rings where steps are long."""

PULLS_AWAY, BRAKES = 1.0, 1.5
"""How traffic gathers way and stops [m/s2]; judgement."""


MOST_LIFT = 0.3
"""Steepest rise that stands in for starting [1]: no traffic pulls away harder."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Timing:
    """How long a condition lasts, and whether it is stop and go."""

    # fmt: off
    duration: Real = declare(
        "how long it has lasted when the gauge is read", DURATION, hard=(1.0, STEADY), plausible=(30.0, 14_400.0),
        typical=STEADY, spread=0.8, relative=True, measure="the driver's word or a watch; steady: until nothing moves")
    moving: Real = declare(
        "stop and go: time from standing to standing again", TIME, hard=(0.0, 3600.0), plausible=(5.0, 300.0),
        typical=0.0, spread=0.4, relative=True, measure="the driver's word; 0: no stop and go")
    standing: Real = declare(
        "stop and go: time that it stands between", TIME, hard=(0.0, 3600.0), plausible=(5.0, 300.0),
        typical=0.0, spread=0.4, relative=True, measure="the driver's word; 0: no stop and go")
    # fmt: on


class Passage(NamedTuple):
    """How one pass through a condition went.

    end : everything as it stands at the end
    state : where it stands then, to go on from
    T_peak, T_gauge_peak : hottest coolant and highest reading of the gauge in it [K]
    least_margin : least distance of the coolant to its boiling point in it [K]; 0: it boils
    boils_after : time after its beginning at which it first boils [s]; infinite where it does not
    """

    end: Balance
    state: State
    T_peak: Real
    T_gauge_peak: Real
    least_margin: Real
    boils_after: Real


class _So(NamedTuple):
    """What is carried from step to step."""

    state: State
    other: State
    T_peak: Real
    T_sender_peak: Real
    least_margin: Real
    boils_after: Real
    time: Real


def pass_through(vehicle: Vehicle, duty: Duty, timing: Timing, start: State, seconds: Real, growth: Real) -> Passage:
    """Go through a condition from where a vehicle stands; `vmap` over all of them for draws.

    Parameters
    ----------
    vehicle, duty, timing : all fields numbers; how long it lasts is `seconds`
    start : where it stands
    seconds : how long [s]
    growth : length of a step over that of the one before [1]
    """
    vehicle, duty, timing, seconds, growth = as_arrays((vehicle, duty, timing, seconds, growth))
    fixed = fixed_of(vehicle)
    halting = (timing.moving > 0.0) & (timing.standing > 0.0)
    stands = step_inputs(vehicle, fixed.way, _halted(duty, halting), jnp.ones(()))
    moves = step_inputs(vehicle, fixed.way, _under_way(duty, timing, halting), jnp.ones(()))
    share = timing.moving / jnp.maximum(timing.moving + timing.standing, 1e-9)
    whole = jnp.ones_like(seconds)
    for _ in range(STEPS - 1):
        whole = 1.0 + growth * whole
    shortest = seconds / whole

    def one(number: Real, carried: tuple[_So, Real]) -> tuple[_So, Real]:
        so, length = carried
        first = (number & 1) == 0
        pair = length + jnp.where(first, length * growth, length / growth)
        dt = jnp.where(halting, pair * jnp.where(first, share, 1.0 - share), length)
        brings = _either(halting & ~first, stands, moves)
        near = so.state._replace(
            core_flow=_either(halting, so.other.core_flow, so.state.core_flow),
            fan_zone=_either(halting, so.other.fan_zone, so.state.fan_zone),
        )
        after = _stepped(vehicle, fixed, near, brings, dt, times=jnp.where(number < 2, 1 + SOUGHT, 1))
        T, time = after.T.coolant, so.time + dt
        margin = brings.T_boiling - T
        boils = jnp.where(margin <= AT_THE_BOIL, time, jnp.inf)
        gone = _So(
            state=after,
            other=so.state,
            T_peak=jnp.maximum(so.T_peak, T),
            T_sender_peak=jnp.maximum(so.T_sender_peak, after.lagging.T_sender),
            least_margin=jnp.minimum(so.least_margin, margin),
            boils_after=jnp.minimum(so.boils_after, boils),
            time=time,
        )
        return gone, length * growth

    nought = jnp.zeros_like(seconds)
    begun = _So(start, start, nought, nought, nought + jnp.inf, nought + jnp.inf, nought)
    end, _ = fori(STEPS, one, (begun, shortest))
    boils = end.least_margin <= AT_THE_BOIL
    return Passage(
        end=_as_it_stands(vehicle, fixed, end.state, _either(halting, stands, moves), boils),
        state=end.state,
        T_peak=end.T_peak,
        T_gauge_peak=vehicle.gauge.shown(T_sender=end.T_sender_peak),
        least_margin=end.least_margin,
        boils_after=end.boils_after,
    )


def _stepped(vehicle: Vehicle, fixed: Fixed, near: State, brings: StepInputs, dt: Real, *, times: Real) -> State:
    """The state a step later; so many times over, each with the flows looked for where the last found them."""

    def tried(_: int, before: State) -> State:
        so = near._replace(core_flow=before.core_flow, fan_zone=before.fan_zone)
        after, course = advance(vehicle, fixed, so, brings, dt)
        return after._replace(lagging=_unhurried(vehicle, near.lagging, after, course, dt))

    return fori(times, tried, near)


def _unhurried(vehicle: Vehicle, before: ActuatorState, after: State, course: Trajectory, dt: Real) -> ActuatorState:
    """Where slow parts stand after a step that may be longer than they take."""

    def followed(lag: Real) -> ActuatorState:
        return before.after(
            vehicle,
            T_engine_out=after.T.coolant,
            T_coil=course.T_coil,
            T_sender=after.lagging.T_sender,
            dt=jnp.minimum(dt, SHARE_OF_LAG * lag),
        )

    wax, clutch = followed(vehicle.thermostat.lag), followed(vehicle.fan_clutch.lag)
    return after.lagging._replace(T_wax=wax.T_wax, wax_set=wax.wax_set, T_coil=clutch.T_coil, coil_set=clutch.coil_set)


def _under_way(duty: Duty, timing: Timing, halting: Real) -> Duty:
    """The moving part of stop and go as a steady run: its mean speed, and on top a rise that takes the same work.

    What is put into the moving mass at every start is lost in the brakes at every stop.
    """
    top = duty.speed
    lost = 0.5 * top * (1.0 / PULLS_AWAY + 1.0 / BRAKES)
    way = top * jnp.maximum(timing.moving - lost, 0.5 * timing.moving)
    speed = way / jnp.maximum(timing.moving, 1e-9)
    lift = 0.5 * top * top / (GRAVITY * jnp.maximum(way, 1e-9))
    return replace(
        duty,
        speed=jnp.where(halting, speed, top),
        grade=jnp.where(halting, duty.grade + jnp.minimum(lift, MOST_LIFT), duty.grade),
    )


def _halted(duty: Duty, halting: Real) -> Duty:
    return replace(duty, speed=jnp.where(halting, 0.0, duty.speed))


def _either(condition: Real, this: Any, that: Any) -> Any:
    def one(a: Real, b: Real) -> Real:
        return jnp.where(condition, a, b)

    return jax.tree.map(one, this, that)


def _as_it_stands(vehicle: Vehicle, fixed: Fixed, state: State, brings: StepInputs, boils: Real) -> Balance:
    """Everything at one moment, in the words of a steady balance; what its heats lack goes into the masses."""
    flows = flows_of(vehicle, fixed, state, brings)
    paths = paths_of(vehicle, fixed, flows, brings)
    T, loop, air, engine = state.T, flows.loop, flows.air, flows.engine
    core, surface, heater, tank = (
        paths.core_heat(T), paths.surface_heat(T), paths.heater_heat(T), paths.tank_heat(T),
    )  # fmt: skip
    T_back = T.core + paths.gearbox_tank / paths.flow * (T.gearbox - T.core)
    return Balance(
        T_engine_out=T.coolant,
        T_top_tank=T.coolant,
        T_bottom_hose=T_back,
        T_engine_in=T.coolant - loop.C_core * (T.coolant - T_back) / loop.C_total,
        T_gauge=vehicle.gauge.shown(T_sender=state.lagging.T_sender),
        T_transmission=T.gearbox,
        T_boiling=brings.T_boiling,
        T_core_air_in=air.T_core_in,
        T_core_air_out=air.T_core_out,
        T_coil=air.T_coil,
        T_condensing=air.T_condensing,
        core_flow=loop.core_flow,
        bypass_flow=loop.bypass_flow,
        thermostat_opening=flows.opening,
        tube_reynolds=loop.tube_reynolds,
        core_pressure_drop=loop.core_pressure_drop,
        eye_margin=loop.eye_margin,
        pump_head_left=loop.head_left,
        air_capacity_rate=air.C_air,
        V_fan_zone=air.V_fan_zone,
        V_ram_zone=air.V_ram_zone,
        fan_speed=air.fan_speed,
        clutch_ratio=air.clutch_ratio,
        fan_power=air.fan_power,
        engine_speed=flows.asked.engine_speed,
        engine_power=engine.power,
        engine_load=engine.load,
        power_short=engine.short_of,
        fuel_power=engine.fuel,
        engine_heat=engine.coolant,
        oil_heat=engine.to_oil,
        transmission_heat=tank,
        core_heat=core,
        surface_heat=surface,
        heater_heat=heater,
        condenser_heat=air.condenser_heat,
        compressor_power=air.compressor_power,
        heat_imbalance=core + surface + heater - engine.coolant - tank,
        status=_status(vehicle, flows, boils),
    )


def _status(vehicle: Vehicle, flows: Flows, boils: Real) -> Real:
    wide_open = flows.opening >= WIDE_OPEN * vehicle.thermostat.largest_opening
    status = jnp.where(wide_open, Status.SETTLED, Status.REGULATED)
    racing = flows.asked.engine_speed > RACING * vehicle.engine.top_speed
    status = jnp.where((flows.engine.short_of > 0.0) | racing, Status.SHORT_OF_POWER, status)
    return jnp.where(boils, Status.BOILS, status)


jax.tree_util.register_dataclass(Timing)
