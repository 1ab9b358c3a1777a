"""Causes on the air's side: the core's outside, the fan, the shroud, the way round."""

from dataclasses import replace

from toptank.catalogue.causes.cause import BREAKS, BUILT_IN, EITHER, PRACTICE, WEARS, Cause, lerp
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real, namespace


def _where(condition: Real, then: Real, otherwise: Real) -> Real:
    return namespace(condition, then, otherwise).where(condition, then, otherwise)


def _smaller(v: Vehicle, s: Real) -> Vehicle:
    return replace(
        v,
        core=replace(
            v.core,
            face_width=v.core.face_width * (1.0 - 0.3 * s),
            rows=_where((s > 0.45) & (v.core.rows > 1.5), v.core.rows - 1.0, v.core.rows),
        ),
    )


def small_for_its_engine(vehicle: Vehicle) -> Real:
    """Usual cores have a square metre of face for some 15 litres of engine; the third power is judgement."""
    ratio = vehicle.engine.displacement / vehicle.core.face_area() / 0.015
    return namespace(ratio).clip(ratio * ratio * ratio, 0.3, 5.0)


def lacks_a_shroud(vehicle: Vehicle) -> Real:
    """A shroud that is seen to be missing is four times as likely to be missed; judgement."""
    return 4.0 - 3.0 * vehicle.shroud.present


def _matted(v: Vehicle, s: Real) -> Vehicle:
    matted = replace(v, core=replace(v.core, blocked_face=lerp(v.core.blocked_face, 0.7, s)))
    return replace(
        matted, condenser=replace(matted.condenser, loss_coefficient=v.condenser.loss_coefficient * (1.0 + 3.0 * s))
    )


def _late_clutch(v: Vehicle, s: Real) -> Vehicle:
    return replace(v, fan_clutch=replace(v.fan_clutch, engages=v.fan_clutch.engages + 28.0 * s))


def _seized_clutch(v: Vehicle, s: Real) -> Vehicle:
    clutch = v.fan_clutch
    return replace(v, fan_clutch=replace(v.fan_clutch, released_ratio=lerp(clutch.released_ratio, 0.95, s)))


def _no_shroud(v: Vehicle, s: Real) -> Vehicle:
    """Without the shroud that it was built with; one that never had any lacks it the more, the weaker its fan."""
    needed = v.shroud.present > 0.5
    without = replace(v, shroud=replace(v.shroud, present=_where(s > 0.0, 0.0 * s, v.shroud.present)))
    return replace(
        without, fan=replace(without.fan, strength=v.fan.strength * _where(needed, 1.0 + 0.0 * s, 1.0 - 0.5 * s))
    )


def _poor_shroud(v: Vehicle, s: Real) -> Vehicle:
    shroud = v.shroud
    return replace(
        v,
        shroud=replace(
            v.shroud,
            gap_share=lerp(shroud.gap_share, 0.4, s),
            tip_clearance=shroud.tip_clearance + 0.05 * s,
            recirculation=lerp(shroud.recirculation, 0.35, s),
        ),
    )


def _round_the_core(v: Vehicle, s: Real) -> Vehicle:
    round_it = replace(v, grille=replace(v.grille, leakage=lerp(v.grille.leakage, 0.75, s)))
    return replace(round_it, shroud=replace(round_it.shroud, recirculation=lerp(v.shroud.recirculation, 0.45, s)))


def _deaf_switch(v: Vehicle, s: Real) -> Vehicle:
    """The fan waits for a temperature that never comes; the air conditioning's own wire still turns it on."""
    fan = v.fan
    return replace(v, fan=replace(fan, switch_on=fan.switch_on + 45.0 * s, switch_off=fan.switch_off + 45.0 * s))


def _wrong_clutch(v: Vehicle, s: Real) -> Vehicle:
    clutch = v.fan_clutch
    return replace(
        v,
        fan_clutch=replace(
            clutch, engaged_ratio=clutch.engaged_ratio * (1.0 - 0.4 * s), engages=clutch.engages + 8.0 * s
        ),
    )


def _shading_pusher(v: Vehicle, s: Real) -> Vehicle:
    shaded = replace(v, core=replace(v.core, blocked_face=lerp(v.core.blocked_face, 0.35, s)))
    return replace(shaded, fan=replace(shaded.fan, strength=v.fan.strength * (1.0 - 0.35 * s)))


def _hot_condenser(v: Vehicle, s: Real) -> Vehicle:
    """More heat from the refrigerant, and less air through condenser and core."""
    hot = replace(v, condenser=replace(v.condenser, cooling_load=v.condenser.cooling_load * (1.0 + 0.5 * s)))
    return replace(hot, fan=replace(hot.fan, strength=v.fan.strength * (1.0 - 0.25 * s)))


CAUSES_OF_AIR = (
    Cause(
        name="core too small",
        does="The core cannot shed this engine's heat at this duty, though it is clean.",
        repair="fit a larger core",
        mended_by=("larger radiator",),
        prior_weight=0.045,
        onset=BUILT_IN,
        effect=_smaller,
        begun_by=("engine rebuilt", "radiator"),
        prior_factor=small_for_its_engine,
    ),
    Cause(
        name="fins blocked outside",
        does="Dirt, insects or leaves close part of the face, of the core or of the condenser ahead of it.",
        repair="clean the core outside",
        mended_by=("radiator", "radiator cleaned", "condenser"),
        prior_weight=0.07,
        onset=WEARS,
        effect=_matted,
        origin=PRACTICE,
        wears=True,
    ),
    Cause(
        name="fins loose on the tubes",
        does="The solder between fins and tubes has gone: the fins no longer carry heat.",
        repair="recore or replace the core",
        mended_by=("radiator",),
        prior_weight=0.02,
        onset=WEARS,
        wears=True,
        effect=lambda v, s: replace(v, core=replace(v.core, loose_fins=lerp(v.core.loose_fins, 0.85, s))),
    ),
    Cause(
        name="fan clutch slips",
        does="The hot clutch turns the fan too slowly, most of all at idle.",
        repair="replace the fan clutch",
        mended_by=("fan clutch",),
        prior_weight=0.09,
        onset=WEARS,
        prior_factor=lambda v: v.fan.clutched(),
        origin=PRACTICE,
        wears=True,
        begun_by=("fan clutch",),
        effect=lambda v, s: replace(
            v, fan_clutch=replace(v.fan_clutch, engaged_ratio=v.fan_clutch.engaged_ratio * (1.0 - 0.85 * s))
        ),
    ),
    Cause(
        name="fan clutch engages late",
        does="The clutch waits for hotter air than it should before it takes hold.",
        repair="replace the fan clutch",
        mended_by=("fan clutch",),
        prior_weight=0.03,
        onset=EITHER,
        prior_factor=lambda v: v.fan.clutched(),
        effect=_late_clutch,
        begun_by=("fan clutch",),
    ),
    Cause(
        name="fan clutch seized",
        does="The fan always turns with its shaft: noise and power lost, little heat.",
        repair="replace the fan clutch",
        mended_by=("fan clutch",),
        prior_weight=0.004,
        onset=BREAKS,
        prior_factor=lambda v: v.fan.clutched(),
        effect=_seized_clutch,
    ),
    Cause(
        name="fan too weak",
        does="The fan is too small, fouled, bent, short of blades or of the wrong hand.",
        repair="fit a larger or sound fan",
        mended_by=("fan", "electric fan"),
        prior_weight=0.035,
        onset=BUILT_IN,
        begun_by=("fan", "electric fan", "engine rebuilt"),
        effect=lambda v, s: replace(v, fan=replace(v.fan, strength=v.fan.strength * (1.0 - 0.75 * s))),
    ),
    Cause(
        name="fan missing",
        does="No fan turns at all: ram air alone.",
        repair="fit a larger or sound fan",
        mended_by=("fan", "electric fan"),
        prior_weight=0.004,
        onset=BREAKS,
        severity=(8.0, 1.0),
        effect=lambda v, s: replace(v, fan=replace(v.fan, strength=v.fan.strength * (1.0 - s) ** 2)),
    ),
    Cause(
        name="electric fan dead or weak",
        does="Motor, fuse, relay, switch or wiring: the electric fan stands still or turns slowly.",
        repair="mend the electric fan and its control",
        mended_by=("electric fan", "fan", "fan control"),
        prior_weight=0.14,
        onset=BREAKS,
        prior_factor=lambda v: v.fan.electric(),
        origin=PRACTICE,
        severity=(2.5, 0.8),
        begun_by=("electric fan", "belt"),
        effect=lambda v, s: replace(v, fan=replace(v.fan, supply=v.fan.supply * (1.0 - s))),
    ),
    Cause(
        name="electric fan reversed",
        does="The electric fan blows against the air of the road.",
        repair="mend the electric fan and its control",
        mended_by=("electric fan", "fan", "fan control"),
        prior_weight=0.015,
        onset=BUILT_IN,
        prior_factor=lambda v: v.fan.electric(),
        begun_by=("electric fan", "fan", "fan control"),
        effect=lambda v, s: replace(v, fan=replace(v.fan, backwards=_where(s > 0.0, 1.0 + 0.0 * s, v.fan.backwards))),
    ),
    Cause(
        name="shroud missing",
        does="No shroud where one is needed: the fan draws through its own circle and from the sides.",
        repair="make or mend the shroud",
        mended_by=("shroud",),
        prior_weight=0.03,
        onset=BUILT_IN,
        effect=_no_shroud,
        prior_factor=lacks_a_shroud,
        begun_by=("radiator", "fan clutch", "engine rebuilt", "fan"),
    ),
    Cause(
        name="shroud leaks or sits wrong",
        does="A broken shroud, open seams or a fan in the wrong place: hot air goes round, fresh air past the core.",
        repair="make or mend the shroud",
        mended_by=("shroud",),
        prior_weight=0.03,
        onset=EITHER,
        effect=_poor_shroud,
        begun_by=("radiator", "fan clutch", "fan", "water pump", "engine rebuilt"),
    ),
    Cause(
        name="shroud chokes ram air",
        does="A tight shroud or a small fan ring holds back the air of the road at speed.",
        repair="open flaps in the shroud",
        mended_by=("shroud",),
        prior_weight=0.008,
        onset=BUILT_IN,
        begun_by=("shroud", "electric fan"),
        prior_factor=lambda v: v.shroud.present,
        effect=lambda v, s: replace(
            v, grille=replace(v.grille, bay_loss_coefficient=v.grille.bay_loss_coefficient + 14.0 * s)
        ),
    ),
    Cause(
        name="air goes round the core",
        does="Missing seals, panels or air dam, or a closed grille: the air of the road does not go through the core.",
        repair="seal the core to the body",
        mended_by=("grille",),
        prior_weight=0.03,
        onset=BUILT_IN,
        effect=_round_the_core,
        begun_by=("radiator", "condenser", "grille"),
    ),
    Cause(
        name="fan switch or relay dead",
        does="The electric fan is sound, and nothing turns it on by temperature; the air conditioning may still do.",
        repair="mend the electric fan and its control",
        mended_by=("fan control", "electric fan"),
        prior_weight=0.05,
        onset=BREAKS,
        prior_factor=lambda v: v.fan.electric(),
        origin=PRACTICE,
        kind_of="electric fan dead or weak",
        severity=(4.0, 0.8),
        begun_by=("electric fan", "fan control", "radiator", "thermostat"),
        effect=_deaf_switch,
    ),
    Cause(
        name="fan clutch of the wrong kind",
        does="A clutch for a lighter duty: it takes hold late and turns the fan too slowly for this vehicle.",
        repair="replace the fan clutch",
        mended_by=("fan clutch",),
        prior_weight=0.012,
        onset=BUILT_IN,
        prior_factor=lambda v: v.fan.clutched(),
        kind_of="fan clutch engages late",
        begun_by=("fan clutch",),
        effect=_wrong_clutch,
    ),
    Cause(
        name="fan fitted back to front",
        does="The belt fan is the wrong way round or of the wrong hand: it moves little air the right way.",
        repair="fit a larger or sound fan",
        mended_by=("fan",),
        prior_weight=0.005,
        onset=BUILT_IN,
        prior_factor=lambda v: 1.0 - v.fan.electric(),
        kind_of="fan too weak",
        begun_by=("fan", "water pump", "engine rebuilt", "radiator"),
        effect=lambda v, s: replace(v, fan=replace(v.fan, strength=v.fan.strength * (1.0 - 0.7 * s))),
    ),
    Cause(
        name="pusher fan shades the core",
        does="A small fan ahead of the core moves little air and shades the core at speed.",
        repair="fit a larger or sound fan",
        mended_by=("electric fan", "fan"),
        prior_weight=0.01,
        onset=BUILT_IN,
        prior_factor=lambda v: v.fan.electric(),
        kind_of="fan too weak",
        begun_by=("electric fan",),
        effect=_shading_pusher,
    ),
    Cause(
        name="condenser fan dead or overcharged",
        does="The fan of the condenser stands still, or there is too much refrigerant: its heat goes into the core.",
        repair="repair the condenser fan, set the charge",
        mended_by=("condenser",),
        prior_weight=0.014,
        onset=EITHER,
        prior_factor=lambda v: v.condenser.present,
        begun_by=("condenser", "electric fan"),
        effect=_hot_condenser,
    ),
)
