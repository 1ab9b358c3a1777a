"""What is asked of the engine before any temperature is known, and the heat that follows once they are."""

from typing import NamedTuple

from toptank.equations.atmosphere import pressure_at_altitude
from toptank.equations.cold_friction import WARM, cold_friction
from toptank.equations.road_load import road_load_power
from toptank.media import air
from toptank.parts.engine import RHO_STATED, Burnt
from toptank.system.duty import Duty
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real, namespace

GRAVITY = 9.80665
"""Standard gravity [m/s2]."""

ELECTRIC_CHAIN = 0.39
"""Power at an electric fan's blades over power taken from the engine: motor 0.7 times alternator 0.55; judgement."""

STANDING_SPEED = 0.3
"""Road speed below which the vehicle counts as standing [m/s]."""


BAY_FLUSHED = 27.0
"""Road speed at which half of the warmth of the air around the engine is blown away [m/s]; logged warm-ups."""

SURFACE_SPEED = 15.0
"""Road speed at which the outside of the engine gives off twice what it gives standing [m/s]; logged warm-ups."""


METAL_POWER, OIL_POWER = 0.4, 0.85
"""Heat from metal and from oil to coolant: power of engine speed [1]; the second from logged warm-ups.

Splashed oil follows the crankshaft as the coolant follows its pump: logs of cold engines show it far behind at idle."""

LEAST_TURNING = 0.03
"""Engine speed over the highest below which that heat falls no further [1]: what conducts and rises by itself."""

TANK_LOSS = 10.0
"""Capacity rate of coolant below which the radiator's hot tank stands nearer to the core than to the engine [W/K]."""


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


class EngineHeat(NamedTuple):
    """Brake power, fuel power, heat to the coolant [W], load [1], power asked beyond full load [W].

    Of that heat, what goes to oil and lower block first, and what to the metal that the gas heats [W].
    """

    power: Real
    fuel: Real
    coolant: Real
    to_oil: Real
    to_metal: Real
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
    xp = namespace(duty.speed, duty.ambient, vehicle.body.mass)
    engine, drivetrain, body = vehicle.engine, vehicle.drivetrain, vehicle.body
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
    speed, power, heat = drivetrain.choose(
        speed=duty.speed, wheel_power=xp.maximum(wheel_power, 0.0), gear=duty.gear, engine=engine, rho=day.rho
    )
    standing = duty.speed < STANDING_SPEED
    drag = drivetrain.standing_drag(engine=engine, in_gear=duty.in_gear, rho=day.rho)
    speed = xp.where(standing, engine.idle_speed, speed)
    speed = xp.where(duty.engine_speed > 0.0, duty.engine_speed, speed)
    return Demand(
        engine_speed=speed,
        drive_power=xp.where(standing, drag, power) + duty.shaft_load,
        transmission_heat=xp.where(standing, drag, heat),
        most_power=engine.most_power(speed=speed, rho=day.rho),
        cooling_load=vehicle.condenser.load(
            T_ambient=day.T, engine_speed=speed, air_conditioning=duty.air_conditioning
        ),
    )


def idles(duty: Duty) -> Real:
    """1 where the engine idles: the vehicle stands and nothing is said of the engine's speed [1]."""
    xp = namespace(duty.speed)
    return xp.where((duty.speed < STANDING_SPEED) & (duty.engine_speed <= 0.0), 1.0, 0.0)


def at_faster_idle(asked: Demand, *, idles: Real, ratio: Real) -> Demand:
    """The same where the engine idles faster than when hot, by a ratio [1].

    The drag in gear goes with the cube of the speed. The little more that a compressor then gives is left out: nobody
    cools a cabin with an engine that is still cold.
    """
    faster = 1.0 + idles * (ratio - 1.0)
    more = idles * (ratio * ratio * ratio - 1.0) * asked.transmission_heat
    return asked._replace(
        engine_speed=asked.engine_speed * faster,
        drive_power=asked.drive_power + more,
        transmission_heat=asked.transmission_heat + more,
        most_power=asked.most_power * faster,
    )


def engine_heat(
    vehicle: Vehicle, asked: Demand, day: Weather, *, fan_power: Real, compressor_power: Real, T_oil: Real = WARM
) -> EngineHeat:
    """Heat that the engine gives to the coolant once fan and compressor power [W] and its oil [K] are known.

    In a steady balance the oil is warm; on a drive cold oil rubs more, which costs fuel and makes heat.
    """
    xp = namespace(fan_power, asked.drive_power)
    engine = vehicle.engine
    chain = xp.where(vehicle.fan.drive > 1.5, ELECTRIC_CHAIN, 1.0)
    power = asked.drive_power + engine.accessories + fan_power / chain + compressor_power
    given = xp.minimum(power, asked.most_power)
    doubts = vehicle.doubts
    burnt = engine.burnt(
        power=given, speed=asked.engine_speed, rho=day.rho,
        film_power=doubts.film_power, friction_share=doubts.friction_share,
        cold=cold_friction(T_oil, doubts.cold_friction),
    )  # fmt: skip
    return _given(vehicle, burnt, power=given, short_of=xp.maximum(power - asked.most_power, 0.0))


def _given(vehicle: Vehicle, burnt: Burnt, *, power: Real, short_of: Real) -> EngineHeat:
    doubt, oil_share = vehicle.doubts.coolant_heat, vehicle.engine.oil_share
    to_oil = (burnt.friction + oil_share * burnt.film) * doubt
    to_metal = (1.0 - oil_share) * burnt.film * doubt
    return EngineHeat(
        power=power,
        fuel=burnt.fuel,
        coolant=to_oil + to_metal,
        to_oil=to_oil,
        to_metal=to_metal,
        load=burnt.load,
        short_of=short_of,
    )


def surface_conductance(vehicle: Vehicle, duty: Duty) -> Real:
    """Heat lost from the outside of the engine per kelvin between coolant and outside air [W/K].

    It sinks to the air under the bonnet, which soaks where the vehicle stands and is flushed by driving.
    """
    bay = vehicle.doubts.bay_warmth / (1.0 + (duty.speed / BAY_FLUSHED) ** 2)
    return vehicle.engine.surface_conductance * (1.0 + duty.speed / SURFACE_SPEED) * (1.0 - bay)


def to_coolant(vehicle: Vehicle) -> tuple[Real, Real]:
    """Conductances of heated metal and of oil with lower block to the coolant, at the highest engine speed [W/K]."""
    engine, doubts = vehicle.engine, vehicle.doubts
    speed = engine.top_speed
    power = engine.most_power(speed=speed, rho=RHO_STATED)
    burnt = engine.burnt(
        power=power, speed=speed, rho=RHO_STATED, film_power=doubts.film_power, friction_share=doubts.friction_share
    )
    full = _given(vehicle, burnt, power=power, short_of=0.0 * power)
    return full.to_metal / engine.metal_above_coolant, full.to_oil / engine.oil_above_coolant


def turning(vehicle: Vehicle, engine_speed: Real) -> tuple[Real, Real]:
    """The same two conductances at an engine speed [1/s], over those at the highest [1, 1]."""
    xp = namespace(engine_speed)
    share = xp.log(xp.clip(engine_speed / vehicle.engine.top_speed, LEAST_TURNING, 1.5))
    return xp.exp(METAL_POWER * share), xp.exp(OIL_POWER * share)


def tank_temperature(T_engine_out: Real, T_core: Real, flow: Real) -> Real:
    """Temperature in the radiator's hot tank [K]: that of the engine once more than a trickle comes [W/K]."""
    return T_core + (T_engine_out - T_core) * flow / (flow + TANK_LOSS)
