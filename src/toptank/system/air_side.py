"""The air: ram pressure and fan against grille, condenser, core and engine bay, in two zones of the face.

Zone 1 is the part of the face that the fan draws through, zone 2 the rest, which has ram air only. Given the velocity
in zone 1, everything else (outlet temperature, clutch, fan speed, leaks) is explicit, so that one bracketed root in
that velocity closes the air side.
"""

from typing import Any, NamedTuple

from toptank.equations.effectiveness import crossflow
from toptank.equations.ram import dynamic_pressure
from toptank.media import air
from toptank.parts.core_rating import air_conductance, air_pressure_drop
from toptank.system.coolant_side import CoolantSide
from toptank.system.duty import Duty
from toptank.system.heat_side import Demand, Weather, air_speed
from toptank.system.jax_library import jnp, once
from toptank.system.root import Bracket, bracketed_root
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real

SLOWEST, FASTEST = 0.02, 40.0
"""Bracket of the face velocity [m/s]; below it a draught by buoyancy goes on."""

RAM_STEPS = 10
ORIFICE = 0.65
"""Discharge coefficient of a gap with sharp edges [1]."""

RECIRCULATION_FADES = 6.0
"""Road speed at which half of the standing recirculation is blown away [m/s]; judgement."""

BEHIND_HUB = 0.5
"""How far the slow air behind the hub is warmed beyond the rest, towards the coolant [1].

The coil of a clutch sits there. Told pairs (170 degF at the coil with coolant at 180 to 190 degF, common practice) ask
for 0.3 to 0.7."""

HOTTEST_COOLER_RISE = 50.0
"""Most that a transmission cooler can warm the air ahead of the core [K]."""


class Hint(NamedTuple):
    """Where to look for the velocity in zone 1 [m/s]: value, share by which it may be off, slope of the pressures."""

    V: Real
    width: Real
    slope: Real


class Zone(NamedTuple):
    """One zone of the face: air capacity rate [W/K], effectiveness on the air side [1]."""

    C_air: Real
    effectiveness: Real


class AirSide(NamedTuple):
    """The settled air side."""

    V_fan_zone: Real
    V_ram_zone: Real
    C_air: Real
    conductance: Real
    T_core_in: Real
    T_core_out: Real
    T_coil: Real
    fan_speed: Real
    fan_power: Real
    clutch_ratio: Real
    condenser_heat: Real
    compressor_power: Real
    T_condensing: Real
    pressure_balance: Real


def fan_share(vehicle: Vehicle) -> Real:
    """Share of the face in zone 1 [1]."""
    return vehicle.shroud.fan_share(
        fan_diameter=vehicle.fan.diameter, fans=vehicle.fan.count, face_area=vehicle.core.face_area()
    )


def ram_pressure(vehicle: Vehicle, duty: Duty, day: Weather) -> Real:
    """Pressure by which driving pushes air through the face [Pa]."""
    return vehicle.grille.ram_pressure(dynamic_pressure=dynamic_pressure(day.rho, air_speed(duty)))


def resistance(vehicle: Vehicle, day: Weather, *, V: Real, T_out: Real) -> Real:
    """Pressure that a velocity through the open part of the face costs from nose to underside [Pa]."""
    rho_out = air.density(T_out, day.p, day.humidity_ratio)
    mu = air.viscosity(0.5 * (day.T + T_out))
    V_face = V * (1.0 - vehicle.core.blocked_face)
    heads = vehicle.grille.losses() + vehicle.condenser.present * vehicle.condenser.coverage * (
        vehicle.condenser.loss_coefficient
    )
    core = air_pressure_drop(
        vehicle.core, V_open=V, rho_in=day.rho, rho_out=rho_out, mu=mu, friction=vehicle.doubts.air_friction
    )
    return core + heads * dynamic_pressure(day.rho, V_face)


def ram_zone_velocity(vehicle: Vehicle, duty: Duty, day: Weather) -> Real:
    """Velocity in zone 2 [m/s]: ram air alone. Its outlet is taken 30 K warm: a percent of density, no more."""
    ram = ram_pressure(vehicle, duty, day)

    def residual(V: Real, nothing: tuple[()]) -> tuple[Real, Real, tuple[()]]:
        return resistance(vehicle, day, V=V, T_out=day.T + 30.0) - ram, V, nothing

    guess = 0.17 * air_speed(duty) + 0.05
    return bracketed_root(residual, _bracket(guess, 0.5, 0.0), (), steps=RAM_STEPS)[0]


def first_hint(vehicle: Vehicle, duty: Duty, asked: Demand) -> Hint:
    """A rough velocity in zone 1: what ram air and a half engaged fan usually give."""
    drawn = 0.12 * asked.engine_speed * vehicle.fan.belt_ratio * vehicle.fan.diameter
    blown = 0.17 * air_speed(duty)
    return Hint(jnp.sqrt(drawn * drawn + blown * blown + 0.01), jnp.full_like(drawn, 0.5), jnp.zeros_like(drawn))


def zone(vehicle: Vehicle, day: Weather, coolant: CoolantSide, *, V: Real, share: Real, T_mean: Real) -> Zone:
    """Capacity rate and effectiveness of the air of one zone.

    Parameters
    ----------
    vehicle, day, coolant : the vehicle, the air of the day, the settled coolant side
    V : velocity ahead of the open part of the face [m/s]
    share : share of the face [1]
    T_mean : mean air temperature in the core [K]
    """
    core = vehicle.core
    per_area = air_conductance(
        core,
        V_open=V,
        rho=day.rho,
        mu=air.viscosity(T_mean),
        k=air.conductivity(T_mean),
        c_p=day.c_p,
        heat_transfer=vehicle.doubts.air_heat_transfer,
    )
    per_area, to_wall = once(per_area), coolant.core_conductance
    UA = per_area * to_wall / (per_area + to_wall)
    C_open = day.rho * V * day.c_p
    C_air = C_open * core.face_area() * (1.0 - core.blocked_face) * share
    C_r = C_air * (1.0 / (core.passes * share * coolant.C_core))
    return Zone(C_air=C_air, effectiveness=once(crossflow(UA / C_open, C_r)))


class Problem(NamedTuple):
    """All that the air side rests on while its velocity is sought."""

    vehicle: Vehicle
    duty: Duty
    day: Weather
    asked: Demand
    coolant: CoolantSide
    T_engine_out: Real
    T_mean: Real
    V_ram_zone: Real
    ram_zone: Zone
    cooler_heat: Real


def problem(
    vehicle: Vehicle,
    duty: Duty,
    day: Weather,
    asked: Demand,
    coolant: CoolantSide,
    *,
    T_engine_out: Real,
    V_ram_zone: Real,
    cooler_heat: Real,
) -> Problem:
    """State the air side's problem; what does not depend on the velocity in zone 1 is worked out here.

    Parameters
    ----------
    vehicle, duty, day, asked, coolant : the vehicle, the duty, its air, its demand, the settled coolant side
    T_engine_out : temperature of the coolant at the core [K]
    V_ram_zone : velocity in zone 2 [m/s]
    cooler_heat : heat of a transmission cooler ahead of the core [W]
    """
    T_mean = day.T + 0.4 * (T_engine_out - day.T)
    ram_zone = zone(vehicle, day, coolant, V=V_ram_zone, share=1.0 - fan_share(vehicle), T_mean=T_mean)
    return Problem(vehicle, duty, day, asked, coolant, T_engine_out, T_mean, V_ram_zone, ram_zone, cooler_heat)


def air_side(problem: Problem, hint: Hint, *, steps: int) -> tuple[AirSide, Hint]:
    """Settle the air side of a problem; the hint only shortens the way."""

    def residual(V: Real, _: Any) -> tuple[Real, AirSide, Real]:
        air = air_at(problem, V)
        return -air.pressure_balance, air, V

    air, V, found = bracketed_root(residual, _bracket(*hint), hint.V, steps=steps)
    return air, Hint(V, jnp.clip(4.0 * jnp.abs(V / hint.V - 1.0), 1e-3, 0.5), found.slope)


def air_at(problem: Problem, V: Real) -> AirSide:
    """Everything on the air side for a velocity in zone 1; `pressure_balance` [Pa] is fan and ram less resistance."""
    vehicle, duty, day, asked, coolant, T_engine_out, T_mean, V_ram_zone, ram_zone, cooler_heat = problem
    fan, shroud = vehicle.fan, vehicle.shroud
    share, ram = fan_share(vehicle), ram_pressure(vehicle, duty, day)
    fan_zone = zone(vehicle, day, coolant, V=V, share=share, T_mean=T_mean)
    C_air = fan_zone.C_air + ram_zone.C_air
    taken = fan_zone.C_air * fan_zone.effectiveness + ram_zone.C_air * ram_zone.effectiveness
    per_C_air = 1.0 / C_air
    mean = taken * per_C_air

    recirculation = shroud.recirculation / (1.0 + (duty.speed / RECIRCULATION_FADES) ** 2)
    heat, power, T_condensing = vehicle.condenser.balance(
        load=asked.cooling_load,
        C_air=C_air * vehicle.condenser.coverage + 1e-6,
        T_air_in=day.T + recirculation * mean * (T_engine_out - day.T),
        V_face=V * share + V_ram_zone * (1.0 - share),
    )
    # Passes in series on the coolant, each with fresh air over its part of the face.
    passes = vehicle.core.passes
    used = jnp.clip(taken * (1.0 / (passes * coolant.C_core)), 0.0, 1.0 - 1e-12)
    conductance = coolant.C_core * -jnp.expm1(passes * jnp.log1p(-used))
    kappa = conductance * per_C_air
    front = (heat + jnp.minimum(cooler_heat, HOTTEST_COOLER_RISE * C_air)) * per_C_air
    T_in = (day.T * (1.0 - recirculation) + recirculation * kappa * T_engine_out + front) / (
        1.0 - recirculation * (1.0 - kappa)
    )
    T_fan = T_in + fan_zone.effectiveness * (conductance / taken) * (T_engine_out - T_in)
    T_coil = T_fan + BEHIND_HUB * (T_engine_out - T_fan)
    rho_fan = air.density(T_fan, day.p, day.humidity_ratio)

    rise = once(resistance(vehicle, day, V=V, T_out=T_fan)) - ram
    flow = fan_zone.C_air / day.c_p / rho_fan + _leak(vehicle, rise, rho_fan)
    U = jnp.maximum(flow, 0.0) * (1.0 / (fan.count * jnp.pi / 4.0 * fan.diameter * fan.diameter))
    clutch_ratio = vehicle.fan_clutch.ratio(T_coil=T_coil)
    speed = fan.speed(
        drive_speed=fan.drive_speed(
            engine_speed=asked.engine_speed, T_switch=T_engine_out, air_conditioning=duty.air_conditioning
        ),
        clutch_ratio=clutch_ratio,
        reference_speed=vehicle.fan_clutch.reference_speed,
        U=U,
        rho=rho_fan,
    )
    clearance = shroud.clearance_factor(fan_diameter=fan.diameter)
    given = fan.pressure(speed=speed, flow=flow, rho=rho_fan, left=clearance * vehicle.doubts.fan_pressure)
    return AirSide(
        V_fan_zone=V,
        V_ram_zone=V_ram_zone,
        C_air=C_air,
        conductance=conductance,
        T_core_in=T_in,
        T_core_out=T_in + kappa * (T_engine_out - T_in),
        T_coil=T_coil,
        fan_speed=speed,
        fan_power=fan.power(speed=speed, rho=rho_fan),
        clutch_ratio=clutch_ratio,
        condenser_heat=heat,
        compressor_power=power,
        T_condensing=T_condensing,
        pressure_balance=given - rise,
    )


def _leak(vehicle: Vehicle, rise: Real, rho: Real) -> Real:
    """Air [m3/s] that the fan draws past the core for the pressure it must raise [Pa]; negative through open flaps."""
    fan, shroud, face = vehicle.fan, vehicle.shroud, vehicle.core.face_area()
    gaps = shroud.leak_area(fan_diameter=fan.diameter, fans=fan.count, face_area=face)
    gaps = gaps + jnp.where(rise < 0.0, shroud.flap_area(face_area=face), 0.0)
    return ORIFICE * gaps * jnp.sqrt(2.0 / rho) * rise / jnp.sqrt(jnp.abs(rise) + 0.5)


def _bracket(V: Real, width: Real, slope: Real) -> Bracket:
    return Bracket(
        low=jnp.full_like(V, SLOWEST),
        below=V * (1.0 - width),
        middle=V,
        above=V * (1.0 + width),
        high=jnp.full_like(V, FASTEST),
        slope=slope,
    )
