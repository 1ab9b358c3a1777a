"""The coolant loop: pump against hoses, jackets, thermostat and core, with a bypass beside them."""

from collections.abc import Callable
from typing import NamedTuple

from toptank.equations.heat_gain import temperature_change
from toptank.equations.pipe_loss import minor_loss
from toptank.media import coolant
from toptank.parts.coolant_passage import CoolantPassage
from toptank.parts.water_pump import STATED_SPEED
from toptank.system.numerics.jax_library import fori
from toptank.system.numerics.root import Followed, followed_root
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real, namespace

FIRST_STEP = 1.3
"""First correction over what the first pass asks: a smaller flow meets a larger friction factor [1]."""

LEAST_NEAR = 0.02
"""Least flow from which it is sought over that which nothing but pump, hoses and jackets hinders [1]."""

SPILT = 0.002
"""Share of its head with which a pump that cannot lift the coolant over the top still moves some [1]; judgement."""

PASSES = 6
"""Passes over the core's friction: enough for a ten-thousandth of the flow, save where a starved pump rules it."""


class CoolantSide(NamedTuple):
    """Flows [m3/s], opening [1], capacity rates [W/K], conductance per face [W/(m2 K)], pressures [Pa], head [1]."""

    core_flow: Real
    bypass_flow: Real
    opening: Real
    C_core: Real
    C_total: Real
    passes: Real
    core_conductance: Real
    tube_reynolds: Real
    core_pressure_drop: Real
    eye_margin: Real
    head_left: Real
    wet: Real


def coolant_side(
    vehicle: Vehicle,
    tubes: CoolantPassage,
    *,
    T_engine_out: Real,
    opening: Real,
    engine_speed: Real,
    p_air: Real,
    heat: Real,
    load: Real,
) -> CoolantSide:
    """Flows and conductance of the coolant side for a temperature leaving the engine.

    With every loss but the core's a plain square of the flow, the balance of pump and loop is explicit once the core's
    friction and the starving of the pump are known; a few secant steps settle the flow at which they were taken.

    Parameters
    ----------
    vehicle : the vehicle
    tubes : the coolant's way through its core
    T_engine_out : temperature leaving the engine [K]
    opening : of the thermostat, over full [1]
    engine_speed : crankshaft speed [1/s]
    p_air : pressure of the air [Pa]
    heat : rough heat given to the coolant, for the temperature at the pump eye [W]
    load : of the engine, for the gas that a leaking gasket lets in [1]
    """
    loop = _loop(vehicle, tubes, T_engine_out, opening, engine_speed, p_air, heat, load)
    core_flow = _settled(lambda at: loop.around(at).core_flow, loop.unhindered)
    return _side(vehicle, loop, loop.around(core_flow))


def followed_coolant_side(
    vehicle: Vehicle,
    tubes: CoolantPassage,
    last: Followed,
    *,
    T_engine_out: Real,
    opening: Real,
    engine_speed: Real,
    p_air: Real,
    heat: Real,
    load: Real,
) -> tuple[CoolantSide, Followed]:
    """The same followed from what share of the unhindered flow went through the core lately; say where to go on from.

    Parameters
    ----------
    last : share of the flow that nothing but pump, hoses and jackets hinders [1]
    """
    loop = _loop(vehicle, tubes, T_engine_out, opening, engine_speed, p_air, heat, load)
    xp = namespace(T_engine_out, engine_speed)

    def residual(share: Real) -> tuple[Real, _Round]:
        found = loop.around(share * loop.unhindered)
        return xp.log(share * loop.unhindered / found.core_flow), found

    found, onward = followed_root(residual, last, low=LEAST_NEAR, high=1.0)
    return _side(vehicle, loop, found), onward


class _Round(NamedTuple):
    core_flow: Real
    bypass_flow: Real
    core_loss: Real
    eye_margin: Real
    head_left: Real


class _Loop(NamedTuple):
    """The loop at one temperature: properties of the coolant, and what goes round for a flow through the core."""

    tubes: CoolantPassage
    wet: Real
    opening: Real
    rho: Real
    mu: Real
    k: Real
    c_p: Real
    unhindered: Real
    around: Callable[[Real], _Round]


def _loop(
    vehicle: Vehicle,
    tubes: CoolantPassage,
    T: Real,
    opening: Real,
    engine_speed: Real,
    p_air: Real,
    heat: Real,
    load: Real,
) -> _Loop:
    xp = namespace(T, engine_speed, vehicle.core.rows)
    fill, pump, thermostat = vehicle.fill, vehicle.water_pump, vehicle.thermostat
    mix = (fill.concentrate, fill.glycol)
    properties = (coolant.density, coolant.viscosity, coolant.conductivity, coolant.heat_capacity)
    rho, mu, k, c_p = (of(T, *mix) for of in properties)

    air = fill.air_at(load=load)
    wet, tubes = fill.wet(air=air), tubes.reached(fill.wet(air=air))
    pump_speed = pump.speed(engine_speed=engine_speed)
    suction = _of_flow(rho, vehicle.hoses.bottom_area(pump_speed=pump_speed))

    branch = _of_flow(rho, vehicle.hoses.top_area()) + suction + _of_flow(rho, thermostat.port_area * opening)
    jackets = _of_flow(rho, vehicle.engine.jacket_area)
    bypass_root = thermostat.bypass(opening=opening) * xp.sqrt(2.0 / rho)

    n = pump_speed / STATED_SPEED
    lift = fill.lift(air=air, rho=rho)
    curve = pump.dead_head / (pump.free_flow * pump.free_flow)
    sound, held = (1.0 - pump.wear) * fill.head_left(air=air), p_air + vehicle.cap.held_pressure()

    def over_the_top(left: Real) -> Real:
        """Head beyond the lift [Pa]: a pump that cannot lift the coolant over the top moves next to none."""
        head = n * n * pump.dead_head * left
        return xp.maximum(head - lift, SPILT * head)

    def around(at: Real) -> _Round:
        """Losses and cavitation taken at one core flow [m3/s], and the flow that they let through."""
        core_loss = tubes.pressure_drop(flow=at, rho=rho, mu=mu)
        branch_loss = branch + core_loss / (at * at)
        by_core = bypass_root * xp.sqrt(branch_loss)
        T_eye = T - temperature_change(heat, at * (1.0 + by_core) * rho, c_p)
        eye_margin = held - suction * at * at - coolant.saturation_pressure(T_eye, *mix)
        cavitation = pump.head_left(eye_margin=eye_margin)
        left = sound * cavitation
        total = branch_loss + (1.0 + by_core) * (1.0 + by_core) * (curve * left + jackets)
        through = xp.sqrt(over_the_top(left) / total)
        return _Round(through, through * by_core, core_loss, eye_margin, cavitation)

    unhindered = xp.sqrt(over_the_top(sound) / (branch + curve * sound + jackets))
    return _Loop(tubes, wet, opening, rho, mu, k, c_p, unhindered, around)


def _side(vehicle: Vehicle, loop: _Loop, found: _Round) -> CoolantSide:
    rho, c_p = loop.rho, loop.c_p
    conductance, Re = loop.tubes.conductance(
        flow=found.core_flow, rho=rho, mu=loop.mu, k=loop.k, c_p=c_p,
        Re_transition=vehicle.doubts.transition_reynolds, enhancement=vehicle.doubts.tube_enhancement,
    )  # fmt: skip
    return CoolantSide(
        core_flow=found.core_flow,
        bypass_flow=found.bypass_flow,
        opening=loop.opening,
        C_core=found.core_flow * rho * c_p,
        C_total=(found.core_flow + found.bypass_flow) * rho * c_p,
        passes=loop.tubes.passes,
        core_conductance=conductance,
        tube_reynolds=Re,
        core_pressure_drop=found.core_loss,
        eye_margin=found.eye_margin,
        head_left=found.head_left,
        wet=loop.wet,
    )


def _settled(passed_on: Callable[[Real], Real], flow: Real) -> Real:
    """Flow that is passed on unchanged, by secants on logarithms: the friction goes nearly as a power of the flow."""
    xp = namespace(flow)

    def secant(_: int, state: tuple[Real, Real, Real]) -> tuple[Real, Real, Real]:
        x_0, f_0, x_1 = state  # at first x_0 = x_1: there is no gap yet
        f_1 = xp.log(passed_on(xp.exp(x_1))) - x_1
        bend = f_1 - f_0
        step = f_1 * xp.where(x_1 == x_0, -FIRST_STEP, (x_1 - x_0) / xp.where(bend == 0.0, 1.0, bend))
        return x_1, f_1, x_1 - xp.clip(step, -1.5, 1.5)

    x = xp.log(flow)
    return xp.exp(fori(PASSES, secant, (x, xp.zeros_like(x), x))[2])


def _of_flow(rho: Real, area: Real) -> Real:
    """Loss over the square of the flow [Pa/(m3/s)2] of an area that is stated for a loss of one dynamic head [m2]."""
    return minor_loss(1.0, rho, 1.0, area)
