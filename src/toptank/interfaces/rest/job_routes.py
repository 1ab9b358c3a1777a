"""Routes of the record of jobs. Each calls one verb of `shop/record` or `shop/edit` and returns its answer."""

import asyncio
import tempfile
from pathlib import Path
from typing import Annotated, Literal
from urllib.parse import quote

from fastapi import APIRouter, Query
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response

from toptank.interfaces.file_kinds import REFUSED_KIND, START, kind_of
from toptank.interfaces.rest.refusals import SHORT, WrongKind, printable
from toptank.interfaces.rest.reply import file
from toptank.interfaces.rest.shapes import (
    Checksum,
    Confirmed,
    NewJob,
    NewNote,
    NewReading,
    Number,
    ReadingAfter,
    Reopened,
    Reverted,
    Revision,
    SavedJob,
    WriteUpSaid,
)
from toptank.shop.door import (
    AttachmentsAnswer,
    HistoryAnswer,
    JobAnswer,
    JobAttachmentAnswer,
    JobListAnswer,
    JobNoteAnswer,
    RevisionAnswer,
    SimilarAnswer,
    after_work,
    attachment_answer,
    attachments_answer,
    export_verbs,
    history_answer,
    job_verbs,
    list_answer,
    note_answer,
    record_answer,
    revision_answer,
    similar_jobs,
)
from toptank.shop.door import edit_verbs as edit
from toptank.units.refusal import Refusal

routes = APIRouter(tags=["jobs"])


@routes.get("/jobs")
def list_jobs(
    search: Annotated[str, Query(max_length=400, description="every word must be found")] = "",
    state: Literal["open", "in_work", "waiting_for_parts", "waiting_for_customer", "closed"] | None = None,
) -> JobListAnswer:
    """List the jobs: those in which every word is found, in title, complaint, notes, customer, plate or vehicle."""
    return list_answer(job_verbs.listed(search=search, state=state))


@routes.post("/jobs", status_code=201)
def new_job(body: NewJob) -> RevisionAnswer:
    """Open a job."""
    if body.file is not None:
        return revision_answer(job_verbs.open_text(body.file, author=body.by))
    if body.like is None:
        fix = "send a job file as text, or the name of a typical vehicle"
        raise Refusal(field="file", value="(missing)", limit="or like is needed", fix=fix)
    opened = job_verbs.open_told(
        body.like, title=body.title, complaint=body.complaint, system=body.units, author=body.by
    )
    return revision_answer(opened)


@routes.get("/jobs/{number}")
def show_job(number: Number, revision: Revision = None) -> JobAnswer:
    """Show all that is kept of a job."""
    return record_answer(job_verbs.record(number, revision=revision))


@routes.put("/jobs/{number}")
def save_job(number: Number, body: SavedJob) -> RevisionAnswer:
    """Save a job file as the next revision; 409 where somebody saved meanwhile."""
    saved = job_verbs.save_text(number, body.file, based_on=body.based_on, author=body.by, note=body.why)
    return revision_answer(saved)


@routes.get("/jobs/{number}/history")
def job_history(number: Number) -> HistoryAnswer:
    """List every revision of a job, the first one first."""
    return history_answer(number, job_verbs.history(number))


@routes.get("/jobs/{number}/file", response_class=PlainTextResponse, openapi_extra=file("application/toml"))
def export_job(number: Number, revision: Revision = None) -> Response:
    """Export a job as the text of a job file, its notes in comments above."""
    named = {"content-disposition": f'attachment; filename="job-{number}.toml"'}
    return Response(export_verbs.export(number, revision=revision), media_type="application/toml", headers=named)


@routes.post("/jobs/{number}/notes", status_code=201)
def add_note(number: Number, body: NewNote) -> JobNoteAnswer:
    """Put a note beside a job."""
    return note_answer(number, job_verbs.add_note(number, body.text, author=body.by))


@routes.get("/jobs/{number}/similar")
def similar(number: Number) -> SimilarAnswer:
    """Tell what closed jobs like this one turned out to be: the same kind of vehicle, or hot in the same manner."""
    return similar_jobs.similar(number)


@routes.post("/jobs/{number}/write-up")
def write_up(number: Number, body: WriteUpSaid) -> RevisionAnswer:
    """Write down who came with what, when it was promised, what the work waits for; what is not sent stays."""
    said = body.model_dump(exclude={"by"}, exclude_none=True)
    return revision_answer(edit.set_write_up(number, said, author=body.by))


@routes.post("/jobs/{number}/readings", status_code=201)
def add_reading(number: Number, body: NewReading) -> RevisionAnswer:
    """Add what was seen at a duty of the job, by a person or a logger: it becomes evidence of the diagnosis."""
    if not body.gauge.strip() and not body.words:
        fix = 'send a figure with its unit, such as "218 F", or words'
        raise Refusal(field="gauge", value="(missing)", limit="or words is needed", fix=fix)
    seen = {key: getattr(body, key) for key in ("duty", "gauge", "words", "thermometer", "note")}
    return revision_answer(edit.add_row(number, "reading", seen, author=body.by))


@routes.post("/jobs/{number}/readings-after", status_code=201)
def add_reading_after(number: Number, body: ReadingAfter) -> JobNoteAnswer:
    """Note what the gauge showed on the road test, after the work."""
    noted = after_work.note_after(number, body.duty, body.gauge, system=body.units, author=body.by)
    return note_answer(number, noted)


@routes.get("/jobs/{number}/attachments")
def attachments(number: Number) -> AttachmentsAnswer:
    """List the photos and logs of a job, the first one first."""
    return attachments_answer(number, job_verbs.record(number).attachments)


@routes.post(
    "/jobs/{number}/attachments",
    status_code=201,
    openapi_extra={
        "requestBody": {
            "required": True,
            "content": {"application/octet-stream": {"schema": {"type": "string", "format": "binary"}}},
        },
    },
)
async def attach(
    number: Number,
    name: Annotated[str, Query(max_length=200, description="with the ending of its kind")],
    asked: Request,
) -> JobAttachmentAnswer:
    """Keep a photo, a log or a route beside a job: the file is the body, up to 32 MiB."""
    return await asyncio.to_thread(_attached, number, name, await asked.body())


def _attached(number: int, name: str, content: bytes) -> JobAttachmentAnswer:
    if not content:
        raise Refusal(field="body", value="(nothing)", limit="is empty", fix="send the file as the body")
    if kind_of(content[:START], name) is None:
        raise WrongKind(field="name", value=printable(name[:SHORT]), limit="is no kind that is taken", fix=REFUSED_KIND)
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "sent"  # never the name that it came with
        place.write_bytes(content)
        return attachment_answer(number, job_verbs.attach(number, place, name=name))


@routes.get("/jobs/{number}/attachments/{checksum}", openapi_extra=file("application/octet-stream"))
def attachment(number: Number, checksum: Checksum) -> Response:
    """Fetch a photo, a log or a route: to be saved, never to be shown."""
    found, content = job_verbs.attachment(number, checksum)
    headers = {
        "content-disposition": f"attachment; filename*=UTF-8''{quote(found.name)}",
        "content-security-policy": "sandbox; default-src 'none'",
        "x-content-type-options": "nosniff",
    }
    return Response(content, media_type="application/octet-stream", headers=headers)


@routes.post("/jobs/{number}/close")
def close_job(number: Number, body: Confirmed) -> RevisionAnswer:
    """Close a job with what it was."""
    closed = job_verbs.close(number, body.causes, contributing=body.contributing, how=body.how, author=body.by)
    return revision_answer(closed)


@routes.post("/jobs/{number}/reopen")
def reopen_job(number: Number, body: Reopened) -> RevisionAnswer:
    """Open a closed job again."""
    return revision_answer(job_verbs.reopen(number, author=body.by, note=body.why))


@routes.post("/jobs/{number}/revert")
def revert_job(number: Number, body: Reverted) -> RevisionAnswer:
    """Make an earlier revision the newest again; nothing is lost."""
    return revision_answer(job_verbs.revert(number, body.revision, author=body.by))
