"""The document of a job: kept as it was written, to the last comment; read only to list it and to close it."""

import json
import re
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from toptank.shop.files.toml_file import LARGEST, read_document, shortened, tables_of
from toptank.shop.job.job_file import job_of
from toptank.shop.record.store.counter import Counter, counter_of
from toptank.shop.record.store.record import State
from toptank.shop.record.store.words import check_encodable
from toptank.units.refusal import Refusal

_HEAD = re.compile(r"""^[ \t]*\[[ \t]*(?:confirmed|"confirmed"|'confirmed')[ \t]*\][ \t]*(?:#.*)?\r?$""")
_OTHER_HEAD = re.compile(r"^[ \t]*\[")
_NO_TEXT = re.compile(r"^[ \t]*(?:#.*)?\r?\n?$")
_MOST_ENDS = 50


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What a document tells of itself to a list."""

    title: str
    complaint: str
    state: State
    counter: Counter


def read_text(path: Path) -> str:
    """Read a job file as it is written.

    Raises
    ------
    Refusal : in one sentence, if it is no job file
    """
    if path.exists() and not path.is_file() and not path.is_dir():
        fix = "save what comes out of it in a file, and name that"
        raise Refusal(field="file", value=shortened(path), limit="is a pipe or a device, not a file", fix=fix)
    document = read_document(path)  # refuses what is too large, no text, no TOML
    with path.open("rb") as file:
        text = file.read(LARGEST + 1).decode("utf-8", errors="replace")
    try:
        same = len(text) <= LARGEST and parsed(text) == document
    except tomllib.TOMLDecodeError:
        same = False
    # a figure that is no number is never equal to itself; the job file has no place for one
    if not same:
        fix = "close it in the editor and try again"
        raise Refusal(field="file", value=shortened(path), limit="was changed while it was read", fix=fix)
    return text


def parsed(text: str) -> dict[str, object]:
    """Return a document's tables."""
    return tables_of(text)


def told(text: str) -> Told:
    """Read a document whole, so that nothing unreadable is ever kept, and return what a list shows of it.

    Raises
    ------
    Refusal : for the first thing in it that cannot be used
    """
    check_encodable(text, "the job")
    if len(text.encode("utf-8")) > LARGEST:
        limit = f"is larger than {LARGEST // 1024} KiB"
        raise Refusal(field="file", value="the job", limit=limit, fix="attach logs and photos, and keep the job short")
    try:
        document = parsed(text)
    except tomllib.TOMLDecodeError as error:
        fix = f"TOML says: {error}; what was kept before is as it was, type the change anew"
        raise Refusal(field="file", value="the job", limit="would not be TOML", fix=fix) from error
    job = job_of(document)
    state: State = "closed" if job.confirmed else "open"
    return Told(title=job.title, complaint=job.complaint, state=state, counter=counter_of(job))


def with_confirmed(text: str, causes: Sequence[str], contributing: Sequence[str], how: str) -> str:
    """Return the text with a section [confirmed] at its end, in place of an older one."""
    bare = without_confirmed(text)
    lines = ["[confirmed]", f"causes = {_texts(causes)}"]
    lines += [f"contributing = {_texts(contributing)}"] if contributing else []
    lines += [f"how = {_text(how)}"] if how else []
    ending = "\r\n" if "\r\n" in bare else "\n"
    between = "" if not bare or bare.endswith("\n") else ending
    return bare + between + ending + ending.join(lines) + ending


def without_confirmed(text: str) -> str:
    """Return the text without its section [confirmed]; every sign before and behind it stays as it is.

    Raises
    ------
    Refusal : if it is written in a way that cannot be cut out safely
    """
    expected = parsed(text)
    if "confirmed" not in expected:
        return text
    del expected["confirmed"]
    lines = re.split(r"(?<=\n)", text)  # a text's own lines may hold signs at which splitlines would part them
    for first in (i for i, line in enumerate(lines) if _HEAD.match(line.rstrip("\n"))):
        ends = [i for i in range(first + 1, len(lines)) if _OTHER_HEAD.match(lines[i])][:_MOST_ENDS]
        for end in (*ends, len(lines)):
            kept = "".join(lines[: _without_blank(lines, first)] + lines[_own_end(lines, first, end) :])
            if _says(kept, expected):
                return kept
    fix = "take what was confirmed out by hand and save the job again"
    limit = "is not written as a section [confirmed] of its own"
    raise Refusal(field="confirmed", value="(in the job)", limit=limit, fix=fix)


def _own_end(lines: list[str], first: int, end: int) -> int:
    """Comments and blank lines behind the last line of the section stay: they may tell of what follows."""
    while end > first + 1 and _NO_TEXT.match(lines[end - 1]):
        end -= 1
    return end


def _without_blank(lines: list[str], first: int) -> int:
    """At most one blank line above goes too: the one that closing has put there."""
    return first - 1 if first > 0 and not lines[first - 1].strip() else first


def _says(text: str, expected: dict[str, object]) -> bool:
    try:
        return parsed(text) == expected
    except tomllib.TOMLDecodeError:
        return False


def _text(text: str) -> str:
    # what JSON escapes, TOML reads alike, but for this one sign that JSON lets stand
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _texts(texts: Sequence[str]) -> str:
    return f"[{', '.join(_text(one) for one in texts)}]"
