"""Remedies that make less heat, or take the transmission's heat away: timing, mixture, exhaust, cooler, load."""

from dataclasses import replace

from toptank.catalogue.remedies.core import COOLER_ASIDE
from toptank.catalogue.remedies.remedy import AS_SOUND, JUDGEMENT, Remedy, like, put_right, unchanged
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real, namespace

AHEAD_OF_THE_CORE, OUT_OF_THE_AIR = 2.0, 3.0
"""Codes of a transmission cooler's place."""


def is_automatic(vehicle: Vehicle) -> Real:
    """Whether it has an automatic transmission."""
    return vehicle.drivetrain.kind


def _cooler_at(place: float, v: Vehicle) -> Vehicle:
    xp = namespace(v.transmission_cooler.conductance)
    cooler = v.transmission_cooler
    fitted = replace(cooler, place=like(place, cooler.place), conductance=xp.maximum(cooler.conductance, 150.0))
    return replace(v, transmission_cooler=fitted)


def _cooler_ahead(v: Vehicle, _sound: Vehicle) -> Vehicle:
    return _cooler_at(AHEAD_OF_THE_CORE, v)


def _cooler_aside(v: Vehicle, _sound: Vehicle) -> Vehicle:
    return _cooler_at(OUT_OF_THE_AIR, v)


def _in_time(v: Vehicle, _sound: Vehicle) -> Vehicle:
    xp = namespace(v.engine.late_ignition)
    return replace(v, engine=replace(v.engine, late_ignition=xp.minimum(v.engine.late_ignition, 0.0)))


def _without_cooling(v: Vehicle, _sound: Vehicle) -> Vehicle:
    condenser = v.condenser
    return replace(v, condenser=replace(condenser, cooling_load=like(0.0, condenser.cooling_load)))


def _shorter_axle(v: Vehicle, _sound: Vehicle) -> Vehicle:
    drivetrain = v.drivetrain
    return replace(v, drivetrain=replace(drivetrain, axle_ratio=drivetrain.axle_ratio * 1.12))


REMEDIES_OF_HEAT = (
    Remedy(
        id="repair_gauge",
        size=AS_SOUND,
        effect=put_right("gauge", {"error": 0.0}),
        parts=("sender",),
        minutes=60,
        group="gauge",
        cures=("gauge_reads_high", "gauge_reads_low"),
    ),
    Remedy(
        id="replace_head_gasket",
        size=AS_SOUND,
        effect=put_right("fill", {"gas": 0.0}),
        parts=("head_gasket_set",),
        minutes=720,
        group="head",
        forces=("drain_fill_bleed",),
        cures=("head_gasket_leaks", "gasket_blocks_passages"),
    ),
    Remedy(
        id="set_timing",
        size=JUDGEMENT,
        effect=_in_time,
        parts=(),
        minutes=45,
        group="timing",
        fits=lambda v: 1.0 - v.engine.fuel,
        cures=("ignition_late", "vacuum_advance_lost", "ignition_early"),
    ),
    Remedy(
        id="set_mixture",
        size=AS_SOUND,
        effect=unchanged,
        parts=("gasket",),
        minutes=90,
        group="mixture",
        fits=lambda v: 1.0 - v.engine.fuel,
        cures=("mixture_lean",),
    ),
    Remedy(
        id="clear_exhaust",
        size=AS_SOUND,
        effect=put_right("engine", {"exhaust_back_pressure": 0.0}),
        parts=("exhaust_part",),
        minutes=120,
        group="exhaust",
        cures=("exhaust_restricted",),
    ),
    Remedy(
        id="free_brakes",
        size=AS_SOUND,
        effect=unchanged,
        parts=("brake_repair_kit",),
        minutes=120,
        group="brakes",
        cures=("brakes_drag",),
    ),
    Remedy(
        id="transmission_cooler_ahead",
        size=JUDGEMENT,
        effect=_cooler_ahead,
        parts=("transmission_cooler", "cooler_hose"),
        minutes=75,
        group="transmission cooler",
        fits=is_automatic,
    ),
    Remedy(
        id=COOLER_ASIDE,
        size=JUDGEMENT,
        effect=_cooler_aside,
        parts=("transmission_cooler_with_fan", "cooler_hose"),
        minutes=120,
        group="transmission cooler",
        fits=is_automatic,
        makes_up_for=("transmission_heat",),
    ),
    Remedy(
        id="air_conditioning_off",
        size=JUDGEMENT,
        effect=_without_cooling,
        parts=(),
        minutes=5,
        group="load",
        fits=lambda v: v.condenser.present,
        concession=True,
    ),
    Remedy(
        id="shorter_axle",
        size=JUDGEMENT,
        effect=_shorter_axle,
        parts=("axle_gears",),
        minutes=480,
        group="gearing",
    ),
)
