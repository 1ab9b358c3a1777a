"""The answers of the record of jobs: the same whoever asks."""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated, Any, Literal, TypeAlias

from pydantic import Field, JsonValue

from toptank.shop.answers.answer import Answer, Count, Number

if TYPE_CHECKING:
    from toptank.shop.record.store.record import Attachment, JobRecord, JobRow, KeptAnswer, Note, Revision

Checksum: TypeAlias = Annotated[str, Field(pattern="^[0-9a-f]{64}$")]
State: TypeAlias = Literal["open", "closed"]
Stands: TypeAlias = Literal["in_work", "waiting_for_parts", "waiting_for_customer", "closed"]
NoteKind: TypeAlias = Literal["", "plan_taken", "step_done", "step_open", "steps_open", "gauge_after"]
Kind: TypeAlias = Literal["forecast", "diagnosis", "choice", "verdict", "log"]


class RevisionAnswer(Answer):
    """A revision of a job, without its text.

    Parameters
    ----------
    number : of the job
    parent : the revision that it was made from; null for the first
    at : UTC, ISO 8601
    note : why
    checksum : SHA-256 of the text
    sitting : names the open page on which a field was typed; empty for the rest
    change : as JSON, a row that was taken out or a revision that was gone back to; empty for the rest
    """

    number: Number
    revision: Number
    parent: int | None
    at: str
    author: str
    note: str
    title: str
    complaint: str
    state: State
    checksum: Checksum
    sitting: str
    change: str


class JobLine(Answer):
    """A line of the list of jobs.

    Parameters
    ----------
    revision : the newest
    opened, saved : UTC, ISO 8601
    notes : how many
    customer, registration : as they were typed at the counter
    vehicle : name of the typical vehicle that it is like; empty where it is like none
    promised : when it is to be handed back, as it was typed
    waiting_for : "parts", "customer", or empty
    stands : in work, waiting, or closed; a closed job waits for nothing any more
    found : ids of the causes that it was closed with
    """

    number: Number
    title: str
    complaint: str
    state: State
    revision: Number
    opened: str
    saved: str
    notes: Count
    customer: str
    registration: str
    vehicle: str
    promised: str
    waiting_for: str
    stands: Stands
    found: tuple[str, ...]


class JobListAnswer(Answer):
    """The list of jobs."""

    jobs: tuple[JobLine, ...]


class NoteAnswer(Answer):
    """A note beside a job.

    Parameters
    ----------
    at : UTC, ISO 8601
    kind : what the program noted; empty for somebody's own words
    subject : what that is about: ids of a plan, words of a step, a duty and its reading as JSON
    """

    at: str
    author: str
    text: str
    kind: NoteKind
    subject: str


class AttachmentAnswer(Answer):
    """A photo, a log or a route.

    Parameters
    ----------
    checksum : SHA-256
    size_bytes : of the file
    at : UTC, ISO 8601
    """

    checksum: Checksum
    name: str
    size_bytes: Count
    at: str


class KeptAnswerAnswer(Answer):
    """An answer that was kept.

    Parameters
    ----------
    number : of the answer
    revision : that was asked about
    at : UTC, ISO 8601
    answer : as the command of that name with `--json` gave it then
    """

    number: Number
    kind: Kind
    revision: Number
    seed: Count
    draws: Count
    equations_version: str
    at: str
    answer: dict[str, JsonValue]


class JobAnswerAnswer(KeptAnswerAnswer):
    """An answer that was kept, with the number of its job."""

    job: Number


class JobAnswer(RevisionAnswer):
    """All that is kept of a job, as one revision and what lies beside it.

    Parameters
    ----------
    text : the job file as it was written
    newest : revision
    """

    text: str
    newest: Number
    notes: tuple[NoteAnswer, ...]
    attachments: tuple[AttachmentAnswer, ...]
    answers: tuple[KeptAnswerAnswer, ...]


class JobNoteAnswer(NoteAnswer):
    """A note that was put beside a job; `number` is of the job."""

    number: Number


class JobAttachmentAnswer(AttachmentAnswer):
    """A file that was put beside a job; `number` is of the job."""

    number: Number


class HistoryAnswer(Answer):
    """Every revision of a job, the first one first; `number` is of the job."""

    number: Number
    revisions: tuple[RevisionAnswer, ...]


class AttachmentsAnswer(Answer):
    """The photos and logs of a job; `number` is of the job."""

    number: Number
    attachments: tuple[AttachmentAnswer, ...]


class ExportAnswer(Answer):
    """A job written as a file; `number` is of the job.

    Parameters
    ----------
    text : of the file; None where the job was written whole, which is no text
    attachments_left : that a text cannot hold
    """

    number: Number
    file: str
    text: str | None
    attachments_left: Count


class ImportedJob(Answer):
    """A job that was brought in whole: its number where it came from, and its number here."""

    number_there: Number
    number: Number


class ImportAnswer(Answer):
    """Jobs that were brought in whole, with every revision, note, answer, photo and log."""

    jobs: tuple[ImportedJob, ...]


class FetchAnswer(JobAttachmentAnswer):
    """A photo or a log that was written to a file."""

    file: str


class BackupAnswer(Answer):
    """A backup: where it lies, how many jobs are in it."""

    file: str
    jobs: Count


class RestoreAnswer(BackupAnswer):
    """A restored backup.

    Parameters
    ----------
    before : where a backup of what was there before lies; null if nothing was
    """

    before: str | None


def revision_answer(revision: Revision) -> RevisionAnswer:
    """Return a revision without its text."""
    return RevisionAnswer(**_revision(revision))


def _revision(revision: Revision) -> dict[str, Any]:
    told = dataclasses.asdict(revision)
    del told["text"]
    return {"number": told.pop("job"), "revision": told.pop("number")} | told


def list_answer(rows: Sequence[JobRow]) -> JobListAnswer:
    """Return the list of jobs."""
    return JobListAnswer(jobs=tuple(JobLine(**dataclasses.asdict(row), stands=row.stands) for row in rows))


def record_answer(found: JobRecord) -> JobAnswer:
    """Return all that is kept of a job."""
    return JobAnswer(
        **_revision(found.shown),
        text=found.shown.text,
        newest=found.newest,
        notes=tuple(NoteAnswer(**dataclasses.asdict(one)) for one in found.notes),
        attachments=tuple(AttachmentAnswer(**_attachment(one)) for one in found.attachments),
        answers=tuple(KeptAnswerAnswer(**_kept(one)) for one in found.answers),
    )


def history_answer(number: int, revisions: Sequence[Revision]) -> HistoryAnswer:
    """Return every revision of a job."""
    return HistoryAnswer(number=number, revisions=tuple(revision_answer(one) for one in revisions))


def note_answer(number: int, note: Note) -> JobNoteAnswer:
    """Return a note that was put beside a job."""
    return JobNoteAnswer(number=number, **dataclasses.asdict(note))


def attachment_answer(number: int, added: Attachment) -> JobAttachmentAnswer:
    """Return a file that was put beside a job."""
    return JobAttachmentAnswer(number=number, **_attachment(added))


def attachments_answer(number: int, found: Sequence[Attachment]) -> AttachmentsAnswer:
    """Return the list of the photos and logs of a job."""
    return AttachmentsAnswer(number=number, attachments=tuple(AttachmentAnswer(**_attachment(one)) for one in found))


def fetch_answer(number: int, found: Attachment, file: str) -> FetchAnswer:
    """Return a photo or a log that was written to a file."""
    return FetchAnswer(number=number, file=file, **_attachment(found))


def kept_answer(number: int, kept: KeptAnswer) -> JobAnswerAnswer:
    """Return an answer that was kept with a job."""
    return JobAnswerAnswer(job=number, **_kept(kept))


def _attachment(one: Attachment) -> dict[str, Any]:
    told = dataclasses.asdict(one)
    return told | {"size_bytes": told.pop("size")}


def _kept(kept: KeptAnswer) -> dict[str, Any]:
    return dataclasses.asdict(kept) | {"answer": json.loads(kept.answer)}
