"""Causes that make heat, or only make it seem hot: engine, brakes, transmission, gauge."""

from dataclasses import replace
from math import radians

from toptank.catalogue.causes.cause import BREAKS, EITHER, PRACTICE, WEARS, Cause
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real, namespace

SMALL_ERRORS = (1.2, 2.2)
"""Severity of a gauge's error: a few degrees are commoner than a needle on its stop; judgement."""


def _blown(v: Vehicle, s: Real) -> Vehicle:
    """Gas in the coolant: less head at the pump, some more heat; the system is soon pushed empty."""
    gas = replace(v, fill=replace(v.fill, air=v.fill.air + 0.3 * s * (1.0 - v.fill.air)))
    return replace(gas, engine=replace(gas.engine, mixture_heat=v.engine.mixture_heat * (1.0 + 0.06 * s)))


def _knocking(v: Vehicle, s: Real) -> Vehicle:
    """Early sparks, and the heat of knock beyond what they save; how much is judgement."""
    early = replace(v, engine=replace(v.engine, late_ignition=v.engine.late_ignition - radians(12.0) * s))
    return replace(early, engine=replace(early.engine, mixture_heat=v.engine.mixture_heat * (1.0 + 0.2 * s)))


def _hot_transmission(v: Vehicle, s: Real) -> Vehicle:
    """A slipping transmission turns power into heat, which its cooler gives to the tank."""
    return replace(v, drivetrain=replace(v.drivetrain, efficiency=v.drivetrain.efficiency * (1.0 - 0.15 * s)))


def _lying(v: Vehicle, s: Real) -> Vehicle:
    error = v.gauge.error + 45.0 * s
    return replace(v, gauge=replace(v.gauge, error=namespace(error).minimum(error, 60.0)))


def _low(v: Vehicle, s: Real) -> Vehicle:
    error = v.gauge.error - 45.0 * s
    return replace(v, gauge=replace(v.gauge, error=namespace(error).maximum(error, -60.0)))


def cooled_in_the_tank(vehicle: Vehicle) -> Real:
    """Whether an automatic transmission gives its heat to the coolant."""
    return vehicle.drivetrain.kind * vehicle.transmission_cooler.to_coolant()


CAUSES_OF_HEAT = (
    Cause(
        name="ignition late",
        does="Late sparks or injection send more of the fuel's heat into the coolant.",
        repair="set the timing",
        mended_by=("ignition timing",),
        prior_weight=0.03,
        onset=EITHER,
        origin=PRACTICE,
        begun_by=("ignition timing", "engine rebuilt"),
        effect=lambda v, s: replace(
            v, engine=replace(v.engine, late_ignition=v.engine.late_ignition + radians(25.0) * s)
        ),
    ),
    Cause(
        name="vacuum advance lost",
        does="The vacuum advance does nothing: the sparks come late at idle and cruise.",
        repair="repair the vacuum advance",
        mended_by=("ignition timing",),
        prior_weight=0.012,
        onset=EITHER,
        kind_of="ignition late",
        prior_factor=lambda v: 1.0 - v.engine.fuel,
        begun_by=("ignition timing", "carburettor", "engine rebuilt"),
        effect=lambda v, s: replace(
            v, engine=replace(v.engine, late_ignition=v.engine.late_ignition + radians(14.0) * s)
        ),
    ),
    Cause(
        name="ignition too early",
        does="Too much advance: the engine knocks under load, and knock heats the head.",
        repair="set the timing",
        mended_by=("ignition timing",),
        prior_weight=0.006,
        onset=EITHER,
        prior_factor=lambda v: 1.0 - v.engine.fuel,
        begun_by=("ignition timing", "engine rebuilt"),
        effect=_knocking,
    ),
    Cause(
        name="fuel mixture lean",
        does="A weak mixture or false air burns slowly and hot.",
        repair="set the mixture, find false air",
        mended_by=("carburettor",),
        prior_weight=0.015,
        onset=EITHER,
        begun_by=("carburettor", "engine rebuilt"),
        prior_factor=lambda v: 1.0 - v.engine.fuel,
        effect=lambda v, s: replace(v, engine=replace(v.engine, mixture_heat=v.engine.mixture_heat * (1.0 + 0.2 * s))),
    ),
    Cause(
        name="exhaust restricted",
        does="Back pressure costs power and leaves hot gas in the cylinders.",
        repair="clear the exhaust",
        mended_by=("exhaust",),
        prior_weight=0.012,
        onset=WEARS,
        effect=lambda v, s: replace(
            v,
            engine=replace(
                v.engine,
                exhaust_back_pressure=v.engine.exhaust_back_pressure + 0.9e5 * s,
                mixture_heat=v.engine.mixture_heat * (1.0 + 0.05 * s),
            ),
        ),
    ),
    Cause(
        name="head gasket leaks",
        does="Combustion gas gets into the coolant, or coolant into the cylinders.",
        repair="take the head off",
        mended_by=("head gasket",),
        prior_weight=0.05,
        onset=EITHER,
        effect=_blown,
        origin=PRACTICE,
        wears=True,
        begun_by=("head gasket",),
    ),
    Cause(
        name="brakes drag",
        does="A brake that does not let go asks for more power all the way.",
        repair="free the brakes",
        mended_by=("brakes",),
        prior_weight=0.008,
        onset=EITHER,
        begun_by=("brakes",),
        effect=lambda v, s: replace(v, body=replace(v.body, rolling_resistance=v.body.rolling_resistance + (0.06 * s))),
    ),
    Cause(
        name="transmission heat",
        does="A slipping transmission, or much stop and go with a load, heats the tank that cools it.",
        repair="fit a cooler for the transmission",
        mended_by=("transmission cooler",),
        prior_weight=0.015,
        onset=EITHER,
        prior_factor=cooled_in_the_tank,
        effect=_hot_transmission,
        severity=(1.4, 1.6),
    ),
    Cause(
        name="gauge lies",
        does="Sender, wiring, ground or instrument: the needle shows more than there is.",
        repair="mend gauge, sender or wiring",
        mended_by=("gauge", "sender"),
        prior_weight=0.065,
        onset=BREAKS,
        origin=PRACTICE,
        begun_by=("gauge", "sender", "engine rebuilt"),
        effect=_lying,
        severity=SMALL_ERRORS,
    ),
    Cause(
        name="gauge reads low",
        does="Sender, wiring or instrument: it is hotter than the needle shows, and boils without a warning.",
        repair="mend gauge, sender or wiring",
        mended_by=("gauge", "sender"),
        prior_weight=0.012,
        onset=BREAKS,
        begun_by=("gauge", "sender", "engine rebuilt", "thermostat"),
        effect=_low,
        severity=SMALL_ERRORS,
    ),
)
