"""The air's way from the nose to underneath: what the vehicle, the duty and the day settle before any temperature."""

from typing import NamedTuple

from toptank.equations.ram import dynamic_pressure
from toptank.media import air
from toptank.parts.air_passage import AirPassage
from toptank.system.duty import Duty
from toptank.system.heat_side import Weather, air_speed
from toptank.system.jax_library import jnp
from toptank.system.root import Bracket, Followed, bracketed_root, followed_root
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real

SLOWEST, FASTEST = 0.02, 40.0
"""Bracket of the face velocity [m/s]; below it a draught by buoyancy goes on."""

RAM_STEPS = 10

RECIRCULATION_FADES = 6.0
"""Road speed at which half of the standing recirculation is blown away [m/s]; judgement."""


class AirPath(NamedTuple):
    """What the air meets on its way, worked out once for all trial temperatures and velocities.

    passage : the core's share
    open_area, open_share : face that is not blocked [m2], its share of the face [1]
    fan_share : share of the face that the fan draws through [1]
    heads : loss of nose, condenser and bay, in dynamic heads at the face [1]
    ram : pressure by which driving pushes [Pa]
    leak_area, flap_area : gaps past the core, flaps that open outwards [m2]
    recirculation : share of hot air that comes round to the front [1]
    blade_area : circles of all fans [m2]
    blade_pressure : share of the fan's pressure that gap and doubt leave [1]
    V_ram_zone : velocity in the part of the face that has ram air only [m/s]
    """

    passage: AirPassage
    open_area: Real
    open_share: Real
    fan_share: Real
    heads: Real
    ram: Real
    leak_area: Real
    flap_area: Real
    recirculation: Real
    blade_area: Real
    blade_pressure: Real
    friction: Real
    heat_transfer: Real
    V_ram_zone: Real

    @classmethod
    def of(
        cls,
        vehicle: Vehicle,
        duty: Duty,
        day: Weather,
        *,
        passage: AirPassage | None = None,
        near: Followed | None = None,
    ) -> "tuple[AirPath, Followed]":
        """Work it out for a vehicle at a duty on a day, the ram zone's velocity included; say where to look next time.

        Parameters
        ----------
        vehicle, duty, day : the vehicle, the duty and its air
        passage : the core's share, if it was worked out before
        near : where the velocity of the ram zone was, if it is to be followed from there
        """
        core, fan, shroud, condenser = vehicle.core, vehicle.fan, vehicle.shroud, vehicle.condenser
        face, open_share = core.face_area(), 1.0 - core.blocked_face
        path = cls(
            passage=AirPassage.of(core) if passage is None else passage,
            open_area=face * open_share,
            open_share=open_share,
            fan_share=shroud.fan_share(fan_diameter=fan.diameter, fans=fan.count, face_area=face),
            heads=vehicle.grille.losses() + condenser.present * condenser.coverage * condenser.loss_coefficient,
            ram=vehicle.grille.ram_pressure(dynamic_pressure=dynamic_pressure(day.rho, air_speed(duty))),
            leak_area=shroud.leak_area(fan_diameter=fan.diameter, fans=fan.count, face_area=face),
            flap_area=shroud.flap_area(face_area=face),
            recirculation=shroud.recirculation / (1.0 + (duty.speed / RECIRCULATION_FADES) ** 2),
            blade_area=fan.count * (jnp.pi / 4.0) * fan.diameter * fan.diameter,
            blade_pressure=shroud.clearance_factor(fan_diameter=fan.diameter) * vehicle.doubts.fan_pressure,
            friction=vehicle.doubts.air_friction,
            heat_transfer=vehicle.doubts.air_heat_transfer,
            V_ram_zone=jnp.zeros_like(day.T),
        )
        V, following = path._ram_zone_velocity(day, 0.17 * air_speed(duty) + 0.05, near)
        return path._replace(V_ram_zone=V), following

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

    def _ram_zone_velocity(self, day: Weather, guess: Real, near: Followed | None) -> tuple[Real, Followed]:
        """Velocity with ram air alone [m/s]. Its outlet is taken 30 K warm: a percent of density, no more."""

        def residual(V: Real) -> tuple[Real, Real]:
            return self.resistance(day, V=V, T_out=day.T + 30.0) - self.ram, V

        def searched(V: Real, nothing: tuple[()]) -> tuple[Real, Real, tuple[()]]:
            return *residual(V), nothing

        if near is not None:
            return followed_root(residual, near, low=SLOWEST, high=FASTEST)
        V = bracketed_root(searched, around(guess, 0.5, 0.0), (), steps=RAM_STEPS)[0]
        return V, Followed.near(V)


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
