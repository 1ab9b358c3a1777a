"""The verbs of changing a job bit by bit: one field, one row, the units; and of taking the last change back.

Each reads the newest revision, changes what it is asked to, and saves the next one; comments stay. Two people who
change different fields do not disturb each other; who changes the same one is told what the other wrote.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from toptank.jobs import edit_document as edited
from toptank.jobs import job_verbs
from toptank.jobs.form import typed_text
from toptank.jobs.store import document
from toptank.jobs.store import jobs_and_revisions as kept
from toptank.jobs.store.opening import opened
from toptank.jobs.store.record import Revision
from toptank.jobs.toml_file import shortened
from toptank.units.conversion import System
from toptank.units.refusal import Refusal

LONGEST = 4000
"""Longest text of a field [sign]."""

_UNDONE = re.compile(r"undone: back to revision (\d+)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """Somebody else changed the field since `base` was read: what stands there now."""

    theirs: str


def set_field(
    number: int, path: str, text: str, *, base: str | None = None, how: str | None = None, author: str = ""
) -> Revision | Clash:
    """Write one field as it was typed; an empty text takes it out, so that the typical value stands in.

    Parameters
    ----------
    path : e.g. "core.rows", "job.complaint", "duty.0.speed", "reading.1.gauge"
    base : what stood there when the person began; None writes over whatever stands there
    how : measured, plate or assumed; None leaves it as it is, measured for a new one

    Raises
    ------
    Refusal : if the text cannot be used; nothing is changed then
    """
    if len(text) > LONGEST:
        limit = f"is longer than {LONGEST:,} signs"
        raise Refusal(field=path, value=shortened(text), limit=limit, fix="put the rest into a note")
    text = text.strip()
    clash: list[Clash] = []

    def write(newest: Revision) -> str:
        stands, stands_how = typed_text(edited.value_at(document.parsed(newest.text), path))
        if base is not None and stands not in (base.strip(), text):
            clash.append(Clash(theirs=stands))
            return newest.text
        if stands == text and how in (None, stands_how):
            return newest.text
        return edited.with_value(newest.text, path, text, how if how is not None else stands_how)

    saved = _changed(number, write, author=author, note=f"{path}: {shortened(text, 40) or 'taken out'}")
    return clash[0] if clash else saved


def add_row(number: int, key: str, values: Mapping[str, str], *, author: str = "") -> Revision:
    """Add a table to a list: a duty, a reading, a check with its outcome, a change, an offer."""
    values = {name: text.strip() for name, text in values.items() if text.strip()}
    told = shortened(", ".join(values.values()), 60)
    return _changed(number, lambda one: edited.with_row(one.text, key, values), author=author, note=f"{key}: {told}")


def remove_row(number: int, key: str, place: int, *, author: str = "") -> Revision:
    """Take a table out of a list; with a duty go the readings that were taken at it."""
    return _changed(
        number, lambda one: edited.without_row(one.text, key, place), author=author, note=f"{key} taken out"
    )


def set_list(number: int, path: str, words: list[str], *, author: str = "") -> Revision:
    """Write a list of words, such as the parts that are suspected; an empty one is taken out."""
    note = f"{path}: {shortened(', '.join(words), 60) or 'taken out'}"
    return _changed(number, lambda one: edited.with_list(one.text, path, words), author=author, note=note)


def set_units(number: int, system: System, *, author: str = "") -> Revision:
    """Show the job in other units; bare numbers get the unit that they were typed in first."""
    return _changed(number, lambda one: edited.with_units(one.text, system), author=author, note=f"units: {system}")


def set_worst_day(number: int, rows: list[dict[str, str]], *, author: str = "") -> Revision:
    """Write the customer's worst day; without rows the one that is offered stands in."""
    return _changed(number, lambda one: edited.with_rows(one.text, "worst_day", rows), author=author, note="worst day")


def undo(number: int, *, author: str = "") -> Revision:
    """Take the last change back; again takes back the one before. Nothing is lost: every revision stays.

    Raises
    ------
    Refusal : if there is nothing to take back
    """
    newest = job_verbs.record(number).shown
    undone = _UNDONE.fullmatch(newest.note)
    target = (int(undone[1]) if undone else newest.number) - 1
    if target < 1:
        fix = "the record lists every revision"
        raise Refusal(field="undo", value=str(newest.number), limit="there is nothing left to take back", fix=fix)
    text = job_verbs.record(number, revision=target).shown.text
    return _changed(number, lambda _: text, author=author, note=f"undone: back to revision {target}")


def _changed(number: int, write: Callable[[Revision], str], *, author: str, note: str) -> Revision:
    """Save what `write` makes of the newest revision; where another save came between, make it anew."""
    with opened() as store:
        for left in reversed(range(_TRIES)):
            newest = kept.revision(store, number)
            text = write(newest)
            if text == newest.text:
                break
            try:
                at = job_verbs.now()
                return kept.save(store, number, text, based_on=newest.number, author=author, note=note, at=at)
            except Refusal as refusal:
                if refusal.field != "based-on" or not left:
                    raise
        return kept.revision(store, number)


_TRIES = 5
"""Saves of others that may come between reading and saving before it is told."""
