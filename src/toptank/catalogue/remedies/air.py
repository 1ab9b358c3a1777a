"""Remedies on the air's side: cleaning, sealing, shroud, clutch, fans, condenser."""

from dataclasses import replace

from toptank.catalogue.remedies.remedy import Remedy, like, restored
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import namespace

CLEAN_FACE = 0.02
"""Share of the face that stays closed after a good cleaning [1]; judgement."""


def _cleaned(v: Vehicle, sound: Vehicle) -> Vehicle:
    core, condenser = v.core, v.condenser
    xp = namespace(core.blocked_face)
    return replace(
        v,
        core=replace(core, blocked_face=xp.minimum(core.blocked_face, CLEAN_FACE)),
        condenser=replace(
            condenser, loss_coefficient=xp.minimum(condenser.loss_coefficient, sound.condenser.loss_coefficient)
        ),
    )


def _shrouded(v: Vehicle, sound: Vehicle) -> Vehicle:
    """A whole shroud, close to the core, blades half in, three quarters of an inch of clearance."""
    shroud, xp = v.shroud, namespace(v.shroud.gap_share)
    made = replace(
        shroud,
        present=like(1.0, shroud.present),
        coverage=xp.maximum(shroud.coverage, 0.95),
        gap_share=xp.minimum(shroud.gap_share, 0.02),
        tip_clearance=xp.minimum(shroud.tip_clearance, 0.019),
        recirculation=xp.minimum(shroud.recirculation, sound.shroud.recirculation),
    )
    return replace(v, shroud=made)


def _sealed(v: Vehicle, sound: Vehicle) -> Vehicle:
    xp = namespace(v.grille.leakage)
    grille = replace(v.grille, leakage=xp.minimum(v.grille.leakage, 0.04))
    shroud = replace(v.shroud, recirculation=xp.minimum(v.shroud.recirculation, 0.5 * sound.shroud.recirculation))
    return replace(v, grille=grille, shroud=shroud)


def _new_clutch(v: Vehicle, sound: Vehicle) -> Vehicle:
    clutch = replace(
        v.fan_clutch,
        engaged_ratio=sound.fan_clutch.engaged_ratio,
        released_ratio=sound.fan_clutch.released_ratio,
        engages=sound.fan_clutch.engages,
    )
    return replace(v, fan_clutch=clutch)


def _severe_clutch(v: Vehicle, sound: Vehicle) -> Vehicle:
    xp = namespace(v.fan_clutch.engaged_ratio)
    clutch = replace(
        v.fan_clutch,
        engaged_ratio=xp.maximum(sound.fan_clutch.engaged_ratio, 0.9),
        released_ratio=sound.fan_clutch.released_ratio,
        engages=sound.fan_clutch.engages - 4.0,
        engaging_range=xp.minimum(v.fan_clutch.engaging_range, 6.0),
    )
    return replace(v, fan_clutch=clutch)


def _more_blades(v: Vehicle, sound: Vehicle) -> Vehicle:
    """Two more and steeper blades: a fifth more pressure and flow, more than a third more power; judgement."""
    fan = replace(
        v.fan,
        strength=like(1.0, v.fan.strength),
        pressure_coefficient=sound.fan.pressure_coefficient * 1.2,
        flow_coefficient=sound.fan.flow_coefficient * 1.1,
        power_coefficient=sound.fan.power_coefficient * 1.35,
    )
    return replace(v, fan=fan)


def _two_electric_fans(v: Vehicle, _sound: Vehicle) -> Vehicle:
    """Two fans of 14 in on a shroud of their own, on the engine's side of the core."""
    fan = v.fan
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
    return replace(v, fan=electric)


def _ram_flaps(v: Vehicle, sound: Vehicle) -> Vehicle:
    shroud = replace(v.shroud, flap_share=like(0.08, v.shroud.flap_share))
    grille = replace(v.grille, bay_loss_coefficient=sound.grille.bay_loss_coefficient)
    return replace(v, shroud=shroud, grille=grille)


REMEDIES_OF_AIR = (
    Remedy(
        name="clean the core and the condenser outside",
        effect=_cleaned,
        parts=("fin cleaner",),
        minutes=60,
        group="outside",
        note="Low pressure from behind, straight through the fins; comb what is bent. Part of every service.",
        limits="Does nothing for tubes and solder.",
    ),
    Remedy(
        name="seal the core to the body",
        effect=_sealed,
        parts=("foam and rubber seal",),
        minutes=60,
        group="seals",
        note="Top, sides, air dam and the gap to the condenser; seals age and are forgotten at the next radiator.",
        limits="Helps on the road, little at idle.",
    ),
    Remedy(
        name="make or mend the shroud",
        effect=_shrouded,
        parts=("shroud",),
        minutes=120,
        group="shroud",
        note="Blades half in, 1/2 to 1 in of tip clearance; check it against the engine's movement.",
        limits="Helps at idle and at low speed; too tight a ring chokes ram air at speed.",
        fits=lambda v: 1.0 - v.fan.electric(),
    ),
    Remedy(
        name="open flaps in the shroud",
        effect=_ram_flaps,
        parts=("shroud flaps",),
        minutes=60,
        group="flaps",
        note="Rubber over holes of 3 in: shut at idle, open at speed.",
        limits="Only where the shroud holds back the air of the road.",
        fits=lambda v: v.shroud.present,
    ),
    Remedy(
        name="replace the fan clutch",
        effect=_new_clutch,
        parts=("fan clutch",),
        minutes=60,
        group="fan drive",
        note="New ones differ in fill and setting: try it hot before the vehicle leaves.",
        limits="Brings back what it had when new, no more.",
        fits=lambda v: v.fan.clutched(),
    ),
    Remedy(
        name="fit a severe-duty fan clutch",
        effect=_severe_clutch,
        parts=("severe-duty fan clutch",),
        minutes=60,
        group="fan drive",
        note="Engages earlier and slips less: more noise and power; deeper than the old one, mind the core.",
        limits="The fan and its pulley must stand the speed.",
        fits=lambda v: v.fan.clutched(),
    ),
    Remedy(
        name="fit a fan with more blades",
        effect=_more_blades,
        parts=("fan",),
        minutes=60,
        group="fan",
        note="Same diameter, more and steeper blades; takes a third more power. Check hub, depth and rated speed.",
        limits="Needs a shroud to be worth its power.",
        fits=lambda v: 1.0 - v.fan.electric(),
    ),
    Remedy(
        name="fit two electric fans with a shroud",
        effect=_two_electric_fans,
        parts=("two electric fans", "fan relay and wiring"),
        minutes=240,
        group="fan drive",
        note="About 40 A together at 13.5 V (from memory): the alternator must carry it at hot idle, where it gives "
        "about half of its rating, and so must wiring and fuses: ask `toptank fit`. Starts by itself.",
        limits="Seldom moves what a large belt-driven fan with a shroud moves on a long climb.",
        fits=lambda v: 1.0 - v.fan.electric(),
    ),
    Remedy(
        name="mend the electric fan and its control",
        effect=restored("fan", "supply", "backwards", "switch_on", "switch_off", "strength"),
        parts=("electric fan",),
        minutes=90,
        group="fan drive",
        note="Motor, relay, switch, ground; check which way it blows with paper.",
        limits="Brings back what it had when new, no more.",
        fits=lambda v: v.fan.electric(),
    ),
)
