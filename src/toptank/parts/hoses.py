"""Top and bottom hose."""

from dataclasses import dataclass

from toptank.units.arrays import Real
from toptank.units.declaration import declare
from toptank.units.dimension import FRACTION, LENGTH, NUMBER


@dataclass(frozen=True, slots=True, kw_only=True)
class Hoses:
    """The two large hoses between engine and core."""

    # fmt: off
    top_bore: Real = declare(
        "bore of the top hose", LENGTH, hard=(0.01, 0.1), plausible=(0.025, 0.055), typical=0.038, spread=0.002,
        measure="caliper over the spigot, less its wall")
    bottom_bore: Real = declare(
        "bore of the bottom hose", LENGTH, hard=(0.01, 0.1), plausible=(0.025, 0.06), typical=0.044, spread=0.002,
        measure="caliper over the spigot, less its wall")
    loss_coefficient: Real = declare(
        "loss of each hose with its ends and bends, in dynamic heads", NUMBER, hard=(0.3, 20.0),
        plausible=(1.0, 6.0), typical=2.5, spread=0.25, relative=True, measure="not measured; more bends, more loss")
    collapse: Real = declare(
        "share of the bottom hose's area lost under suction", FRACTION, hard=(0.0, 0.95), plausible=(0.0, 0.8),
        typical=0.0, spread=0.0, measure="watch it while somebody holds 3,000 rpm; squeeze it cold for the spring")
    # fmt: on

    def top_area(self) -> Real:
        """Area of the top hose that costs one dynamic head [m2]."""
        return _area(self.top_bore) / self.loss_coefficient**0.5

    def bottom_area(self) -> Real:
        """Area of the bottom hose that costs one dynamic head [m2]."""
        return _area(self.bottom_bore) * (1.0 - self.collapse) / self.loss_coefficient**0.5


def _area(bore: Real) -> Real:
    return 0.7853981633974483 * bore * bore
