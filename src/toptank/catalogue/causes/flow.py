"""Causes on the coolant's side: tubes, pump, thermostat, hoses, cap, level, mixture, block."""

from dataclasses import replace

from toptank.catalogue.causes.cause import BREAKS, BUILT_IN, EITHER, JUDGEMENT, PRACTICE, TRADE, WEARS, Cause, lerp
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real, namespace

THICKEST_SCALE = 5e-4
"""Scale of full severity [m]."""

DRAWN_IN = 0.3
"""Air that is drawn in at full load where a hose is off, beyond what a half-empty loop carries along [1]; judgement."""

TIGHTEST_JACKET = 6e-5
"""Area that even a clogged block leaves open [m2]."""


def _slipping(v: Vehicle, s: Real) -> Vehicle:
    slip = replace(v, water_pump=replace(v.water_pump, belt_slip=lerp(v.water_pump.belt_slip, 0.99, s)))
    driven = 1.0 - v.fan.electric()
    return replace(slip, fan=replace(slip.fan, belt_slip=lerp(v.fan.belt_slip, 0.99, s * driven)))


def _half_shut(v: Vehicle, s: Real) -> Vehicle:
    stat = v.thermostat
    return replace(
        v, thermostat=replace(v.thermostat, largest_opening=stat.largest_opening * (1.0 - s) ** 1.5 + 0.004 * s)
    )


def _bypass_open(v: Vehicle, s: Real) -> Vehicle:
    stat = v.thermostat
    return replace(
        v,
        thermostat=replace(
            v.thermostat,
            closes_bypass=stat.closes_bypass * (1.0 - s),
            bypass_area=stat.bypass_area + (1.5e-4 + stat.bypass_area) * s,
        ),
    )


def _never_shut(v: Vehicle, s: Real) -> Vehicle:
    """Open for good, and the bypass with it: part of the coolant never sees the core."""
    stat = v.thermostat
    xp = namespace(s, stat.smallest_opening)
    return replace(
        v,
        thermostat=replace(
            v.thermostat,
            smallest_opening=xp.where(s > 0.0, lerp(stat.smallest_opening, 1.0, 0.5 + 0.5 * s), stat.smallest_opening),
            closes_bypass=stat.closes_bypass * (1.0 - s),
        ),
    )


def _lost(v: Vehicle, s: Real) -> Vehicle:
    return replace(v, fill=replace(v.fill, air=lerp(v.fill.air, 0.5, s)))


def _emptied(v: Vehicle, s: Real) -> Vehicle:
    return replace(v, fill=replace(v.fill, air=lerp(v.fill.air, 0.6, s), gas=lerp(v.fill.gas, DRAWN_IN, s)))


def _clogged_block(v: Vehicle, s: Real) -> Vehicle:
    area = v.engine.jacket_area
    left = namespace(area, s).maximum(area * (1.0 - 0.79 * s), TIGHTEST_JACKET)
    return replace(v, engine=replace(v.engine, jacket_area=left))


def _short_circuit(v: Vehicle, s: Real) -> Vehicle:
    """Coolant goes from the outlet back to the inlet past the core."""
    stat = v.thermostat
    return replace(
        v,
        thermostat=replace(
            stat, closes_bypass=stat.closes_bypass * (1.0 - s), bypass_area=stat.bypass_area + 2.5e-4 * s
        ),
    )


def _past_the_divider(v: Vehicle, s: Real) -> Vehicle:
    """Coolant that leaks past the divider misses half of the tubes."""
    return replace(v, core=replace(v.core, blocked_tubes=lerp(v.core.blocked_tubes, 0.5, s)))


def _divided(vehicle: Vehicle) -> Real:
    """A core of several passes has a divider; of cross-flow cores taken for one pass some have it; judgement."""
    crossflow = 0.6 * (vehicle.core.arrangement > 0.5)
    return namespace(vehicle.core.passes).where(vehicle.core.passes > 1.5, 1.0, crossflow)


def _backwards(v: Vehicle, s: Real) -> Vehicle:
    """Its wax lies in the cold stream: it opens very late and little."""
    late = replace(v, thermostat=replace(v.thermostat, starts_opening=v.thermostat.starts_opening + 8.0 * s))
    return _half_shut(late, 0.75 * s)


def _under_driven(v: Vehicle, s: Real) -> Vehicle:
    left = 1.0 - 0.4 * s
    slow = replace(v, water_pump=replace(v.water_pump, belt_ratio=v.water_pump.belt_ratio * left))
    return replace(slow, fan=replace(slow.fan, belt_ratio=v.fan.belt_ratio * left))


CAUSES_OF_FLOW = (
    Cause(
        id="tubes_scaled",
        size=TRADE,
        repair="clean_core_tubes",
        mended_by=("radiator", "radiator_rodded"),
        prior_weight=0.085,
        onset=WEARS,
        origin=PRACTICE,
        wears=True,
        effect=lambda v, s: replace(
            v, core=replace(v.core, scale_thickness=v.core.scale_thickness + THICKEST_SCALE * s)
        ),
    ),
    Cause(
        id="tubes_blocked",
        size=TRADE,
        repair="clean_core_tubes",
        mended_by=("radiator", "radiator_rodded"),
        prior_weight=0.07,
        onset=WEARS,
        origin=PRACTICE,
        wears=True,
        begun_by=("engine_rebuilt", "sealer", "flush"),
        effect=lambda v, s: replace(v, core=replace(v.core, blocked_tubes=lerp(v.core.blocked_tubes, 0.66, s))),
    ),
    Cause(
        id="belt_slips",
        size=TRADE,
        repair="replace_belt",
        mended_by=("belt",),
        prior_weight=0.035,
        onset=BREAKS,
        effect=_slipping,
        origin=PRACTICE,
        begun_by=("belt",),
        severity=(1.6, 0.9),
    ),
    Cause(
        id="pump_worn",
        size=TRADE,
        repair="replace_water_pump",
        mended_by=("water_pump",),
        prior_weight=0.055,
        onset=WEARS,
        origin=PRACTICE,
        wears=True,
        begun_by=("water_pump",),
        effect=lambda v, s: replace(v, water_pump=replace(v.water_pump, wear=lerp(v.water_pump.wear, 0.9995, s))),
    ),
    Cause(
        id="pump_reversed",
        size=JUDGEMENT,
        repair="correct_pump_drive",
        mended_by=("belt", "water_pump"),
        prior_weight=0.004,
        onset=BUILT_IN,
        begun_by=("belt", "water_pump", "engine_rebuilt", "head_gasket"),
        severity=(6.0, 1.5),
        effect=lambda v, s: replace(v, water_pump=replace(v.water_pump, wear=lerp(v.water_pump.wear, 0.92, s))),
    ),
    Cause(
        id="thermostat_stuck",
        size=TRADE,
        repair="replace_thermostat",
        mended_by=("thermostat", "thermostat_removed"),
        prior_weight=0.09,
        onset=BREAKS,
        effect=_half_shut,
        origin=PRACTICE,
        begun_by=("thermostat",),
    ),
    Cause(
        id="thermostat_wrong",
        size=JUDGEMENT,
        repair="fit_right_thermostat",
        mended_by=("thermostat",),
        prior_weight=0.012,
        onset=BUILT_IN,
        effect=_bypass_open,
        begun_by=("thermostat",),
    ),
    Cause(
        id="thermostat_open",
        size=TRADE,
        repair="fit_right_thermostat",
        mended_by=("thermostat",),
        prior_weight=0.012,
        onset=BUILT_IN,
        effect=_never_shut,
        begun_by=("thermostat", "thermostat_removed"),
    ),
    Cause(
        id="lower_hose_collapses",
        size=TRADE,
        repair="replace_lower_hose",
        mended_by=("hoses",),
        prior_weight=0.02,
        onset=EITHER,
        begun_by=("hoses", "radiator", "water_pump"),
        effect=lambda v, s: replace(v, hoses=replace(v.hoses, collapse=lerp(v.hoses.collapse, 0.9, s))),
    ),
    Cause(
        id="cap_weak",
        size=TRADE,
        repair="replace_cap",
        mended_by=("cap",),
        prior_weight=0.045,
        onset=EITHER,
        origin=PRACTICE,
        begun_by=("cap",),
        effect=lambda v, s: replace(v, cap=replace(v.cap, holds=v.cap.holds * (1.0 - s))),
    ),
    Cause(
        id="coolant_low",
        size=TRADE,
        repair="fix_leak_and_fill",
        mended_by=("coolant", "hoses", "heater"),
        prior_weight=0.11,
        onset=BREAKS,
        effect=_lost,
        origin=PRACTICE,
        begun_by=(
            "coolant",
            "flush",
            "hoses",
            "thermostat",
            "water_pump",
            "radiator",
            "heater",
            "head_gasket",
            "engine_rebuilt",
        ),
        mended_by_the_way=("radiator", "larger_radiator", "radiator_rodded", "water_pump", "head_gasket", "flush"),
    ),
    Cause(
        id="coolant_too_strong",
        size=JUDGEMENT,
        repair="change_coolant",
        mended_by=("coolant", "flush"),
        prior_weight=0.006,
        onset=BUILT_IN,
        begun_by=("coolant", "flush"),
        effect=lambda v, s: replace(v, fill=replace(v.fill, concentrate=lerp(v.fill.concentrate, 0.7, s))),
    ),
    Cause(
        id="coolant_too_weak",
        size=JUDGEMENT,
        repair="change_coolant",
        mended_by=("coolant", "flush"),
        prior_weight=0.012,
        onset=BUILT_IN,
        begun_by=("coolant", "flush"),
        effect=lambda v, s: replace(v, fill=replace(v.fill, concentrate=v.fill.concentrate * (1.0 - s))),
    ),
    Cause(
        id="block_silted",
        size=TRADE,
        repair="flush_block",
        mended_by=("flush", "engine_rebuilt"),
        prior_weight=0.03,
        onset=WEARS,
        effect=_clogged_block,
        origin=PRACTICE,
        wears=True,
        begun_by=("sealer", "engine_rebuilt"),
    ),
    Cause(
        id="gasket_blocks_passages",
        size=JUDGEMENT,
        repair="remove_head",
        mended_by=("head_gasket", "engine_rebuilt"),
        prior_weight=0.004,
        onset=BUILT_IN,
        begun_by=("head_gasket", "engine_rebuilt"),
        effect=_clogged_block,
    ),
    Cause(
        id="hose_off",
        repair="fix_leak_and_fill",
        mended_by=("hoses", "heater", "coolant"),
        size="judgement: the sizes that the trade tells, or a part of the wider cause",
        prior_weight=0.03,
        onset=BREAKS,
        origin=PRACTICE,
        kind_of="coolant_low",
        severity=(6.0, 1.2),
        begun_by=("hoses", "radiator", "thermostat", "water_pump", "heater", "engine_rebuilt"),
        effect=_emptied,
    ),
    Cause(
        id="cap_wrong",
        repair="replace_cap",
        mended_by=("cap",),
        size="judgement: the sizes that the trade tells, or a part of the wider cause",
        prior_weight=0.008,
        onset=BUILT_IN,
        kind_of="cap_weak",
        begun_by=("cap", "radiator"),
        effect=lambda v, s: replace(v, cap=replace(v.cap, holds=v.cap.holds * (1.0 - s))),
    ),
    Cause(
        id="thermostat_backwards",
        repair="fit_right_thermostat",
        mended_by=("thermostat",),
        size="judgement: the sizes that the trade tells, or a part of the wider cause",
        prior_weight=0.004,
        onset=BUILT_IN,
        kind_of="thermostat_stuck",
        severity=(4.0, 1.2),
        begun_by=("thermostat", "engine_rebuilt"),
        effect=_backwards,
    ),
    Cause(
        id="hoses_crossed",
        repair="correct_hoses",
        mended_by=("heater", "hoses"),
        size="judgement: the sizes that the trade tells, or a part of the wider cause",
        prior_weight=0.006,
        onset=BUILT_IN,
        begun_by=("heater", "hoses", "engine_rebuilt", "water_pump", "thermostat"),
        effect=_short_circuit,
    ),
    Cause(
        id="divider_leaks",
        repair="replace_core",
        mended_by=("radiator",),
        size="judgement: the sizes that the trade tells, or a part of the wider cause",
        prior_weight=0.01,
        onset=EITHER,
        prior_factor=_divided,
        begun_by=("radiator",),
        effect=_past_the_divider,
    ),
    Cause(
        id="pulleys_wrong",
        repair="fit_right_pulleys",
        mended_by=("belt",),
        size="judgement: the sizes that the trade tells, or a part of the wider cause",
        prior_weight=0.005,
        onset=BUILT_IN,
        begun_by=("belt", "engine_rebuilt", "water_pump"),
        effect=_under_driven,
    ),
)
