"""Remedies on the coolant's side but for the core: pump, hoses, thermostat, cap, coolant, block."""

from dataclasses import replace

from toptank.catalogue.remedies.remedy import (
    AS_SOUND,
    JUDGEMENT,
    Remedy,
    like,
    one_after_the_other,
    put_right,
    unchanged,
)
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import namespace

DRAIN, TOP_UP = "drain_fill_bleed", "top_up_bleed"
"""Work on the coolant that other remedies force: all of it, or only what the work lets out."""

FIND_THE_LEAK = "find_leak_and_fill"


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
        id="replace_water_pump",
        size=AS_SOUND,
        effect=unchanged,
        parts=("water_pump", "gasket"),
        minutes=150,
        group="pump",
        forces=(DRAIN,),
        cures=("pump_worn",),
    ),
    Remedy(
        id="smaller_pump_pulley",
        size=JUDGEMENT,
        effect=_smaller_pulley,
        parts=("pulley", "belt"),
        minutes=60,
        group="pulley",
        on_request=True,  # a turned pulley is no part that a shop can order: common practice, no source
    ),
    Remedy(
        id="fit_right_pulleys",
        size=AS_SOUND,
        effect=unchanged,
        parts=("pulley", "belt"),
        minutes=60,
        group="pulley",
        cures=("pulleys_wrong",),
    ),
    Remedy(
        id="correct_pump_drive",
        size=AS_SOUND,
        effect=unchanged,
        parts=("belt",),
        minutes=60,
        group="pump drive",
        cures=("pump_reversed",),
    ),
    Remedy(
        id="replace_belt",
        size=AS_SOUND,
        effect=one_after_the_other(put_right("water_pump", {"belt_slip": 0.0}), put_right("fan", {"belt_slip": 0.0})),
        parts=("belt",),
        minutes=30,
        group="belt",
        cures=("belt_slips",),
    ),
    Remedy(
        id="replace_thermostat",
        size=AS_SOUND,
        effect=put_right("thermostat", {"largest_opening": 1.0, "smallest_opening": 0.002}),
        parts=("thermostat", "gasket"),
        minutes=45,
        group="thermostat",
        forces=(TOP_UP,),
        cures=(
            *("thermostat_stuck", "thermostat_wrong", "thermostat_backwards"),
            "thermostat_open",
        ),
    ),
    Remedy(
        id="replace_lower_hose",
        size=AS_SOUND,
        effect=put_right("hoses", {"collapse": 0.0}),
        parts=("bottom_hose_with_spring",),
        minutes=45,
        group="hose",
        forces=(TOP_UP,),
        cures=("lower_hose_collapses",),
    ),
    Remedy(
        id="correct_hoses",
        size=AS_SOUND,
        effect=unchanged,
        parts=("hose_clamps_and_small_parts",),
        minutes=45,
        group="hose layout",
        forces=(TOP_UP,),
        cures=("hoses_crossed",),
    ),
    Remedy(
        id="replace_cap",
        size=JUDGEMENT,
        effect=_new_cap,
        parts=("cap",),
        minutes=5,
        group="cap",
        cures=("cap_weak", "cap_wrong"),
    ),
    Remedy(
        id=DRAIN,
        size=JUDGEMENT,
        effect=_half_and_half,
        includes=(TOP_UP,),
        parts=("concentrate", "distilled_water"),
        minutes=60,
        group="coolant",
        cures=("coolant_too_strong", "coolant_too_weak"),
    ),
    Remedy(
        id=TOP_UP,
        size=JUDGEMENT,
        effect=_filled,
        parts=(),
        minutes=25,
        group="coolant",
    ),
    Remedy(
        id=FIND_THE_LEAK,
        size=JUDGEMENT,
        effect=_filled,
        includes=(TOP_UP,),
        parts=("hose_clamps_and_small_parts",),
        minutes=90,
        group="leak",
        cures=("coolant_low", "hose_off"),
    ),
    Remedy(
        id="flush_block",
        size=AS_SOUND,
        effect=unchanged,
        parts=("core_plugs",),
        minutes=360,
        group="block",
        forces=(DRAIN,),
        cures=("block_silted",),
    ),
)
