"""What is in the system: mixture and level."""

from dataclasses import dataclass

from toptank.units.arrays import Real, namespace
from toptank.units.declaration import declare, declare_choice
from toptank.units.dimension import FRACTION, VOLUME

GRAVITY = 9.80665
"""Standard gravity [m/s2]."""

HEIGHT = 0.5
"""From the lowest coolant to the highest way that it must take [m]; judgement."""

MOST_AIR = 0.95
"""Most of the volume that counts as air [1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """The coolant as found."""

    # fmt: off
    concentrate: Real = declare(
        "share of concentrate by volume", FRACTION, hard=(0.0, 0.7), plausible=(0.25, 0.6), typical=0.5, spread=0.06,
        measure="refractometer for the right glycol; hydrometer is rougher")
    glycol: Real = declare_choice(
        "glycol in the concentrate", ("ethylene", "propylene"), typical="ethylene", doubt=0.05,
        measure="label or record; color says nothing")
    capacity: Real = declare(
        "volume of the system", VOLUME, hard=(0.001, 0.2), plausible=(0.004, 0.04), typical=0.015, spread=0.1,
        relative=True, measure="handbook, with heater; measure what goes in")
    air: Real = declare(
        "share of the volume that is air", FRACTION, hard=(0.0, 0.6), plausible=(0.0, 0.3), typical=0.0, spread=0.01,
        measure="level in the core, cold, not in the bottle; volume refilled against capacity")
    in_core: Real = declare(
        "share of the coolant that stands in core, tanks and hoses", FRACTION, hard=(0.05, 0.95),
        plausible=(0.3, 0.7), typical=0.45, spread=0.05,
        measure="what runs out at the petcock over the capacity; 40 to 50 %, typical, no source")
    may_be_missing: Real = declare(
        "share of the volume that may be missing before tubes run dry and the way over the top is broken", FRACTION,
        hard=(0.0, 0.5), plausible=(0.05, 0.3), typical=0.15, spread=0.04,
        measure="not measured: what the upper tank holds above the tubes, over the capacity; judgement")
    gas: Real = declare(
        "share of the loop that gas from the cylinders fills at full load", FRACTION, hard=(0.0, 0.9),
        plausible=(0.0, 0.5), typical=0.0, spread=0.0,
        measure="block test; bubbles in the neck that come faster with the throttle")
    # fmt: on

    def air_at(self, *, load: Real) -> Real:
        """Share of the volume that is air or gas at a load of the engine [1]."""
        xp = namespace(load, self.air, self.gas)
        return xp.minimum(self.air + self.gas * xp.clip(load, 0.0, 1.0), MOST_AIR)

    def head_left(self, *, air: Real) -> Real:
        """Share of the pump's head left by a share of air in the loop [1]; judgement: a fifth of air halves it."""
        return 1.0 / (1.0 + 25.0 * air * air)

    def missing(self, *, air: Real) -> Real:
        """Share of the volume that is missing beyond what may be [1]."""
        xp = namespace(air, self.may_be_missing)
        return xp.maximum(air - self.may_be_missing, 0.0)

    def lift(self, *, air: Real, rho: Real) -> Real:
        """Pressure that the pump must raise before anything goes over the top [Pa]: the level has fallen by as much.

        A full loop is a syphon and asks for none.
        """
        return rho * GRAVITY * HEIGHT * self.missing(air=air)

    def wet(self, *, air: Real) -> Real:
        """Share of the tubes that the coolant still reaches [1]."""
        return 1.0 - self.missing(air=air) / (1.0 - self.may_be_missing)
