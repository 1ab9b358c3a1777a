"""The verb of a job's coolant and cap: what to drain and add, how to fill and bleed, which cap bears the worst day.

Imports of the model stay inside the verb.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from toptank.jobs.form import Field, sheet_form
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.jobs.answers import Chosen
    from toptank.jobs.job import Job
    from toptank.jobs.mix_verbs import Mixed
    from toptank.studies.choose.cap_choice import CapAnswer

WANTED = ("40 %", "50 %", "60 %")
"""Shares of concentrate that the trade keeps between; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CoolantOfJob:
    """The answer.

    Parameters
    ----------
    mixed : what to drain and what to add
    drained_by : how it is drained, and the share that comes out so
    layout, steps, cautions : filling and bleeding
    cap : every cap, and the one to fit
    part : what is taken to bear least
    hottest : coolant that the cap is chosen for [K], and where it comes from
    """

    mixed: Mixed
    drained_by: str
    layout: str
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    cap: CapAnswer
    part: str
    hottest: float
    hottest_from: str


def ways_to_drain() -> tuple[str, ...]:
    """Return how a system is drained."""
    from toptank.studies.choose.mix import DRAINED_BY

    return tuple(DRAINED_BY)


def weak_parts() -> tuple[str, ...]:
    """Return the parts that bound the pressure of a cap."""
    from toptank.studies.choose.cap_choice import PART_LIMITS

    return tuple(PART_LIMITS)


def likely_weakest(job: Job) -> str:
    """Return the part that is taken to bear least where nobody looked."""
    from toptank.jobs.coolant_verbs import guessed_parts
    from toptank.studies.choose.cap_choice import weakest

    return weakest(guessed_parts(job.sheet.facts))[0]


def coolant_form(document: Mapping[str, object], job: Job) -> tuple[Field, ...]:
    """Return the fields of cap and fill."""
    groups = sheet_form(document, job, job.system)
    return tuple(field for group in groups for field in group.fields if field.path.split(".")[0] in ("cap", "fill"))


def coolant_of(job: Job, *, want: str, drained_by: str, part: str, chosen: Chosen | None) -> CoolantOfJob:
    """Say what the coolant of a job asks for.

    Parameters
    ----------
    want : share of concentrate wanted, as typed
    drained_by : one of `ways_to_drain()`
    part : what bears least, one of `weak_parts()`
    chosen : what the remedies come to, if that is at hand; else the hottest coolant is the job's limit
    """
    from toptank.jobs import mix_verbs
    from toptank.jobs.choose_verbs import worst_day
    from toptank.jobs.coolant_verbs import made_for
    from toptank.jobs.order.coolant_work import layout_of
    from toptank.studies.choose import bleeding
    from toptank.studies.choose.cap_choice import choose_cap
    from toptank.studies.choose.mix import DRAINED_BY
    from toptank.units.dimension import FRACTION, VOLUME
    from toptank.units.display import show

    if drained_by not in DRAINED_BY:
        fix = "name one of: " + ", ".join(DRAINED_BY)
        raise Refusal(field="drained by", value=drained_by, limit="is no way to drain that is known here", fix=fix)
    facts = job.sheet.facts
    mixed = mix_verbs.mix(
        capacity=show(facts["fill.capacity"].value, VOLUME, job.system, 2),
        now=show(facts["fill.concentrate"].value, FRACTION, job.system),
        want=want,
        drainable=f"{100.0 * DRAINED_BY[drained_by]:.0f} %",
        glycol=mix_verbs.GLYCOLS[round(facts["fill.glycol"].value)],
        system=job.system,
    )
    hottest, whence = _hottest(job, chosen)
    altitude = max(day.facts["altitude"].value for day in worst_day(job))
    stamped, whence = made_for(facts)
    glycol = facts["fill.glycol"].value
    bled = bleeding.bleeding(layout_of(facts))
    return CoolantOfJob(
        mixed=mixed,
        drained_by=drained_by,
        layout=bled.layout,
        steps=bled.steps,
        cautions=bled.cautions,
        cap=choose_cap(hottest, altitude, mixed.recipe.reached, glycol, (part,), stamped=stamped, stamped_by=whence),
        part=part,
        hottest=hottest,
        hottest_from=whence,
    )


def _hottest(job: Job, chosen: Chosen | None) -> tuple[float, str]:
    """Hottest coolant to reckon with: after the recommended plan, else the customer's limit."""
    if chosen is not None and chosen.recommended is not None:
        hottest = max(duty.coolant.p90 for duty in chosen.recommended.duties)
        return hottest, f"hottest coolant of the worst day after “{chosen.recommended.name}”"
    return job.limit, "the customer's limit, as no plan is at hand yet"


def next_due(job: Job) -> tuple[str, ...]:
    """Say what is in the system, under which cap, and how long such a fill lasts."""
    from toptank.jobs.order.wording import told
    from toptank.knowledge.sheet import declaration_of
    from toptank.studies.choose.coolant_families import families

    facts = job.sheet.facts
    lines = [
        f"{words}: {told(path, facts, declaration_of(path), job.system)}"
        for path, words in (
            ("fill.concentrate", "concentrate in it"),
            ("fill.glycol", "glycol"),
            ("fill.capacity", "whole system"),
            ("cap.pressure", "cap"),
        )
    ]
    lasting = "; ".join(f"{one.name} {one.years:g} years" for one in families() if one.years)
    return (*lines, f"After a flush a fill lasts, by its family: {lasting} (common practice, no source).")
