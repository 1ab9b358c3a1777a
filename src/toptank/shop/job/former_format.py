"""A job file of a former format brought along: what the catalogue holds gets its id, all else stays as it was written.

Files of every format are read as they are; this is for what is written again. Line by line, so that order, comments
and the rest of the text stay; a way of writing that this does not take in leaves the text as it is, and readable.
"""

import re
import tomllib
from collections.abc import Callable
from typing import cast

from toptank.catalogue.checks.check import checks
from toptank.catalogue.words.aliases import Kind, id_of, outcome_of
from toptank.shop.files.toml_file import MARK, tables_of
from toptank.shop.job.job_file import FORMAT, FORMER

_HEAD = re.compile(r"^[ \t]*\[\[?[ \t]*(\w+)[ \t]*\]")
_ENTRY = re.compile(r"^([ \t]*)(\w+)([ \t]*=[ \t]*)(.*)$")
_TEXT = re.compile(r"\"((?:[^\"\\]|\\.)*)\"|'([^']*)'")

ONE: dict[tuple[str, str], Kind] = {
    ("changed", "part"): "work",
    ("offer", "remedy"): "remedy",
    ("check", "name"): "check",
}
"""Entries that name one thing of the catalogue: section and key."""

MANY: dict[tuple[str, str], Kind] = {
    ("history", "after_work"): "work",
    ("history", "doubtful"): "work",
    ("history", "renewed"): "work",
    ("confirmed", "causes"): "cause",
    ("confirmed", "contributing"): "cause",
}
"""Entries that list some."""


def upgraded(text: str) -> str:
    """Return a job file in the format of today, to the last comment; one that is so already, unchanged.

    A word that names nothing in the catalogue stays: whoever reads the file refuses it in his own words.
    """
    before = tables_of(text)
    if before.get("format") not in FORMER:
        return text
    lines = re.split(r"(?<=\n)", text)  # a text's own lines may hold signs at which splitlines would part them
    reader = _Reader()
    made = "".join(reader.line(line) for line in lines)
    try:
        after = tables_of(made)
    except tomllib.TOMLDecodeError:
        return text
    return made if after == _meant(before) else text


class _Reader:
    """Goes through the lines of a file: in which section it is, which check it has read, whether a list is open."""

    def __init__(self) -> None:
        self.section, self.check, self.open = "", "", ""

    def line(self, line: str) -> str:
        """Return a line with ids for what it names."""
        if self.open:
            return self._listed(line)
        if head := _HEAD.match(line):
            self.section, self.check = head[1], ""
            return line
        entry = _ENTRY.match(line.rstrip("\r\n"))
        if entry is None:
            return line
        key, start = entry[2], len(line) - len(line.lstrip(MARK)) + entry.end(3)
        if not self.section and key == "format":
            return line.replace(_written(line), FORMAT, 1)
        if (self.section, key) in MANY:
            self.open = key
            return line[: entry.end(3)] + self._listed(line[entry.end(3) :])
        return self._one(line, key, start)

    def _one(self, line: str, key: str, start: int) -> str:
        if (self.section, key) == ("check", "outcome"):
            check = self.check
            return line[:start] + _named(line[start:], lambda word: outcome_of(check, word) if check else None)
        kind = ONE.get((self.section, key))
        if kind is None:
            return line
        if kind == "check":
            self.check = id_of("check", _written(line)) or ""
        return line[:start] + _named(line[start:], lambda word: id_of(kind, word))

    def _listed(self, line: str) -> str:
        kind = MANY[self.section, self.open]
        bare = _TEXT.sub(lambda found: "_" * len(found[0]), line)
        before_comment = bare.partition("#")[0]
        if "]" in before_comment:
            self.open = ""
        end = len(before_comment)
        return _TEXT.sub(lambda found: _id_or_word(found, kind), line[:end]) + line[end:]


def _words(line: str) -> list[str]:
    return [one[1] if one[1] is not None else one[2] for one in _TEXT.finditer(line)]


def _written(line: str) -> str:
    return next(iter(_words(line)), "")


def _id_or_word(found: re.Match[str], kind: Kind) -> str:
    id_ = id_of(kind, found[1] if found[1] is not None else found[2])
    return found[0] if id_ is None else f'"{id_}"'


def _named(line: str, meant: Callable[[str], str | None]) -> str:
    """Return a line with the first text in it named by its id."""

    def named(found: re.Match[str]) -> str:
        id_ = meant(found[1] if found[1] is not None else found[2])
        return found[0] if id_ is None else f'"{id_}"'

    return _TEXT.sub(named, line, count=1)


def _meant(tables: dict[str, object]) -> dict[str, object]:
    """Return the tables of a former file as they are to be read from what was made of it."""
    meant: dict[str, object] = {**tables, "format": FORMAT}
    for (section, key), kind in (*ONE.items(), *MANY.items()):
        found = meant.get(section)
        if isinstance(found, list):
            meant[section] = [_row(row, key, kind) for row in cast("list[object]", found)]
        elif found is not None:
            meant[section] = _row(found, key, kind)
    return meant


def _row(row: object, key: str, kind: Kind) -> object:
    table = cast("dict[str, object]", row) if isinstance(row, dict) else {}
    if key not in table:
        return cast("object", row)
    value = table[key]
    if isinstance(value, list):
        return {**table, key: [_id(kind, one) for one in cast("list[object]", value)]}
    made = {**table, key: _id(kind, value)}
    check, outcome = made[key], table.get("outcome")
    if kind == "check" and isinstance(check, str) and check in checks() and isinstance(outcome, str):
        made["outcome"] = outcome_of(check, outcome) or outcome
    return made


def _id(kind: Kind, written: object) -> object:
    return (id_of(kind, written) or written) if isinstance(written, str) else written
