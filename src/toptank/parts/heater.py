"""The cabin heater: a small core that can help."""

from dataclasses import dataclass

from toptank.units.arrays import Real
from toptank.units.declaration import declare
from toptank.units.dimension import CONDUCTANCE


@dataclass(frozen=True, slots=True, kw_only=True)
class Heater:
    """The heater at full blower."""

    # fmt: off
    conductance: Real = declare(
        "heat given to the cabin per kelvin between coolant and outside air, full blower", CONDUCTANCE,
        hard=(0.0, 600), plausible=(0.0, 250), typical=75, spread=0.25, relative=True,
        measure="not measured: 4 to 6 kW on a cold day, typical, no source")
    # fmt: on

    def heat(self, *, on: Real, T_coolant: Real, T_ambient: Real) -> Real:
        """Heat taken from the coolant [W]; `on` is 1 with valve and blower fully open [1], temperatures [K]."""
        return on * self.conductance * (T_coolant - T_ambient)
