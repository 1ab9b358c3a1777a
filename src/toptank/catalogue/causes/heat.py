"""Causes that make heat, or only make it seem hot: engine, brakes, transmission, gauge."""

from dataclasses import replace
from math import radians

from toptank.catalogue.causes.cause import BREAKS, EITHER, JUDGEMENT, PRACTICE, TRADE, WEARS, Cause, lerp
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real, namespace

SMALL_ERRORS = (1.2, 2.2)
"""Severity of a gauge's error: a few degrees are commoner than a needle on its stop; judgement."""

GROUNDED, BEYOND = 0.7, 70.0
"""Severity from which the sender's wire touches ground (one in eleven gauges that read high), and what that adds up to
the hot stop [K]: that a grounded wire puts the needle there is common practice, no source; how often is judgement."""


def _blown(v: Vehicle, s: Real) -> Vehicle:
    """Gas in the coolant: less head at the pump, some more heat; the system is soon pushed empty."""
    gas = replace(v, fill=replace(v.fill, gas=lerp(v.fill.gas, 0.85, s)))
    return replace(gas, engine=replace(gas.engine, mixture_heat=v.engine.mixture_heat * (1.0 + 0.06 * s)))


def _hot_transmission(v: Vehicle, s: Real) -> Vehicle:
    """A slipping transmission turns power into heat, which its cooler gives to the tank."""
    return replace(v, drivetrain=replace(v.drivetrain, efficiency=v.drivetrain.efficiency * (1.0 - 0.15 * s)))


def _lying(v: Vehicle, s: Real) -> Vehicle:
    """Reads high: by up to 32 K where its parts have aged; beyond that its wire touches ground, up to the hot stop."""
    xp = namespace(s)
    error = v.gauge.error + 45.0 * s + xp.maximum(s - GROUNDED, 0.0) / (1.0 - GROUNDED) * BEYOND
    return replace(v, gauge=replace(v.gauge, error=xp.minimum(error, 120.0)))


def _low(v: Vehicle, s: Real) -> Vehicle:
    error = v.gauge.error - 45.0 * s
    return replace(v, gauge=replace(v.gauge, error=namespace(error).maximum(error, -60.0)))


def cooled_in_the_tank(vehicle: Vehicle) -> Real:
    """Whether an automatic transmission gives its heat to the coolant."""
    return vehicle.drivetrain.kind * vehicle.transmission_cooler.to_coolant()


def _knocking(v: Vehicle, s: Real) -> Vehicle:
    """Early sparks, and the heat of knock beyond what they save; how much is judgement."""
    early = replace(v, engine=replace(v.engine, late_ignition=v.engine.late_ignition - radians(12.0) * s))
    return replace(early, engine=replace(early.engine, mixture_heat=v.engine.mixture_heat * (1.0 + 0.2 * s)))


CAUSES_OF_HEAT = (
    Cause(
        id="ignition_late",
        size=TRADE,
        repair="set_timing",
        mended_by=("ignition_timing",),
        prior_weight=0.03,
        onset=EITHER,
        origin=PRACTICE,
        begun_by=("ignition_timing", "engine_rebuilt", "head_gasket"),
        effect=lambda v, s: replace(
            v, engine=replace(v.engine, late_ignition=v.engine.late_ignition + radians(21.0) * s)
        ),
    ),
    Cause(
        id="mixture_lean",
        size=TRADE,
        repair="set_mixture",
        mended_by=("carburettor",),
        prior_weight=0.015,
        onset=EITHER,
        begun_by=("carburettor", "engine_rebuilt"),
        prior_factor=lambda v: 1.0 - v.engine.fuel,
        effect=lambda v, s: replace(
            v, engine=replace(v.engine, mixture_heat=v.engine.mixture_heat * (1.0 + 0.215 * s))
        ),
    ),
    Cause(
        id="exhaust_restricted",
        size=TRADE,
        repair="clear_exhaust",
        mended_by=("exhaust",),
        prior_weight=0.012,
        onset=WEARS,
        effect=lambda v, s: replace(
            v,
            engine=replace(
                v.engine,
                exhaust_back_pressure=v.engine.exhaust_back_pressure + 1.85e5 * s,
                mixture_heat=v.engine.mixture_heat * (1.0 + 0.12 * s),
            ),
        ),
    ),
    Cause(
        id="head_gasket_leaks",
        size=TRADE,
        repair="remove_head",
        mended_by=("head_gasket",),
        prior_weight=0.05,
        onset=EITHER,
        effect=_blown,
        origin=PRACTICE,
        wears=True,
        begun_by=("head_gasket",),
    ),
    Cause(
        id="brakes_drag",
        size=TRADE,
        repair="free_brakes",
        mended_by=("brakes",),
        prior_weight=0.008,
        onset=EITHER,
        begun_by=("brakes",),
        effect=lambda v, s: replace(
            v, body=replace(v.body, rolling_resistance=v.body.rolling_resistance + (0.027 * s))
        ),
    ),
    Cause(
        id="transmission_heat",
        size=TRADE,
        repair="fit_transmission_cooler",
        mended_by=("transmission_cooler",),
        prior_weight=0.015,
        onset=EITHER,
        prior_factor=cooled_in_the_tank,
        effect=_hot_transmission,
        severity=(1.4, 1.6),
    ),
    Cause(
        id="gauge_reads_high",
        size=JUDGEMENT,
        repair="repair_gauge",
        mended_by=("gauge",),
        mended_by_the_way=("sender",),  # or it is the gauge, or its wire
        prior_weight=0.065,
        onset=BREAKS,
        origin=PRACTICE,
        begun_by=("gauge", "sender", "engine_rebuilt"),
        effect=_lying,
        severity=SMALL_ERRORS,
    ),
    Cause(
        id="gauge_reads_low",
        size=JUDGEMENT,
        repair="repair_gauge",
        mended_by=("gauge",),
        mended_by_the_way=("sender",),  # or it is the gauge, or its wire
        prior_weight=0.012,
        onset=BREAKS,
        begun_by=("gauge", "sender", "engine_rebuilt", "thermostat"),
        effect=_low,
        severity=SMALL_ERRORS,
    ),
    Cause(
        id="vacuum_advance_lost",
        repair="set_timing",
        mended_by=("ignition_timing",),
        size="judgement: the sizes that the trade tells, or a part of the wider cause",
        prior_weight=0.012,
        onset=EITHER,
        kind_of="ignition_late",
        prior_factor=lambda v: 1.0 - v.engine.fuel,
        begun_by=("ignition_timing", "carburettor", "engine_rebuilt"),
        effect=lambda v, s: replace(
            v, engine=replace(v.engine, late_ignition=v.engine.late_ignition + radians(14.0) * s)
        ),
    ),
    Cause(
        id="ignition_early",
        repair="set_timing",
        mended_by=("ignition_timing",),
        size="judgement: the sizes that the trade tells, or a part of the wider cause",
        prior_weight=0.006,
        onset=EITHER,
        prior_factor=lambda v: 1.0 - v.engine.fuel,
        begun_by=("ignition_timing", "engine_rebuilt"),
        effect=_knocking,
    ),
)
