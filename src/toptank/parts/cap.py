"""The pressure cap."""

from dataclasses import dataclass

from toptank.units.arrays import Real
from toptank.units.declaration import declare, declare_choice
from toptank.units.dimension import FRACTION, PRESSURE


@dataclass(frozen=True, slots=True, kw_only=True)
class Cap:
    """The cap on the filler neck and the pressure it really holds."""

    # fmt: off
    pressure: Real = declare(
        "pressure stamped on the cap", PRESSURE, hard=(0.0, 206843.0), plausible=(0.0, 152000.0), typical=103421.0,
        spread=7000.0, measure="stamped on the cap; an open system has 0")
    holds: Real = declare(
        "share of the stamped pressure that it holds", FRACTION, hard=(0.0, 1.2), plausible=(0.5, 1.05), typical=0.97,
        spread=0.04, measure="cap tester, one minute")
    system: Real = declare_choice(
        "what happens to what it lets out", ("open overflow", "recovery bottle"), typical="recovery bottle", doubt=0.1,
        measure="hose to a bottle below its level: recovery; hose to the road: open")
    # fmt: on

    def held_pressure(self) -> Real:
        """Gauge pressure that the cap really holds [Pa]."""
        return self.pressure * self.holds
