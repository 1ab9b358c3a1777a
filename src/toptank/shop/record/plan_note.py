"""The note beside a job that says which plan was taken."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.catalogue.words.aliases import plan_of, written_plan

if TYPE_CHECKING:
    from collections.abc import Sequence

    from toptank.catalogue.remedies.plan import Plan
    from toptank.shop.record.store.record import JobRecord


def written(plan: Sequence[str]) -> str:
    """Return a plan as it stands in addresses and notes: `read_plan` reads it again."""
    return written_plan(plan)


def taken(record: JobRecord) -> Plan | None:
    """Return the plan that was taken last; None where none was, so that the recommended one counts."""
    found = [note.subject for note in record.notes if note.kind == "plan_taken"]
    return plan_of(found[-1]) if found else None
