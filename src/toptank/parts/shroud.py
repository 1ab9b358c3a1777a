"""The shroud: how much of the face the fan draws through, and what leaks past."""

import math
from dataclasses import dataclass

from toptank.units.arrays import Real, namespace
from toptank.units.declaration import declare, declare_yes_no
from toptank.units.dimension import FRACTION, LENGTH

PRESSURE_PER_CLEARANCE = 4.0
"""Share of fan pressure lost per share of diameter of tip clearance [1]: 3 to 5 % for each 1 %, from memory."""

LEAST_LEFT = 0.6
"""Share of fan pressure that the widest gap inside a shroud leaves [1]; judgement."""

CHOKES_AT = 30.0
"""Air speed from which on a ring that is too small takes its share of the ram pressure [m/s]; judgement."""

FARTHEST_WIDENED = 0.1
"""Distance of bare blades from the core beyond which they draw no wider [m]; judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shroud:
    """The duct from the core to the fan, or its absence."""

    # fmt: off
    present: Real = declare_yes_no(
        "a shroud is fitted", typical=True, measure="look: a duct from the core's edge to the blades")
    coverage: Real = declare(
        "share of the face inside the shroud", FRACTION, hard=(0.05, 1.0), plausible=(0.4, 1.0), typical=0.95,
        spread=0.03, measure="tape: area under the shroud over area of the face")
    gap_share: Real = declare(
        "gaps between shroud and core, as a share of the face", FRACTION, hard=(0.0, 0.5), plausible=(0.0, 0.15),
        typical=0.02, spread=0.012, measure="tape over cracks, missing seals and holes; length times width")
    flap_share: Real = declare(
        "ram air flaps or holes that open outwards at speed, as a share of the face", FRACTION, hard=(0.0, 0.5),
        plausible=(0.0, 0.2), typical=0.0, spread=0.01, measure="look: rubber flaps or round holes in the shroud")
    tip_clearance: Real = declare(
        "gap between blade tips and shroud", LENGTH, hard=(0.001, 0.2), plausible=(0.006, 0.05), typical=0.02,
        spread=0.006, measure="feeler or folded card at four places, engine at rest")
    fan_to_core: Real = declare(
        "gap between blades and core", LENGTH, hard=(0.003, 0.4), plausible=(0.012, 0.15), typical=0.05,
        spread=0.015, measure="tape from the front edge of a blade to the fins")
    chokes: Real = declare(
        "share of the ram pressure that is spent in a ring too small for the airflow at 67 mph", FRACTION,
        hard=(0.0, 0.95), plausible=(0.0, 0.6), typical=0.0, spread=0.0,
        measure="at 60 mph: does it run cooler with the shroud's lower half off? area of the ring against the face")
    recirculation: Real = declare(
        "share of hot air that comes round to the front at standstill", FRACTION, hard=(0.0, 0.6),
        plausible=(0.0, 0.3), typical=0.08, spread=0.04,
        measure="thermometer ahead of the core at idle against the air outside; smoke at the grille")
    # fmt: on

    def choked(self, *, U: Real) -> Real:
        """Share of the ram pressure that the ring takes [1] at an air speed against the nose [m/s].

        Its loss goes with the square of the air, most of a core's in proportion: the slower the air, the less of the
        pressure is the ring's.
        """
        return self.present * self.chokes * namespace(U, self.chokes).minimum(U / CHOKES_AT, 1.0)

    def fan_share(self, *, fan_diameter: Real, fans: Real, face_area: Real, widening: Real) -> Real:
        """Share of the face that the fan draws through [1]: inside the shroud, or what bare blades reach.

        Parameters
        ----------
        fan_diameter, fans : diameter over the tips [m], fans side by side [1]
        face_area : area of the face [m2]
        widening : growth of the circle that bare blades draw through, over their distance from the core [1]
        """
        xp = namespace(self.present, fan_diameter, face_area, self.fan_to_core)
        drawn = fan_diameter + widening * xp.minimum(self.fan_to_core, FARTHEST_WIDENED)
        circle = xp.minimum(fans * math.pi / 4.0 * drawn * drawn / face_area, 0.98)
        return xp.where(self.present > 0.5, xp.minimum(self.coverage, 0.99), circle)

    def leak_area(self, *, fan_diameter: Real, fans: Real, face_area: Real, rim_reach: Real) -> Real:
        """Area through which the fan draws air that did not pass the core [m2].

        Gaps leak by their area, bare blades by their rim; nothing leaks more than bare blades do: a fan behind a shroud
        with gaps wider than that draws as if there were none.

        Parameters
        ----------
        fan_diameter, fans : diameter over the tips [m], fans side by side [1]
        face_area : area of the face [m2]
        rim_reach : how far from the tips air still slips in [m]
        """
        xp = namespace(self.present, fan_diameter, face_area, self.fan_to_core)
        rim = fans * math.pi * fan_diameter * xp.minimum(self.fan_to_core, rim_reach)
        gaps = xp.minimum(self.gap_share * face_area, rim)
        return xp.where(self.present > 0.5, gaps, rim)

    def flap_area(self, *, face_area: Real) -> Real:
        """Area that opens outwards when ram air pushes from inside [m2]."""
        xp = namespace(self.present, face_area)
        return xp.where(self.present > 0.5, self.flap_share * face_area, 0.0)

    def clearance_factor(self, *, fan_diameter: Real, bare_left: Real) -> Real:
        """Share of the fan's pressure left by the gap at the tips [1]; bare blades have no gap to lose it in.

        Parameters
        ----------
        fan_diameter : diameter over the tips [m]
        bare_left : share that bare blades keep [1]
        """
        xp = namespace(self.present, fan_diameter)
        ducted = xp.maximum(1.0 - PRESSURE_PER_CLEARANCE * self.tip_clearance / fan_diameter, LEAST_LEFT)
        return xp.where(self.present > 0.5, ducted, bare_left)
