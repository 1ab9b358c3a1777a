"""`steady(vehicle, duty)`: where the temperatures settle. Everything else in toptank asks questions of this function.

The coolant temperature leaving the engine is the one unknown of the outer root: more of it sheds more heat, but for two
short stretches. Near boiling the pump is starved and the coolant slows down; where a fan comes on, its power can heat
the engine more than its air takes away. Two temperatures may balance there: of the draws of typical vehicles on any
climb and day one in some thousands, boiling; either is given. For each trial value the coolant side is explicit, the
air side closes by an inner root, and the heats are compared.
"""

from typing import NamedTuple

from toptank.media import coolant
from toptank.parts.coolant_passage import CoolantPassage
from toptank.system.balance import Balance, Status
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import as_arrays, jnp
from toptank.system.numerics.root import Bracket, bracketed_root
from toptank.system.sides.air_path import AirPath, AirWay, Driven
from toptank.system.sides.air_side import AirSide, Hint, air_side, first_hint, problem
from toptank.system.sides.coolant_side import CoolantSide, coolant_side
from toptank.system.sides.heat_side import (
    Demand,
    EngineHeat,
    Weather,
    demand,
    engine_heat,
    surface_conductance,
    tank_temperature,
    to_coolant,
    turning,
    weather,
)
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real

HOTTEST = 473.15
"""Highest coolant temperature looked at [K]."""


class Steps(NamedTuple):
    """Evaluations granted to the outer root in temperature and to the inner one in air velocity."""

    temperature: int
    velocity: int


PATIENT = Steps(40, 24)
"""Enough for every vehicle and duty inside the hard limits."""

QUICK = Steps(8, 5)
"""Enough for nine draws in ten; the others are taken up again from where they stand."""


class Start(NamedTuple):
    """Where a balance stands: temperature and its doubt [K], air side. NaN: begin afresh."""

    T: Real
    width: Real
    hint: Hint


GO_ON_BEYOND = 1e-3
"""How far beyond its bracket a draw is looked for when taken up again [K]: the quick steps may have misled it."""

NO_START = Start(float("nan"), 0.0, Hint(1.0, 0.5, 0.0))

OPEN_AIR = 1e6
"""Capacity rate of air that a cooler cannot warm noticeably [W/K]."""

RACING = 1.02
"""Engine speed over its highest beyond which the duty is more than the engine can do [1]."""

SETTLED_TO = 1e-6
"""Imbalance over engine heat beyond which no balance was found [1].

What the root leaves open is far less; more is left where the air has all but stopped and its own root is not found."""


AT_THE_END = 0.5
"""How near to the highest temperature a search has looked at all of them [K]."""


class Setting(NamedTuple):
    """What does not depend on the coolant temperature: air, demand, the ways through the core, rough heat."""

    day: Weather
    asked: Demand
    path: AirPath
    tubes: CoolantPassage
    heat_guess: Real
    hint: Hint


class Trial(NamedTuple):
    """Everything at one trial temperature; `imbalance` is heat shed less heat made [W]."""

    T: Real
    coolant: CoolantSide
    air: AirSide
    engine: EngineHeat
    core_heat: Real
    surface_heat: Real
    heater_heat: Real
    tank_heat: Real
    T_bottom: Real
    T_transmission: Real
    imbalance: Real


def setting(vehicle: Vehicle, duty: Duty) -> Setting:
    """Work out what does not depend on the coolant temperature."""
    day = weather(duty)
    asked = demand(vehicle, duty, day)
    rough = engine_heat(vehicle, asked, day, fan_power=0.0 * asked.drive_power, compressor_power=asked.cooling_load / 3)
    way = AirWay.of(vehicle)
    path = AirPath(way, Driven.of(vehicle, duty, day, way))
    tubes = CoolantPassage.of(vehicle.core)
    return Setting(day, asked, path, tubes, rough.coolant, first_hint(vehicle, duty, asked))


def trial(vehicle: Vehicle, duty: Duty, given: Setting, T: Real, hint: Hint, *, steps: int) -> tuple[Trial, Hint]:
    """Coolant side, air side and heats if the coolant left the engine at T [K]; the hint only shortens the way."""
    day, asked = given.day, given.asked
    cooler = vehicle.transmission_cooler
    loop = coolant_side(
        vehicle,
        given.tubes,
        T_engine_out=T,
        opening=vehicle.thermostat.opening(T=T),
        engine_speed=asked.engine_speed,
        p_air=day.p,
        heat=given.heat_guess,
        load=asked.drive_power / asked.most_power,
    )
    to_air, T_fluid_air = cooler.split(heat=asked.transmission_heat, T_sink=day.T, C_sink=OPEN_AIR, T_ambient=day.T)
    stated = problem(
        vehicle, duty, day, asked, given.path, loop, T_engine_out=T, cooler_heat=to_air * cooler.to_core_air()
    )
    air, hint = air_side(stated, hint, steps=steps)
    engine = engine_heat(vehicle, asked, day, fan_power=air.fan_power, compressor_power=air.compressor_power)
    core_heat = air.conductance * (T - air.T_core_in)
    T_bottom = T - core_heat / loop.C_core
    surface = surface_conductance(vehicle, duty) * (T - day.T)
    heater = vehicle.heater.heat(on=duty.heater_share(), T_coolant=T, T_ambient=day.T)
    to_tank, T_fluid_tank = cooler.split(
        heat=asked.transmission_heat, T_sink=T_bottom, C_sink=loop.C_core, T_ambient=day.T
    )
    tank_heat = to_tank * cooler.to_coolant()
    at = Trial(
        T=T,
        coolant=loop,
        air=air,
        engine=engine,
        core_heat=core_heat,
        surface_heat=surface,
        heater_heat=heater,
        tank_heat=tank_heat,
        T_bottom=T_bottom,
        T_transmission=jnp.where(cooler.to_coolant() > 0.5, T_fluid_tank, T_fluid_air),
        imbalance=core_heat + surface + heater - engine.coolant - tank_heat,
    )
    return at, hint


def steady(vehicle: Vehicle, duty: Duty) -> Balance:
    """Settle one vehicle at one duty; `vmap` over either for draws. Never a NaN inside the hard limits.

    Parameters
    ----------
    vehicle : parts and doubts, all fields numbers
    duty : the steady driving condition

    Returns
    -------
    balance : where the temperatures settle, with a status; boiling is an answer, not an error
    """
    return advance(vehicle, duty, NO_START, steps=PATIENT)[0]


def advance(vehicle: Vehicle, duty: Duty, start: Start, *, steps: Steps) -> tuple[Balance, Start]:
    """Settle one vehicle at one duty from a start, in so many steps, and say where it stands: the way to go on."""
    vehicle, duty = as_arrays((vehicle, duty))
    given = setting(vehicle, duty)

    def residual(T: Real, hint: Hint) -> tuple[Real, Trial, Hint]:
        at, hint = trial(vehicle, duty, given, T, hint, steps=steps.velocity)
        return at.imbalance, at, hint

    thermostat, like = vehicle.thermostat, given.day.T
    afresh = jnp.isnan(start.T)
    full = thermostat.starts_opening + thermostat.opening_range
    bracket = Bracket(
        low=like - 1.0,
        below=jnp.where(afresh, thermostat.starts_opening, start.T - start.width),
        middle=jnp.where(afresh, full, start.T),
        above=jnp.where(afresh, full + 25.0, start.T + start.width),
        high=jnp.full_like(like, HOTTEST),
        slope=jnp.zeros_like(like),
    )
    hint = Hint(*(jnp.where(afresh, new, old) for new, old in zip(given.hint, start.hint, strict=True)))
    at, hint, found = bracketed_root(residual, bracket, hint, steps=steps.temperature)
    wide = hint._replace(width=jnp.maximum(hint.width, 0.1))
    return _balance(vehicle, given, at), Start(at.T, 1.1 * found.width + GO_ON_BEYOND, wide)


def _balance(vehicle: Vehicle, given: Setting, at: Trial) -> Balance:
    T = at.T
    fill = vehicle.fill
    T_boiling = coolant.boiling_temperature(given.day.p + vehicle.cap.held_pressure(), fill.concentrate, fill.glycol)
    T_bottom = at.T_bottom + at.tank_heat / at.coolant.C_core
    off_balance = jnp.abs(at.imbalance) > SETTLED_TO * at.engine.coolant
    wide_open = at.coolant.opening >= 0.999 * vehicle.thermostat.largest_opening
    status = jnp.where(wide_open, Status.SETTLED, Status.REGULATED)
    racing = given.asked.engine_speed > RACING * vehicle.engine.top_speed
    status = jnp.where((at.engine.short_of > 0.0) | racing, Status.SHORT_OF_POWER, status)
    status = jnp.where(T_boiling < T, Status.BOILS, status)
    unshed = (T >= HOTTEST - AT_THE_END) & (at.imbalance < 0.0)
    status = jnp.where(off_balance, jnp.where(unshed, Status.NO_BALANCE, Status.NOT_FOUND), status)
    return Balance(
        T_engine_out=T,
        T_top_tank=T,
        T_bottom_hose=T_bottom,
        T_engine_in=T - (at.engine.coolant - at.surface_heat - at.heater_heat) / at.coolant.C_total,
        T_gauge=_gauge(vehicle, given, at, T_bottom),
        T_transmission=at.T_transmission,
        T_boiling=T_boiling,
        T_core_air_in=at.air.T_core_in,
        T_core_air_out=at.air.T_core_out,
        T_coil=at.air.T_coil,
        T_condensing=at.air.T_condensing,
        core_flow=at.coolant.core_flow,
        bypass_flow=at.coolant.bypass_flow,
        thermostat_opening=at.coolant.opening,
        tube_reynolds=at.coolant.tube_reynolds,
        core_pressure_drop=at.coolant.core_pressure_drop,
        eye_margin=at.coolant.eye_margin,
        pump_head_left=at.coolant.head_left,
        air_capacity_rate=at.air.C_air,
        V_fan_zone=at.air.V_fan_zone,
        V_ram_zone=at.air.V_ram_zone,
        fan_speed=at.air.fan_speed,
        clutch_ratio=at.air.clutch_ratio,
        fan_power=at.air.fan_power,
        engine_speed=given.asked.engine_speed,
        engine_power=at.engine.power,
        engine_load=at.engine.load,
        power_short=at.engine.short_of,
        fuel_power=at.engine.fuel,
        engine_heat=at.engine.coolant,
        oil_heat=at.engine.to_oil,
        transmission_heat=at.tank_heat,
        core_heat=at.core_heat,
        surface_heat=at.surface_heat,
        heater_heat=at.heater_heat,
        condenser_heat=at.air.condenser_heat,
        compressor_power=at.air.compressor_power,
        heat_imbalance=at.imbalance,
        status=status,
    )


def _gauge(vehicle: Vehicle, given: Setting, at: Trial, T_bottom: Real) -> Real:
    metal = to_coolant(vehicle)[0] * turning(vehicle, given.asked.engine_speed)[0]
    at_sender = vehicle.gauge.at_sender(
        T_engine_out=at.T, T_metal=at.T + at.engine.to_metal / metal,
        T_tank=tank_temperature(at.T, T_bottom, at.coolant.C_core), T_ambient=given.day.T, missing=vehicle.fill.air,
    )  # fmt: skip
    return vehicle.gauge.shown(T_sender=at_sender)
