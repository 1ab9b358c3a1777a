"""Who came with what: the head of a work order, as it is asked at the counter."""

import re
from dataclasses import dataclass, fields
from datetime import date

from toptank.shop.files.toml_file import nothing_left, shortened, take_text
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal

LONGEST = 120
"""Longest entry [sign]: it must stand on one line of the paper."""

PLATE = {"us": "License plate", "uk": "Registration"}
"""What the number on the plate is called."""

WAITING = ("parts", "customer")
"""What a job that is neither in work nor closed waits for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WriteUp:
    """What was asked at the counter, as it was typed; empty where nobody said.

    Parameters
    ----------
    customer, phone : whose vehicle it is
    registration, vin : which vehicle it is
    mechanic : who works on it
    promised : when it is to be handed back
    waiting_for : parts or customer, where work waits for one of them
    """

    customer: str = ""
    phone: str = ""
    registration: str = ""
    vin: str = ""
    mechanic: str = ""
    promised: str = ""
    waiting_for: str = ""


_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")


def promised_day(promised: str) -> date | None:
    """Return the day that a promise names as year, month, day (2026-12-04); None where it names none so."""
    found = _DAY.match(promised.strip())
    try:
        return date.fromisoformat(found[0]) if found else None
    except ValueError:
        return None


KEYS = tuple(one.name for one in fields(WriteUp))


def take_write_up(table: dict[str, object]) -> WriteUp:
    """Take the table [write_up] of a job file.

    Raises
    ------
    Refusal : for the first entry that cannot be used
    """
    said = {key: " ".join(take_text(table, key, within="write_up", otherwise="").split()) for key in KEYS}
    nothing_left(table, "write_up", KEYS)
    for key, text in said.items():
        if len(text) > LONGEST:
            limit = f"is longer than {LONGEST} signs"
            raise Refusal(field=f"write_up.{key}", value=shortened(text), limit=limit, fix="put the rest into a note")
    waiting = said["waiting_for"]
    if waiting and waiting not in WAITING:
        fix = did_you_mean(waiting, WAITING, f"write one of {', '.join(WAITING)}, or nothing")
        raise Refusal(field="write_up.waiting_for", value=shortened(waiting), limit="is not waited for", fix=fix)
    return WriteUp(**said)
