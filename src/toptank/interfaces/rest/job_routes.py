"""Routes of the record of jobs. Each calls one verb of `shop/record` or `shop/edit` and returns its answer."""

import asyncio
import tempfile
from pathlib import Path
from typing import Annotated, Any, Literal
from urllib.parse import quote

from fastapi import APIRouter, Query
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response

from toptank.interfaces.rest.refusals import SHORT, WrongKind, printable
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
)
from toptank.units.refusal import Refusal

routes = APIRouter(tags=["jobs"])


def answers(schema: str) -> dict[str, Any]:
    """Name the schema of an answer for the document of this interface."""
    return {"x-answer": schema}


@routes.get("/jobs", openapi_extra=answers("answer-job-list"))
def list_jobs(
    search: Annotated[str, Query(max_length=400, description="every word must be found")] = "",
    state: Literal["open", "closed"] | None = None,
) -> Any:
    """List the jobs."""
    from toptank.shop.answers.record_json import list_json
    from toptank.shop.record import job_verbs

    return list_json(job_verbs.listed(search=search, state=state))


@routes.post("/jobs", status_code=201, openapi_extra=answers("answer-job-revision"))
def new_job(body: NewJob) -> Any:
    """Open a job."""
    from toptank.shop.answers.record_json import revision_json
    from toptank.shop.record import job_verbs

    if body.file is not None:
        return revision_json(job_verbs.open_text(body.file, author=body.by))
    if body.like is None:
        fix = "send a job file as text, or the name of a typical vehicle"
        raise Refusal(field="file", value="(missing)", limit="or like is needed", fix=fix)
    opened = job_verbs.open_told(
        body.like, title=body.title, complaint=body.complaint, system=body.units, author=body.by
    )
    return revision_json(opened)


@routes.get("/jobs/{number}", openapi_extra=answers("answer-job-show"))
def show_job(number: Number, revision: Revision = None) -> Any:
    """Show all that is kept of a job."""
    from toptank.shop.answers.record_json import record_json
    from toptank.shop.record import job_verbs

    return record_json(job_verbs.record(number, revision=revision))


@routes.put("/jobs/{number}", openapi_extra=answers("answer-job-revision"))
def save_job(number: Number, body: SavedJob) -> Any:
    """Save a job file as the next revision; 409 where somebody saved meanwhile."""
    from toptank.shop.answers.record_json import revision_json
    from toptank.shop.record import job_verbs

    saved = job_verbs.save_text(number, body.file, based_on=body.based_on, author=body.by, note=body.why)
    return revision_json(saved)


@routes.get("/jobs/{number}/history", openapi_extra=answers("answer-job-history"))
def job_history(number: Number) -> Any:
    """List every revision of a job, the first one first."""
    from toptank.shop.answers.record_json import history_json
    from toptank.shop.record import job_verbs

    return history_json(number, job_verbs.history(number))


@routes.get("/jobs/{number}/file", response_class=PlainTextResponse, openapi_extra=answers("application/toml"))
def export_job(number: Number, revision: Revision = None) -> Response:
    """Export a job as the text of a job file, its notes in comments above."""
    from toptank.shop.record import job_verbs

    named = {"content-disposition": f'attachment; filename="job-{number}.toml"'}
    return Response(job_verbs.export(number, revision=revision), media_type="application/toml", headers=named)


@routes.post("/jobs/{number}/notes", status_code=201, openapi_extra=answers("answer-job-note"))
def add_note(number: Number, body: NewNote) -> Any:
    """Put a note beside a job."""
    from toptank.shop.answers.record_json import beside_json
    from toptank.shop.record import job_verbs

    return beside_json(number, job_verbs.add_note(number, body.text, author=body.by))


@routes.post("/jobs/{number}/readings", status_code=201, openapi_extra=answers("answer-job-revision"))
def add_reading(number: Number, body: NewReading) -> Any:
    """Add what was seen at a duty of the job, by a person or a logger: it becomes evidence of the diagnosis."""
    from toptank.shop.answers.record_json import revision_json
    from toptank.shop.edit import edit

    if not body.gauge.strip() and not body.words:
        fix = 'send a figure with its unit, such as "218 F", or words'
        raise Refusal(field="gauge", value="(missing)", limit="or words is needed", fix=fix)
    seen = {key: getattr(body, key) for key in ("duty", "gauge", "words", "thermometer", "note")}
    return revision_json(edit.add_row(number, "reading", seen, author=body.by))


@routes.post("/jobs/{number}/readings-after", status_code=201, openapi_extra=answers("answer-job-note"))
def add_reading_after(number: Number, body: ReadingAfter) -> Any:
    """Note what the gauge showed on the check drive, after the work."""
    from toptank.shop.answers.record_json import beside_json
    from toptank.shop.order import after_work

    noted = after_work.note_after(number, body.duty, body.gauge, system=body.units, author=body.by)
    return beside_json(number, noted)


@routes.get("/jobs/{number}/attachments", openapi_extra=answers("answer-attachments"))
def attachments(number: Number) -> Any:
    """List the photos and logs of a job, the first one first."""
    from toptank.shop.answers.record_json import attachments_json
    from toptank.shop.record import job_verbs

    return attachments_json(number, job_verbs.record(number).attachments)


@routes.post(
    "/jobs/{number}/attachments",
    status_code=201,
    openapi_extra={
        **answers("answer-job-attach"),
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
) -> Any:
    """Keep a photo, a log or a route beside a job: the file is the body, up to 32 MiB."""
    return await asyncio.to_thread(_attached, number, name, await asked.body())


def _attached(number: int, name: str, content: bytes) -> Any:
    from toptank.interfaces.file_kinds import REFUSED_KIND, START, kind_of
    from toptank.shop.answers.record_json import beside_json
    from toptank.shop.record import job_verbs

    if not content:
        raise Refusal(field="body", value="(nothing)", limit="is empty", fix="send the file as the body")
    if kind_of(content[:START], name) is None:
        raise WrongKind(field="name", value=printable(name[:SHORT]), limit="is no kind that is taken", fix=REFUSED_KIND)
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "sent"  # never the name that it came with
        place.write_bytes(content)
        return beside_json(number, job_verbs.attach(number, place, name=name))


@routes.get("/jobs/{number}/attachments/{checksum}", openapi_extra=answers("application/octet-stream"))
def attachment(number: Number, checksum: Checksum) -> Response:
    """Fetch a photo, a log or a route: to be saved, never to be shown."""
    from toptank.shop.record import job_verbs

    found, content = job_verbs.attachment(number, checksum)
    headers = {
        "content-disposition": f"attachment; filename*=UTF-8''{quote(found.name)}",
        "content-security-policy": "sandbox; default-src 'none'",
        "x-content-type-options": "nosniff",
    }
    return Response(content, media_type="application/octet-stream", headers=headers)


@routes.post("/jobs/{number}/close", openapi_extra=answers("answer-job-revision"))
def close_job(number: Number, body: Confirmed) -> Any:
    """Close a job with what it was."""
    from toptank.shop.answers.record_json import revision_json
    from toptank.shop.record import job_verbs

    closed = job_verbs.close(number, body.causes, contributing=body.contributing, how=body.how, author=body.by)
    return revision_json(closed)


@routes.post("/jobs/{number}/reopen", openapi_extra=answers("answer-job-revision"))
def reopen_job(number: Number, body: Reopened) -> Any:
    """Open a closed job again."""
    from toptank.shop.answers.record_json import revision_json
    from toptank.shop.record import job_verbs

    return revision_json(job_verbs.reopen(number, author=body.by, note=body.why))


@routes.post("/jobs/{number}/revert", openapi_extra=answers("answer-job-revision"))
def revert_job(number: Number, body: Reverted) -> Any:
    """Make an earlier revision the newest again; nothing is lost."""
    from toptank.shop.answers.record_json import revision_json
    from toptank.shop.record import job_verbs

    return revision_json(job_verbs.revert(number, body.revision, author=body.by))
