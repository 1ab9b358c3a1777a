"""What is in the system: mixture and level."""

from dataclasses import dataclass

from toptank.units.arrays import Real
from toptank.units.declaration import declare, declare_choice
from toptank.units.dimension import FRACTION, VOLUME


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """The coolant as found."""

    # fmt: off
    concentrate: Real = declare(
        "share of concentrate by volume", FRACTION, hard=(0.0, 0.7), plausible=(0.25, 0.6), typical=0.5, spread=0.06,
        measure="refractometer for the right glycol; hydrometer is rougher")
    glycol: Real = declare_choice(
        "glycol in the concentrate", ("ethylene", "propylene"), typical="ethylene", doubt=0.05,
        measure="label or record; colour says nothing")
    capacity: Real = declare(
        "volume of the system", VOLUME, hard=(0.001, 0.2), plausible=(0.004, 0.04), typical=0.015, spread=0.1,
        relative=True, measure="handbook, with heater; measure what goes in")
    air: Real = declare(
        "share of the volume that is air", FRACTION, hard=(0.0, 0.6), plausible=(0.0, 0.3), typical=0.0, spread=0.01,
        measure="level in the core, cold, not in the bottle; volume refilled against capacity")
    in_core: Real = declare(
        "share of the coolant that stands in core, tanks and hoses", FRACTION, hard=(0.05, 0.95),
        plausible=(0.3, 0.7), typical=0.45, spread=0.05,
        measure="what runs out at the petcock over the capacity; 40 to 50 %, from memory")
    # fmt: on

    def head_left(self) -> Real:
        """Share of the pump's head left by air in the loop [1]; judgement: a fifth of air halves it."""
        return 1.0 / (1.0 + 25.0 * self.air * self.air)
