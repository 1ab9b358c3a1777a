"""Work that takes more than a moment: what is done is said, how far it is, and it can be stopped."""

# The framework's own types are incomplete:
# pyright: reportUnknownMemberType=false

from __future__ import annotations

import asyncio
import threading
import time
from collections.abc import Callable
from typing import TypeVar

from nicegui import Client, background_tasks, ui

from toptank.interfaces.turns import ASKER, BRIEF, LONG, Busy, Turns
from toptank.interfaces.web.elements.tags import Tag, press, tag
from toptank.units.cancellation import CancelCheck, Cancelled
from toptank.units.refusal import Refusal, without_options

T = TypeVar("T")


class Stop:
    """Pressed by a person, heard by the work between its steps."""

    def __init__(self) -> None:
        """Let the work go on."""
        self.again()

    def press(self) -> None:
        """Let the work end at its next step."""
        self._pressed.set()

    def again(self) -> None:
        """Let what is begun from now on go on; what was stopped still ends, at whatever step it is."""
        self._pressed = threading.Event()

    @property
    def go_on(self) -> CancelCheck:
        """What work that begins now calls between its steps."""
        pressed = self._pressed

        def ask() -> None:
            if pressed.is_set():
                raise Cancelled

        return ask


TICK = 0.5
"""How often the bar moves [s]."""

SOON = 0.25
"""Work that is over sooner shows no bar [s]."""


def work(
    place: Tag,
    what: str,
    usual: float,
    ask: Callable[[], T],
    show: Callable[[T], object],
    *,
    ready: T | None = None,
    stop: Stop | None = None,
    brief: bool = False,
    room: str = "page",
    beside: Tag | None = None,
) -> None:
    """Work an answer out in the background and show it in a place.

    Parameters
    ----------
    place : is emptied, and filled by `show`
    what : what is done, as a sentence
    usual : how long that usually takes [s]
    ask : gives the answer, in a thread
    show : shows it, in the place
    ready : the answer, where it is at hand already
    stop : hands `stop.go_on` to the work, so that it ends soon after it was stopped; else only the waiting ends
    brief : takes a moment, and goes beside the long answers
    room : what is kept free for the answer, so that nothing below jumps when it comes: a "page", or "lines"
    beside : another place that `show` fills; while it is empty room for a few lines is kept there
    """
    place.classes(remove=f"awaits {room}")
    if ready is not None:
        with place:
            show(ready)
        return
    client = ui.context.client
    place.classes(f"awaits {room}")
    if beside is not None and not beside.slots["default"].children:
        beside.classes("awaits few")
    if stop is not None:
        stop.again()

    async def run() -> None:
        future = _begun(BRIEF if brief else LONG, client, ask)
        stopped = asyncio.Event()
        await asyncio.wait([future], timeout=SOON)
        if not future.done():
            ours = await _watch(place, what, usual, future, stopped)
            if stopped.is_set() and stop is not None:
                stop.press()
            if not ours:
                return
        if place.is_deleted or client.is_deleted:
            return
        with client:
            if beside is not None and not beside.is_deleted:
                beside.classes(remove="awaits few")
            place.clear()
            with place:
                if stopped.is_set():
                    _stopped(
                        what,
                        lambda: work(place, what, usual, ask, show, stop=stop, brief=brief, room=room, beside=beside),
                    )
                else:
                    _show(future, show)
            place.classes(remove=f"awaits {room}")

    background_tasks.create(run(), name=what)


async def moment(client: Client, ask: Callable[[], T]) -> T:
    """Return an answer that takes a moment, in turn."""
    return await _begun(BRIEF, client, ask)


def _begun(lane: Turns, client: Client, ask: Callable[[], T]) -> asyncio.Future[T]:
    try:
        return asyncio.wrap_future(lane.submit(str(client.request.scope.get(ASKER, "")), ask))
    except Busy as busy:
        refused: asyncio.Future[T] = asyncio.get_running_loop().create_future()
        refused.set_exception(busy)
        return refused


def _show(future: asyncio.Future[T], show: Callable[[T], object]) -> None:
    try:
        answer = future.result()
    except Refusal as refusal:
        with tag("div", classes="note bad", role="alert"):
            tag("p", without_options(refusal))
        return
    show(answer)


async def _watch(place: Tag, what: str, usual: float, future: asyncio.Future[T], stopped: asyncio.Event) -> bool:
    """Show how far it is; return whether the place is still this work's: another may have taken it meanwhile."""
    started = time.monotonic()
    if place.is_deleted:
        return False
    with place.client:
        place.clear()
        with place, tag("div", classes="at-work", role="status"):
            tag("b", what)
            bar = tag("progress", max=100, value=0, aria_label=what)
            told = tag("span", f"usually {usual:.0f} s", "small quiet")
            with tag("div", classes="line-up"):
                press("Stop", stopped.set, "plain")
    stop = asyncio.ensure_future(stopped.wait())
    while True:
        await asyncio.wait([future, stop], timeout=TICK, return_when=asyncio.FIRST_COMPLETED)
        if future.done() or stopped.is_set() or bar.is_deleted:
            break
        gone = time.monotonic() - started
        share = gone / (gone + 0.4 * usual) if gone > 0.7 * usual else 0.9 * gone / usual
        bar.put("value", round(100 * min(share, 0.97)))
        bar.update()
        told.set_text(f"{gone:.0f} s of usually {usual:.0f} s" if gone <= usual else f"{gone:.0f} s, longer than usual")
    stop.cancel()
    if not future.done():
        future.cancel()  # what waits is dropped; what runs ends at its next step, if it was asked to
    return not bar.is_deleted


def _stopped(what: str, go_on: Callable[[], None]) -> None:
    with tag("div", classes="note"):
        tag("p", f"Stopped: {what[:1].lower()}{what[1:]}.")
        press("Go on after all", go_on)
