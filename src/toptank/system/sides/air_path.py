"""The air's way from the nose to underneath: what the vehicle, the duty and the day settle before any temperature."""

from typing import NamedTuple

from toptank.equations.ram import dynamic_pressure
from toptank.media import air
from toptank.parts.air_passage import AirPassage
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jnp
from toptank.system.numerics.root import Bracket, bracketed_root
from toptank.system.sides.heat_side import Weather, air_speed
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real

SLOWEST, FASTEST = 0.02, 40.0
"""Bracket of the face velocity [m/s]; below it a draught by buoyancy goes on."""

RAM_STEPS = 10

RECIRCULATION_FADES = 6.0
"""Road speed at which half of the standing recirculation is blown away [m/s]; judgement."""

HOT_GROUND_FADES = 4.0
"""Road speed at which half of the warm air over the asphalt is left behind [m/s]; judgement."""


class AirWay(NamedTuple):
    """What of the air's way is the vehicle's alone.

    passage : the core's share
    open_area, open_share : face that is not blocked [m2], its share of the face [1]
    fan_share : share of the face that the fan draws through [1]
    heads : loss of nose, condenser and bay, in dynamic heads at the face [1]
    leak_area, flap_area : gaps past the core, flaps that open outwards [m2]
    blade_area : circles of all fans [m2]
    blade_pressure : share of the fan's pressure that gap and doubt leave [1]
    friction, heat_transfer : doubts of the core's relations [1]
    still_air : what drifts through a hot core anyway [m/s]
    """

    passage: AirPassage
    open_area: Real
    open_share: Real
    fan_share: Real
    heads: Real
    leak_area: Real
    flap_area: Real
    blade_area: Real
    blade_pressure: Real
    friction: Real
    heat_transfer: Real
    still_air: Real

    @classmethod
    def of(cls, vehicle: Vehicle) -> "AirWay":
        """Work it out for a vehicle."""
        core, fan, shroud, condenser = vehicle.core, vehicle.fan, vehicle.shroud, vehicle.condenser
        face, open_share = core.face_area(), 1.0 - core.blocked_face
        return cls(
            passage=AirPassage.of(core),
            open_area=face * open_share,
            open_share=open_share,
            fan_share=shroud.fan_share(
                fan_diameter=fan.diameter, fans=fan.count, face_area=face, widening=vehicle.doubts.bare_fan_widening
            ),
            heads=vehicle.grille.losses() + condenser.present * condenser.coverage * condenser.loss_coefficient,
            leak_area=shroud.leak_area(
                fan_diameter=fan.diameter, fans=fan.count, face_area=face, rim_reach=vehicle.doubts.bare_fan_rim
            ),
            flap_area=shroud.flap_area(face_area=face),
            blade_area=fan.count * (jnp.pi / 4.0) * fan.diameter * fan.diameter,
            blade_pressure=shroud.clearance_factor(
                fan_diameter=fan.diameter, bare_left=vehicle.doubts.bare_fan_pressure
            )
            * vehicle.doubts.fan_pressure,
            friction=vehicle.doubts.air_friction,
            heat_transfer=vehicle.doubts.air_heat_transfer,
            still_air=vehicle.doubts.still_air,
        )

    def resistance(self, day: Weather, *, V: Real, T_out: Real) -> Real:
        """Pressure that a velocity through the open part of the face costs from nose to underside [Pa]."""
        core = self.passage.pressure_drop(
            V_open=V,
            rho_in=day.rho,
            rho_out=air.density(T_out, day.p, day.humidity_ratio),
            mu=air.viscosity(0.5 * (day.T + T_out)),
            friction=self.friction,
        )
        return core + self.heads * dynamic_pressure(day.rho, V * self.open_share)


class Driven(NamedTuple):
    """What driving does to the air, whatever the temperatures.

    ram : pressure by which driving pushes [Pa]
    recirculation : share of hot air that comes round to the front [1]
    warmer : air at the grille above the air in the shade [K]
    from_the_bay : how far a fan that blows forwards warms its air in the bay, over the coolant above the outside [1]
    V_ram_zone : velocity in the part of the face that has ram air only [m/s]
    """

    ram: Real
    recirculation: Real
    warmer: Real
    from_the_bay: Real
    V_ram_zone: Real

    @classmethod
    def of(cls, vehicle: Vehicle, duty: Duty, day: Weather, way: AirWay) -> "Driven":
        """Work it out for a vehicle at a duty on a day."""
        ram = vehicle.grille.ram_pressure(dynamic_pressure=dynamic_pressure(day.rho, air_speed(duty)))
        ram = ram * (1.0 - vehicle.shroud.choked(U=air_speed(duty)))
        return cls(
            ram=ram,
            recirculation=vehicle.shroud.recirculation / (1.0 + (duty.speed / RECIRCULATION_FADES) ** 2),
            warmer=duty.among_cars * vehicle.doubts.hot_ground / (1.0 + (duty.speed / HOT_GROUND_FADES) ** 2),
            from_the_bay=vehicle.doubts.bay_breath
            * vehicle.fan.backwards
            / (1.0 + (duty.speed / RECIRCULATION_FADES) ** 2),
            V_ram_zone=_ram_zone_velocity(way, day, ram, guess=0.17 * air_speed(duty) + 0.05),
        )


class AirPath(NamedTuple):
    """What the air meets on its way, the same for all trial temperatures and velocities."""

    way: AirWay
    driven: Driven


def _ram_zone_velocity(way: AirWay, day: Weather, ram: Real, guess: Real) -> Real:
    """Velocity with ram air alone [m/s]. Its outlet is taken 30 K warm: a percent of density, no more."""

    def searched(V: Real, nothing: tuple[()]) -> tuple[Real, Real, tuple[()]]:
        return way.resistance(day, V=V, T_out=day.T + 30.0) - ram, V, nothing

    return bracketed_root(searched, around(guess, 0.5, 0.0), (), steps=RAM_STEPS)[0]


def around(V: Real, width: Real, slope: Real) -> Bracket:
    """Bracket of a face velocity that is likely near V [m/s], within a share `width` of it [1]."""
    return Bracket(
        low=jnp.full_like(V, SLOWEST),
        below=V * (1.0 - width),
        middle=V,
        above=V * (1.0 + width),
        high=jnp.full_like(V, FASTEST),
        slope=slope,
    )
