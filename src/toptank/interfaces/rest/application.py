"""REST under /api/v1: the same verbs as the command line and the pages, for a logger or another program."""

import re
from functools import cache

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi
from starlette.responses import HTMLResponse, JSONResponse, Response
from starlette.routing import Mount

from toptank.interfaces.rest import answer_routes, bench_routes, drive_routes, job_routes, refusals
from toptank.interfaces.rest.documentation import page
from toptank.interfaces.rest.refusals import JsonObject

PLACE = "/api/v1"
OPENED, SENT = "/jobs", "/jobs/{number}/attachments"
"""What is posted to these gets a number or a checksum, by which other addresses are reached."""

TOLD = """The verbs of toptank for another program. Figures are written as people write them, with their unit
("98 F", "15 psi", "5 %"); in answers every key carries its unit. What cannot be used is refused with field, value,
limit and fix. Everything stays on this machine; a server that others can reach asks for its passphrase as
`Authorization: Bearer ...`. Backups are left to the command line, `toptank job backup`: whoever may ask here need not
be one who may carry all jobs away."""

_OTHERWISE = {
    "404": "a job or a revision that is not there",
    "409": "somebody else saved meanwhile; nothing was lost or overwritten",
    "413": "the body is too large",
    "415": "a kind of file that is not taken",
    "422": "something in it cannot be used",
    "503": "the record of jobs cannot be read or written just now, or too much is asked at once",
}


def api() -> FastAPI:
    """Build the interface as an app of its own, to be mounted at `PLACE`."""
    app = FastAPI(docs_url=None, redoc_url=None, openapi_url=None, title="toptank", version="1")
    for part in (job_routes, answer_routes, drive_routes, bench_routes):
        app.include_router(part.routes)
    refusals.register(app)

    @cache
    def document() -> JsonObject:
        return _document(app)

    @app.get("/openapi.json", include_in_schema=False)
    def _openapi() -> Response:
        return JSONResponse(document())

    @app.get("/docs", include_in_schema=False)
    def _docs() -> Response:
        return HTMLResponse(page(document()))

    vars(app)["openapi"] = document  # whoever asks the app itself gets the same document
    return app


def register(app: FastAPI) -> None:
    """Put the interface on the server."""
    place = Mount(PLACE, app=api())
    place.path_regex = re.compile(place.path_regex.pattern, re.DOTALL)  # an address may hold the end of a line
    app.router.routes.append(place)


def _document(app: FastAPI) -> JsonObject:
    """The OpenAPI document; files and refusals are told in our own way."""
    found = get_openapi(
        title="toptank", version="1", summary="Jobs, forecasts, causes, remedies, papers", description=TOLD,
        routes=app.routes, servers=[{"url": PLACE}],
    )  # fmt: skip
    schemas = found["components"]["schemas"]
    schemas.pop("HTTPValidationError", None)
    schemas.pop("ValidationError", None)
    schemas["refusal"] = refusals.REFUSED
    for path, verbs in found["paths"].items():
        for verb, operation in verbs.items():
            code, done = next(iter(operation["responses"].items()))
            file = operation.pop("x-file", None)
            content = done["content"] if file is None else {file: {"schema": {"type": "string"}}}
            operation["responses"] = {
                code: {"description": "done", "content": content},
                **{other: _otherwise(other) for other in _told_of(path, verb)},
            }
    _linked(found)
    return found


def _linked(document: JsonObject) -> None:
    """Say where one goes on from a job that was opened or a file that was sent: OpenAPI's links."""
    number, checksum = "$response.body#/number", "$response.body#/checksum"
    for path, verbs in document["paths"].items():
        for operation in verbs.values():
            named: JsonObject = {"parameters": {"number": number}, "operationId": operation["operationId"]}
            if path.endswith("/{checksum}"):
                named["parameters"] = {"number": "$request.path.number", "checksum": checksum}
                _answer_of(document, SENT).setdefault("links", {})[operation["operationId"]] = named
            elif "{number}" in path:
                _answer_of(document, OPENED).setdefault("links", {})[operation["operationId"]] = named


def _answer_of(document: JsonObject, path: str) -> JsonObject:
    return next(iter(document["paths"][path]["post"]["responses"].values()))


def _told_of(path: str, verb: str) -> list[str]:
    """Codes that an address may answer beside its own."""
    told = ["422"]
    told += ["404"] if "{number}" in path else []
    told += ["409"] if verb == "put" else []
    told += ["415"] if verb == "post" and path.endswith(refusals.FILES) else []
    told += ["413"] if verb in ("put", "post") else []
    told += ["503"] if "/jobs" in path else []
    return sorted(told)


def _otherwise(code: str) -> JsonObject:
    schema = {"$ref": "#/components/schemas/refusal"}
    return {"description": _OTHERWISE[code], "content": {"application/json": {"schema": schema}}}
