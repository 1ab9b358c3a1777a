"""Every page with its address. Pages are registered by a call, not by an import."""

from fastapi import FastAPI
from nicegui import ui
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from toptank.interfaces.web.frame import Build, job_page
from toptank.interfaces.web.pages import (
    causes,
    complaint,
    coolant,
    drive,
    fit,
    intake,
    jobs,
    order,
    record,
    remedies,
    route,
    settings,
    sheet,
)

PATIENCE = 60.0
"""A busy machine may take so long for a page [s]; late is better than an error."""

LONGEST, MOST = 2000, 12
"""Signs of what an address may name, such as a plan or the legs of a drive, and number of such."""


def register(app: FastAPI) -> None:
    """Put the pages on the app."""
    builders = {
        "complaint": complaint.build,
        "sheet": sheet.build,
        "causes": causes.build,
        "remedies": remedies.build,
        "fit": fit.build,
        "coolant": coolant.build,
        "order": order.build,
        "drive": drive.build,
        "record": record.build,
    }

    @ui.page("/", response_timeout=PATIENCE)
    async def _jobs(search: str = "", state: str = "") -> None:
        await jobs.page(search, state)

    @ui.page("/new", response_timeout=PATIENCE)
    async def _new() -> None:
        await intake.page()

    @ui.page("/settings", response_timeout=PATIENCE)
    async def _settings() -> None:
        await settings.page()

    @ui.page("/job/{number}")
    async def _first(number: int) -> Response:
        return RedirectResponse(f"/job/{number}/complaint", 303)

    for key, build in builders.items():
        _register(key, build)

    @ui.page("/job/{number}/route", response_timeout=PATIENCE)
    async def _route(number: int, request: Request) -> None:
        await job_page(number, "drive", route.build, _named(request), title="A drive beforehand")


def _register(key: str, build: Build) -> None:
    @ui.page(f"/job/{{number}}/{key}", response_timeout=PATIENCE)
    async def _page(number: int, request: Request) -> None:
        await job_page(number, key, build, _named(request))


def _named(request: Request) -> dict[str, str]:
    """What an address names behind its question mark."""
    return {key: value[:LONGEST] for key, value in list(request.query_params.items())[:MOST]}
