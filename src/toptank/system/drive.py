"""`drive(vehicle, profile)`: the temperatures against time, on the same parts and equations as `steady`.

Five masses (engine metal, its coolant, oil, core, gearbox) take up heat; air and coolant follow in less than a second,
so that their flows are those of the moment, sought from where they were a step before. Thermostat, fan clutch and fan
switches stand where time has left them. A long constant drive comes to what `steady` settles at; where a part has play,
to what it may stand at.
"""

import dataclasses
from collections.abc import Callable
from typing import Any, NamedTuple

from toptank.parts.coolant_passage import CoolantPassage
from toptank.parts.transmission_cooler import T_FLUID_LIMIT
from toptank.system.actuator_state import ActuatorState
from toptank.system.balance import Balance
from toptank.system.duty import Duty
from toptank.system.nodes import Nodes, Paths, core_split, heat_capacities, step
from toptank.system.numerics.jax_library import as_arrays, fori, jax, jnp, lax, zeros_like
from toptank.system.numerics.root import Followed
from toptank.system.profile import Profile
from toptank.system.sides.air_path import AirPath, AirWay
from toptank.system.sides.air_side import AirSide, first_hint, followed_air_side, problem
from toptank.system.sides.coolant_side import CoolantSide, followed_coolant_side
from toptank.system.sides.heat_side import (
    Demand,
    EngineHeat,
    at_faster_idle,
    demand,
    engine_heat,
    tank_temperature,
    to_coolant,
    turning,
    weather,
)
from toptank.system.steady import OPEN_AIR, steady
from toptank.system.step_inputs import BUOYANT, StepInputs, all_step_inputs
from toptank.system.trajectory import Trajectory
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real

SOUGHT = 3
"""Times that the flows are looked for before a step in which something that is asked jumps: by then they are found."""

LET_THROUGH = 0.95
"""Flow through the core over what only pump, hoses and jackets hinder, from which to look for it [1].

Of the typical vehicles, as modelled, 0.90 to 0.98; the first steps of a drive find what this one lets through."""

EMPTIEST = 0.6
"""Share of the volume beyond which no more coolant is lost [1]: steam then goes out by itself."""


class Fixed(NamedTuple):
    """What of a vehicle does not change on a drive: its core's ways, heat capacities [J/K], conductances [W/K]."""

    way: AirWay
    tubes: CoolantPassage
    capacities: Nodes
    liquid: Nodes
    metal_coolant: Real
    oil_coolant: Real


class State(NamedTuple):
    """Where a drive stands: temperatures, slow parts, coolant lost [1], and near what to look for the flows.

    core_flow : of the coolant, over the flow that the core does not hinder [1]
    fan_zone : velocity of the air under the fan, over the rough one of the moment [1]
    """

    T: Nodes
    lagging: ActuatorState
    lost: Real
    core_flow: Followed
    fan_zone: Followed


def drive(vehicle: Vehicle, profile: Profile, start: State | None = None) -> Trajectory:
    """Drive one vehicle along one profile; `vmap` over the vehicle for draws. Never a NaN inside the hard limits.

    Parameters
    ----------
    vehicle : parts and doubts, all fields numbers
    profile : duties on an even grid of time
    start : where it stands at the start; left out: settled at the first duty

    Returns
    -------
    course : temperatures, flows and heats at every step; boiling is an answer, not an error
    """
    vehicle, profile = as_arrays((vehicle, profile))
    if start is None:
        first = jax.tree.map(_first, profile.duty)
        start = settled_start(vehicle, first, steady(vehicle, first))
    return onward(vehicle, profile.duty, profile.running, profile.step, start)[0]


def onward(
    vehicle: Vehicle,
    duties: Duty,
    running: Real,
    dt: Real,
    start: State,
    *,
    kept: Callable[[Trajectory], Any] = lambda course: course,
) -> tuple[Any, State]:
    """Drive on from a state over duties of the axis (step,): what is `kept` of every step, and where it stands then."""
    fixed = fixed_of(vehicle)

    def one(state: State, brings: StepInputs) -> tuple[State, Any]:
        """One step; where something that is asked has jumped, again with the flows looked for where they were found."""

        def tried(_: int, before: tuple[State, Any]) -> tuple[State, Any]:
            near = state._replace(core_flow=before[0].core_flow, fan_zone=before[0].fan_zone)
            after, course = advance(vehicle, fixed, near, brings, dt)
            return after, kept(course)

        nothing = zeros_like(jax.eval_shape(tried, 0, (state, None))[1])
        return fori(jnp.where(brings.jumps, 1 + SOUGHT, 1), tried, (state, nothing))

    state, course = lax.scan(one, start, all_step_inputs(vehicle, fixed.way, duties, running))
    return course, state


def fixed_of(vehicle: Vehicle) -> Fixed:
    """Work out what does not change on a drive."""
    metal, oil = to_coolant(vehicle)
    full = heat_capacities(vehicle)
    dry = heat_capacities(dataclasses.replace(vehicle, fill=dataclasses.replace(vehicle.fill, air=1.0)))
    return Fixed(
        way=AirWay.of(vehicle),
        tubes=CoolantPassage.of(vehicle.core),
        capacities=full,
        liquid=jax.tree.map(jnp.subtract, full, dry),
        metal_coolant=metal,
        oil_coolant=oil,
    )


def settled_start(vehicle: Vehicle, duty: Duty, balance: Balance) -> State:
    """State of a vehicle that has long been driven at a duty where a balance was found; boiling, it stands at that."""
    vehicle, duty, balance = as_arrays((vehicle, duty, balance))
    fixed = fixed_of(vehicle)
    T = jnp.minimum(balance.T_engine_out, balance.T_boiling)
    by_metal, by_oil = turning(vehicle, balance.engine_speed)
    nodes = Nodes(
        metal=T + (balance.engine_heat - balance.oil_heat) / (fixed.metal_coolant * by_metal),
        coolant=T,
        oil=T + balance.oil_heat / (fixed.oil_coolant * by_oil),
        core=jnp.minimum(balance.T_bottom_hose, T),
        gearbox=balance.T_transmission,
    )
    near = first_hint(vehicle, duty, demand(vehicle, duty, weather(duty)))
    at_sender = balance.T_gauge - vehicle.gauge.shown(T_sender=balance.T_engine_out - T)
    start = _start(vehicle, nodes, T_coil=balance.T_coil, T_sender=at_sender)
    return start._replace(fan_zone=Followed.near(balance.V_fan_zone / near.V))


def cold_start(vehicle: Vehicle, duty: Duty) -> State:
    """State of a vehicle that has stood overnight in the air of a duty."""
    vehicle, duty = as_arrays((vehicle, duty))
    return _start(vehicle, Nodes(*(duty.ambient,) * 5), T_coil=duty.ambient, T_sender=duty.ambient)


def warm_start(vehicle: Vehicle, duty: Duty, *, T_coolant: Real, T_oil: Real, T_core: Real) -> State:
    """State of a vehicle that was switched off a while ago, or that has run for a few minutes only.

    Parameters
    ----------
    vehicle, duty : the vehicle, and the duty whose air it stands in
    T_coolant : coolant in the engine, with the metal of heads and bores [K]
    T_oil : oil and lower block: behind the coolant as it warms, ahead of it or behind as it cools [K]
    T_core : coolant in the radiator, with the gearbox [K]
    """
    vehicle, duty, T_coolant, T_oil, T_core = as_arrays((vehicle, duty, T_coolant, T_oil, T_core))
    nodes = Nodes(metal=T_coolant, coolant=T_coolant, oil=T_oil, core=T_core, gearbox=T_core)
    return _start(vehicle, nodes, T_coil=duty.ambient, T_sender=T_coolant)


def _start(vehicle: Vehicle, T: Nodes, *, T_coil: Real, T_sender: Real) -> State:
    """State at these temperatures; what flows is found in the first steps, from flows that fit most vehicles."""
    lagging = ActuatorState.settled(vehicle, T_engine_out=T.coolant, T_coil=T_coil, T_sender=T_sender)
    nought = jnp.zeros_like(T.coolant)
    return State(T, lagging, nought, Followed.near(nought + LET_THROUGH), Followed.near(nought + 1.0))


class Flows(NamedTuple):
    """What flows over a step: demand, opening [1], coolant side, air side, engine; near what to look in the next."""

    asked: Demand
    opening: Real
    loop: CoolantSide
    air: AirSide
    engine: EngineHeat
    core_flow: Followed
    fan_zone: Followed


def advance(vehicle: Vehicle, fixed: Fixed, state: State, brings: StepInputs, dt: Real) -> tuple[State, Trajectory]:
    """One step of a drive: the state after it, and what stood and flowed.

    Parameters
    ----------
    vehicle, fixed : the vehicle and what of it does not change
    state : where it stands
    brings : what holds over the step
    dt : length of the step [s]
    """
    running, T_boiling = brings.running, brings.T_boiling
    flows = flows_of(vehicle, fixed, state, brings)
    paths = paths_of(vehicle, fixed, flows, brings)
    C = _left(fixed, vehicle, state.lost)
    after, mean = step(state.T, C, paths, dt)
    after, lost, expelled = _boiled_off(vehicle, fixed, after, state.lost, brings)
    at_sender = vehicle.gauge.at_sender(
        T_engine_out=after.coolant, T_metal=after.metal, T_tank=tank_temperature(after.coolant, after.core, paths.flow),
        T_ambient=brings.day.T, missing=vehicle.fill.air + lost,
    )  # fmt: skip
    lagging = state.lagging.after(
        vehicle, T_engine_out=after.coolant, T_coil=flows.air.T_coil, T_sender=at_sender, dt=dt
    )
    T, air, engine = state.T, flows.air, flows.engine
    course = Trajectory(
        T_engine_out=T.coolant,
        T_gauge=vehicle.gauge.shown(T_sender=state.lagging.T_sender),
        T_bottom_hose=T.core + paths.gearbox_tank / paths.flow * (T.gearbox - T.core),
        T_metal=T.metal,
        T_oil=T.oil,
        T_transmission=T.gearbox,
        T_boiling=T_boiling,
        T_core_air_in=air.T_core_in,
        T_coil=air.T_coil,
        thermostat_opening=flows.opening,
        core_flow=flows.loop.core_flow,
        clutch_ratio=air.clutch_ratio,
        fan_speed=air.fan_speed,
        V_fan_zone=air.V_fan_zone,
        V_ram_zone=air.V_ram_zone,
        engine_speed=flows.asked.engine_speed * running,
        engine_power=engine.power * running,
        power_short=engine.short_of * running,
        compressor_power=air.compressor_power,
        engine_heat=engine.coolant * running,
        gearbox_heat_made=paths.to_gearbox,
        core_heat=paths.core_heat(mean),
        surface_heat=paths.surface_heat(mean),
        heater_heat=paths.heater_heat(mean),
        gearbox_heat=paths.gearbox_heat(mean),
        expelled_heat=expelled / dt,
        stored_heat=sum(c * t for c, t in zip(C, T, strict=True)),
        coolant_lost=state.lost,
    )
    return State(after, lagging, lost, flows.core_flow, flows.fan_zone), course


def flows_of(vehicle: Vehicle, fixed: Fixed, state: State, brings: StepInputs) -> Flows:
    """Air, coolant and the engine's heat as they are at a state: sought from where they were a step before."""
    duty, day = brings.duty, brings.day
    asked = _asked(vehicle, brings, state.T.coolant)
    at = dataclasses.replace(vehicle, fill=dataclasses.replace(vehicle.fill, air=vehicle.fill.air + state.lost))
    opening = state.lagging.opening(vehicle)
    loop, core_flow = followed_coolant_side(
        at, fixed.tubes, state.core_flow, T_engine_out=state.T.coolant, opening=opening,
        engine_speed=asked.engine_speed, p_air=day.p, heat=brings.heat_guess,
        load=brings.running * asked.drive_power / asked.most_power,
    )  # fmt: skip
    cooler = vehicle.transmission_cooler
    ahead = cooler.reach(C_sink=OPEN_AIR) * cooler.to_core_air() * jnp.maximum(state.T.gearbox - day.T, 0.0)
    stated = problem(
        vehicle, duty, day, asked, AirPath(fixed.way, brings.driven), loop, T_engine_out=state.T.coolant,
        cooler_heat=ahead, held=state.lagging.fan_held(vehicle, duty, brings.running),
    )  # fmt: skip
    air, fan_zone = followed_air_side(stated, brings.near, state.fan_zone)
    engine = engine_heat(
        vehicle, asked, day, fan_power=air.fan_power, compressor_power=air.compressor_power, T_oil=state.T.oil
    )
    return Flows(asked, opening, loop, air, engine, core_flow, fan_zone)


def paths_of(vehicle: Vehicle, fixed: Fixed, flows: Flows, brings: StepInputs) -> Paths:
    """What goes into the masses and leads on from them while these flows last."""
    cooler, running = vehicle.transmission_cooler, brings.running
    by_metal, by_oil = turning(vehicle, flows.asked.engine_speed)
    hot, cold = core_split(flows.air.conductance, flows.loop.C_core)
    return Paths(
        to_metal=flows.engine.to_metal * running,
        to_oil=flows.engine.to_oil * running,
        to_gearbox=flows.asked.transmission_heat,
        metal_coolant=fixed.metal_coolant * by_metal,
        oil_coolant=fixed.oil_coolant * by_oil,
        flow=flows.loop.C_core,
        core_hot=hot,
        core_cold=cold,
        surface=brings.surface,
        heater=brings.heater,
        case=cooler.case_conductance,
        gearbox_tank=cooler.reach(C_sink=flows.loop.C_core) * cooler.to_coolant(),
        gearbox_air=cooler.reach(C_sink=OPEN_AIR) * (1.0 - cooler.to_coolant()),
        T_core_air=flows.air.T_core_in,
        T_ambient=brings.day.T,
    )


def _asked(vehicle: Vehicle, brings: StepInputs, T: Real) -> Demand:
    """What the duty asks of the engine; shut down, nothing but that the coolant rises by itself.

    Cold, the engine idles faster where the vehicle stands; on the road that is too little to matter.
    """
    ratio, running = vehicle.engine.idle_over_hot(T_coolant=T), brings.running
    asked = at_faster_idle(brings.asked, idles=brings.idles, ratio=ratio)
    return asked._replace(
        engine_speed=jnp.where(running > 0.5, asked.engine_speed, BUOYANT * vehicle.engine.idle_speed),
        transmission_heat=asked.transmission_heat * running,
        cooling_load=asked.cooling_load * running,
    )


def _left(fixed: Fixed, vehicle: Vehicle, lost: Real) -> Nodes:
    """Heat capacities with what is left of the coolant [J/K]."""
    gone = lost / jnp.maximum(1.0 - vehicle.fill.air, 0.1)
    return Nodes(*(full - gone * liquid for full, liquid in zip(fixed.capacities, fixed.liquid, strict=True)))


def _boiled_off(vehicle: Vehicle, fixed: Fixed, T: Nodes, lost: Real, brings: StepInputs) -> tuple[Nodes, Real, Real]:
    """Hold the coolant at its boiling point: what is over turns to steam, which carries liquid past the cap.

    Returns the temperatures, the share of the volume lost since the start and the heat that went with it [J]. A gearbox
    past all limits gives off what is over too.
    """
    C = _left(fixed, vehicle, lost)
    over = C.coolant * jnp.maximum(T.coolant - brings.T_boiling, 0.0)
    held = T._replace(
        coolant=jnp.minimum(T.coolant, brings.T_boiling),
        gearbox=jnp.minimum(T.gearbox, jnp.maximum(T_FLUID_LIMIT, T.core)),
    )
    most = jnp.maximum(EMPTIEST - vehicle.fill.air, 0.0)
    now = jnp.minimum(lost + over * brings.lost_per_heat, jnp.maximum(most, lost))
    before = sum(c * t for c, t in zip(C, T, strict=True))
    left = sum(c * t for c, t in zip(_left(fixed, vehicle, now), held, strict=True))
    return held, now, before - left


def _first(leaf: Real) -> Real:
    return leaf[0]
