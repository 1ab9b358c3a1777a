"""The temperature gauge and its sender: what the driver sees."""

from dataclasses import dataclass

from toptank.units.arrays import Real
from toptank.units.declaration import declare
from toptank.units.dimension import TEMPERATURE_RISE


@dataclass(frozen=True, slots=True, kw_only=True)
class Gauge:
    """Sender and instrument."""

    # fmt: off
    sender_offset: Real = declare(
        "sender above or below the coolant that leaves the engine", TEMPERATURE_RISE, hard=(-20, 30),
        plausible=(-8, 12), typical=0.0, spread=1.5,
        measure="where it sits: in a cylinder head it reads 5 to 11 K above one in the manifold, common practice")
    error: Real = declare(
        "error of the instrument", TEMPERATURE_RISE, hard=(-60, 60), plausible=(-15, 15), typical=0.0, spread=2.0,
        measure="second thermometer in the neck; sender in hot water")
    # fmt: on

    def reading(self, *, T_engine_out: Real) -> Real:
        """What the gauge shows [K] for coolant leaving the engine at a temperature [K]."""
        return T_engine_out + self.sender_offset + self.error
