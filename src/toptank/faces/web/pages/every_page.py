"""Every page with its address. Pages are registered by a call, not by an import."""

from typing import Any

from fastapi import FastAPI
from nicegui import ui
from starlette.responses import RedirectResponse, Response

from toptank.faces.web.frame import job_page
from toptank.faces.web.pages import causes, complaint, coolant, drive, fit, jobs, order, record, remedies, sheet

PATIENCE = 60.0
"""A busy machine may take so long for a page [s]; late is better than an error."""

LONGEST = 300
"""Signs of what an address may name, such as a plan."""


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

    @ui.page("/job/{number}")
    async def _first(number: int) -> Response:
        return RedirectResponse(f"/job/{number}/complaint", 303)

    for key, build in builders.items():
        _register(key, build)


def _register(key: str, build: Any) -> None:
    @ui.page(f"/job/{{number}}/{key}", response_timeout=PATIENCE)
    async def _page(number: int, of: str = "") -> None:
        await job_page(number, key, build, asked=of[:LONGEST])
