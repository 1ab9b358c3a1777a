"""Remedies on the air's side: cleaning, sealing, shroud, clutch, fans, condenser."""

from dataclasses import replace

from toptank.catalogue.remedies.remedy import AS_SOUND, JUDGEMENT, Remedy, like, put_right, unchanged
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import namespace

MOST_POWER = 10.0
"""Power coefficient that no car fan exceeds [1]: the limit of its field."""

CLEAN_FACE = 0.02
"""Share of the face that stays closed after a good cleaning [1]; judgement."""


def _cleaned(v: Vehicle, _sound: Vehicle) -> Vehicle:
    xp = namespace(v.core.blocked_face)
    return replace(v, core=replace(v.core, blocked_face=xp.minimum(v.core.blocked_face, CLEAN_FACE)))


def _shrouded(v: Vehicle, _sound: Vehicle) -> Vehicle:
    """A whole shroud, close to the core, blades half in, three quarters of an inch of clearance."""
    shroud, xp = v.shroud, namespace(v.shroud.gap_share)
    made = replace(
        shroud,
        present=like(1.0, shroud.present),
        coverage=xp.maximum(shroud.coverage, 0.95),
        gap_share=xp.minimum(shroud.gap_share, 0.02),
        tip_clearance=xp.minimum(shroud.tip_clearance, 0.019),
    )
    return replace(v, shroud=made)


def _sealed(v: Vehicle, _sound: Vehicle) -> Vehicle:
    """Seals on all sides: what came round at standstill is halved; judgement."""
    xp = namespace(v.grille.leakage)
    grille = replace(v.grille, leakage=xp.minimum(v.grille.leakage, 0.04))
    return replace(v, grille=grille, shroud=replace(v.shroud, recirculation=0.5 * v.shroud.recirculation))


def _severe_clutch(v: Vehicle, _sound: Vehicle) -> Vehicle:
    clutch, xp = v.fan_clutch, namespace(v.fan_clutch.engaged_ratio)
    severe = replace(
        clutch,
        engaged_ratio=xp.maximum(clutch.engaged_ratio, 0.9),
        engages=clutch.engages - 4.0,
        engaging_range=xp.minimum(clutch.engaging_range, 6.0),
    )
    return replace(v, fan_clutch=severe)


def _more_blades(v: Vehicle, _sound: Vehicle) -> Vehicle:
    """Two more and steeper blades: a fifth more pressure and flow, more than a third more power; judgement."""
    fan, xp = v.fan, namespace(v.fan.power_coefficient)
    more = replace(
        fan,
        strength=like(1.0, fan.strength),
        pressure_coefficient=fan.pressure_coefficient * 1.2,
        flow_coefficient=fan.flow_coefficient * 1.1,
        power_coefficient=xp.minimum(fan.power_coefficient * 1.35, MOST_POWER),
    )
    return replace(v, fan=more)


def _two_electric_fans(v: Vehicle, _sound: Vehicle) -> Vehicle:
    """Two fans of 14 in on a shroud of their own, on the engine's side of the core."""
    fan, shroud = v.fan, v.shroud
    electric = replace(
        fan,
        drive=like(2.0, fan.drive),
        count=like(2.0, fan.count),
        diameter=like(0.356, fan.diameter),
        motor_speed=like(2400.0 / 60.0, fan.motor_speed),
        supply=like(0.97, fan.supply),
        switch_on=like(361.0, fan.switch_on),
        switch_off=like(355.0, fan.switch_off),
        with_air_conditioning=like(1.0, fan.with_air_conditioning),
        pressure_coefficient=like(0.9, fan.pressure_coefficient),
        flow_coefficient=like(0.5, fan.flow_coefficient),
        power_coefficient=like(0.55, fan.power_coefficient),
        backwards=like(0.0, fan.backwards),
        strength=like(1.0, fan.strength),
    )
    own = replace(
        shroud,
        present=like(1.0, shroud.present),
        coverage=like(0.95, shroud.coverage),
        gap_share=like(0.02, shroud.gap_share),
        tip_clearance=like(0.008, shroud.tip_clearance),
        fan_to_core=like(0.03, shroud.fan_to_core),
    )
    return replace(v, fan=electric, shroud=own)


def _ram_flaps(v: Vehicle, _sound: Vehicle) -> Vehicle:
    shroud = replace(v.shroud, flap_share=like(0.08, v.shroud.flap_share), chokes=like(0.0, v.shroud.chokes))
    return replace(v, shroud=shroud)


def _vented(v: Vehicle, _sound: Vehicle) -> Vehicle:
    """Louvres of half the area of the bay's own way out, over the rear half of the bonnet; judgement."""
    return replace(v, grille=replace(v.grille, vents=v.grille.vents + 0.5))


REMEDIES_OF_AIR = (
    Remedy(
        id="clean_core_outside",
        size=JUDGEMENT,
        effect=_cleaned,
        parts=("fin_cleaner",),
        minutes=60,
        group="outside",
        cures=("fins_blocked",),
    ),
    Remedy(
        id="seal_core",
        size=JUDGEMENT,
        effect=_sealed,
        parts=("foam_and_rubber_seal",),
        minutes=60,
        group="seals",
        cures=("air_bypasses_core",),
    ),
    Remedy(
        id="fit_shroud",
        size=JUDGEMENT,
        effect=_shrouded,
        parts=("shroud",),
        minutes=120,
        group="shroud",
        fits=lambda v: 1.0 - v.fan.electric(),
        cures=("shroud_missing", "shroud_leaks"),
    ),
    Remedy(
        id="open_shroud_flaps",
        size=JUDGEMENT,
        effect=_ram_flaps,
        parts=("shroud_flaps",),
        minutes=60,
        group="flaps",
        fits=lambda v: v.shroud.present,
        cures=("shroud_chokes_ram_air",),
    ),
    Remedy(
        id="hood_louvers",
        size=JUDGEMENT,
        effect=_vented,
        parts=("hood_louvers",),
        minutes=180,
        group="hood",
    ),
    Remedy(
        id="replace_fan_clutch",
        size=AS_SOUND,
        effect=unchanged,
        parts=("fan_clutch",),
        minutes=60,
        group="fan drive",
        fits=lambda v: v.fan.clutched(),
        cures=("fan_clutch_slips", "fan_clutch_late", "fan_clutch_seized", "fan_clutch_wrong"),
    ),
    Remedy(
        id="severe_duty_fan_clutch",
        size=JUDGEMENT,
        effect=_severe_clutch,
        parts=("severe_duty_fan_clutch",),
        minutes=60,
        group="fan drive",
        fits=lambda v: v.fan.clutched(),
        cures=("fan_clutch_slips", "fan_clutch_late", "fan_clutch_seized", "fan_clutch_wrong"),
    ),
    Remedy(
        id="fan_with_more_blades",
        size=JUDGEMENT,
        effect=_more_blades,
        parts=("fan",),
        minutes=60,
        group="fan",
        fits=lambda v: 1.0 - v.fan.electric(),
        cures=("fan_too_weak", "fan_missing", "fan_backwards"),
    ),
    Remedy(
        id="two_electric_fans",
        size=JUDGEMENT,
        effect=_two_electric_fans,
        parts=("two_electric_fans", "fan_relay_and_wiring"),
        minutes=240,
        group="fan drive",
        fits=lambda v: 1.0 - v.fan.electric(),
        cures=(
            *("fan_clutch_slips", "fan_clutch_late", "fan_clutch_seized", "fan_clutch_wrong"),
            *("fan_too_weak", "fan_missing", "fan_backwards", "shroud_missing", "shroud_leaks"),
        ),
    ),
    Remedy(
        id="repair_electric_fan",
        size=AS_SOUND,
        effect=put_right("fan", {"backwards": 0.0, "strength": 1.0}),
        parts=("electric_fan",),
        minutes=90,
        group="fan drive",
        fits=lambda v: v.fan.electric(),
        cures=(
            "electric_fan_weak",
            "electric_fan_reversed",
            "fan_switch_dead",
            "condenser_fan_dead",
            "fan_too_weak",
            "fan_missing",
            "pusher_shades_core",
        ),
    ),
)
