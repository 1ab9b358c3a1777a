"""The air: ram pressure and fan against grille, condenser, core and engine bay, in two zones of the face.

Zone 1 is the part of the face that the fan draws through, zone 2 the rest, which has ram air only. Given the velocity
in zone 1, everything else (outlet temperature, clutch, fan speed, leaks) is explicit, so that one bracketed root in
that velocity closes the air side.
"""

from typing import Any, NamedTuple

from toptank.equations.effectiveness import crossflow
from toptank.media import air
from toptank.parts.air_passage import Film
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import barrier, jnp
from toptank.system.numerics.root import Followed, bracketed_root, followed_root
from toptank.system.sides.air_path import FASTEST, SLOWEST, AirPath, AirWay, around
from toptank.system.sides.coolant_side import CoolantSide
from toptank.system.sides.heat_side import Demand, Weather, air_speed
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real

ORIFICE = 0.65
"""Discharge coefficient of a gap with sharp edges [1]."""

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


class FanHeld(NamedTuple):
    """A fan whose clutch and switches stand where time has left them, not where they would settle.

    clutch_ratio : fan over shaft speed at the reference speed [1]
    share : speed to which an electric fan is switched over its full speed [1]
    """

    clutch_ratio: Real
    share: Real


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


def first_hint(vehicle: Vehicle, duty: Duty, asked: Demand) -> Hint:
    """A rough velocity in zone 1: what ram air and a half engaged fan usually give."""
    drawn = 0.12 * asked.engine_speed * vehicle.fan.belt_ratio * vehicle.fan.diameter
    blown = 0.17 * air_speed(duty)
    return Hint(jnp.sqrt(drawn * drawn + blown * blown + 0.01), jnp.full_like(drawn, 0.5), jnp.zeros_like(drawn))


def zone(path: AirPath, film: Film, day: Weather, coolant: CoolantSide, *, V: Real, share: Real) -> Zone:
    """Capacity rate and effectiveness of the air of one zone.

    Parameters
    ----------
    path, film, day, coolant : the air's way, the air in the core, the air of the day, the settled coolant side
    V : velocity ahead of the open part of the face [m/s]
    share : share of the face [1]
    """
    way = path.way
    to_air = (
        barrier(way.passage.conductance(film, V_open=V, rho=day.rho, heat_transfer=way.heat_transfer)) * coolant.wet
    )
    to_wall = coolant.core_conductance
    UA = to_air * to_wall / (to_air + to_wall)
    drift = way.still_air
    C_open = day.rho * jnp.sqrt(V * V + drift * drift) * day.c_p
    C_air = C_open * way.open_area * share
    C_r = C_air * (1.0 / (coolant.passes * share * coolant.C_core))
    return Zone(C_air=C_air, effectiveness=barrier(crossflow(UA / C_open, C_r)))


class Problem(NamedTuple):
    """All that the air side rests on while its velocity is sought."""

    vehicle: Vehicle
    duty: Duty
    day: Weather
    asked: Demand
    path: AirPath
    coolant: CoolantSide
    T_engine_out: Real
    film: Film
    ram_zone: Zone
    cooler_heat: Real
    held: FanHeld | None


def problem(
    vehicle: Vehicle,
    duty: Duty,
    day: Weather,
    asked: Demand,
    path: AirPath,
    coolant: CoolantSide,
    *,
    T_engine_out: Real,
    cooler_heat: Real,
    held: FanHeld | None = None,
) -> Problem:
    """State the air side's problem; what does not depend on the velocity in zone 1 is worked out here.

    Parameters
    ----------
    vehicle, duty, day, asked, path, coolant : the vehicle, the duty, its air, its demand, the air's way, the settled
        coolant side
    T_engine_out : temperature of the coolant at the core [K]
    cooler_heat : heat of a transmission cooler ahead of the core [W]
    held : where clutch and switches of the fan stand; left out: where they settle
    """
    T_mean = day.T + 0.4 * (T_engine_out - day.T)
    film = Film.of(mu=air.viscosity(T_mean), k=air.conductivity(T_mean), c_p=day.c_p)
    ram_zone = zone(path, film, day, coolant, V=path.driven.V_ram_zone, share=1.0 - path.way.fan_share)
    return Problem(vehicle, duty, day, asked, path, coolant, T_engine_out, film, ram_zone, cooler_heat, held)


def air_side(problem: Problem, hint: Hint, *, steps: int) -> tuple[AirSide, Hint]:
    """Settle the air side of a problem; the hint only shortens the way."""

    def residual(V: Real, _: Any) -> tuple[Real, AirSide, Real]:
        air = air_at(problem, V)
        return -air.pressure_balance, air, V

    air, V, found = bracketed_root(residual, around(*hint), hint.V, steps=steps)
    return air, Hint(V, jnp.clip(4.0 * jnp.abs(V / hint.V - 1.0), 1e-3, 0.5), found.slope)


def followed_air_side(problem: Problem, hint: Hint, last: Followed) -> tuple[AirSide, Followed]:
    """Follow the air side from the share of the hinted velocity that it lately had; say where to follow it from."""

    def residual(share: Real) -> tuple[Real, AirSide]:
        air = air_at(problem, share * hint.V)
        return -air.pressure_balance, air

    return followed_root(residual, last, low=SLOWEST / hint.V, high=FASTEST / hint.V)


def air_at(problem: Problem, V: Real) -> AirSide:
    """Everything on the air side for a velocity in zone 1; `pressure_balance` [Pa] is fan and ram less resistance."""
    vehicle, duty, day, asked, path, coolant, T_engine_out, film, ram_zone, cooler_heat, held = problem
    (way, driven), fan = path, vehicle.fan
    share, recirculation = way.fan_share, driven.recirculation
    T_grille = day.T + driven.warmer + driven.from_the_bay * (T_engine_out - day.T)
    fan_zone = zone(path, film, day, coolant, V=V, share=share)
    C_air = fan_zone.C_air + ram_zone.C_air
    taken = fan_zone.C_air * fan_zone.effectiveness + ram_zone.C_air * ram_zone.effectiveness
    per_C_air = 1.0 / C_air
    mean = taken * per_C_air

    heat, power, T_condensing = vehicle.condenser.balance(
        load=asked.cooling_load,
        T_ambient=duty.ambient,
        engine_speed=asked.engine_speed,
        C_air=C_air * vehicle.condenser.coverage + 1e-6,
        T_air_in=T_grille + recirculation * mean * (T_engine_out - T_grille),
        V_face=V * share + driven.V_ram_zone * (1.0 - share),
    )
    # Passes in series on the coolant, each with fresh air over its part of the face.
    passes = coolant.passes
    used = jnp.clip(taken * (1.0 / (passes * coolant.C_core)), 0.0, 1.0 - 1e-12)
    conductance = coolant.C_core * -jnp.expm1(passes * jnp.log1p(-used))
    kappa = conductance * per_C_air
    front = (heat + jnp.minimum(cooler_heat, HOTTEST_COOLER_RISE * C_air)) * per_C_air
    T_in = (T_grille * (1.0 - recirculation) + recirculation * kappa * T_engine_out + front) / (
        1.0 - recirculation * (1.0 - kappa)
    )
    T_fan = T_in + fan_zone.effectiveness * (conductance / taken) * (T_engine_out - T_in)
    T_coil = T_fan + BEHIND_HUB * (T_engine_out - T_fan)
    rho_fan = air.density(T_fan, day.p, day.humidity_ratio)

    resistance = barrier(way.resistance(day, V=V, T_out=T_fan))
    flow = fan_zone.C_air / day.c_p / rho_fan + _leak(way, resistance - driven.ram, rho_fan)
    U = jnp.maximum(flow, 0.0) * (1.0 / way.blade_area)
    left = way.blade_pressure
    clutch_ratio, switched = held or settled_fan(vehicle, duty, T_coil=T_coil, T_switch=T_engine_out)
    drive_speed = fan.drive_speed(engine_speed=asked.engine_speed, share=switched)
    speed = fan.speed(
        drive_speed=drive_speed,
        clutch_ratio=clutch_ratio,
        reference_speed=vehicle.fan_clutch.reference_speed,
        U=U,
        rho=rho_fan,
        left=left,
    )
    driving = _driving(fan.push(speed=speed, rho=rho_fan, left=left), driven.ram, vehicle.doubts.stirred)
    return AirSide(
        V_fan_zone=V,
        V_ram_zone=driven.V_ram_zone,
        C_air=C_air,
        conductance=conductance,
        T_core_in=T_in,
        T_core_out=T_in + kappa * (T_engine_out - T_in),
        T_coil=T_coil,
        fan_speed=speed,
        fan_power=fan.power(speed=speed, drive_speed=drive_speed, U=U, rho=rho_fan, left=left),
        clutch_ratio=clutch_ratio,
        condenser_heat=heat,
        compressor_power=power,
        T_condensing=T_condensing,
        pressure_balance=driving - fan.hindrance(flow=flow, rho=rho_fan) - resistance,
    )


def _driving(push: Real, ram: Real, stirred: Real) -> Real:
    """Pressure that moves the air through the fan's zone [Pa], from the push of the blades and the ram [Pa].

    Blades that blow against the ram leave the difference, whichever way it then goes; even with it they stir a share
    of their push [1].
    """
    against = jnp.maximum(jnp.abs(push + ram), stirred * jnp.abs(push))
    return jnp.where(push < 0.0, against, push + ram)


def settled_fan(vehicle: Vehicle, duty: Duty, *, T_coil: Real, T_switch: Real) -> FanHeld:
    """Where clutch and switches settle, with air at the coil and coolant at the switch at these temperatures [K]."""
    return FanHeld(
        clutch_ratio=vehicle.fan_clutch.ratio(T_coil=T_coil),
        share=vehicle.fan.mean_share(T_switch=T_switch, air_conditioning=duty.air_conditioning),
    )


def _leak(way: AirWay, rise: Real, rho: Real) -> Real:
    """Air [m3/s] that the fan draws past the core for the pressure it must raise [Pa]; negative through open flaps."""
    gaps = way.leak_area + jnp.where(rise < 0.0, way.flap_area, 0.0)
    return ORIFICE * gaps * jnp.sqrt(2.0 / rho) * rise / jnp.sqrt(jnp.abs(rise) + 0.5)
