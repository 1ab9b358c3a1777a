"""A job's document changed in one place: the rest stays as it was written, to the last comment."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, cast

import tomlkit
from tomlkit.items import AoT, InlineTable, Table

from toptank.catalogue.checks.check import checks
from toptank.knowledge.sheet import duty_fields, sections
from toptank.shop.files.toml_file import MARK, shortened
from toptank.shop.job.write_up import KEYS as WRITE_UP
from toptank.studies.choose.fit.measures import bay_fields, offer_fields
from toptank.units.conversion import System, system_named
from toptank.units.dimension import CHOICE, DISTANCE, TEMPERATURE, YES_NO, Dimension
from toptank.units.quantity import parse
from toptank.units.refusal import Refusal

MOST_ROWS = 60
"""Rows of one list."""

LISTS = ("duty", "worst_day", "reading", "symptom", "check", "changed", "offer")
_TEXT = frozenset(
    {"name", "after", "note", "parts", "price", "title", "complaint", "how", "hose_route", "outcome", *WRITE_UP}
)
_YES_NO_TEXT = frozenset({"decisive", "vague", "invented"})
_PLAIN_NUMBER = re.compile(r"-?\d+")


def value_at(document: Mapping[str, object], path: str) -> object:
    """Return what stands at a path of a parsed document, or None."""
    here: object = document
    for step in path.split("."):
        if isinstance(here, dict):
            here = cast("Mapping[str, object]", here).get(step)
        elif isinstance(here, list) and step.isdigit() and int(step) < len(cast("list[object]", here)):
            here = cast("list[object]", here)[int(step)]
        else:
            return None
    return here


def with_value(text: str, path: str, typed: str, how: str) -> str:
    """Return the text with one field written as it was typed, or taken out where nothing was.

    A bare number gets the unit that it is taken in, so that it keeps its meaning when the units are changed.
    """
    document = _open(text)
    table, key = _place(document, path, make=bool(typed))
    if table is None:
        return text
    if path.endswith(".name") and path.startswith(("duty.", "worst_day.")):
        _rename_duty(document, path.partition(".")[0], str(table.get("name", "")), typed)
    if not typed:
        table.pop(key, None)
        return _close(document, text)
    value = _written(typed, path, _units(document), table)
    if how in ("plate", "assumed"):
        entry = tomlkit.inline_table()
        entry.append("value", value)
        entry.append("how", how)
        _put(table, key, entry)
    else:
        _put(table, key, value)
    return _close(document, text)


def with_row(text: str, key: str, values: Mapping[str, str]) -> str:
    """Return the text with a table added to one of its lists.

    Raises
    ------
    Refusal : if the list is full
    """
    document = _open(text)
    rows: Any = _rows(document, key)
    if len(rows) >= MOST_ROWS:
        limit, fix = f"a job has at most {MOST_ROWS} of these", "take one out first"
        raise Refusal(field=key, value=str(len(rows)), limit=limit, fix=fix)
    rows.append(_row(key, values, _units(document)))
    return _close(document, text)


def with_rows(text: str, key: str, rows: list[dict[str, str]]) -> str:
    """Return the text with one of its lists written anew."""
    document = _open(text)
    document.pop(key, None)
    if rows:
        written: Any = tomlkit.aot()
        for values in rows:
            written.append(_row(key, values, _units(document)))
        document.append(key, written)
    return _close(document, text)


def without_row(text: str, key: str, place: int) -> str:
    """Return the text without one table of a list; readings go with their duty."""
    document = _open(text)
    rows: Any = _rows(document, key)
    if not 0 <= place < len(rows):
        fix = "look at the page again: somebody has changed the list"
        raise Refusal(field=key, value=str(place + 1), limit="is not there any more", fix=fix)
    name = str(rows[place].get("name", ""))
    del rows[place]
    others: list[Any] = list(rows) if key in ("duty", "worst_day") else []
    for row in others:
        if row.get("after") == name:  # what came before is not known any more
            row.pop("after")
    if key == "duty" and "reading" in document:
        kept = [one for one in _rows(document, "reading") if one.get("duty") != name]
        _replace(document, "reading", kept)
    if not len(rows):
        document.pop(key, None)
    return _close(document, text)


def with_list(text: str, path: str, words: list[str]) -> str:
    """Return the text with a list of words at a path, or without it."""
    document = _open(text)
    table, key = _place(document, path, make=bool(words))
    if table is not None:
        table.pop(key, None)
        if words:
            table.append(key, words)
    return _close(document, text)


def with_units(text: str, system: System) -> str:
    """Return the text with other units for bare numbers; those that are there get their own unit first."""
    document = _open(text)
    before = _units(document)
    if before == system:
        return text
    for table, place in _tables(document):
        for key in list(table):
            _with_unit(table, key, f"{place}.{key}", before)
    document["units"] = system
    return _close(document, text)


def _with_unit(table: Any, key: str, path: str, system: System) -> None:
    entry = table[key]
    holder: Any
    holder, name = (entry, "value") if isinstance(entry, InlineTable | Table) else (table, key)
    found: object = holder.get(name)
    dimension = _dimension(path, table)
    if isinstance(found, bool) or not isinstance(found, str | int | float) or dimension is None:
        return
    told = _explicit(str(found), dimension, system, path)
    if told != str(found):
        holder[name] = told


def _open(text: str) -> Any:  # tomlkit's own types say nothing of what is inside
    """Parse a text whose last line is ended: what is added behind a bare last head would else stand on its line."""
    ended = text if text.endswith("\n") or not text else text + "\n"
    return tomlkit.parse(ended.removeprefix(MARK))


def _close(document: Any, before: str) -> str:
    mark = MARK if before.startswith(MARK) else ""
    return mark + tomlkit.dumps(document)


def _units(document: Any) -> System:
    return system_named(document.get("units"))


def _place(document: Any, path: str, *, make: bool) -> tuple[Any, str]:
    """Return the table of a path and its key; None for a table that is not there and is not to be made."""
    section, *rest = path.split(".")
    if section in LISTS:
        rows, place = _rows(document, section), int(rest[0]) if rest and rest[0].isdigit() else -1
        if len(rest) != 2 or not 0 <= place < len(rows):
            fix = "look at the page again: somebody has changed the list"
            raise Refusal(field=shortened(path), value="(a row)", limit="is not there any more", fix=fix)
        return rows[place], rest[1]
    known = (*sections(), "job", "write_up", "vehicle", "fit", "history", "log")
    if len(rest) != 1 or section not in known:
        limit, fix = "is no field of a job", "name one of the form"
        raise Refusal(field="field", value=shortened(path), limit=limit, fix=fix)
    if section not in document:
        if not make:
            return None, rest[0]
        document.append(section, tomlkit.table())
    return document[section], rest[0]


def _rows(document: Any, key: str) -> Any:
    if key not in LISTS:
        fix = "name one of " + ", ".join(LISTS)
        raise Refusal(field="list", value=shortened(key), limit="is no list of a job", fix=fix)
    if key not in document:
        document.append(key, tomlkit.aot())
    return document[key]


def _row(key: str, values: Mapping[str, str], system: System) -> Table:
    row = tomlkit.table()
    for name, typed in values.items():  # the name first: what a figure means may hang on it
        row.append(name, _written(typed, f"{key}.0.{name}", system, row))
    return row


def _replace(document: Any, key: str, kept: list[Any]) -> None:
    document.pop(key, None)
    if kept:
        rows: Any = tomlkit.aot()
        for one in kept:
            rows.append(one)
        document.append(key, rows)


def _rename_duty(document: Any, key: str, before: str, after: str) -> None:
    """Have what names a condition go on naming it: the readings taken at it, the conditions that come after it."""
    for duty in document.get(key, []):
        if duty.get("after") == before:
            duty["after"] = after
    if key != "duty":
        return
    for reading in document.get("reading", []):
        if reading.get("duty") == before:
            reading["duty"] = after


def _put(table: Any, key: str, value: Any) -> None:
    """Set a value; a comment that stood behind the old one stays behind the new one."""
    if key in table:
        table[key] = value
    else:
        table.append(key, value)


def _written(typed: str, path: str, system: System, table: Any) -> Any:
    """Return what is written for what was typed: yes or no, a whole number, or text with its unit."""
    key = path.rpartition(".")[2]
    dimension = _dimension(path, table)
    if dimension == YES_NO or key in _YES_NO_TEXT:
        word = typed.strip().lower()
        return {"yes": True, "no": False, "true": True, "false": False}.get(word, typed)
    if dimension is None or dimension == CHOICE:
        return typed
    if _PLAIN_NUMBER.fullmatch(typed) and dimension.name in ("count", "number"):
        return int(typed)
    return _explicit(typed, dimension, system, path)


def _explicit(typed: str, dimension: Dimension, system: System, path: str) -> str:
    try:
        read = parse(typed, dimension, system=system, field=path)
    except Refusal:
        return typed  # a range such as "210 to 215 F", or what the reader of the job will refuse in its own words
    return f"{typed} {read.unit}" if read.assumed else typed


def _dimension(path: str, table: Any) -> Dimension | None:
    """Return the dimension of a field, or None where words are written."""
    section, key = path.split(".")[0], path.rpartition(".")[2]
    if path == "job.limit" or (section == "reading" and key == "gauge"):
        return TEMPERATURE
    if path == "history.distance":
        return DISTANCE
    if section == "check" and key == "outcome":
        check = checks().get(str(table.get("name", "")))
        return None if check is None else check.dimension
    if key in _TEXT:
        return None
    fields = {"fit": bay_fields, "offer": offer_fields, "duty": duty_fields, "worst_day": duty_fields}.get(section)
    known = fields() if fields else sections().get(section, {})
    return known[key].dimension if key in known else None


def _tables(document: Any) -> list[tuple[Any, str]]:
    """Return every table of the document with its place."""
    found: list[tuple[Any, str]] = []
    for key, value in document.items():
        if isinstance(value, AoT):
            found += [(row, f"{key}.{place}") for place, row in enumerate(cast("Any", value))]
        elif isinstance(value, Table):
            found.append((value, key))
    return found
