"""Remedies on the coolant's side but for the core: pump, hoses, thermostat, cap, coolant, block."""

from dataclasses import replace

from toptank.catalogue.remedies.remedy import Remedy, like, one_after_the_other, restored
from toptank.system.vehicle import Vehicle

DRAIN, TOP_UP = "drain, fill and bleed", "top up and bleed"
"""Work on the coolant that other remedies force: all of it, or only what the work lets out."""


def _quicker_pump(v: Vehicle, _sound: Vehicle) -> Vehicle:
    pump = v.water_pump
    return replace(v, water_pump=replace(pump, belt_ratio=pump.belt_ratio * 1.15))


def _new_thermostat(v: Vehicle, sound: Vehicle) -> Vehicle:
    stat = v.thermostat
    made = replace(
        sound.thermostat,
        largest_opening=like(1.0, stat.largest_opening),
        smallest_opening=like(0.01, stat.smallest_opening),
    )
    return replace(v, thermostat=made)


def _new_cap(v: Vehicle, _sound: Vehicle) -> Vehicle:
    return replace(v, cap=replace(v.cap, holds=like(0.98, v.cap.holds)))


def _half_and_half(v: Vehicle, _sound: Vehicle) -> Vehicle:
    fill = v.fill
    return replace(v, fill=replace(fill, concentrate=like(0.5, fill.concentrate), air=like(0.0, fill.air)))


REMEDIES_OF_COOLANT = (
    Remedy(
        name="replace the water pump",
        effect=restored("water_pump", "wear"),
        parts=("water pump", "gasket"),
        minutes=150,
        group="pump",
        note="Look at vanes and clearance of the new one; cast vanes stay, stamped ones bend.",
        limits="Brings back what it had when new, no more.",
        forces=(DRAIN,),
    ),
    Remedy(
        name="fit a smaller pump pulley",
        effect=_quicker_pump,
        parts=("pulley", "belt"),
        minutes=60,
        group="pulley",
        note="Pump 15 % quicker, and with it most fans.",
        limits="Mind the highest speed of pump and fan, and the suction hose.",
    ),
    Remedy(
        name="replace and tighten the belt",
        effect=one_after_the_other(restored("water_pump", "belt_slip"), restored("fan", "belt_slip")),
        parts=("belt",),
        minutes=30,
        group="belt",
        note="Dry pulleys, right width, tightened again after an hour.",
        limits="Only where it slips.",
    ),
    Remedy(
        name="replace the thermostat",
        effect=_new_thermostat,
        parts=("thermostat", "gasket"),
        minutes=45,
        group="thermostat",
        note="The kind that the housing needs, with the bypass disc where it has one; try it in a pan first.",
        limits="A colder one moves the floor only.",
        forces=(TOP_UP,),
    ),
    Remedy(
        name="replace the bottom hose, with its spring",
        effect=restored("hoses", "collapse"),
        parts=("bottom hose with spring",),
        minutes=45,
        group="hose",
        note="A spring inside, or a hose that does not need one.",
        limits="Only where it collapses.",
        forces=(TOP_UP,),
    ),
    Remedy(
        name="replace the cap",
        effect=_new_cap,
        parts=("cap",),
        minutes=5,
        group="cap",
        note="Right pressure, right reach, both seals; test the new one too.",
        limits="Raises the boiling point, does not cool.",
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
    ),
    Remedy(
        name=TOP_UP,
        effect=restored("fill", "air"),
        parts=(),
        minutes=25,
        group="coolant",
        note="Heater on, filled slowly at the highest neck, bled through a heat cycle; look again cold.",
        limits="Finds no leak by itself; what was lost went somewhere.",
    ),
    Remedy(
        name="flush the block through its plugs",
        effect=restored("engine", "jacket_area"),
        parts=("core plugs",),
        minutes=360,
        group="block",
        note="Plugs out, wire and water until it runs clear; a stocking in the top hose for 100 miles.",
        limits="Only where mud is in the block.",
        forces=(DRAIN,),
    ),
)
