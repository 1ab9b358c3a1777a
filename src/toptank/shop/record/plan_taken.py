"""Which plan counts: the one that is named, else the one that was taken, else the one that is recommended.

A plan that was taken is kept as a note beside the job, as ticks are. Order, check drive and verdict ask here.
"""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING

from toptank.catalogue.words import aliases
from toptank.catalogue.words.aliases import id_of, meant
from toptank.shop.answers.choice import choice_answer
from toptank.shop.answers.summaries.three_plans import LETTERS, three_plans
from toptank.shop.answers.words import naming
from toptank.shop.files.read_bytes import shortened
from toptank.shop.record import job_verbs
from toptank.shop.record.plan_note import written
from toptank.shop.record.store.kinds import About
from toptank.shop.record.store.words import LONGEST_NOTE
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Sequence

    from toptank.catalogue.remedies.plan import Plan
    from toptank.shop.answers.answers import Chosen
    from toptank.shop.answers.choice import ChoiceAnswer
    from toptank.shop.job.job import Job
    from toptank.shop.record.store.record import Note
    from toptank.studies.choose.worst_day_forecast import WorstDayForecast
    from toptank.units.conversion import System


def take(number: int, plan: Sequence[str], *, system: System = "us", author: str = "") -> Note:
    """Note that the order is to be written for a plan, named by the ids of its remedies; the last one counts."""
    text = f"plan taken: {naming.plan(plan, system)}"[:LONGEST_NOTE]
    return job_verbs.add_note(number, text, author=author, about=About("plan_taken", written(plan)))


def counts(job: Job, named: str | None) -> Plan | None:
    """Return the plan that counts; None for the recommended one.

    Raises
    ------
    Refusal : if a part of the one that is named is no remedy
    """
    plan = read_plan(named)
    return job.plan_taken if plan is None else plan


def taken(named: str, choice: ChoiceAnswer) -> str:
    """Return how the plan that counts on a page is written: the one that is named, else the recommended one."""
    return named or ("" if choice.recommended is None else written(choice.recommended))


def key(plan: Plan | str | None) -> str:
    """Return one writing of a plan for all that means it; a text that is no plan stays, empty where there is none."""
    if isinstance(plan, str):
        read = aliases.plan_of(plan) if plan else None
        return plan if read is None else written(read)
    return "" if plan is None else written(plan)


def read_plan(named: str | None) -> Plan | None:
    """Read a plan as somebody named it, before any work is done.

    Parameters
    ----------
    named : ids of remedies with commas between them, or what they are called with " + " between; None or empty: none.
        The number or letter of a plan in a list says nothing before that list is there: none as well

    Raises
    ------
    Refusal : if a part of it is no remedy
    """
    if not named or _in_list(named):
        return None
    plan = aliases.plan_of(named)
    if plan is None:
        parts = [part.strip().lower() for part in named.split("+")]
        part = next(part for part in parts if id_of("remedy", part) is None)
        fix = meant("remedy", part, "copy the name of a plan from `toptank choose`")
        raise Refusal(field="plan", value=shortened(named), limit=f"{shortened(part)!r} is no remedy", fix=fix)
    return plan


def asked_for(job: Job, named: str | None) -> Job:
    """Return a job with the plan that is named as the one taken, so that it is weighed whatever else is listed.

    Raises
    ------
    Refusal : if a part of the one that is named is no remedy
    """
    plan = read_plan(named)
    return job if plan is None else dataclasses.replace(job, plan_taken=plan)


def plan_of(chosen: Chosen, named: str | None) -> WorstDayForecast:
    """Return the plan that counts of a choice.

    Raises
    ------
    Refusal : if it is not in the choice, or none is named and none is recommended
    """
    if named and _in_list(named):
        return _picked(chosen, named)
    plan, system = counts(chosen.job, named), chosen.job.system
    if plan is None:
        if chosen.recommended is None:
            fix = "ask less of the vehicle, or name one of the plans of `toptank choose` with --plan"
            limit = "no remedy on the list holds the worst day, so that there is nothing to order"
            raise Refusal(field="plan", value="none", limit=limit, fix=fix)
        return chosen.recommended
    for one in chosen.outlooks:
        if _means(plan, one):
            return one
    was = "is not a plan of this job" if named else "was taken, and is not a plan of this job any more"
    name, known = naming.plan(plan, system), [naming.plan(one.ids, system) for one in chosen.outlooks]
    fix = did_you_mean(name, known, "copy the name of a plan from `toptank choose`")
    raise Refusal(field="plan", value=shortened(named or name), limit=was, fix=fix)


def _means(plan: Plan, one: WorstDayForecast) -> bool:
    """Whether a plan as it was named is this one: what it forces, such as the coolant, need not be named."""
    named = [remedy for remedy in one.remedies if remedy.id in plan]
    brings = {id_ for remedy in named for id_ in remedy.forces}
    return len(named) == len(set(plan)) and {remedy.id for remedy in one.remedies} - set(plan) <= brings


def ordered(number: int, plan: Sequence[str], *, system: System = "us", author: str = "") -> Note | None:
    """Note that an order was written for a plan: every later step is about that one; None where it is noted already."""
    last = job_verbs.stored_job(number).plan_taken
    return None if last is not None and set(last) == set(plan) else take(number, plan, system=system, author=author)


def _in_list(named: str) -> bool:
    """Whether a plan is meant by its place: the number in the list of all plans, or the letter of one of the three."""
    return named.isdecimal() or named.strip().upper() in LETTERS


def _picked(chosen: Chosen, named: str) -> WorstDayForecast:
    alone = () if chosen.repair_alone is None else (chosen.repair_alone,)
    by_ids = {one.ids: one for one in (*alone, *chosen.outlooks)}
    named_plans = three_plans(choice_answer(chosen), chosen.job.system)
    by_letter = {one.letter: by_ids[one.plan.plan] for one in named_plans}
    by_number = {str(number): plan for number, plan in enumerate(chosen.outlooks, start=1)}
    found = (by_letter | by_number).get(named.strip().upper().lstrip("0"))
    if found is None:
        limit = f"is not in the list: 1 to {len(by_number)}, or {', '.join(by_letter)}"
        raise Refusal(field="plan", value=named, limit=limit, fix="`toptank choose --full` shows every plan")
    return found
