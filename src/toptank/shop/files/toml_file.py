"""Reading TOML files of people: what is wrong is told in a sentence."""

import re
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import cast

from toptank.shop.files.read_bytes import content, shortened
from toptank.units.conversion import SYSTEMS, System, system_named
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal

__all__ = [
    "as_table", "document_of", "nothing_left", "read_document", "shortened", "tables_of", "take_head", "take_list",
    "take_table", "take_text", "take_yes",
]  # fmt: skip

LARGEST = 256 * 1024
"""Largest file that is read [byte]; a full job file has about 40,000."""

DEEPEST = 8
"""Tables within tables that are read; a job file has three."""

MARK = "\ufeff"
"""What some editors put in front of a text."""

_TEXT_OR_COMMENT = re.compile(
    r"""
    \"{3} (?: [^"\\] | \\. | "{1,2}(?!") )* (?: "{3} | \Z )
    | '{3} .*? (?: '{3} | \Z )
    | " (?: [^"\\\n] | \\. )* "?
    | ' [^'\n]* '?
    | \# [^\n]*
    """,
    re.VERBOSE | re.DOTALL,
)
"""Each form ends at the end of the text at the latest, so that the search goes over every sign once."""

_LONG_NAME = re.compile(rf"(?<![\w-]) (?: [\w-]++ [ \t]*+ \. [ \t]*+ ){{{DEEPEST}}} [\w-]", re.VERBOSE)


def read_document(path: Path) -> dict[str, object]:
    """Read a TOML file.

    Raises
    ------
    Refusal : if it is missing, no file, too large, not text or not TOML
    """
    named = shortened(path)
    raw = content(
        path,
        largest=LARGEST,
        too_large=_too_large(named),
        missing="check the name, or make one with `toptank sheet new --like NAME --out FILE`",
    )
    return document_of(raw, named)


def _too_large(named: str) -> Refusal:
    fix = "a job file is a page of text; is it another file?"
    return Refusal(field="file", value=named, limit=f"is larger than {LARGEST // 1024} KiB", fix=fix)


def document_of(raw: bytes, named: str) -> dict[str, object]:
    """Read TOML from the bytes of a file, or of a text that was sent.

    Raises
    ------
    Refusal : if it is too large, not text or not TOML
    """
    if len(raw) > LARGEST:
        raise _too_large(named)
    try:
        document = tables_of(raw.decode("utf-8"))
    except Refusal as error:
        raise _too_deep(named) from error
    except UnicodeDecodeError as error:
        raise Refusal(field="file", value=named, limit="is not text", fix="save it as UTF-8 text") from error
    except tomllib.TOMLDecodeError as error:
        fix = f'TOML says: {error}; write lines such as rows = 2 or face_width = "26 in"'
        raise Refusal(field="file", value=named, limit="is not TOML", fix=fix) from error
    except ValueError as error:
        limit = "holds a number of too many digits"
        raise Refusal(field="file", value=named, limit=limit, fix="write figures as on a tape or a plate") from error
    except RecursionError as error:
        raise _too_deep(named) from error
    if _deeper_than(DEEPEST, document):
        raise _too_deep(named)
    return document


def tables_of(text: str) -> dict[str, object]:
    """Read the text of a TOML file; every text of a person goes through here, none to the library itself.

    The library keeps every beginning of a long dotted name, and 40,000 signs took 1.6 GB: so names are measured first.

    Raises
    ------
    Refusal : if a name has too many parts
    tomllib.TOMLDecodeError, ValueError, RecursionError : as the library tells them
    """
    # A text that stands in quotation marks may be a part of a name; a comment is none.
    bare = _TEXT_OR_COMMENT.sub(lambda found: "" if found[0].startswith("#") else "q", text)
    if _LONG_NAME.search(bare):
        raise _too_deep("the text")
    return tomllib.loads(text.removeprefix(MARK))


def _too_deep(named: str) -> Refusal:
    return Refusal(field="file", value=named, limit="is nested too deeply", fix="write plain tables")


def take_table(document: dict[str, object], key: str, *, needed: bool = False) -> dict[str, object]:
    """Take a table out of a document; an empty one if it may be missing."""
    if key not in document:
        if needed:
            raise Refusal(field=key, value="(missing)", limit="is needed", fix=f"add a section [{key}]")
        return {}
    return as_table(document.pop(key), key)


def as_table(value: object, key: str) -> dict[str, object]:
    """Return the value as a table, or refuse it."""
    if not isinstance(value, dict):
        raise Refusal(field=key, value=shortened(value), limit="must be a table", fix=f"write it as a section [{key}]")
    return dict(cast("Mapping[str, object]", value))


def take_head(document: dict[str, object], known: str, kind: str, *, former: tuple[str, ...] = ()) -> System:
    """Take the head of a file: its format, which must be the known one, and the unit system of its bare numbers.

    Parameters
    ----------
    document : the file; both keys are taken out of it
    known : the format that is read here
    kind : what such a file is called, e.g. "a job file"
    former : earlier formats that are read too
    """
    first_line = f'the first line must be format = "{known}"'
    if "format" not in document:
        raise Refusal(field="format", value="(missing)", limit="is needed", fix=first_line)
    written = take_text(document, "format")
    if written not in (known, *former):
        raise Refusal(field="format", value=shortened(written), limit=f"is not {kind}", fix=first_line)
    units = take_text(document, "units", otherwise="us")
    if units not in SYSTEMS:
        limit, fix = 'must be "us", "metric" or "uk"', "write one of the three"
        raise Refusal(field="units", value=shortened(units), limit=limit, fix=fix)
    return system_named(units)


def take_text(table: dict[str, object], key: str, *, within: str = "", otherwise: str | None = None) -> str:
    """Take a text out of the table called `within`; out of the file itself if that is empty."""
    field = f"{within}.{key}" if within else key
    if key not in table:
        if otherwise is None:
            fix = f'add {key} = "..." to [{within}]'
            raise Refusal(field=field, value="(missing)", limit="is needed", fix=fix)
        return otherwise
    value = table.pop(key)
    if not isinstance(value, str):
        raise Refusal(field=field, value=shortened(value), limit="must be a text", fix="put it in quotes")
    if not all(sign.isprintable() or sign in "\n\r\t" for sign in value):
        raise Refusal(
            field=field, value=shortened(value), limit="holds signs that cannot be printed", fix="type it anew"
        )
    return value


def take_yes(table: dict[str, object], key: str, *, within: str) -> bool:
    """Take true or false out of a table; false where it is not said."""
    value = table.pop(key, False)
    if not isinstance(value, bool):
        raise Refusal(
            field=f"{within}.{key}", value=shortened(value), limit="must be true or false", fix="write true or false"
        )
    return value


def take_list(table: dict[str, object], key: str, *, within: str) -> list[str]:
    """Take a list of texts out of a table; empty where it is not said."""
    value: object = table.pop(key, list[object]())
    written = shortened(value)
    texts = cast("list[object]", value) if isinstance(value, list) else [None]
    if not all(isinstance(text, str) for text in texts):
        limit, fix = "must be a list of texts", f'write {key} = ["...", "..."]'
        raise Refusal(field=f"{within}.{key}", value=written, limit=limit, fix=fix)
    return [str(text) for text in texts]


def nothing_left(table: dict[str, object], within: str, known: tuple[str, ...]) -> None:
    """Refuse the first key that is still in a table."""
    for key, value in table.items():
        fix = did_you_mean(key, known, "known here: " + ", ".join(known))
        raise Refusal(
            field=f"{within}.{shortened(key)}", value=shortened(value), limit="is not a known key here", fix=fix
        )


def _deeper_than(levels: int, document: object) -> bool:
    """Whether tables and lists lie deeper in each other than that; no recursion, so that no depth is too much."""
    inside: list[object] = [document]
    for _ in range(levels):
        found: list[object] = []
        for value in inside:
            if isinstance(value, dict):
                found += cast("dict[str, object]", value).values()
            elif isinstance(value, list):
                found += cast("list[object]", value)
        inside = found
    return bool(inside)
