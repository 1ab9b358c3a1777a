"""What a saved change was, in the words of the form: a note of the record names the field as the job file writes it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.catalogue.symptoms.symptom import symptoms
from toptank.knowledge.sheet import duty_fields, sections
from toptank.shop.answers.words.naming import causes_found
from toptank.shop.answers.words.wording import sentence
from toptank.studies.choose.fit.measures import bay_fields, offer_fields
from toptank.units.dialect import spoken

if TYPE_CHECKING:
    from toptank.units.conversion import System

ROWS = {
    "duty": "condition", "worst_day": "condition of the worst day", "reading": "reading of the gauge", "check": "check",
    "changed": "what was tried", "symptom": "what the driver told", "offer": "radiator on offer",
}  # fmt: skip
"""Lists of a job, each by what one of its rows is."""

PLAIN = {
    "job.title": "what it is called", "job.complaint": "complaint", "job.limit": "the customer's limit",
    "units": "units", "name": "its name", "after": "what came before", "gauge": "the gauge", "note": "note",
    "words": "what was seen", "vehicle.like": "typical vehicle", "vehicle.distance": "odometer",
    "confirmed.how": "how it was confirmed", "outcome": "what was seen", "effect": "what it did",
    "part": "what was tried", "history.onset": "how it began", "history.distance": "odometer",
}  # fmt: skip
"""Fields that no declaration names."""


def change_words(note: str, system: System) -> str:
    """Return a note of the record as a person says it; what is no field of ours stays as it was written."""
    path, colon, rest = note.partition(": ")
    if path == "closed":
        return f"{path}: {causes_found(rest.split(', '), system)}"
    if not colon and note.endswith(" taken out"):
        key, _, place = note.removesuffix(" taken out").rpartition(" ")
        return f"{sentence(ROWS[key])} {place}: taken out" if key in ROWS else note
    if not colon or " " in path:
        return note
    if path in ROWS:
        return f"{sentence(ROWS[path])}: {_symptom_words(rest) if path == 'symptom' else rest}"
    named = _named(path)
    return f"{sentence(spoken(named, system))}: {rest}" if named else note


def _symptom_words(rest: str) -> str:
    """What the driver told in words, for "core_old_or_plugged, said"; what is no symptom of ours stays."""
    name, _, how = rest.partition(", ")
    known = symptoms().get(name)
    return rest if known is None else f"{'not so: ' if how == 'denied' else ''}{known.words}"


def field_words(path: str, system: System) -> str:
    """Return a field as a person calls it; the path where none is known."""
    named = ROWS.get(path) or _named(path)
    return spoken(named, system) if named else path


def _named(path: str) -> str:
    """The name of the field of a path such as "core.rows" or "duty.0.speed"; empty where there is none."""
    if path in PLAIN:
        return PLAIN[path]
    first, _, name = path.partition(".")
    place, dot, inside = name.partition(".")
    if first in ROWS and dot and place.isdigit():
        declared = (offer_fields() if first == "offer" else duty_fields()).get(inside)
        what = declared.means if declared is not None else PLAIN.get(inside, inside.replace("_", " "))
        return f"{ROWS[first]} {int(place) + 1}, {what}"
    if first == "write_up":
        return name.replace("_", " ")
    found = bay_fields().get(name) if first == "fit" else sections().get(first, {}).get(name)
    return found.means if found is not None else ""
