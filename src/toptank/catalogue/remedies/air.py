"""Remedies on the air's side: cleaning, sealing, shroud, clutch, fans, condenser."""

from dataclasses import replace

from toptank.catalogue.remedies.remedy import Remedy, like, put_right, unchanged
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
        name="clean the core and the condenser outside",
        effect=_cleaned,
        parts=("fin cleaner",),
        minutes=60,
        group="outside",
        note="Low pressure from behind, straight through the fins; comb what is bent. Part of every service.",
        limits="Does nothing for tubes and solder.",
        cures=("fins blocked outside",),
    ),
    Remedy(
        name="seal the core to the body",
        effect=_sealed,
        parts=("foam and rubber seal",),
        minutes=60,
        group="seals",
        note="Top, sides, air dam and the gap to the condenser; seals age and are forgotten at the next radiator.",
        limits="Helps on the road, little at idle.",
        cures=("air goes round the core",),
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
        cures=("shroud missing", "shroud leaks or sits wrong"),
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
        cures=("shroud chokes ram air",),
    ),
    Remedy(
        name="cut louvers in the hood",
        effect=_vented,
        parts=("hood louvers",),
        minutes=180,
        group="hood",
        note="Facing back, clear of the rear edge, where the windshield builds up pressure and air comes in instead of "
        "out; a gutter below them keeps rain off the ignition.",
        limits="Helps on the road, hardly at idle.",
    ),
    Remedy(
        name="replace the fan clutch",
        effect=unchanged,
        parts=("fan clutch",),
        minutes=60,
        group="fan drive",
        note="New ones differ in fill and setting: try it hot before the vehicle leaves.",
        limits="Brings back what it had when new, no more.",
        fits=lambda v: v.fan.clutched(),
        cures=("fan clutch slips", "fan clutch engages late", "fan clutch seized"),
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
        cures=("fan clutch slips", "fan clutch engages late", "fan clutch seized"),
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
        cures=("fan too weak", "fan missing"),
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
        cures=(
            *("fan clutch slips", "fan clutch engages late", "fan clutch seized", "fan too weak", "fan missing"),
            *("shroud missing", "shroud leaks or sits wrong"),
        ),
    ),
    Remedy(
        name="mend the electric fan and its control",
        effect=put_right("fan", backwards=0.0, strength=1.0),
        parts=("electric fan",),
        minutes=90,
        group="fan drive",
        note="Motor, relay, switch, ground; check which way it blows with paper.",
        limits="Brings back what it had when new, no more.",
        fits=lambda v: v.fan.electric(),
        cures=("electric fan dead or weak", "electric fan reversed", "fan too weak", "fan missing"),
    ),
)
