"""Every page with its address. Pages are registered by a call, not by an import."""

from typing import Any

from fastapi import FastAPI
from nicegui import ui

from toptank.faces.web.frame import job_page
from toptank.faces.web.pages import complaint, jobs


def register(app: FastAPI) -> None:
    """Put the pages on the app."""
    builders = {
        "complaint": complaint.build,
    }

    @ui.page("/")
    async def _jobs(search: str = "", state: str = "") -> None:
        await jobs.page(search, state)

    @ui.page("/job/{number}")
    async def _first(number: int) -> None:
        ui.navigate.to(f"/job/{number}/complaint")

    for key, build in builders.items():
        _register(key, build)


def _register(key: str, build: Any) -> None:
    @ui.page(f"/job/{{number}}/{key}")
    async def _page(number: int) -> None:
        await job_page(number, key, build)
