"""Causes on the air's side: the core's outside, the fan, the shroud, the way round."""

from dataclasses import replace

from toptank.catalogue.causes.cause import BREAKS, BUILT_IN, EITHER, JUDGEMENT, PRACTICE, TRADE, WEARS, Cause, lerp
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real, namespace

COMES_ROUND = 0.3
"""Share of hot air that comes round at standstill where a shroud is badly lacking [1]; judgement."""


def _where(condition: Real, then: Real, otherwise: Real) -> Real:
    return namespace(condition, then, otherwise).where(condition, then, otherwise)


def _smaller(v: Vehicle, s: Real) -> Vehicle:
    return replace(
        v,
        core=replace(v.core, face_width=v.core.face_width * (1.0 - 0.3 * s)),
    )


def small_for_its_engine(vehicle: Vehicle) -> Real:
    """Usual cores have a square metre of face for some 15 litres of engine; the third power is judgement."""
    ratio = vehicle.engine.displacement / vehicle.core.face_area() / 0.015
    return namespace(ratio).clip(ratio * ratio * ratio, 0.3, 5.0)


def lacks_a_shroud(vehicle: Vehicle) -> Real:
    """A shroud that is seen to be missing is four times as likely to be missed; judgement."""
    return 4.0 - 3.0 * vehicle.shroud.present


def _matted(v: Vehicle, s: Real) -> Vehicle:
    matted = replace(v, core=replace(v.core, blocked_face=lerp(v.core.blocked_face, 0.45, s)))
    return replace(
        matted, condenser=replace(matted.condenser, loss_coefficient=v.condenser.loss_coefficient * (1.0 + 0.2 * s))
    )


def _late_clutch(v: Vehicle, s: Real) -> Vehicle:
    return replace(v, fan_clutch=replace(v.fan_clutch, engages=v.fan_clutch.engages + 20.0 * s))


def _seized_clutch(v: Vehicle, s: Real) -> Vehicle:
    clutch = v.fan_clutch
    locked = {name: lerp(getattr(clutch, name), 0.99, s) for name in ("released_ratio", "engaged_ratio")}
    return replace(v, fan_clutch=replace(clutch, **locked))


def _no_shroud(v: Vehicle, s: Real) -> Vehicle:
    """Without the shroud that it was built with; where none ever was, hot air comes round the blades instead."""
    shroud = v.shroud
    bare = _where(shroud.present > 0.5, 0.0 * s, s)
    missing = replace(
        shroud,
        present=_where(s > 0.0, 0.0 * s, shroud.present),
        recirculation=lerp(shroud.recirculation, COMES_ROUND, bare),
    )
    return replace(v, shroud=missing)


def _poor_shroud(v: Vehicle, s: Real) -> Vehicle:
    shroud = v.shroud
    return replace(
        v,
        shroud=replace(
            v.shroud,
            gap_share=shroud.gap_share + 0.045 * s,
            tip_clearance=shroud.tip_clearance + 0.005 * s,
            recirculation=shroud.recirculation + 0.03 * s,
        ),
    )


def _round_the_core(v: Vehicle, s: Real) -> Vehicle:
    round_it = replace(v, grille=replace(v.grille, leakage=lerp(v.grille.leakage, 0.75, s)))
    return replace(round_it, shroud=replace(round_it.shroud, recirculation=lerp(v.shroud.recirculation, 0.45, s)))


HOTTEST_SWITCH = 399.0
"""Temperature that a switch can have at most and still be one [K]."""


def _deaf_switch(v: Vehicle, s: Real) -> Vehicle:
    """The fan waits for a temperature that never comes; the air conditioning's own wire still turns it on."""
    fan = v.fan
    never = namespace(fan.switch_on, s)
    return replace(
        v,
        fan=replace(
            fan,
            switch_on=never.minimum(fan.switch_on + 45.0 * s, never.maximum(fan.switch_on, HOTTEST_SWITCH)),
            switch_off=never.minimum(fan.switch_off + 45.0 * s, never.maximum(fan.switch_off, HOTTEST_SWITCH - 6.0)),
        ),
    )


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
        id="core_too_small",
        size=TRADE,
        repair="fit_larger_core",
        mended_by=("larger_radiator",),
        prior_weight=0.045,
        onset=BUILT_IN,
        effect=_smaller,
        begun_by=("engine_rebuilt", "radiator"),
        prior_factor=small_for_its_engine,
    ),
    Cause(
        id="fins_blocked",
        size=TRADE,
        repair="clean_core_outside",
        mended_by=("radiator", "radiator_cleaned", "condenser"),
        prior_weight=0.07,
        onset=WEARS,
        effect=_matted,
        origin=PRACTICE,
        wears=True,
    ),
    Cause(
        id="fins_loose",
        size=TRADE,
        repair="replace_core",
        mended_by=("radiator",),
        prior_weight=0.02,
        onset=WEARS,
        wears=True,
        effect=lambda v, s: replace(v, core=replace(v.core, loose_fins=lerp(v.core.loose_fins, 0.69, s))),
    ),
    Cause(
        id="fan_clutch_slips",
        size=TRADE,
        repair="replace_fan_clutch",
        mended_by=("fan_clutch",),
        prior_weight=0.09,
        onset=WEARS,
        prior_factor=lambda v: v.fan.clutched(),
        origin=PRACTICE,
        wears=True,
        begun_by=("fan_clutch",),
        effect=lambda v, s: replace(
            v,
            fan_clutch=replace(
                v.fan_clutch,
                engaged_ratio=v.fan_clutch.engaged_ratio * (1.0 - 0.73 * s),
                released_ratio=v.fan_clutch.released_ratio * (1.0 - 0.05 * s),
            ),
        ),
    ),
    Cause(
        id="fan_clutch_late",
        size=TRADE,
        repair="replace_fan_clutch",
        mended_by=("fan_clutch",),
        prior_weight=0.03,
        onset=EITHER,
        prior_factor=lambda v: v.fan.clutched(),
        effect=_late_clutch,
        begun_by=("fan_clutch",),
    ),
    Cause(
        id="fan_clutch_seized",
        size=JUDGEMENT,
        repair="replace_fan_clutch",
        mended_by=("fan_clutch",),
        prior_weight=0.004,
        onset=BREAKS,
        prior_factor=lambda v: v.fan.clutched(),
        effect=_seized_clutch,
    ),
    Cause(
        id="fan_too_weak",
        size=JUDGEMENT,
        repair="replace_fan",
        mended_by=("fan", "electric_fan"),
        prior_weight=0.035,
        onset=BUILT_IN,
        begun_by=("fan", "electric_fan", "engine_rebuilt"),
        effect=lambda v, s: replace(v, fan=replace(v.fan, strength=v.fan.strength * (1.0 - 0.75 * s))),
    ),
    Cause(
        id="fan_missing",
        size=TRADE,
        repair="replace_fan",
        mended_by=("fan", "electric_fan"),
        prior_weight=0.004,
        onset=BREAKS,
        severity=(8.0, 1.0),
        effect=lambda v, s: replace(v, fan=replace(v.fan, strength=v.fan.strength * (1.0 - s) ** 2)),
    ),
    Cause(
        id="electric_fan_weak",
        size=TRADE,
        repair="repair_electric_fan",
        mended_by=("electric_fan", "fan", "fan_control"),
        prior_weight=0.14,
        onset=BREAKS,
        prior_factor=lambda v: v.fan.electric(),
        origin=PRACTICE,
        severity=(2.5, 0.8),
        begun_by=("electric_fan", "belt"),
        effect=lambda v, s: replace(v, fan=replace(v.fan, supply=v.fan.supply * (1.0 - s))),
    ),
    Cause(
        id="electric_fan_reversed",
        size=TRADE,
        repair="repair_electric_fan",
        mended_by=("electric_fan", "fan", "fan_control"),
        prior_weight=0.015,
        onset=BUILT_IN,
        prior_factor=lambda v: v.fan.electric(),
        begun_by=("electric_fan", "fan", "fan_control"),
        effect=lambda v, s: replace(v, fan=replace(v.fan, backwards=_where(s > 0.0, 1.0 + 0.0 * s, v.fan.backwards))),
    ),
    Cause(
        id="shroud_missing",
        size=TRADE,
        repair="repair_shroud",
        mended_by=("shroud",),
        prior_weight=0.03,
        onset=BUILT_IN,
        effect=_no_shroud,
        prior_factor=lacks_a_shroud,
        begun_by=("radiator", "fan_clutch", "engine_rebuilt", "fan"),
    ),
    Cause(
        id="shroud_leaks",
        size=TRADE,
        repair="repair_shroud",
        mended_by=("shroud",),
        prior_weight=0.03,
        onset=EITHER,
        effect=_poor_shroud,
        begun_by=("radiator", "fan_clutch", "fan", "water_pump", "engine_rebuilt"),
    ),
    Cause(
        id="shroud_chokes_ram_air",
        size=TRADE,
        repair="open_shroud_flaps",
        mended_by=("shroud",),
        prior_weight=0.008,
        onset=BUILT_IN,
        begun_by=("shroud", "electric_fan"),
        prior_factor=lambda v: v.shroud.present,
        effect=lambda v, s: replace(v, shroud=replace(v.shroud, chokes=lerp(v.shroud.chokes, 0.94, s))),
    ),
    Cause(
        id="air_bypasses_core",
        size=JUDGEMENT,
        repair="seal_core",
        mended_by=("grille",),
        prior_weight=0.03,
        onset=BUILT_IN,
        effect=_round_the_core,
        begun_by=("radiator", "condenser", "grille"),
    ),
    Cause(
        id="fan_switch_dead",
        repair="repair_electric_fan",
        mended_by=("fan_control", "electric_fan"),
        size="judgement: the sizes that the trade tells, or a part of the wider cause",
        prior_weight=0.05,
        onset=BREAKS,
        prior_factor=lambda v: v.fan.electric(),
        origin=PRACTICE,
        kind_of="electric_fan_weak",
        severity=(4.0, 0.8),
        begun_by=("electric_fan", "fan_control", "radiator", "thermostat"),
        effect=_deaf_switch,
    ),
    Cause(
        id="fan_clutch_wrong",
        repair="replace_fan_clutch",
        mended_by=("fan_clutch",),
        size="judgement: the sizes that the trade tells, or a part of the wider cause",
        prior_weight=0.012,
        onset=BUILT_IN,
        prior_factor=lambda v: v.fan.clutched(),
        kind_of="fan_clutch_late",
        begun_by=("fan_clutch",),
        effect=_wrong_clutch,
    ),
    Cause(
        id="fan_backwards",
        repair="replace_fan",
        mended_by=("fan",),
        size="judgement: the sizes that the trade tells, or a part of the wider cause",
        prior_weight=0.005,
        onset=BUILT_IN,
        prior_factor=lambda v: 1.0 - v.fan.electric(),
        kind_of="fan_too_weak",
        begun_by=("fan", "water_pump", "engine_rebuilt", "radiator"),
        effect=lambda v, s: replace(v, fan=replace(v.fan, strength=v.fan.strength * (1.0 - 0.7 * s))),
    ),
    Cause(
        id="pusher_shades_core",
        repair="replace_fan",
        mended_by=("electric_fan", "fan"),
        size="judgement: the sizes that the trade tells, or a part of the wider cause",
        prior_weight=0.01,
        onset=BUILT_IN,
        prior_factor=lambda v: v.fan.electric(),
        kind_of="fan_too_weak",
        begun_by=("electric_fan",),
        effect=_shading_pusher,
    ),
    Cause(
        id="condenser_fan_dead",
        repair="repair_electric_fan",
        mended_by=("condenser",),
        size="judgement: the sizes that the trade tells, or a part of the wider cause",
        prior_weight=0.014,
        onset=EITHER,
        prior_factor=lambda v: v.condenser.present,
        begun_by=("condenser", "electric_fan"),
        effect=_hot_condenser,
    ),
)
