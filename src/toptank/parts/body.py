"""The body: what must be moved through the air and up the hill."""

from dataclasses import dataclass

from toptank.units.arrays import Real
from toptank.units.declaration import declare
from toptank.units.dimension import AREA, MASS, NUMBER


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """Mass and resistance of the vehicle itself, as loaded on the day."""

    # fmt: off
    mass: Real = declare(
        "mass with people and load", MASS, hard=(200, 60000), plausible=(600, 9000), typical=2000, spread=0.06,
        relative=True, measure="weighbridge; plate plus people and load")
    drag_area: Real = declare(
        "drag coefficient times frontal area", AREA, hard=(0.2, 12.0), plausible=(0.5, 6.0), typical=1.0, spread=0.12,
        relative=True, measure="width x height x 0.85 times 0.4 to 0.6; typical, no source")
    rolling_resistance: Real = declare(
        "rolling resistance over weight", NUMBER, hard=(0.004, 0.2), plausible=(0.008, 0.04), typical=0.015,
        spread=0.15, relative=True,
        measure="radial 0.010 to 0.014, bias-ply 0.015 to 0.020, typical, no source; dragging brakes add")
    # fmt: on
