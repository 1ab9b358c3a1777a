"""Remedies of the core: cleaned inside, recored, replaced, made to be crossed more than once."""

from dataclasses import replace

from toptank.catalogue.remedies.coolant import DRAIN
from toptank.catalogue.remedies.remedy import JUDGEMENT, Effect, Remedy, like
from toptank.parts.core import Core
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real, namespace

INCH = 0.0254
COOLER_ASIDE = "transmission_cooler_aside"
WELDED = "aluminium_radiator_2_row"
PLASTIC_TANKS = "aluminium_radiator_plastic_tanks"

NEW_BRASS_TUBE = 0.075 * INCH
"""Thickness of the tubes of a new copper-brass core [m]: .070 to .080 in; common practice, no source."""

TOO_SMALL = "core_too_small"
IN_THE_CORE = ("tubes_scaled", "tubes_blocked", "fins_loose", "fins_blocked", "divider_leaks")
"""Causes that go with the old core; its dividers are soldered anew with it."""

AFTER_RODDING = (3e-5, 0.01)
"""Scale [m] and share of blocked tubes [1] that rodding or boiling out leaves; judgement."""


def _rodded(v: Vehicle, _sound: Vehicle) -> Vehicle:
    core, xp = v.core, namespace(v.core.scale_thickness)
    scale, blocked = AFTER_RODDING
    cleaned = replace(
        core,
        scale_thickness=xp.minimum(core.scale_thickness, scale),
        blocked_tubes=xp.minimum(core.blocked_tubes, blocked),
        blocked_face=xp.minimum(core.blocked_face, 0.02),
    )
    return replace(v, core=cleaned)


def _as_new(core: Core) -> Core:
    """New tubes and fins between the tanks that it has: the face stays as it is."""
    nought = like(0.0, core.rows)
    return replace(
        core,
        scale_thickness=nought,
        blocked_tubes=nought,
        loose_fins=nought,
        blocked_face=like(0.01, core.rows),
    )


def _with_brass_tubes(core: Core) -> Core:
    return replace(core, tube_thickness=like(NEW_BRASS_TUBE, core.tube_thickness))


def _same_core(v: Vehicle, _sound: Vehicle) -> Vehicle:
    return replace(v, core=_with_brass_tubes(_as_new(v.core)))


def _recored(rows: float, fin_density: float) -> Effect:
    """A copper-brass core of 1/2 in tubes or those it had, between the same tanks."""

    def effect(v: Vehicle, _sound: Vehicle) -> Vehicle:
        core = _with_brass_tubes(_as_new(v.core))
        wanted = replace(
            core,
            rows=like(rows, core.rows),
            fin_density=like(fin_density, core.fin_density),
            fin_kind=like(0.0, core.fin_kind),
            material=like(0.0, core.material),
            tanks=like(0.0, core.tanks),
            tube_width=like(0.5 * INCH, core.tube_width),
            row_pitch=like(0.57 * INCH, core.row_pitch),
            tube_pitch=like(0.4 * INCH, core.tube_pitch),
        )
        return replace(v, core=wanted)

    return effect


def _aluminium(v: Vehicle, _sound: Vehicle) -> Vehicle:
    """Two rows of 1 in tubes, 16 fins to the inch, all aluminium."""
    return _of_aluminium(2.0, 1.0 * INCH, 0.0, v)


def _with_plastic_tanks(v: Vehicle, _sound: Vehicle) -> Vehicle:
    """One row of 1 1/4 in tubes, 16 fins to the inch, aluminium between crimped plastic tanks."""
    return _of_aluminium(1.0, 1.25 * INCH, 1.0, v)


def _of_aluminium(rows: float, tube_width: float, tanks: float, v: Vehicle) -> Vehicle:
    core = _as_new(v.core)
    wanted = replace(
        core,
        rows=like(rows, core.rows),
        tube_width=like(tube_width, core.tube_width),
        row_pitch=like(tube_width + 0.1 * INCH, core.row_pitch),
        tube_thickness=like(0.08 * INCH, core.tube_thickness),
        tube_wall=like(3.5e-4, core.tube_wall),
        tube_pitch=like(0.4 * INCH, core.tube_pitch),
        tube_kind=like(0.0, core.tube_kind),
        fin_density=like(16.0 / INCH, core.fin_density),
        fin_thickness=like(1.0e-4, core.fin_thickness),
        fin_kind=like(0.0, core.fin_kind),
        louver_pitch=like(1.1e-3, core.louver_pitch),
        material=like(1.0, core.material),
        tanks=like(tanks, core.tanks),
    )
    return replace(v, core=wanted)


def _as_passes(passes: float) -> Effect:
    """The core it had, with dividers in the tanks."""

    def effect(v: Vehicle, _sound: Vehicle) -> Vehicle:
        core = _with_brass_tubes(_as_new(v.core))
        return replace(v, core=replace(core, passes=like(passes, core.passes)))

    return effect


def copper_brass(vehicle: Vehicle) -> Real:
    """Whether tanks and core are soldered: only those are opened and closed again."""
    return (1.0 - vehicle.core.material) * (1.0 - vehicle.core.tanks)


def one_pass(vehicle: Vehicle) -> Real:
    """Whether the coolant crosses a soldered core once only."""
    passes = vehicle.core.passes
    return copper_brass(vehicle) * (2.0 - namespace(passes).clip(passes, 1.0, 2.0))


REMEDIES_OF_CORE = (
    Remedy(
        id="rod_core",
        size=JUDGEMENT,
        effect=_rodded,
        parts=("core_cleaning",),
        minutes=240,
        group="core",
        fits=copper_brass,
        forces=(DRAIN,),
        cures=("tubes_scaled", "tubes_blocked", "fins_blocked"),
    ),
    Remedy(
        id="recore_as_it_was",
        size=JUDGEMENT,
        effect=_same_core,
        parts=("copper_brass_core",),
        minutes=300,
        group="core",
        fits=copper_brass,
        forces=(DRAIN,),
        cures=IN_THE_CORE,
    ),
    Remedy(
        id="recore_3_row",
        size=JUDGEMENT,
        effect=_recored(3.0, 14.0 / INCH),
        parts=("copper_brass_core_3_row",),
        minutes=300,
        group="core",
        fits=copper_brass,
        forces=(DRAIN,),
        cures=IN_THE_CORE,
        makes_up_for=(TOO_SMALL,),
    ),
    Remedy(
        id="recore_4_row",
        size=JUDGEMENT,
        effect=_recored(4.0, 12.0 / INCH),
        parts=("copper_brass_core_4_row",),
        minutes=300,
        group="core",
        fits=copper_brass,
        forces=(DRAIN,),
        cures=IN_THE_CORE,
        makes_up_for=(TOO_SMALL,),
    ),
    Remedy(
        id=WELDED,
        size=JUDGEMENT,
        effect=_aluminium,
        parts=("aluminium_radiator_2_row",),
        minutes=240,
        group="core",
        forces=(DRAIN,),
        cures=(*IN_THE_CORE, TOO_SMALL),
    ),
    Remedy(
        id=PLASTIC_TANKS,
        size=JUDGEMENT,
        effect=_with_plastic_tanks,
        parts=("aluminium_radiator_plastic_tanks",),
        minutes=210,
        group="core",
        forces=(DRAIN,),
        cures=(*IN_THE_CORE, TOO_SMALL),
    ),
    Remedy(
        id="recore_two_pass",
        size=JUDGEMENT,
        effect=_as_passes(2.0),
        parts=("two_pass_core",),
        minutes=360,
        group="core",
        forces=(DRAIN, COOLER_ASIDE),
        fits=one_pass,
        cures=IN_THE_CORE,
    ),
    Remedy(
        id="recore_three_pass",
        size=JUDGEMENT,
        effect=_as_passes(3.0),
        parts=("three_pass_core",),
        minutes=390,
        group="core",
        forces=(DRAIN, COOLER_ASIDE),
        fits=one_pass,
        cures=IN_THE_CORE,
    ),
)
