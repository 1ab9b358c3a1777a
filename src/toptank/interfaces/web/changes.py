"""Who looks at which job: a change by anybody, in this process or another, is told to every page that shows the job."""

# The framework's own types are incomplete:
# pyright: reportUnknownMemberType=false

import asyncio
from collections.abc import Awaitable, Callable

from nicegui import background_tasks
from nicegui.client import Client

from toptank.shop.door import job_verbs
from toptank.units.refusal import Refusal

EVERY = 1.0
"""How often the record is asked for changes that another program made [s]."""

Told = Callable[[], Awaitable[None]]

_watchers: dict[int, dict[str, tuple[Client, Told]]] = {}
_newest: dict[int, int] = {}


def follow(number: int, client: Client, told: Told, *, shown: int) -> None:
    """Tell a page of every change of a job since the revision it shows, for as long as the page lives."""
    if _newest.setdefault(number, shown) < shown:
        changed(number, shown)  # the others; this page shows it already
    _watchers.setdefault(number, {})[client.id] = (client, told)
    if _newest[number] > shown:  # somebody saved while the page was built
        background_tasks.create(_told(client, told), name="told of a change")

    def forget(*_: object) -> None:
        _watchers.get(number, {}).pop(client.id, None)
        if not _watchers.get(number):
            _watchers.pop(number, None)
            _newest.pop(number, None)

    client.on_delete(forget)


def changed(number: int, revision: int) -> None:
    """Tell every page that shows the job; called where a page has saved."""
    if _newest.get(number) == revision:
        return
    _newest[number] = revision
    for client, told in list(_watchers.get(number, {}).values()):
        background_tasks.create(_told(client, told), name="told of a change")


def noted(number: int) -> None:
    """Tell every page that shows the job of something beside the document: a note, a file."""
    for client, told in list(_watchers.get(number, {}).values()):
        background_tasks.create(_told(client, told), name="told of a note")


async def _told(client: Client, told: Told) -> None:
    if not client.is_deleted:
        with client:
            await told()


async def watch() -> None:
    """Look for what others saved, until the server stops."""
    while True:
        await asyncio.sleep(EVERY)
        for number in list(_watchers):
            revision = await asyncio.to_thread(_revision, number)
            if revision is None:
                continue
            changed(number, revision)


def _revision(number: int) -> int | None:
    try:
        return job_verbs.newest_revision(number)
    except Refusal:
        return None  # a store that is locked or gone is told where somebody saves
