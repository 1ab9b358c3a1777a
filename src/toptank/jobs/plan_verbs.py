"""The verb of taking a plan: which one the order is written for; kept as a note beside the job, as ticks are."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.jobs import job_verbs
from toptank.jobs.store.words import LONGEST_NOTE

if TYPE_CHECKING:
    from toptank.jobs.store.record import JobRecord, Note

TAKEN = "plan taken: "
"""How such a note begins; the last one counts."""


def take(number: int, plan: str, *, author: str = "") -> Note:
    """Note that the order is to be written for a plan, by its name."""
    return job_verbs.add_note(number, (TAKEN + plan)[:LONGEST_NOTE], author=author)


def taken(record: JobRecord) -> str:
    """Return the name of the plan that was taken last; empty where none was, so that the recommended one counts."""
    said = [note.text for note in record.notes if note.text.startswith(TAKEN)]
    return said[-1].removeprefix(TAKEN) if said else ""
