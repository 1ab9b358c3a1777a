"""The doubts of the model itself: factors by which a published relation may miss a real part.

They are drawn with the vehicle, so that a band says what is really known; readings narrow them like any other fact.
The published scatter (20 % in heat transfer, 30 % in friction, 0.05 in the coolant's share of the fuel) is read as two
standard deviations; ram coefficient, fan and pump curves carry theirs in the parts.
"""

from dataclasses import dataclass

from toptank.units.arrays import Real
from toptank.units.declaration import declare
from toptank.units.dimension import FRACTION, LENGTH, NUMBER, SPEED, TEMPERATURE_RISE

NOT_MEASURED = "not measured; readings of this vehicle narrow it"


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelUncertainty:
    """One factor or shift for each relation that scatters."""

    # fmt: off
    air_heat_transfer: Real = declare(
        "heat transfer to the air over the published relation", NUMBER, hard=(0.3, 3.0), plausible=(0.6, 1.6),
        typical=1.0, spread=0.10, relative=True, measure=NOT_MEASURED)
    air_friction: Real = declare(
        "air pressure drop of the core over the published relation", NUMBER, hard=(0.2, 4.0), plausible=(0.5, 2.0),
        typical=1.0, spread=0.15, relative=True, measure=NOT_MEASURED)
    transition_reynolds: Real = declare(
        "Reynolds number at which the tubes leave laminar flow", NUMBER, hard=(800, 4000), plausible=(1300, 3300),
        typical=2300, spread=400, measure=NOT_MEASURED)
    tube_enhancement: Real = declare(
        "heat transfer in the tubes over that of smooth ones", NUMBER, hard=(0.7, 3.0), plausible=(1.0, 1.6),
        typical=1.2, spread=0.12, relative=True, measure=NOT_MEASURED)
    coolant_heat: Real = declare(
        "heat of film and friction over what the engine's figures give", NUMBER, hard=(0.4, 2.0), plausible=(0.7, 1.4),
        typical=1.0, spread=0.09, relative=True, measure=NOT_MEASURED)
    film_power: Real = declare(
        "power of the fuel with which the heat through the gas film grows", NUMBER, hard=(0.4, 1.0),
        plausible=(0.6, 0.8), typical=0.70, spread=0.04, measure=NOT_MEASURED)
    friction_share: Real = declare(
        "share of friction and pumping that stays in the engine as heat", FRACTION, hard=(0.3, 1.2),
        plausible=(0.6, 1.0), typical=0.85, spread=0.08, measure=NOT_MEASURED)
    cold_friction: Real = declare(
        "share of the friction of a warm engine that grows as the root of its oil's viscosity", FRACTION,
        hard=(0.0, 1.5), plausible=(0.3, 1.0), typical=0.55, spread=0.12, measure=NOT_MEASURED)
    bay_warmth: Real = declare(
        "warmth of the air around a standing engine over that of its coolant, both above ambient", FRACTION,
        hard=(0.0, 0.97), plausible=(0.5, 0.9), typical=0.78, spread=0.05, measure=NOT_MEASURED)
    still_air: Real = declare(
        "air that drifts through a hot core with the fan still and no wind", SPEED, hard=(0.0, 1.0),
        plausible=(0.02, 0.2), typical=0.07, spread=0.3, relative=True, measure=NOT_MEASURED)
    fan_pressure: Real = declare(
        "pressure of the fan over its stated curve, as fitted", NUMBER, hard=(0.3, 2.0), plausible=(0.6, 1.4),
        typical=1.0, spread=0.12, relative=True, measure=NOT_MEASURED)
    bare_fan_pressure: Real = declare(
        "share of its pressure that a fan without a shroud keeps, air drawn in past the core counted apart", FRACTION,
        hard=(0.3, 1.0), plausible=(0.7, 0.95), typical=0.86, spread=0.04,
        measure="not measured: so that a cowl adds the third of air that was measured standing (car_reports1936)")
    bare_fan_widening: Real = declare(
        "growth of the circle that blades without a shroud draw through, over their distance from the core", NUMBER,
        hard=(0.0, 3.0), plausible=(0.3, 1.5), typical=0.8, spread=0.2, measure=NOT_MEASURED)
    bare_fan_rim: Real = declare(
        "how far from the tips of blades without a shroud air slips in past the core", LENGTH, hard=(0.0, 0.2),
        plausible=(0.01, 0.06), typical=0.03, spread=0.15, relative=True, measure=NOT_MEASURED)
    stirred: Real = declare(
        "share of its push with which a fan that blows against the ram air moves air where both are even", FRACTION,
        hard=(0.0, 0.8), plausible=(0.05, 0.3), typical=0.15, spread=0.05, measure="not measured; judgement")
    bay_breath: Real = declare(
        "warmth of the bay's air that a fan blowing forwards takes at standstill, over the coolant's own", FRACTION,
        hard=(0.0, 0.8), plausible=(0.05, 0.3), typical=0.12, spread=0.04, measure="not measured; judgement")
    hot_ground: Real = declare(
        "air at the grille above the shade, standing among cars on hot asphalt", TEMPERATURE_RISE, hard=(-5, 25),
        plausible=(1, 12), typical=5.0, spread=1.7,
        measure="not measured: 3 to 8 K; thermometer at the grille in the queue against one in the shade")
    carry_out_open: Real = declare(
        "liquid that steam carries out of an open neck over its own mass", NUMBER, hard=(0.0, 20.0),
        plausible=(0.2, 2.0), typical=0.5, spread=0.5, relative=True,
        measure="not measured: 0.45 and 0.57 on a stand (car_reports1922)")
    carry_out_pressed: Real = declare(
        "liquid that steam carries past a pressure cap over its own mass", NUMBER, hard=(0.0, 20.0),
        plausible=(0.3, 4.0), typical=1.0, spread=0.78, relative=True, measure="not measured; judgement")
    # fmt: on
