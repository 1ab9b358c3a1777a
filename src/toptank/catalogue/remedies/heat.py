"""Remedies that make less heat, or take the transmission's heat away: timing, mixture, exhaust, cooler, load."""

from dataclasses import replace

from toptank.catalogue.remedies.core import COOLER_ASIDE
from toptank.catalogue.remedies.remedy import Remedy, like, put_right, unchanged
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
        name="mend gauge, sender or wiring",
        effect=put_right("gauge", error=0.0),
        parts=("sender",),
        minutes=60,
        group="gauge",
        note="Second thermometer first; then ground, voltage, sender, instrument.",
        limits="Cools nothing: it shows what is there.",
        cures=("gauge lies", "gauge reads low"),
    ),
    Remedy(
        name="take the head off, fit a new gasket",
        effect=put_right("fill", gas=0.0),
        parts=("head gasket set",),
        minutes=720,
        group="head",
        note="Have the head checked for cracks and flatness; licensed practice and the maker's torques.",
        limits="Only where gas in the coolant was proved; find out what overheated it.",
        forces=("drain, fill and bleed",),
        cures=("head gasket leaks", "passages closed by a gasket"),
    ),
    Remedy(
        name="set the timing",
        effect=_in_time,
        parts=(),
        minutes=45,
        group="timing",
        note="Vacuum hose off and plugged; initial and total advance; look at the weights.",
        limits="Only where it is late.",
        fits=lambda v: 1.0 - v.engine.fuel,
        cures=("ignition late",),
    ),
    Remedy(
        name="set the mixture, find false air",
        effect=unchanged,
        parts=("gasket",),
        minutes=90,
        group="mixture",
        note="Smoke or spray for false air first, then jets.",
        limits="Only where it is lean.",
        fits=lambda v: 1.0 - v.engine.fuel,
        cures=("fuel mixture lean",),
    ),
    Remedy(
        name="clear the exhaust",
        effect=put_right("engine", exhaust_back_pressure=0.0),
        parts=("exhaust part",),
        minutes=120,
        group="exhaust",
        note="Find the restriction with a gauge, not by changing parts.",
        limits="Only where back pressure was measured.",
        cures=("exhaust restricted",),
    ),
    Remedy(
        name="free the brakes",
        effect=unchanged,
        parts=("brake repair kit",),
        minutes=120,
        group="brakes",
        note="Licensed practice where the law asks for it.",
        limits="Only where one drags.",
        cures=("brakes drag",),
    ),
    Remedy(
        name="fit a cooler for the transmission ahead of the core",
        effect=_cooler_ahead,
        parts=("transmission cooler", "cooler hose"),
        minutes=120,
        group="transmission cooler",
        note="Low in the face or beside the condenser, an inch clear of it, 1 in clear of a fan; in the line before "
        "the tank's own cooler, so that the tank warms the fluid in winter. Check the fluid afterwards.",
        limits="Takes heat from the tank, gives it to the air of the core.",
        fits=is_automatic,
        makes_up_for=("transmission heat",),
    ),
    Remedy(
        name=COOLER_ASIDE,
        effect=_cooler_aside,
        parts=("transmission cooler with fan", "cooler hose"),
        minutes=180,
        group="transmission cooler",
        note="Under the floor or behind a wheel, clear of stones and exhaust, with its own fan or scoop; in the line "
        "before the tank's own cooler where that stays. Check the fluid afterwards.",
        limits="Needs a place with air of its own.",
        fits=is_automatic,
        makes_up_for=("transmission heat",),
    ),
    Remedy(
        name="leave the air conditioning off on the worst day",
        effect=_without_cooling,
        parts=(),
        minutes=5,
        group="load",
        note="Agreed with the customer: off before the climb begins and all the way; the forecast counts on it.",
        limits="The customer sweats. A switch that opens at a temperature does less: it acts when it is hot already.",
        fits=lambda v: v.condenser.present,
        concession="the air conditioning",
    ),
    Remedy(
        name="fit a shorter axle",
        effect=_shorter_axle,
        parts=("axle gears",),
        minutes=480,
        group="gearing",
        note="12 % more revolutions: pump and fan turn quicker, the gearbox slips less on the climb.",
        limits="Noise and fuel on the flat.",
    ),
)
