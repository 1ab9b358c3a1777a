"""Photos and logs that come in and go out: limited in size and kind, kept under their checksum, never run or shown.

What a file is, its first bytes say, and its ending must fit. It goes out as something to be saved, with a type of its
own kind and a policy that lets nothing in it run.
"""

from __future__ import annotations

import asyncio
import re
import tempfile
from pathlib import Path
from typing import Any
from urllib.parse import quote

from fastapi import FastAPI, Request
from nicegui.element import Element
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.formparsers import MultiPartException
from starlette.responses import JSONResponse, Response

from toptank.faces.api.refused import code_of
from toptank.faces.web import changes
from toptank.units.refusal import Refusal

LARGEST = 32 * 1024 * 1024
"""Largest file that is taken [byte]."""

START = 16 * 1024
"""So much of a file tells what it is [byte]."""

ROOM = 64 * 1024
"""For what stands around a file in a request [byte]."""

_STARTS = (
    (b"\xff\xd8\xff", "image/jpeg"),
    (b"\x89PNG\r\n\x1a\n", "image/png"),
    (b"RIFF", "image/webp"),
    (b"%PDF-", "application/pdf"),
)
_ENDINGS = {
    "image/jpeg": (".jpg", ".jpeg"),
    "image/png": (".png",),
    "image/webp": (".webp",),
    "image/heic": (".heic", ".heif"),
    "application/pdf": (".pdf",),
    "text/plain": (".csv", ".txt", ".log", ".gpx", ".nmea", ".toml"),
}
"""The ending must fit what the file is: whoever opens it later opens it by its ending."""

TAKEN = ",".join(ending for endings in _ENDINGS.values() for ending in endings)
_BEFORE_A_ROOT = re.compile(rb"\s*(?:<!--.*?-->|<\?.*?\?>|<!doctype[^>]*>)", re.DOTALL | re.IGNORECASE)
_GPX = re.compile(rb"<(?:\w+:)?gpx[\s>/]")


class _Upload(Element, component="upload.js"):
    pass


def upload(number: int) -> None:
    """Put the place for files here."""
    element = _Upload()
    element.props.update(address=f"/job/{number}/file", takes=TAKEN, largest=LARGEST)


def kind_of(start: bytes, name: str) -> str | None:
    """Return the type of a file by its first bytes, or None for a kind that is not taken or another than its ending."""
    kind = _kind_by_start(start)
    ending = Path(name).suffix.lower()
    if ending not in _ENDINGS[kind] or (kind == "text/plain" and not _plain(start, gpx=ending == ".gpx")):
        return None
    return kind


def _kind_by_start(start: bytes) -> str:
    for sign, kind in _STARTS:
        if start.startswith(sign) and (kind != "image/webp" or start[8:12] == b"WEBP"):
            return kind
    if start[4:8] == b"ftyp" and start[8:12] in (b"heic", b"heix", b"mif1", b"msf1"):
        return "image/heic"
    return "text/plain"


def _plain(start: bytes, *, gpx: bool) -> bool:
    """Whether a text is no page and no picture, whatever comments stand before it; a route is GPX from its root on."""
    if b"\0" in start:
        return False
    rest = start.removeprefix(b"\xef\xbb\xbf")
    while found := _BEFORE_A_ROOT.match(rest):
        rest = rest[found.end() :]
    rest = rest.lstrip()
    return _GPX.match(rest) is not None if gpx else not rest.startswith(b"<")


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
                return await _kept(number, file)
        except (MultiPartException, HTTPException):
            return _refused(422, "this is no form with one file")

    @app.get("/job/{number}/file/{checksum}", include_in_schema=False)
    def give(number: int, checksum: str) -> Response:
        from toptank.jobs import job_verbs

        try:
            found, content = job_verbs.attachment(number, checksum)
        except Refusal as refusal:
            return _refused(404, str(refusal))
        return as_file(content, found.name, "application/octet-stream")


async def _kept(number: int, file: UploadFile) -> Response:
    from toptank.jobs import job_verbs

    name = file.filename or "without a name"
    start = await file.read(START)
    if not start:
        return _refused(422, "the file is empty")
    if kind_of(start, name) is None:
        taken = "photos (JPEG, PNG, WebP, HEIC), PDF and logs (CSV, TXT, LOG, GPX, NMEA, TOML) are taken"
        return _refused(415, f"{taken}, with the ending of what they are, no others")
    await file.seek(0)
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "upload"  # never the name that it came with
        with place.open("wb") as out:
            while piece := await file.read(1024 * 1024):
                out.write(piece)
        try:
            kept = await asyncio.to_thread(job_verbs.attach, number, place, name=name)
        except Refusal as refusal:
            return _refused(code_of(refusal), f"{refusal.limit}; {refusal.fix}")  # its value is a place of ours
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
    answer: dict[str, Any] = {"refused": why}
    return JSONResponse(answer, code)
