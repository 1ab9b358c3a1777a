"""The verb of a job's coolant and cap: what to drain and add, how to fill and bleed, which cap bears the worst day.

Imports of the model stay inside the verb.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from toptank.knowledge.sheet import declaration_of
from toptank.shop.answers.words.wording import told
from toptank.shop.ask.coolant import coolant, mix
from toptank.shop.edit.form import Field, sheet_form
from toptank.studies.choose.coolant.cap_choice import PART_LIMITS
from toptank.studies.choose.coolant.coolant_families import families
from toptank.studies.choose.coolant.mix import DRAINED_BY
from toptank.units.conversion import kelvin
from toptank.units.dimension import FRACTION, TEMPERATURE, VOLUME
from toptank.units.display import show
from toptank.units.refusal import Refusal
from toptank.units.sentence import said

if TYPE_CHECKING:
    from toptank.shop.answers.choice import ChoiceAnswer
    from toptank.shop.ask.coolant.coolant import CapAndBottle
    from toptank.shop.ask.coolant.mix import Mixed
    from toptank.shop.job.job import Job
    from toptank.studies.choose.coolant.bleeding import Bleeding

WANTED = ("40 %", "50 %", "60 %")
"""Shares of concentrate that the trade keeps between; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CoolantOfJob:
    """The answer: those of `mix`, `bleed` and `cap` for one job.

    Parameters
    ----------
    mixed : what to drain and what to add
    drained_by : how it is drained
    bleeding : filling and bleeding, by the layout as far as the sheet tells it
    cap : every cap, the one to fit, the recovery bottle
    """

    mixed: Mixed
    drained_by: str
    bleeding: Bleeding
    cap: CapAndBottle


def ways_to_drain() -> tuple[str, ...]:
    """Return how a system is drained."""
    return tuple(DRAINED_BY)


def weak_parts() -> tuple[str, ...]:
    """Return the parts that bound the pressure of a cap."""
    return tuple(PART_LIMITS)


def coolant_form(document: Mapping[str, object], job: Job) -> tuple[Field, ...]:
    """Return the fields of cap and fill."""
    groups = sheet_form(document, job, job.system)
    return tuple(field for group in groups for field in group.fields if field.path.split(".")[0] in ("cap", "fill"))


def judged_at(job: Job, choice: ChoiceAnswer | None) -> tuple[tuple[str, str], ...]:
    """Return the temperatures that a cap may be judged at, as typed and in words; the first is what `cap` takes.

    Parameters
    ----------
    choice : what the remedies come to, if that is at hand
    """
    found = [("", f"the customer's limit, {show(job.limit, TEMPERATURE, job.system)}")]
    recommended = () if choice is None else [one for one in choice.plans if one.plan == choice.recommended]
    for plan in recommended:
        hottest = show(kelvin(max(duty.top_tank_degC.p90 for duty in plan.duties)), TEMPERATURE, job.system)
        found.append((hottest, f"{hottest}: 9 in 10 stay below it after “{said(plan.name, job.system)}”"))
    return tuple(found)


def coolant_of(job: Job, *, want: str, drained_by: str, part: str = "", at: str = "") -> CoolantOfJob:
    """Say what the coolant of a job asks for.

    Parameters
    ----------
    want : share of concentrate wanted, as typed
    drained_by : one of `ways_to_drain()`
    part : what bears least, one of `weak_parts()`; empty where nobody looked
    at : hottest coolant that the cap is judged at, as typed; empty for the customer's limit
    """
    if drained_by not in DRAINED_BY:
        fix = "name one of: " + ", ".join(DRAINED_BY)
        raise Refusal(field="drained by", value=drained_by, limit="is no way to drain that is known here", fix=fix)
    facts = job.sheet.facts
    mixed = mix.mix(
        capacity=show(facts["fill.capacity"].value, VOLUME, job.system, 2),
        now=show(facts["fill.concentrate"].value, FRACTION, job.system),
        want=want,
        drainable=f"{100.0 * DRAINED_BY[drained_by]:.0f} %",
        glycol=mix.GLYCOLS[round(facts["fill.glycol"].value)],
        system=job.system,
    )
    (bleeding,) = coolant.bleed(None, job=job)
    parts = (part,) if part else ()
    cap = coolant.cap(job, parts=parts, bottle=None, hottest=at or None, system=job.system)
    return CoolantOfJob(mixed=mixed, drained_by=drained_by, bleeding=bleeding, cap=cap)


def next_due(job: Job) -> tuple[str, ...]:
    """Say what is in the system, under which cap, and how long such a fill lasts."""
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
