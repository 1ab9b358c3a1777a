"""The whole application as one ASGI app: guard, own files, sign-in, pages. REST routes stand on the same app."""

# The framework's own types are incomplete:
# pyright: reportUnknownMemberType=false

import asyncio
import logging
import os
import tempfile
from collections.abc import AsyncGenerator
from contextlib import asynccontextmanager
from pathlib import Path

from fastapi import FastAPI
from fastapi.exceptions import RequestValidationError
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.staticfiles import StaticFiles

from toptank.shop.door import export_verbs, service
from toptank.units.refusal import Refusal

# The framework reads where it may keep things when it is imported; we keep nothing in it.
os.environ.setdefault("NICEGUI_STORAGE_PATH", str(Path(tempfile.gettempdir()) / f"toptank-{os.getpid()}"))

from nicegui import app as pages
from nicegui import binding, ui

from toptank.interfaces.rest import application as rest
from toptank.interfaces.web import changes, own_scripts, papers, upload
from toptank.interfaces.web.access import sign_in
from toptank.interfaces.web.access.guard import Guard
from toptank.interfaces.web.access.passphrase import Door
from toptank.interfaces.web.pages import every_page

HERE = Path(__file__).parent
RECONNECTS = 30.0
"""How long a page that lost its connection finds everything as it was [s]; after that it is built anew."""

WARM_AFTER = 1.5
"""The first page comes before the model [s]."""


BACKUP_EVERY = 3600.0
"""How often a backup is brought up to date where something was written [s]."""


class _OwnFiles(StaticFiles):
    """Only what belongs to the look: styles, scripts, faces."""

    def lookup_path(self, path: str) -> tuple[str, os.stat_result | None]:
        if not path.endswith((".css", ".js", ".woff2")):
            return "", None
        return super().lookup_path(path)


def application(*, door: Door | None = None, warm: bool = True) -> FastAPI:
    """Build the app.

    Parameters
    ----------
    door : asks for a passphrase; None where only this machine can reach the server
    warm : compile the model in the background
    """

    @asynccontextmanager
    async def lifespan(_: FastAPI) -> AsyncGenerator[None]:
        tasks = [asyncio.create_task(changes.watch()), asyncio.create_task(_keep_backups())]
        if warm:
            tasks.append(asyncio.create_task(_warm()))
        yield
        for task in tasks:
            task.cancel()

    own_scripts.mark()
    binding.MAX_PROPAGATION_TIME = 1.0  # nothing is bound here: on a busy machine it would warn of its own waiting
    app = FastAPI(lifespan=lifespan, docs_url=None, redoc_url=None, openapi_url=None)
    app.add_middleware(Guard, door=door)
    app.add_middleware(GZipMiddleware, minimum_size=1000)
    app.mount("/look", _OwnFiles(directory=HERE))
    sign_in.register(app, door)
    upload.register(app)
    papers.register(app)
    rest.register(app)
    every_page.register(app)
    for one in (app, pages):
        one.add_exception_handler(404, _nowhere)
        one.add_exception_handler(RequestValidationError, _nowhere)
    ui.run_with(
        app,
        title="toptank",
        favicon=HERE / "favicon.svg",
        tailwind=False,
        gzip_middleware_factory=None,
        show_welcome_message=False,
        reconnect_timeout=RECONNECTS,
    )
    return app


async def _nowhere(request: Request, _: Exception) -> Response:
    """The framework's own page for an address that leads nowhere has its look, not ours."""
    if "text/html" not in request.headers.get("accept", ""):
        return PlainTextResponse("Nothing has this address; a job is named by its number.", 404)
    return sign_in.nowhere()


async def _keep_backups() -> None:
    """Once an hour, where something was written: a disk that fails at noon takes no more than an hour with it."""
    while True:
        await asyncio.sleep(BACKUP_EVERY)
        try:
            await asyncio.to_thread(export_verbs.back_up_by_itself)
        except Refusal as refusal:
            logging.getLogger("uvicorn.error").warning("no backup was made: %s", refusal)


async def _warm() -> None:
    await asyncio.sleep(WARM_AFTER)
    await asyncio.to_thread(_settle_the_example)


def _settle_the_example() -> None:
    """One forecast of the example: its kernel is the one that every page uses."""
    service.forecast(service.demo_job(), draws=256)
