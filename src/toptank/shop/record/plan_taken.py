"""Which plan counts: the one that is named, else the one that was taken, else the one that is recommended.

A plan that was taken is kept as a note beside the job, as ticks are. Order, check drive and verdict ask here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.record import job_verbs
from toptank.shop.record.store.words import LONGEST_NOTE
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.shop.answers.answers import Chosen
    from toptank.shop.job.job import Job
    from toptank.shop.record.store.record import JobRecord, Note
    from toptank.studies.choose.worst_day_forecast import WorstDayForecast

TAKEN = "plan taken: "
"""How such a note begins; the last one counts."""


def take(number: int, plan: str, *, author: str = "") -> Note:
    """Note that the order is to be written for a plan, by its name."""
    return job_verbs.add_note(number, (TAKEN + plan)[:LONGEST_NOTE], author=author)


def taken(record: JobRecord) -> str:
    """Return the name of the plan that was taken last; empty where none was, so that the recommended one counts."""
    said = [note.text for note in record.notes if note.text.startswith(TAKEN)]
    return said[-1].removeprefix(TAKEN) if said else ""


def counts(job: Job, named: str | None) -> str | None:
    """Return the name of the plan that counts; None for the recommended one."""
    return named or job.plan_taken or None


def check_plan(named: str | None) -> None:
    """Refuse a plan that no choice can hold, before any work is done.

    Parameters
    ----------
    named : names of remedies with " + " between them; None: none is named

    Raises
    ------
    Refusal : if a part of it is no remedy
    """
    from toptank.catalogue.remedies.all_remedies import REMEDIES
    from toptank.shop.files.read_bytes import shortened
    from toptank.studies.choose.worst_day_forecast import NOTHING

    known = [remedy.name for remedy in REMEDIES]
    for part in [] if named is None else _plain(named).split(" + "):
        if part not in [name.lower() for name in (NOTHING, *known)]:
            fix = did_you_mean(part, known, "copy the name of a plan from `toptank choose`")
            raise Refusal(field="plan", value=shortened(named), limit=f"{shortened(part)!r} is no remedy", fix=fix)


def plan_of(chosen: Chosen, named: str | None) -> WorstDayForecast:
    """Return the plan that counts of a choice.

    Raises
    ------
    Refusal : if it is not in the choice, or none is named and none is recommended
    """
    from toptank.shop.files.read_bytes import shortened

    name = counts(chosen.job, named)
    if name is None:
        if chosen.recommended is None:
            fix = "ask less of the vehicle, or name one of the plans of `toptank choose` with --plan"
            limit = "no remedy on the list holds the worst day, so that there is nothing to order"
            raise Refusal(field="plan", value="none", limit=limit, fix=fix)
        return chosen.recommended
    for one in chosen.outlooks:
        if one.name.lower() == _plain(name):
            return one
    was = "is not a plan of this job" if named else "was taken, and is not a plan of this job any more"
    fix = did_you_mean(name, [one.name for one in chosen.outlooks], "copy the name of a plan from `toptank choose`")
    raise Refusal(field="plan", value=shortened(name), limit=was, fix=fix)


def _plain(name: str) -> str:
    return " ".join(name.split()).lower()
