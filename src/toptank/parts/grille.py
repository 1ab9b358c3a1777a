"""The way of the ram air: nose, grille, and out of the engine bay."""

from dataclasses import dataclass

from toptank.units.arrays import Real
from toptank.units.declaration import declare
from toptank.units.dimension import FRACTION, NUMBER


@dataclass(frozen=True, slots=True, kw_only=True)
class Grille:
    """Everything that the air meets besides condenser and core."""

    # fmt: off
    ram_coefficient: Real = declare(
        "pressure at the nose less pressure under the car, over the dynamic pressure", NUMBER, hard=(0.0, 1.2),
        plausible=(0.05, 0.95), typical=0.68, spread=0.12,
        measure="not measured: 0.5 to 0.8 with an open underside; 0.25 to 0.5 with an upright radiator and a closed "
        "bonnet, whose bay stands under pressure (car_reports1936); engine in the rear 0.1 to 0.3")
    loss_coefficient: Real = declare(
        "loss of grille and nose, in dynamic heads of the air at the face", NUMBER, hard=(0.0, 60.0),
        plausible=(0.5, 12.0), typical=2.0, spread=0.35, relative=True,
        measure="not measured: 1 to 4 on the grille's own area; bull bars, plates and lamps add; typical, no source")
    bay_loss_coefficient: Real = declare(
        "loss of the engine bay, in dynamic heads of the air at the face", NUMBER, hard=(0.0, 60.0),
        plausible=(0.3, 12.0), typical=1.5, spread=0.4, relative=True,
        measure="not measured: a filled bay and a closed underside add; typical, no source")
    vents: Real = declare(
        "openings in the bonnet (louvres, panels left out, bonnet raised) over the way out that the bay has anyway",
        NUMBER, hard=(0.0, 5.0), plausible=(0.0, 3.0), typical=0.0, spread=0.0,
        measure="tape: clear area of louvres or slots over that of the openings under the bay; panels off: about 1")
    vent_suction: Real = declare(
        "pressure at the bay's usual way out less that over such openings, over the dynamic pressure", NUMBER,
        hard=(-0.5, 1.5), plausible=(0.0, 0.8), typical=0.3, spread=0.4, relative=True,
        measure="not measured: openings as large as the way out lowered the bay by 0.08 to 0.28 (car_reports1936)")
    leakage: Real = declare(
        "share of the ram pressure lost because air goes round the core", FRACTION, hard=(0.0, 0.95),
        plausible=(0.0, 0.5), typical=0.08, spread=0.05,
        measure="lamp behind the core at night: gaps beside, above, below; missing seals and air dam")
    # fmt: on

    def ram_pressure(self, *, dynamic_pressure: Real) -> Real:
        """Pressure that drives air through the core without a fan [Pa], from the dynamic pressure [Pa].

        Openings in the bonnet lower the bay's pressure by their share of all ways out.
        """
        suction = self.vent_suction * self.vents / (1.0 + self.vents)
        return (self.ram_coefficient + suction) * (1.0 - self.leakage) * dynamic_pressure

    def losses(self) -> Real:
        """Loss of nose and engine bay in dynamic heads of the air at the face [1]; openings widen the bay's way out."""
        wider = 1.0 + self.vents
        return self.loss_coefficient + self.bay_loss_coefficient / (wider * wider)
