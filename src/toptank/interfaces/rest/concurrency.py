"""Turns: long answers are worked out a few at a time, whoever asks for them by an address."""

import threading
from collections.abc import Generator
from contextlib import contextmanager

from toptank.interfaces.rest.refusals import Busy

AT_ONCE = threading.BoundedSemaphore(2)
"""Long answers are worked out two at a time: more would only make each other slow."""

PATIENCE = 90.0
"""How long a long answer waits for its turn before it is told to come back [s]."""


@contextmanager
def in_turn() -> Generator[None]:
    """Wait for a turn, and hand it on.

    Raises
    ------
    Busy : if none comes in time
    """
    if not AT_ONCE.acquire(timeout=PATIENCE):
        limit = "are being worked out already as many as this machine can"
        raise Busy(field="long answers", value="this one", limit=limit, fix="ask again in a minute")
    try:
        yield
    finally:
        AT_ONCE.release()
