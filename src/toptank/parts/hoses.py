"""Top and lower hose."""

from dataclasses import dataclass

from toptank.units.arrays import Real, namespace
from toptank.units.declaration import declare
from toptank.units.dimension import FRACTION, LENGTH, NUMBER

FLAT_AT = 3000.0 / 60.0
"""Pump speed at which the suction closes a soft hose by its full share [1/s]; below, with the square of the speed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hoses:
    """The two large hoses between engine and core."""

    # fmt: off
    top_bore: Real = declare(
        "bore of the top hose", LENGTH, hard=(0.01, 0.1), plausible=(0.025, 0.055), typical=0.038, spread=0.002,
        measure="caliper over the spigot, less its wall")
    bottom_bore: Real = declare(
        "bore of the lower hose", LENGTH, hard=(0.01, 0.1), plausible=(0.025, 0.06), typical=0.044, spread=0.002,
        measure="caliper over the spigot, less its wall")
    loss_coefficient: Real = declare(
        "loss of each hose with its ends and bends, in dynamic heads", NUMBER, hard=(0.3, 20.0),
        plausible=(1.0, 6.0), typical=2.5, spread=0.25, relative=True, measure="not measured; more bends, more loss")
    collapse: Real = declare(
        "share of the lower hose's area lost under suction at 3,000 rpm", FRACTION, hard=(0.0, 0.95),
        plausible=(0.0, 0.8), typical=0.0, spread=0.0,
        measure="watch it while somebody holds 3,000 rpm; squeeze it cold for the spring")
    # fmt: on

    def top_area(self) -> Real:
        """Area of the top hose that costs one dynamic head [m2]."""
        return _area(self.top_bore) / self.loss_coefficient**0.5

    def bottom_area(self, *, pump_speed: Real) -> Real:
        """Area of the lower hose that costs one dynamic head [m2] at a pump speed [1/s]: suction closes a soft one."""
        xp = namespace(pump_speed, self.collapse)
        drawn = xp.minimum(pump_speed / FLAT_AT, 1.0)
        return _area(self.bottom_bore) * (1.0 - self.collapse * drawn * drawn) / self.loss_coefficient**0.5


def _area(bore: Real) -> Real:
    return 0.7853981633974483 * bore * bore
