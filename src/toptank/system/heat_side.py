"""What is asked of the engine before any temperature is known, and the heat that follows once they are."""

from typing import NamedTuple

from toptank.equations.atmosphere import pressure_at_altitude
from toptank.equations.road_load import road_load_power
from toptank.media import air
from toptank.system.duty import Duty
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real, namespace

GRAVITY = 9.80665
"""Standard gravity [m/s2]."""

ELECTRIC_CHAIN = 0.39
"""Power at an electric fan's blades over power taken from the engine: motor 0.7 times alternator 0.55; judgement."""

STANDING_SPEED = 0.3
"""Road speed below which the vehicle counts as standing [m/s]."""


BAY_WARMTH = 0.25
"""Warmth of the air around the engine over that of the coolant, both above ambient [1]; judgement.

Not tied to the air behind the core: at a crawl of air that would let the core take from the surface what it gives."""


class Weather(NamedTuple):
    """The air: temperature [K], pressure [Pa], humidity ratio [1], density [kg/m3], heat capacity [J/(kg K)]."""

    T: Real
    p: Real
    humidity_ratio: Real
    rho: Real
    c_p: Real


class Demand(NamedTuple):
    """What the duty asks: engine speed [1/s], drive power, transmission heat, most power, cooling load [W]."""

    engine_speed: Real
    drive_power: Real
    transmission_heat: Real
    most_power: Real
    cooling_load: Real


class Moving(NamedTuple):
    """What it takes to move: engine speed [1/s], power at the crankshaft, heat left in the transmission [W]."""

    engine_speed: Real
    power: Real
    transmission_heat: Real


class EngineHeat(NamedTuple):
    """Brake power [W], fuel power [W], heat to the coolant [W], load [1], power asked beyond full load [W]."""

    power: Real
    fuel: Real
    coolant: Real
    load: Real
    short_of: Real


def weather(duty: Duty) -> Weather:
    """The air at the altitude, temperature and humidity of a duty."""
    p = pressure_at_altitude(duty.altitude)
    w = air.humidity_ratio(duty.ambient, duty.humidity, p)
    return Weather(T=duty.ambient, p=p, humidity_ratio=w, rho=air.density(duty.ambient, p, w), c_p=air.heat_capacity(w))


def air_speed(duty: Duty) -> Real:
    """Speed of the air against the nose [m/s]; a following wind faster than the vehicle blows from behind: none."""
    xp = namespace(duty.speed, duty.head_wind)
    return xp.maximum(duty.speed + duty.head_wind, 0.0)


def demand(vehicle: Vehicle, duty: Duty, day: Weather) -> Demand:
    """Engine speed, power and transmission heat that a duty asks of a vehicle that is warm."""
    return whole_demand(vehicle, duty, day, moving(vehicle, duty, day), idle=vehicle.engine.idle_speed)


def moving(vehicle: Vehicle, duty: Duty, day: Weather) -> Moving:
    """What it takes to move as a duty says, with a warm engine."""
    xp = namespace(duty.speed, duty.ambient, vehicle.body.mass)
    body = vehicle.body
    wheel_power = road_load_power(
        m=body.mass + duty.trailer_mass,
        V=duty.speed,
        grade=duty.grade,
        C_rr=body.rolling_resistance,
        C_dA=body.drag_area + duty.trailer_drag_area,
        rho=day.rho,
        g=GRAVITY,
        U=air_speed(duty),
    )
    return Moving(
        *vehicle.drivetrain.choose(
            speed=duty.speed,
            wheel_power=xp.maximum(wheel_power, 0.0),
            gear=duty.gear,
            engine=vehicle.engine,
            rho=day.rho,
        )
    )


def whole_demand(vehicle: Vehicle, duty: Duty, day: Weather, to_move: Moving, *, idle: Real) -> Demand:
    """What a duty asks in all, with the engine at an idle speed [1/s] where the vehicle stands."""
    xp = namespace(duty.speed, idle)
    engine = vehicle.engine
    standing = duty.speed < STANDING_SPEED
    drag = vehicle.drivetrain.standing_drag(engine=engine, idle=idle, in_gear=duty.in_gear, rho=day.rho)
    speed = xp.where(standing, idle, to_move.engine_speed)
    speed = xp.where(duty.engine_speed > 0.0, duty.engine_speed, speed)
    return Demand(
        engine_speed=speed,
        drive_power=xp.where(standing, drag, to_move.power) + duty.shaft_load,
        transmission_heat=xp.where(standing, drag, to_move.transmission_heat),
        most_power=engine.most_power(speed=speed, rho=day.rho),
        cooling_load=vehicle.condenser.load(
            T_ambient=day.T, engine_speed=speed, air_conditioning=duty.air_conditioning
        ),
    )


def engine_heat(
    vehicle: Vehicle, asked: Demand, day: Weather, *, fan_power: Real, compressor_power: Real
) -> EngineHeat:
    """Heat that the engine gives to the coolant once fan and compressor power are known [W]."""
    xp = namespace(fan_power, asked.drive_power)
    engine = vehicle.engine
    chain = xp.where(vehicle.fan.drive > 1.5, ELECTRIC_CHAIN, 1.0)
    power = asked.drive_power + engine.accessories + fan_power / chain + compressor_power
    given = xp.minimum(power, asked.most_power)
    fuel, coolant, load = engine.heat(power=given, speed=asked.engine_speed, rho=day.rho)
    return EngineHeat(
        power=given,
        fuel=fuel,
        coolant=coolant * vehicle.doubts.coolant_heat,
        load=load,
        short_of=xp.maximum(power - asked.most_power, 0.0),
    )


def surface_conductance(vehicle: Vehicle, duty: Duty) -> Real:
    """Heat lost from the outside of the engine per kelvin between coolant and outside air [W/K]."""
    return vehicle.engine.surface_conductance * (1.0 + duty.speed / 15.0) * (1.0 - BAY_WARMTH)
