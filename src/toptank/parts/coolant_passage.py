"""The coolant's way through a core's tubes: what their shape gives is worked out once, then asked at many flows."""

from typing import NamedTuple

from toptank.equations.duct import friction_rectangular
from toptank.equations.fouling import fouling_resistance
from toptank.equations.tube import friction_darcy, nusselt_tube
from toptank.media.metal import tube_conductivity
from toptank.parts.core import Core
from toptank.units.arrays import Real, namespace

ROUND_TUBE_FRICTION = 16.0
"""Fanning factor times Reynolds number of laminar flow in a round tube [1]."""

TANK_LOSS = 1.5
"""Dynamic heads lost where the coolant enters and leaves the tubes of one pass [1]: sharp entry 0.5, exit 1.0."""


PLAIN, LOCK_SEAM, DIMPLED = 0.0, 1.0, 2.0
TRIPS_EARLIER = {PLAIN: 1.0, LOCK_SEAM: 1.0, DIMPLED: 0.55}
GAINS_MORE = {PLAIN: 0.88, LOCK_SEAM: 1.0, DIMPLED: 1.25}
RUBS_MORE = {PLAIN: 1.0, LOCK_SEAM: 1.0, DIMPLED: 1.5}
"""By the make of a tube, over what holds for lock-seam ones: Reynolds number at which it leaves laminar flow, heat
transfer, friction [1]; judgement, whose doubt is drawn with `doubts.transition_reynolds` and `doubts.tube_enhancement`.
Dimples are pressed in to trip the flow: from memory, at Reynolds numbers of 1,000 to 1,500 for some 2,300."""


class CoolantPassage(NamedTuple):
    """What the shape of a core gives to its coolant side.

    Lengths [m]; bore of all live tubes of one pass [m2], clean for the film and narrowed by scale for the friction;
    wetted area over face area [1]; resistance of scale and wall [m2 K/W]; what the make of the tubes does to the
    Reynolds number at which they leave laminar flow, to heat transfer and friction, over lock-seam tubes [1].
    """

    passes: Real
    aspect: Real
    flat_to_round: Real
    tube_length: Real
    bore: Real
    hydraulic_diameter: Real
    scaled_bore: Real
    scaled_hydraulic_diameter: Real
    wetted_per_face: Real
    wall_resistance: Real
    trips: Real
    gain: Real
    rub: Real

    @classmethod
    def of(cls, core: Core) -> "CoolantPassage":
        """Work it out for a core; scale narrows the bore."""
        xp = namespace(core.scale_thickness, core.rows)
        area, perimeter, aspect = core.bore()
        live = core.tubes() * (1.0 - core.blocked_tubes)
        narrowing = xp.maximum(1.0 - 2.0 * core.scale_thickness / (core.tube_thickness - 2.0 * core.tube_wall), 0.15)
        scale = fouling_resistance(core.scale_thickness, core.scale_conductivity)
        return cls(
            passes=core.passes,
            aspect=aspect,
            # A flat tube rubs harder than a round one of its hydraulic diameter: Jones (1976) scales the Reynolds
            # number so that the laminar friction is that of the duct.
            flat_to_round=ROUND_TUBE_FRICTION / friction_rectangular(aspect),
            tube_length=core.tube_length(),
            bore=live * area / core.passes,
            hydraulic_diameter=4.0 * area / perimeter,
            scaled_bore=live * area * narrowing / core.passes,
            scaled_hydraulic_diameter=4.0 * area * narrowing / perimeter,
            wetted_per_face=perimeter * core.tube_length() * live / core.face_area(),
            wall_resistance=scale + core.tube_wall / tube_conductivity(core.material),
            trips=_of_make(core.tube_kind, TRIPS_EARLIER),
            gain=_of_make(core.tube_kind, GAINS_MORE),
            rub=_of_make(core.tube_kind, RUBS_MORE),
        )

    def reached(self, share: Real) -> "CoolantPassage":
        """The same where the coolant reaches only a share of the tubes [1]."""
        return self._replace(
            bore=self.bore * share, scaled_bore=self.scaled_bore * share, wetted_per_face=self.wetted_per_face * share
        )

    def conductance(
        self, *, flow: Real, rho: Real, mu: Real, k: Real, c_p: Real, Re_transition: Real, enhancement: Real
    ) -> tuple[Real, Real]:
        """Conductance from the coolant through film, scale and wall, per square metre of face [W/(m2 K)], and Reynolds.

        Scale adds its resistance to the film of the clean bore, the convention of fouling factors: a real deposit is
        rough and uneven, and its narrowing is felt as lost flow, not as a better film.

        Parameters
        ----------
        flow : coolant through the whole core [m3/s]
        rho, mu, k, c_p : properties of the coolant [kg/m3, Pa s, W/(m K), J/(kg K)]
        Re_transition : Reynolds number at which tubes without dimples leave laminar flow [1]
        enhancement : gain of lock-seam tubes (seams, sharp entries) over smooth ones [1]

        Returns
        -------
        conductance : per square metre of face [W/(m2 K)]
        Re : Reynolds number in the live tubes [1]
        """
        D_h = self.hydraulic_diameter
        Re = rho * (flow / self.bore) * D_h / mu
        Nu = nusselt_tube(
            Re=Re, Pr=mu * c_p / k, alpha=self.aspect, D_h=D_h, L=self.tube_length, Re_tr=Re_transition * self.trips
        )
        return self.wetted_per_face / (D_h / (Nu * k * enhancement * self.gain) + self.wall_resistance), Re

    def pressure_drop(self, *, flow: Real, rho: Real, mu: Real) -> Real:
        """Pressure drop of the coolant through the core, all passes [Pa].

        Parameters
        ----------
        flow : coolant through the whole core [m3/s]
        rho, mu : density and viscosity of the coolant [kg/m3, Pa s]
        """
        xp = namespace(flow, rho, self.scaled_bore)
        D_h = self.scaled_hydraulic_diameter
        U = flow / self.scaled_bore
        Re = xp.maximum(rho * xp.abs(U) * D_h / mu * self.flat_to_round, 1.0)
        heads = friction_darcy(Re, 0.0) * self.rub * self.tube_length / D_h + TANK_LOSS
        return self.passes * heads * 0.5 * rho * U * xp.abs(U)


def _of_make(kind: Real, table: dict[float, float]) -> Real:
    xp = namespace(kind)
    return xp.where(kind > 1.5, table[DIMPLED], xp.where(kind > 0.5, table[LOCK_SEAM], table[PLAIN]))
