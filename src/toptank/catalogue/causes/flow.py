"""Causes on the coolant's side: tubes, pump, thermostat, hoses, cap, level, mixture, block."""

from dataclasses import replace

from toptank.catalogue.causes.cause import BREAKS, BUILT_IN, EITHER, PRACTICE, WEARS, Cause, lerp
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real, namespace

THICKEST_SCALE = 6e-4
"""Scale of full severity [m]."""

TIGHTEST_JACKET = 6e-5
"""Area that even a clogged block leaves open [m2]."""


def _slipping(v: Vehicle, s: Real) -> Vehicle:
    slip = replace(v, water_pump=replace(v.water_pump, belt_slip=lerp(v.water_pump.belt_slip, 0.9, s)))
    driven = 1.0 - v.fan.electric()
    return replace(slip, fan=replace(slip.fan, belt_slip=lerp(v.fan.belt_slip, 0.9, s * driven)))


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
    """Open for good; with the bypass open too and no restriction, old pumps starve."""
    stat = v.thermostat
    xp = namespace(s, stat.smallest_opening)
    opened = replace(
        v,
        thermostat=replace(
            v.thermostat,
            smallest_opening=xp.where(s > 0.0, lerp(stat.smallest_opening, 1.0, 0.5 + 0.5 * s), stat.smallest_opening),
            closes_bypass=stat.closes_bypass * (1.0 - s),
        ),
    )
    return replace(opened, water_pump=replace(opened.water_pump, wear=lerp(v.water_pump.wear, 0.5, s * s)))


def _lost(v: Vehicle, s: Real) -> Vehicle:
    return replace(v, fill=replace(v.fill, air=lerp(v.fill.air, 0.45, s)))


def _clogged_block(v: Vehicle, s: Real) -> Vehicle:
    area = v.engine.jacket_area
    left = namespace(area, s).maximum(area * (1.0 - 0.85 * s), TIGHTEST_JACKET)
    return replace(v, engine=replace(v.engine, jacket_area=left))


def _weak_cap(v: Vehicle, s: Real) -> Vehicle:
    return replace(v, cap=replace(v.cap, holds=v.cap.holds * (1.0 - 0.95 * s)))


def _short_circuit(v: Vehicle, s: Real) -> Vehicle:
    """Coolant goes from the outlet back to the inlet past the core."""
    stat = v.thermostat
    return replace(
        v,
        thermostat=replace(
            stat, closes_bypass=stat.closes_bypass * (1.0 - s), bypass_area=stat.bypass_area + 2.5e-4 * s
        ),
    )


def _divided(vehicle: Vehicle) -> Real:
    """A core of several passes has a divider; of cross-flow cores taken for one pass some have it; judgement."""
    crossflow = 0.2 * (vehicle.core.arrangement > 0.5)
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
        name="scale in the tubes",
        does="Lime and rust coat the tubes: water still runs through, heat does not.",
        repair="rod, boil out or recore the core",
        mended_by=("radiator", "radiator rodded"),
        prior_weight=0.085,
        onset=WEARS,
        origin=PRACTICE,
        wears=True,
        effect=lambda v, s: replace(
            v, core=replace(v.core, scale_thickness=v.core.scale_thickness + THICKEST_SCALE * s)
        ),
    ),
    Cause(
        name="tubes blocked",
        does="Part of the tubes is plugged: less core, and the rest is reached by less coolant.",
        repair="rod, boil out or recore the core",
        mended_by=("radiator", "radiator rodded"),
        prior_weight=0.07,
        onset=WEARS,
        origin=PRACTICE,
        wears=True,
        begun_by=("engine rebuilt", "sealer", "flush"),
        effect=lambda v, s: replace(v, core=replace(v.core, blocked_tubes=lerp(v.core.blocked_tubes, 0.8, s))),
    ),
    Cause(
        name="belt slips",
        does="Pump and fan turn too slowly, or stand still where the belt is gone.",
        repair="tighten or replace the belt",
        mended_by=("belt",),
        prior_weight=0.035,
        onset=BREAKS,
        effect=_slipping,
        origin=PRACTICE,
        begun_by=("belt",),
        severity=(1.6, 0.9),
    ),
    Cause(
        name="pump worn",
        does="Eroded or loose vanes, or too much room around them: less head at every speed.",
        repair="replace the water pump",
        mended_by=("water pump",),
        prior_weight=0.055,
        onset=WEARS,
        origin=PRACTICE,
        wears=True,
        begun_by=("water pump",),
        effect=lambda v, s: replace(v, water_pump=replace(v.water_pump, wear=lerp(v.water_pump.wear, 0.93, s))),
    ),
    Cause(
        name="pump turns the wrong way",
        does="A belt on the wrong side, or the wrong pump: a fraction of the head.",
        repair="set the pump's drive right",
        mended_by=("belt", "water pump"),
        prior_weight=0.004,
        onset=BUILT_IN,
        begun_by=("belt", "water pump", "engine rebuilt", "head gasket"),
        severity=(6.0, 1.5),
        effect=lambda v, s: replace(v, water_pump=replace(v.water_pump, wear=lerp(v.water_pump.wear, 0.92, s))),
    ),
    Cause(
        name="thermostat stuck or late",
        does="The valve opens late, too little or not at all.",
        repair="replace the thermostat",
        mended_by=("thermostat", "thermostat removed"),
        prior_weight=0.09,
        onset=BREAKS,
        effect=_half_shut,
        origin=PRACTICE,
        begun_by=("thermostat",),
    ),
    Cause(
        name="thermostat of the wrong kind",
        does="It leaves the bypass open: part of the coolant never sees the core.",
        repair="fit the right thermostat",
        mended_by=("thermostat",),
        prior_weight=0.012,
        onset=BUILT_IN,
        effect=_bypass_open,
        begun_by=("thermostat",),
    ),
    Cause(
        name="thermostat missing or stuck open",
        does="It runs cold on the flat; in some engines the bypass then stays open and the pump starves at speed.",
        repair="fit the right thermostat",
        mended_by=("thermostat",),
        prior_weight=0.012,
        onset=BUILT_IN,
        effect=_never_shut,
        begun_by=("thermostat", "thermostat removed"),
    ),
    Cause(
        name="lower hose collapses",
        does="The pump's suction closes the bottom hose, most of all at speed.",
        repair="replace the bottom hose, with its spring",
        mended_by=("hoses",),
        prior_weight=0.02,
        onset=EITHER,
        begun_by=("hoses", "radiator", "water pump"),
        effect=lambda v, s: replace(v, hoses=replace(v.hoses, collapse=lerp(v.hoses.collapse, 0.9, s))),
    ),
    Cause(
        name="cap weak",
        does="Cap or neck lets pressure go: it boils and pushes coolant out at a lower temperature.",
        repair="replace the cap",
        mended_by=("cap",),
        prior_weight=0.045,
        onset=EITHER,
        origin=PRACTICE,
        begun_by=("cap",),
        effect=_weak_cap,
    ),
    Cause(
        name="coolant low or air trapped",
        does="Too little coolant, from a leak or a poor fill, or air that was never bled.",
        repair="find the leak, fill and bleed",
        mended_by=("coolant", "hoses", "heater"),
        prior_weight=0.11,
        onset=BREAKS,
        effect=_lost,
        origin=PRACTICE,
        begun_by=("coolant", "flush", "hoses", "thermostat", "water pump", "radiator"),
        mended_by_the_way=("radiator", "larger radiator", "radiator rodded", "water pump", "head gasket", "flush"),
    ),
    Cause(
        name="coolant too strong",
        does="Too much concentrate: thicker, less heat carried.",
        repair="drain and mix anew",
        mended_by=("coolant", "flush"),
        prior_weight=0.006,
        onset=BUILT_IN,
        begun_by=("coolant", "flush"),
        effect=lambda v, s: replace(v, fill=replace(v.fill, concentrate=lerp(v.fill.concentrate, 0.7, s))),
    ),
    Cause(
        name="coolant too weak",
        does="Nearly plain water: boils earlier, freezes, rusts.",
        repair="drain and mix anew",
        mended_by=("coolant", "flush"),
        prior_weight=0.012,
        onset=BUILT_IN,
        begun_by=("coolant", "flush"),
        effect=lambda v, s: replace(v, fill=replace(v.fill, concentrate=v.fill.concentrate * (1.0 - s))),
    ),
    Cause(
        name="sediment in the block",
        does="Rust, sand and old sealer fill the jackets: less room, less flow, hot corners.",
        repair="flush the block through its plugs",
        mended_by=("flush", "engine rebuilt"),
        prior_weight=0.03,
        onset=WEARS,
        effect=_clogged_block,
        origin=PRACTICE,
        wears=True,
        begun_by=("sealer", "engine rebuilt"),
    ),
    Cause(
        name="passages closed by a gasket",
        does="A head gasket fitted wrong closes coolant holes.",
        repair="take the head off",
        mended_by=("head gasket", "engine rebuilt"),
        prior_weight=0.004,
        onset=BUILT_IN,
        begun_by=("head gasket", "engine rebuilt"),
        effect=_clogged_block,
    ),
    Cause(
        name="hose off or burst",
        does="A hose burst or came off its spigot: most of the coolant is lost within minutes.",
        repair="replace or clamp the hose, fill and bleed",
        mended_by=("hoses", "heater", "coolant"),
        prior_weight=0.03,
        onset=BREAKS,
        origin=PRACTICE,
        kind_of="coolant low or air trapped",
        severity=(6.0, 1.2),
        begun_by=("hoses", "radiator", "thermostat", "water pump", "heater", "engine rebuilt"),
        effect=lambda v, s: replace(v, fill=replace(v.fill, air=lerp(v.fill.air, 0.6, s))),
    ),
    Cause(
        name="cap of the wrong kind",
        does="A cap of another neck or system: it does not seal, or lets coolant out and does not draw it back.",
        repair="replace the cap",
        mended_by=("cap",),
        prior_weight=0.008,
        onset=BUILT_IN,
        kind_of="cap weak",
        begun_by=("cap", "radiator"),
        effect=_weak_cap,
    ),
    Cause(
        name="thermostat backwards",
        does="The thermostat is fitted the wrong way round: its wax lies in the cold stream and it hardly opens.",
        repair="fit the right thermostat",
        mended_by=("thermostat",),
        prior_weight=0.004,
        onset=BUILT_IN,
        kind_of="thermostat stuck or late",
        severity=(4.0, 1.2),
        begun_by=("thermostat", "engine rebuilt"),
        effect=_backwards,
    ),
    Cause(
        name="heater or bypass hose crossed",
        does="A hose of the heater or the bypass is on the wrong spigot or blocked: hot coolant goes back to the pump.",
        repair="put the heater and bypass hoses right",
        mended_by=("heater", "hoses"),
        prior_weight=0.006,
        onset=BUILT_IN,
        begun_by=("heater", "hoses", "engine rebuilt", "water pump", "thermostat"),
        effect=_short_circuit,
    ),
    Cause(
        name="divider leaks",
        does="The divider of a two-pass core leaks: coolant goes from inlet to outlet within one tank.",
        repair="recore or replace the core",
        mended_by=("radiator",),
        prior_weight=0.01,
        onset=EITHER,
        prior_factor=_divided,
        begun_by=("radiator",),
        effect=_short_circuit,
    ),
    Cause(
        name="wrong pulleys",
        does="Pulleys that turn pump and fan too slowly.",
        repair="fit the right pulleys",
        mended_by=("belt",),
        prior_weight=0.005,
        onset=BUILT_IN,
        begun_by=("belt", "engine rebuilt", "water pump"),
        effect=_under_driven,
    ),
)
