"""Which steps of a job have been done, told from what stands in it: for the ticks at the head of its pages."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.door import rows_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from toptank.shop.door import Job, JobRecord

PARTS = ("core", "fan", "fan_clutch", "shroud", "engine", "water_pump", "condenser", "drivetrain", "body", "thermostat")
"""Sections of the sheet that are filled in at the vehicle."""


def steps_done(job: Job, record: JobRecord, document: Mapping[str, object]) -> frozenset[str]:
    """Return the keys of the steps at which somebody has written something down."""
    kinds = {answer.kind for answer in record.answers}
    told = {
        "complaint": bool(job.evidence.readings or job.complaint.strip()),
        "sheet": any(document.get(part) for part in PARTS),
        "causes": bool(rows_of(document, "check")),
        "remedies": job.plan_taken is not None,
        "fit": bool(document.get("fit")),
        "coolant": any(document.get(part) for part in ("fill", "cap")),
        "order": job.plan_taken is not None,
        "drive": "verdict" in kinds or any(note.kind == "gauge_after" for note in record.notes),
        "record": job.confirmed is not None,
    }
    return frozenset(key for key, done in told.items() if done)
