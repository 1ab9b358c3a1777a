"""Work that may be stopped: between its steps it asks whether anybody still waits for it."""

from collections.abc import Callable

CancelCheck = Callable[[], None]
"""Called between the steps of long work; raises `Cancelled` where nobody waits any more."""


class Cancelled(Exception):
    """Nobody waits for the answer any more; the work was left undone and nothing was kept."""


def never_cancelled() -> None:
    """Go on: nobody can stop this work."""
