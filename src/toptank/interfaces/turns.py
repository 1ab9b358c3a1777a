"""Turns: long work is done a few pieces at a time; who waits is served in turn, one piece of each asker after another.

Pages and REST share the two lanes, so that no way in can starve another, and nobody is kept waiting by a neighbour who
asked for ten answers at once.
"""

from __future__ import annotations

import threading
from collections import deque
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from functools import partial
from typing import TypeVar

from toptank.units.refusal import Refusal

T = TypeVar("T")

PATIENCE = 90.0
"""How long an answer by REST waits for its turn before it is told to come back [s]."""

MOST_WAITING = 40
"""Pieces of one asker that may wait: a page asks for two or three, a program that sends more is told to wait."""

ASKER = "toptank.asker"
"""Where the guard before every request writes who asks: a browser that has signed in, else an address."""


class Busy(Refusal):
    """Too many long answers are being worked out already."""


class Turns:
    """A lane: so many pieces of work at once, in threads (never a fork: the model would hang)."""

    def __init__(self, at_once: int, name: str) -> None:
        """Open the lane."""
        self._pool = ThreadPoolExecutor(max_workers=at_once, thread_name_prefix=name)
        self._waiting: dict[str, deque[Callable[[], None]]] = {}
        """What waits, by asker; who was served last stands last."""
        self._one_at_a_time = threading.Lock()

    def submit(self, asker: str, ask: Callable[[], T]) -> Future[T]:
        """Take a place in the lane; a future that is cancelled before its turn is passed over.

        Raises
        ------
        Busy : if this asker has too many places already
        """
        future: Future[T] = Future()
        with self._one_at_a_time:
            places = self._waiting.setdefault(asker, deque())
            if len(places) >= MOST_WAITING:
                limit = f"are waiting for one asker already, {MOST_WAITING} of them"
                raise Busy(field="long answers", value="this one", limit=limit, fix="ask again in a minute")
            places.append(partial(_settle, future, ask))
        self._pool.submit(self._next)
        return future

    def answer(self, asker: str, ask: Callable[[], T]) -> T:
        """Wait for a turn and return the answer.

        Raises
        ------
        Busy : if no turn comes in time
        """
        begun = threading.Event()

        def run() -> T:
            begun.set()
            return ask()

        future = self.submit(asker, run)
        if not begun.wait(PATIENCE) and future.cancel():
            limit = "are being worked out already as many as this machine can"
            raise Busy(field="long answers", value="this one", limit=limit, fix="ask again in a minute")
        return future.result()

    def _next(self) -> None:
        """Do the first piece of the asker who was served longest ago."""
        with self._one_at_a_time:
            asker = next(iter(self._waiting))
            places = self._waiting.pop(asker)
            settle = places.popleft()
            if places:
                self._waiting[asker] = places
        settle()


def _settle(future: Future[T], ask: Callable[[], T]) -> None:
    if not future.set_running_or_notify_cancel():
        return
    try:
        answer = ask()
    except BaseException as error:  # noqa: BLE001 -- whoever waits for it raises it
        future.set_exception(error)
    else:
        future.set_result(answer)


LONG = Turns(2, "answers")
"""Diagnoses, choices, roads, papers: tens of seconds. Two at a time; more would only make each other slow."""

BRIEF = Turns(2, "moments")
"""What takes a moment (what if, the loop, fit, a cap, a log's head) does not wait behind what takes long."""
