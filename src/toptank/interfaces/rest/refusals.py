"""How REST says no: the field, its value, the limit and the fix, as everywhere else."""

from collections.abc import Mapping
from typing import Any, TypeAlias

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.responses import JSONResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from toptank.interfaces.file_kinds import LARGEST as LARGEST_FILE
from toptank.interfaces.turns import Busy
from toptank.shop.door import StoreTrouble
from toptank.units.refusal import Refusal

JsonObject: TypeAlias = dict[str, Any]
"""A document of JSON, as OpenAPI has them: anything may stand in it."""

LARGEST = 4 * 1024**2
"""Largest body that is read [byte]: a job file with many notes is far smaller."""

FILES = "/attachments"
"""Where addresses end that take a file as their body; those may be as large as a file of the app."""

REFUSED: JsonObject = {
    "type": "object",
    "properties": {
        "field": {"type": "string", "description": "which one"},
        "value": {"type": "string", "description": "as it was sent, shortened"},
        "limit": {"type": "string", "description": "the rule that it breaks"},
        "fix": {"type": "string", "description": "what to do about it"},
        "says": {"type": "string", "description": "all of it in one sentence"},
    },
    "required": ["field", "value", "limit", "fix", "says"],
    "additionalProperties": False,
}
SHORT = 120
AS_JSON = "send a JSON object, with Content-Type: application/json"


class WrongKind(Refusal):
    """A file is of a kind that is not taken."""


def register(app: FastAPI) -> None:
    """Let every refusal be told the same way."""

    @app.exception_handler(Refusal)
    def _refusal(_: Request, refusal: Refusal) -> Response:
        return told(refusal, code_of(refusal))

    @app.exception_handler(RequestValidationError)
    def _invalid(_: Request, error: RequestValidationError) -> Response:
        return told(_first_of(error), 422)

    @app.exception_handler(HTTPException)
    def _no_route(request: Request, error: HTTPException) -> Response:
        if error.status_code == 400:  # the framework cannot make text of the body
            return told(Refusal(field="body", value="(as sent)", limit="is no text in UTF-8", fix=AS_JSON), 422)
        limit = {404: "is no address of this interface", 405: "does not take this method"}.get(
            error.status_code, str(error.detail)
        )
        path = printable(request.url.path)
        refusal = Refusal(field="address", value=path, limit=limit, fix="GET /api/v1/docs lists them")
        return told(refusal, error.status_code, error.headers)

    app.add_middleware(NotTooLarge)


def told(refusal: Refusal, code: int, headers: Mapping[str, str] | None = None) -> Response:
    """Return a refusal as an answer."""
    parts = {key: printable(getattr(refusal, key)) for key in ("field", "value", "limit", "fix")}
    return JSONResponse({**parts, "says": printable(str(refusal))}, code, headers=headers)


def code_of(refusal: Refusal) -> int:
    """Return the code of a refusal.

    404: a job, a revision or a file is not there; 409: a clash; 415: a kind of file that is not taken; 503: a store in
    the way, or a rush; 422: anything else.
    """
    if isinstance(refusal, StoreTrouble | Busy):
        return 503
    if isinstance(refusal, WrongKind):
        return 415
    if refusal.field == "checksum":
        return 404
    if refusal.field in ("job", "revision") and refusal.limit.startswith("is not there"):
        return 404
    if refusal.field == "based-on" and refusal.limit.startswith("somebody has saved"):
        return 409
    return 422


def _first_of(error: RequestValidationError) -> Refusal:
    first = error.errors()[0]
    if first["type"] == "json_invalid":
        limit = f"is no JSON: {first['ctx']['error']}, at sign {first['loc'][-1]}"
        return Refusal(field="body", value=_start_of(error.body), limit=printable(limit), fix=AS_JSON)
    if isinstance(first.get("input"), bytes):
        return Refusal(field="body", value=_start_of(first["input"]), limit="was not sent as JSON", fix=AS_JSON)
    place = [str(one) for one in first["loc"] if one not in ("body", "query", "path")]
    missing = first["type"] == "missing"
    value = "(missing)" if missing else repr(first.get("input"))
    message = first["msg"][:1].lower() + first["msg"][1:]
    return Refusal(
        field=printable(".".join(place) or "body"),
        value=printable(value[:SHORT]),
        limit="is needed" if missing else f"cannot be used: {printable(message)}",
        fix="GET /api/v1/docs tells what it takes",
    )


def _start_of(body: object) -> str:
    """The begin of a body as text."""
    text = body.decode("utf-8", errors="replace") if isinstance(body, bytes) else str(body)
    return printable(text[:SHORT]) or "(empty)"


def printable(text: str) -> str:
    """A text that every screen and every reader of JSON can take."""
    return "".join(sign if sign.isprintable() else "?" for sign in text.replace("\n", " "))


class NotTooLarge:
    """ASGI middleware: a body beyond the limit is not read to its end."""

    def __init__(self, app: ASGIApp) -> None:
        """Stand before `app`."""
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through whose body stays within the limit; answer the others."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        most = LARGEST_FILE if scope["path"].endswith(FILES) else LARGEST
        read, body = 0, list[Message]()
        while True:
            message = await receive()
            body.append(message)
            read += len(message.get("body", b""))
            if read > most:
                limit = f"is larger than {most // 1024**2} MiB"
                fix = "send a smaller file" if most == LARGEST_FILE else "send large files to an address of attachments"
                refusal = Refusal(field="body", value="(as sent)", limit=limit, fix=fix)
                await told(refusal, 413)(scope, receive, send)
                return
            if message["type"] != "http.request" or not message.get("more_body"):
                break

        async def again() -> Message:
            return body.pop(0) if body else await receive()

        await self.app(scope, again, send)
