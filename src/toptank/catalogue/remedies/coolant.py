"""Remedies on the coolant's side but for the core: pump, hoses, thermostat, cap, coolant, block."""

from dataclasses import replace

from toptank.catalogue.remedies.remedy import Remedy, like, one_after_the_other, restored
from toptank.system.vehicle import Vehicle

DRAIN, TOP_UP = "drain_fill_bleed", "top_up_bleed"
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
        id="replace_water_pump",
        mends=("replace_water_pump",),
        effect=restored("water_pump", "wear"),
        parts=("water_pump", "gasket"),
        minutes=150,
        group="pump",
        forces=(DRAIN,),
    ),
    Remedy(
        id="smaller_pump_pulley",
        effect=_quicker_pump,
        parts=("pulley", "belt"),
        minutes=60,
        group="pulley",
    ),
    Remedy(
        id="replace_belt",
        mends=("replace_belt",),
        effect=one_after_the_other(restored("water_pump", "belt_slip"), restored("fan", "belt_slip")),
        parts=("belt",),
        minutes=30,
        group="belt",
    ),
    Remedy(
        id="replace_thermostat",
        mends=("replace_thermostat", "fit_right_thermostat"),
        effect=_new_thermostat,
        parts=("thermostat", "gasket"),
        minutes=45,
        group="thermostat",
        forces=(TOP_UP,),
    ),
    Remedy(
        id="replace_lower_hose",
        mends=("replace_lower_hose",),
        effect=restored("hoses", "collapse"),
        parts=("bottom_hose_with_spring",),
        minutes=45,
        group="hose",
        forces=(TOP_UP,),
    ),
    Remedy(
        id="replace_cap",
        mends=("replace_cap",),
        effect=_new_cap,
        parts=("cap",),
        minutes=5,
        group="cap",
    ),
    Remedy(
        id=DRAIN,
        mends=("fix_leak_and_fill", "change_coolant"),
        effect=_half_and_half,
        includes=(TOP_UP,),
        parts=("concentrate", "distilled_water"),
        minutes=60,
        group="coolant",
    ),
    Remedy(
        id=TOP_UP,
        mends=("fix_leak_and_fill",),
        effect=restored("fill", "air"),
        parts=(),
        minutes=25,
        group="coolant",
    ),
    Remedy(
        id="flush_block",
        mends=("flush_block",),
        effect=restored("engine", "jacket_area"),
        parts=("core_plugs",),
        minutes=360,
        group="block",
        forces=(DRAIN,),
    ),
)
