"""The record of jobs as JSON: the same records whoever asks."""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from toptank.shop.record.store.record import Attachment, JobRecord, JobRow, KeptAnswer, Note, Revision


def revision_json(revision: Revision, *, whole: bool = False) -> dict[str, Any]:
    """Return a revision; its text only if the whole of it is wanted."""
    record = dataclasses.asdict(revision)
    record = {"number": record.pop("job"), "revision": record.pop("number")} | record
    if not whole:
        del record["text"]
    return record


def list_json(rows: Sequence[JobRow]) -> dict[str, Any]:
    """Return the list of jobs."""
    return {"jobs": [dataclasses.asdict(row) for row in rows]}


def record_json(found: JobRecord) -> dict[str, Any]:
    """Return all that is kept of a job."""
    return revision_json(found.shown, whole=True) | {
        "newest": found.newest,
        "notes": [dataclasses.asdict(one) for one in found.notes],
        "attachments": [dataclasses.asdict(one) for one in found.attachments],
        "answers": [kept_answer_json(one) for one in found.answers],
    }


def history_json(number: int, revisions: Sequence[Revision]) -> dict[str, Any]:
    """Return every revision of a job, without their texts."""
    return {"number": number, "revisions": [revision_json(one) for one in revisions]}


def beside_json(number: int, added: Note | Attachment) -> dict[str, Any]:
    """Return what was put beside a job."""
    return {"number": number} | dataclasses.asdict(added)


def attachments_json(number: int, found: Sequence[Attachment]) -> dict[str, Any]:
    """Return the list of the photos and logs of a job."""
    return {"number": number, "attachments": [dataclasses.asdict(one) for one in found]}


def kept_answer_json(kept: KeptAnswer) -> dict[str, Any]:
    """Return an answer that was kept."""
    return dataclasses.asdict(kept) | {"answer": json.loads(kept.answer)}
