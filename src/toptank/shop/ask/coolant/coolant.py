"""The verbs of the coolant beside mixing: what a reading means, which water, which cap and bottle, how to bleed.

Imports of the model stay inside the verbs.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from toptank.knowledge.sheet import Provenance, declaration_of
from toptank.shop.ask.choice.worst_day import worst_day
from toptank.shop.files.toml_file import shortened
from toptank.shop.files.typed_figure import between
from toptank.shop.order.coolant_work import layout_of
from toptank.studies.choose.coolant import cap_choice, expansion, water_quality
from toptank.studies.choose.coolant.bleeding import bleeding, layouts
from toptank.studies.choose.coolant.cap_choice import SPECIFIED, SUCH_A_VEHICLE
from toptank.studies.choose.coolant.coolant_families import compatibility
from toptank.studies.choose.coolant.strength import from_freeze_scale, from_specific_gravity
from toptank.units.conversion import System
from toptank.units.dimension import NUMBER, TEMPERATURE, VOLUME
from toptank.units.quantity import parse_choice
from toptank.units.refusal import Refusal
from toptank.units.sentence import Text

if TYPE_CHECKING:
    from toptank.knowledge.sheet import Fact
    from toptank.shop.job.job import Job
    from toptank.studies.choose.coolant.bleeding import Bleeding
    from toptank.studies.choose.coolant.cap_choice import CapAnswer
    from toptank.studies.choose.coolant.coolant_families import Compatibility
    from toptank.studies.choose.coolant.expansion import Bottle
    from toptank.studies.choose.coolant.strength import Strength
    from toptank.studies.choose.coolant.water_quality import Limit, Side, Verdict

GLYCOLS = ("ethylene", "propylene")
COLD_FILL = 293.15
"""Temperature of a cold fill, and of a sample whose reading the instrument corrects itself [K]."""

LARGEST_BOTTLE = 0.05
"""Largest recovery bottle that is believed [m3]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterJudged:
    """Whether a kind of water may go in, the limits that it is held against, and both sides of the argument."""

    kind: str
    because: str
    verdict: Verdict
    limits: tuple[Limit, ...]
    argument: tuple[Side, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CapAndBottle:
    """The cap for a job's worst day, and the bottle for its fill.

    Parameters
    ----------
    job : as read
    T_worst : hottest coolant that it is judged at [K]
    altitude : greatest of the worst day [m]
    parts : what the pressure reaches; `assumed_parts` where nobody named them
    cap : every cap and the one to fit
    asked : what the kind of system asks of its cap and level
    bottle : the smallest recovery bottle that is enough
    marks : marks in the bottle that is there; None where none was named, or where it runs over
    own_bottle : volume of the bottle that is there [m3], or None
    assumed : facts that the answer rests on and nobody found, in words
    """

    job: Job
    T_worst: float
    altitude: float
    parts: tuple[str, ...]
    assumed_parts: bool
    cap: CapAnswer
    asked: tuple[str, ...]
    bottle: Bottle
    marks: Bottle | None
    own_bottle: float | None
    assumed: tuple[str, ...]
    remarks: tuple[Text, ...]
    assumed_units: tuple[str, ...]


def strength_read(
    *,
    refractometer: str | None,
    gravity: str | None,
    sample: str | None,
    glycol: str,
    scale: str | None,
    system: System,
    notes: list[str],
) -> Strength:
    """What a refractometer's freeze scale or a hydrometer's gravity means, corrected for the sample's temperature.

    Parameters
    ----------
    refractometer, gravity : one of the two, as read
    sample : temperature of the sample; left out where the instrument corrects itself, which is taken as 20 °C
    glycol, scale : in the coolant, and of the instrument's scale; the same if the scale is not named
    system, notes : units of bare numbers, and where those are told
    """
    code = parse_choice(glycol, GLYCOLS, "glycol")
    T = COLD_FILL if sample is None else between("sample", sample, TEMPERATURE, 273.15, 323.15, system, notes)
    if gravity is not None:
        return from_specific_gravity(between("gravity", gravity, NUMBER, 0.9, 1.3, system, notes), T, code)
    read = between("refractometer", str(refractometer), TEMPERATURE, 200.0, 280.0, system, notes)
    of_scale = parse_choice(scale or glycol, GLYCOLS, "scale")
    return from_freeze_scale(read, T, scale=of_scale, glycol=code)


def family_change(inside: str, new: str, *, soldered: bool, sealed: bool) -> Compatibility:
    """Say what to do with the family that is in before another goes in."""
    return compatibility(inside, new, soldered=soldered, sealed=sealed)


def water(kind: str, analysis: Sequence[str]) -> WaterJudged:
    """Judge water to thin concentrate with.

    Parameters
    ----------
    kind : of water, e.g. tap
    analysis : figures of an analysis such as "chloride=30", in mg/L; pH
    """
    figures: dict[str, float] = {}
    for one in analysis:
        name, _, value = one.partition("=")
        try:
            figures[" ".join(name.split())] = float(value)
        except ValueError:
            limit, fix = "must be a name and a figure", "write chloride=30, in mg/L; the analysis prints both"
            raise Refusal(field="analysis", value=shortened(one), limit=limit, fix=fix) from None
    verdict = water_quality.judged(kind, figures)
    return WaterJudged(
        kind=kind,
        because=next(one.because for one in water_quality.kinds() if one.name == kind),
        verdict=verdict,
        limits=water_quality.limits(),
        argument=water_quality.distilled_water_argument(),
    )


def bleed(layout: str | None, *, job: Job | None = None) -> tuple[Bleeding, ...]:
    """How to fill and bleed one layout, that of a job as far as its sheet tells, or every one."""
    if layout is None and job is not None:
        layout = layout_of(job.sheet.facts)
    return layouts() if layout is None else (bleeding(layout),)


def cap(
    job: Job, *, parts: Sequence[str], bottle: str | None, hottest: str | None = None, system: System
) -> CapAndBottle:
    """Choose the cap for a job's worst day by the weakest part, and size the recovery bottle.

    Parameters
    ----------
    job : with its vehicle and its worst day
    parts : what the pressure reaches, as `PART_LIMITS` names it; guessed from the core where none is named
    bottle : volume of the recovery bottle that is there, or None
    hottest : coolant of the worst day; the customer's limit, which the repair has to hold, if not said
    system : units of bare numbers
    """
    notes: list[str] = []
    facts = job.sheet.facts
    own = None if bottle is None else between("bottle", bottle, VOLUME, 1e-4, LARGEST_BOTTLE, system, notes)
    named = tuple(parts) or guessed_parts(facts)
    cap_choice.weakest(named)
    T_worst = job.limit if hottest is None else between("at", hottest, TEMPERATURE, 330.0, 430.0, system, notes)
    altitude = max(day.facts["altitude"].value for day in worst_day(job))
    share, glycol = facts["fill.concentrate"].value, facts["fill.glycol"].value
    stamped, whence = made_for(facts)
    answer = cap_choice.choose_cap(
        T_worst, altitude, share, glycol, named, stamped=stamped, stamped_by=whence, guessed=not parts
    )
    T_hot = min(T_worst, max(row.boiling_point for row in answer.rows))
    grows = expansion.growth(COLD_FILL, T_hot, share, glycol)
    capacity = facts["fill.capacity"].value
    kinds = declaration_of("cap.system").choices
    resting = ("cap.pressure", "cap.system", "fill.capacity", "fill.concentrate", "fill.glycol")
    return CapAndBottle(
        job=job,
        T_worst=T_worst,
        altitude=altitude,
        parts=named,
        assumed_parts=not parts,
        cap=answer,
        asked=cap_choice.ASKED_BY_SYSTEM[kinds[round(facts["cap.system"].value)]],
        bottle=expansion.recovery_bottle(capacity, grows),
        marks=None if own is None else expansion.marks_in(own, capacity, grows),
        own_bottle=own,
        assumed=tuple(declaration_of(path).means for path in resting if facts[path].how == Provenance.ASSUMED),
        remarks=job.remarks,
        assumed_units=(*job.assumed_units, *notes),
    )


def made_for(facts: Mapping[str, Fact]) -> tuple[float, str]:
    """Gauge pressure that the system was made for [Pa], which no cap exceeds, and where that is from.

    Where nobody read the cap it is what such a vehicle has: an open system must not be closed with a stronger one.
    """
    fact = facts["cap.pressure"]
    return fact.value, SUCH_A_VEHICLE if fact.how == Provenance.ASSUMED else SPECIFIED


def guessed_parts(facts: Mapping[str, Fact]) -> tuple[str, ...]:
    """What an old vehicle has, where nobody looked: its core by metal and tanks, heater core, hoses of unknown age."""
    aluminium, plastic = (facts[f"core.{key}"].value > 0.5 for key in ("material", "tanks"))
    welded = "radiator, all aluminium, welded" if aluminium else "radiator seams, old and soldered"
    core = "radiator, crimped plastic tanks" if plastic else welded
    return core, "heater core, old or unknown", "hoses, old or unknown"
