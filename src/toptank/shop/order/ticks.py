"""The verbs of ticking off the steps of an order on a screen: each tick is a note beside the job."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.record import job_verbs
from toptank.shop.record.store.words import LONGEST_NOTE

if TYPE_CHECKING:
    from toptank.shop.record.store.record import JobRecord, Note

DONE, NOT_DONE, ALL = "done: ", "not done after all: ", "steps: all unticked"
"""How such a note begins; anything else is a note of somebody."""


def tick(number: int, words: str, on: bool, *, author: str = "") -> Note:
    """Note that a step is done, or not after all."""
    return job_verbs.add_note(number, ((DONE if on else NOT_DONE) + words)[:LONGEST_NOTE], author=author)


def untick_all(number: int, *, author: str = "") -> Note:
    """Note that the steps begin anew."""
    return job_verbs.add_note(number, ALL, author=author)


def ticked(record: JobRecord) -> frozenset[str]:
    """Return the steps that are done."""
    done: set[str] = set()
    for note in record.notes:
        if note.text == ALL:
            done.clear()
        elif note.text.startswith(DONE):
            done.add(note.text.removeprefix(DONE))
        elif note.text.startswith(NOT_DONE):
            done.discard(note.text.removeprefix(NOT_DONE))
    return frozenset(done)


def is_tick(note: Note) -> bool:
    """Whether a note only tells that a step was ticked."""
    return note.text == ALL or note.text.startswith((DONE, NOT_DONE))
