"""Photos and logs that come in and go out: limited in size and kind, kept under their checksum, never run or shown.

What a file is, its first bytes say, and its ending must fit. It goes out as something to be saved, with a type of its
own kind and a policy that lets nothing in it run.
"""

from __future__ import annotations

import asyncio
import tempfile
from pathlib import Path
from urllib.parse import quote

from fastapi import FastAPI, Request
from nicegui.element import Element
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.formparsers import MultiPartException
from starlette.responses import JSONResponse, Response

from toptank.interfaces.file_kinds import LARGEST, REFUSED_KIND, START, TAKEN, kind_of
from toptank.interfaces.rest.refusals import code_of
from toptank.interfaces.web import changes
from toptank.shop.door import job_verbs, kept_logs
from toptank.units.refusal import Refusal, without_options

ROOM = 64 * 1024
"""For what stands around a file in a request [byte]."""


class _Upload(Element, component="upload.js"):
    pass


def upload(
    number: int,
    *,
    label: str = "Add a photo or a log",
    takes: str = TAKEN,
    onward: str = "",
    log: bool = False,
    camera: bool = False,
) -> None:
    """Put the place for files here.

    Parameters
    ----------
    label : what is asked for
    takes : endings that are offered; what is truly taken, the file itself decides
    onward : address to go on to with one file, its checksum put behind; empty: stay here
    camera : a photo can be taken too, by the camera of the tablet
    log : only a log is of use here; what can be none is refused before it is kept
    """
    element = _Upload()
    address = f"/job/{number}/file{'?as=log' if log else ''}"
    element.props.update(address=address, takes=takes, largest=LARGEST, label=label, onward=onward, camera=camera)


def register(app: FastAPI) -> None:
    """Put the routes on the app."""

    @app.post("/job/{number}/file", include_in_schema=False)
    async def take(number: int, request: Request) -> Response:
        size = request.headers.get("content-length", "")
        if not size.isdigit() or int(size) > LARGEST + ROOM:
            return _refused(413, f"a file must be smaller than {LARGEST // 1024**2} MiB")
        try:
            async with request.form(max_files=1, max_fields=1) as form:
                file = form.get("file")
                if not isinstance(file, UploadFile):
                    return _refused(422, "there was no file in it")
                return await _kept(number, file, log=request.query_params.get("as") == "log")
        except (MultiPartException, HTTPException):
            return _refused(422, "this is no form with one file")

    @app.get("/job/{number}/file/{checksum}", include_in_schema=False)
    def give(number: int, checksum: str) -> Response:
        try:
            found, content = job_verbs.attachment(number, checksum)
        except Refusal as refusal:
            return _refused(404, str(refusal))
        return as_file(content, found.name, "application/octet-stream")


async def _kept(number: int, file: UploadFile, *, log: bool) -> Response:
    name = file.filename or "without a name"
    start = await file.read(START)
    if not start:
        return _refused(422, "the file is empty")
    if kind_of(start, name) is None:
        return _refused(415, REFUSED_KIND)
    await file.seek(0)
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "upload"  # never the name that it came with
        with place.open("wb") as out:
            while piece := await file.read(1024 * 1024):
                out.write(piece)
        try:
            if log:
                kept = await asyncio.to_thread(kept_logs.keep_log, number, place, name)
            else:
                kept = await asyncio.to_thread(job_verbs.attach, number, place, name=name)
        except Refusal as refusal:
            told = without_options(refusal).removeprefix(f"{refusal.field} = {refusal.value}: ")
            return _refused(code_of(refusal), told)  # its value is a place of ours
    changes.noted(number)
    return JSONResponse({"name": kept.name, "checksum": kept.checksum, "size": kept.size})


def as_file(content: bytes, name: str, kind: str, *, shown: bool = False) -> Response:
    """Return bytes as a file; what came from outside is only ever saved, never shown."""
    how = "inline" if shown else "attachment"
    headers = {"content-disposition": f"{how}; filename*=UTF-8''{quote(name)}", "cache-control": "no-store"}
    if not shown:
        headers["content-security-policy"] = "sandbox; default-src 'none'"
    return Response(content, media_type=kind, headers=headers)


def _refused(code: int, why: str) -> Response:
    answer: dict[str, object] = {"refused": why}
    return JSONResponse(answer, code)
