"""The verbs of ticking off the steps of an order on a screen: each tick is a note beside the job."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.record import job_verbs
from toptank.shop.record.store.kinds import About
from toptank.shop.record.store.words import LONGEST_NOTE

if TYPE_CHECKING:
    from toptank.shop.record.store.record import JobRecord, Note


def tick(number: int, words: str, on: bool, *, author: str = "") -> Note:
    """Note that a step is done, or not after all."""
    text = f"{'done' if on else 'not done after all'}: {words}"[:LONGEST_NOTE]
    return job_verbs.add_note(number, text, author=author, about=About("step_done" if on else "step_open", words))


def untick_all(number: int, *, author: str = "") -> Note:
    """Note that the steps begin anew."""
    return job_verbs.add_note(number, "steps: all unticked", author=author, about=About("steps_open"))


def ticked(record: JobRecord) -> frozenset[str]:
    """Return the steps that are done."""
    done: set[str] = set()
    for note in record.notes:
        if note.kind == "steps_open":
            done.clear()
        elif note.kind == "step_done":
            done.add(note.subject)
        elif note.kind == "step_open":
            done.discard(note.subject)
    return frozenset(done)


def is_tick(note: Note) -> bool:
    """Whether a note only tells that a step was ticked."""
    return note.kind in ("step_done", "step_open", "steps_open")
