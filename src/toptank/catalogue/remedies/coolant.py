"""Remedies on the coolant's side but for the core: pump, hoses, thermostat, cap, coolant, block."""

from dataclasses import replace

from toptank.catalogue.remedies.remedy import Remedy, like, one_after_the_other, put_right, unchanged
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import namespace

DRAIN, TOP_UP = "drain, fill and bleed", "top up and bleed"
"""Work on the coolant that other remedies force: all of it, or only what the work lets out."""

FIND_THE_LEAK = "find the leak, fill and bleed"


def _smaller_pulley(v: Vehicle, _sound: Vehicle) -> Vehicle:
    """Pump 15 % quicker, and the fan that sits on its shaft with it."""
    pump, fan = v.water_pump, v.fan
    on_the_shaft = 1.0 + 0.15 * (1.0 - fan.electric())
    return replace(
        v,
        water_pump=replace(pump, belt_ratio=pump.belt_ratio * 1.15),
        fan=replace(fan, belt_ratio=fan.belt_ratio * on_the_shaft),
    )


def _new_cap(v: Vehicle, _sound: Vehicle) -> Vehicle:
    return replace(v, cap=replace(v.cap, holds=like(0.98, v.cap.holds)))


def _filled(v: Vehicle, sound: Vehicle) -> Vehicle:
    """Without the air that the sheet tells of; what a leak loses is lost again."""
    xp = namespace(v.fill.air)
    return replace(v, fill=replace(v.fill, air=xp.maximum(v.fill.air - sound.fill.air, 0.0)))


def _half_and_half(v: Vehicle, sound: Vehicle) -> Vehicle:
    filled = _filled(v, sound)
    return replace(filled, fill=replace(filled.fill, concentrate=like(0.5, v.fill.concentrate)))


REMEDIES_OF_COOLANT = (
    Remedy(
        name="replace the water pump",
        effect=unchanged,
        parts=("water pump", "gasket"),
        minutes=150,
        group="pump",
        note="Look at vanes and clearance of the new one; cast vanes stay, stamped ones bend.",
        limits="Brings back what it had when new, no more.",
        forces=(DRAIN,),
        cures=("pump worn",),
    ),
    Remedy(
        name="fit a smaller pump pulley",
        effect=_smaller_pulley,
        parts=("pulley", "belt"),
        minutes=60,
        group="pulley",
        note="Pump 15 % quicker, and with it a fan that sits on the pump's shaft, as nearly all belt-driven ones do.",
        limits="Mind the highest speed of pump and fan, and the suction hose.",
    ),
    Remedy(
        name="replace and tighten the belt",
        effect=one_after_the_other(put_right("water_pump", belt_slip=0.0), put_right("fan", belt_slip=0.0)),
        parts=("belt",),
        minutes=30,
        group="belt",
        note="Dry pulleys, right width, tightened again after an hour.",
        limits="Only where it slips.",
        cures=("belt slips",),
    ),
    Remedy(
        name="replace the thermostat",
        effect=put_right("thermostat", largest_opening=1.0, smallest_opening=0.002),
        parts=("thermostat", "gasket"),
        minutes=45,
        group="thermostat",
        note="The kind that the housing needs, with the bypass disc where it has one; try it in a pan first.",
        limits="A colder one moves the floor only.",
        forces=(TOP_UP,),
        cures=(
            *("thermostat stuck or late", "thermostat of the wrong kind"),
            "thermostat missing or stuck open",
        ),
    ),
    Remedy(
        name="replace the bottom hose, with its spring",
        effect=put_right("hoses", collapse=0.0),
        parts=("bottom hose with spring",),
        minutes=45,
        group="hose",
        note="A spring inside, or a hose that does not need one.",
        limits="Only where it collapses.",
        forces=(TOP_UP,),
        cures=("lower hose collapses",),
    ),
    Remedy(
        name="replace the cap",
        effect=_new_cap,
        parts=("cap",),
        minutes=5,
        group="cap",
        note="Right pressure, right reach, both seals; test the new one too.",
        limits="Raises the boiling point, does not cool.",
        cures=("cap weak",),
    ),
    Remedy(
        name=DRAIN,
        effect=_half_and_half,
        includes=(TOP_UP,),
        parts=("concentrate", "distilled water"),
        minutes=60,
        group="coolant",
        note="50/50, measured; nose up, heater on, bled through a heat cycle.",
        limits="Finds no leak by itself.",
        cures=("coolant too strong", "coolant too weak"),
    ),
    Remedy(
        name=TOP_UP,
        effect=_filled,
        parts=(),
        minutes=25,
        group="coolant",
        note="Heater on, filled slowly at the highest neck, bled through a heat cycle; look again cold.",
        limits="Finds no leak by itself; what was lost went somewhere.",
    ),
    Remedy(
        name=FIND_THE_LEAK,
        effect=_filled,
        includes=(TOP_UP,),
        parts=("hose clamps and small parts",),
        minutes=90,
        group="leak",
        note="Pressure test cold and hot: hoses, pump, heater, core, then the head gasket. Filled slowly at the "
        "highest neck, bled through a heat cycle, level checked again cold.",
        limits="A leak that only opens when hot is found hot, or not at all.",
        cures=("coolant low or air trapped",),
    ),
    Remedy(
        name="flush the block through its plugs",
        effect=unchanged,
        parts=("core plugs",),
        minutes=360,
        group="block",
        note="Plugs out, wire and water until it runs clear; a stocking in the top hose for 100 miles.",
        limits="Only where mud is in the block.",
        forces=(DRAIN,),
        cures=("sediment in the block",),
    ),
)
