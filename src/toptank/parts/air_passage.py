"""The air's way through a core: what its shape gives is worked out once, then asked at many velocities."""

from typing import NamedTuple

from toptank.equations.core_loss import contraction_loss, core_pressure_drop, expansion_loss
from toptank.equations.duct import friction_developing, friction_rectangular, nusselt_developing, nusselt_rectangular
from toptank.equations.fin import fin_efficiency
from toptank.equations.louvered_fin import LouverFriction, colburn_j_of_fin
from toptank.equations.plate import friction_plate, nusselt_plate
from toptank.media.metal import fin_conductivity
from toptank.parts.core import Core
from toptank.units.arrays import Real, namespace


class Film(NamedTuple):
    """Air as its heat transfer sees it: viscosity [Pa s], conductivity [W/(m K)], heat capacity, Prandtl and its power.

    Heat capacity in J/(kg K); the Prandtl number and its power -2/3 [1].
    """

    mu: Real
    k: Real
    c_p: Real
    Pr: Real
    Pr_power: Real

    @classmethod
    def of(cls, *, mu: Real, k: Real, c_p: Real) -> "Film":
        """Work out the Prandtl number of a viscosity, a conductivity and a heat capacity."""
        Pr = mu * c_p / k
        xp = namespace(Pr)
        return cls(mu, k, c_p, Pr, xp.exp(-2.0 / 3.0 * xp.log(Pr)))


class AirPassage(NamedTuple):
    """What the shape of a core gives to its air side; lengths in m, the rest [1] where nothing else is said."""

    sigma: Real
    depth: Real
    louver_pitch: Real
    hydraulic_diameter: Real
    kind: Real
    dent_pitch: Real
    dent_drag: Real
    K_c: Real
    K_e: Real
    plain_friction: Real
    plain_nusselt: Real
    louver_friction: LouverFriction
    louver_colburn: Real
    fin_conductivity: Real
    fin_thickness: Real
    fin_half_height: Real
    fin_area: Real
    long_fin_area: Real
    bare_area: Real

    @classmethod
    def of(cls, core: Core) -> "AirPassage":
        """Work it out for a core. A fin beside a blocked tube is twice as long; a fin without bond carries nothing."""
        xp = namespace(core.fin_density, core.fin_kind)
        sigma, height, pitch = core.free_area_ratio(), core.fin_height(), core.fin_pitch()
        channel_height, channel_width = core.channel()
        aspect = xp.minimum(channel_height, channel_width) / xp.maximum(channel_height, channel_width)
        K_d = _of_kind(core.fin_kind, louvered=1.0, plain=1.2, dented=1.2)
        louver_length = core.louver_share * height
        area, fin_share = core.air_area()
        live, dead = 1.0 - core.blocked_tubes, core.blocked_tubes
        bonded = area * fin_share * (1.0 - core.loose_fins)
        return cls(
            sigma=sigma,
            depth=core.depth(),
            louver_pitch=core.louver_pitch,
            hydraulic_diameter=core.channel_hydraulic_diameter(),
            kind=core.fin_kind,
            dent_pitch=core.dent_pitch,
            dent_drag=core.dent_drag,
            K_c=contraction_loss(sigma, K_d),
            K_e=expansion_loss(sigma, K_d),
            plain_friction=friction_rectangular(aspect),
            plain_nusselt=nusselt_rectangular(aspect),
            louver_friction=LouverFriction.of(
                theta=core.louver_angle,
                F_p=pitch,
                L_p=core.louver_pitch,
                F_l=height,
                F_d=core.depth(),
                L_l=louver_length,
                T_p=core.tube_pitch,
                delta_f=core.fin_thickness,
                D_m=core.tube_pitch - height,
            ),
            louver_colburn=colburn_j_of_fin(
                theta=core.louver_angle,
                F_p=pitch,
                L_p=core.louver_pitch,
                F_l=height,
                T_d=core.depth(),
                L_l=louver_length,
                T_p=core.tube_pitch,
                delta_f=core.fin_thickness,
            ),
            fin_conductivity=fin_conductivity(core.material),
            fin_thickness=core.fin_thickness,
            fin_half_height=height / 2.0,
            fin_area=bonded * live * live,
            long_fin_area=bonded * 2.0 * live * dead,
            bare_area=area * (1.0 - fin_share) * live,
        )

    def pressure_drop(self, *, V_open: Real, rho_in: Real, rho_out: Real, mu: Real, friction: Real) -> Real:
        """Pressure drop of the air through the core [Pa].

        Parameters
        ----------
        V_open : velocity of the air just ahead of the open part of the face [m/s]
        rho_in, rho_out : density of the air ahead of and behind the core [kg/m3]
        mu : viscosity of the air [Pa s]
        friction : doubt of the friction relation, 1 as published [1]
        """
        xp = namespace(V_open, rho_in, self.sigma)
        D_h = self.hydraulic_diameter
        G = V_open * (rho_in / self.sigma)
        louvered = self.louver_friction.fanning_f(G * (self.louver_pitch / mu))
        Re = xp.maximum(G * (D_h / mu), 1.0)
        plain = friction_developing(self.plain_friction, self.depth / (D_h * Re)) / Re
        # No sheet with dents rubs less than one without.
        dented = xp.maximum(self.dent_drag * friction_plate(G * (self.dent_pitch / mu)), plain)
        return core_pressure_drop(
            G=G,
            rho_1=rho_in,
            rho_2=rho_out,
            sigma=self.sigma,
            K_c=self.K_c,
            K_e=self.K_e,
            f=_of_kind(self.kind, louvered=louvered, plain=plain, dented=dented) * friction,
            A_over_A_c=4.0 * self.depth / D_h,
        )

    def conductance(self, film: Film, *, V_open: Real, rho: Real, heat_transfer: Real) -> Real:
        """Conductance from the tube walls to the air, per square metre of open face [W/(m2 K)].

        Parameters
        ----------
        film : the air at its mean temperature in the core
        V_open : velocity of the air just ahead of the open part of the face [m/s]
        rho : density of the air there [kg/m3]
        heat_transfer : doubt of the heat transfer relation, 1 as published [1]
        """
        xp = namespace(V_open, rho, self.sigma)
        D_h = self.hydraulic_diameter
        G = V_open * (rho / self.sigma)
        Re_Lp = xp.maximum(G * (self.louver_pitch / film.mu), 1.0)
        louvered = self.louver_colburn * xp.exp(-0.49 * xp.log(Re_Lp)) * G * film.c_p * film.Pr_power
        x_star = self.depth / (D_h * film.Pr) / xp.maximum(G * (D_h / film.mu), 1.0)
        plain = nusselt_developing(self.plain_nusselt, x_star, film.Pr) * film.k / D_h
        Re_l = G * (self.dent_pitch / film.mu)
        afresh = nusselt_plate(Re_l, film.Pr) * film.k / self.dent_pitch
        dented = xp.maximum(afresh, plain)  # slow air fills the channel: its layers meet
        h = _of_kind(self.kind, louvered=louvered, plain=plain, dented=dented) * heat_transfer

        k_f, delta_f, L_f = self.fin_conductivity, self.fin_thickness, self.fin_half_height
        eta = fin_efficiency(h=h, k_f=k_f, delta_f=delta_f, L_f=L_f)
        eta_long = fin_efficiency(h=h, k_f=k_f, delta_f=delta_f, L_f=2.0 * L_f)
        return h * (self.fin_area * eta + self.long_fin_area * eta_long + self.bare_area)


def _of_kind(kind: Real, *, louvered: Real, plain: Real, dented: Real) -> Real:
    """What holds for a kind of fin by its code."""
    xp = namespace(kind, louvered, plain, dented)
    return xp.where(kind > 1.5, dented, xp.where(kind > 0.5, plain, louvered))
