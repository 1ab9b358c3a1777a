"""The text of a log as a table of texts: which sign parts the columns, where the head is, what stands for nothing."""

import csv
import io
from collections.abc import Callable
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from typing import Any

import polars as pl

from toptank.shop.files.read_bytes import content, shortened
from toptank.shop.log.log_columns import CHANNELS, TIME_UNITS, TIME_WORDS, channel_named, head_of
from toptank.units.quantity import unit_named
from toptank.units.refusal import Refusal

LARGEST = 64 * 1024 * 1024
"""Largest log that is read [byte]: 10 Hz for 3 h with sixty columns has 40 MB."""

MOST_COLUMNS, MOST_ROWS = 500, 2_000_000
SEPARATORS = (",", ";", "\t", "|")
HEAD_WITHIN = 40
"""Lines in which the head is looked for."""

FEWEST = 2
"""Columns that must be understood: a time and a reading."""

LONGEST_LINE = 20_000
NOTHING = ("", "-", "--", "na", "n/a", "nan", "null", "none", "?", "no data", "nodata", "#n/a", "inf", "-inf")
"""Cells that stand for a missing figure, in small letters."""

MINUSES = "\u2212\u2013\u2012\ufe63\uff0d"
"""Signs that people and spreadsheets write for a minus."""

TIME_SIGNALS = ("vehicle.currentlocation.timestamp",)


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A log as texts.

    Parameters
    ----------
    heads : the heads as written
    units : what a row of units says of each column; empty texts where there is no such row
    cells : a column of texts for each head, named "0", "1", ...; null where nothing stands
    separator : the sign between columns
    """

    heads: tuple[str, ...]
    units: tuple[str, ...]
    cells: pl.DataFrame
    separator: str


def is_time(head: str) -> bool:
    """Whether a head names a column of times."""
    parted = head_of(head)
    bare = parted.words in TIME_UNITS and not parted.unit
    return parted.words in TIME_WORDS or bare or head.strip().lower() in TIME_SIGNALS


def read_table(path: Path, understood: Callable[[str], bool]) -> Table:
    """Read a log as texts.

    Parameters
    ----------
    path : the file
    understood : whether a head means something, by its own words or by a mapping

    Raises
    ------
    Refusal : if it is too large, no text, no table or has no head that is understood
    """
    text = _text(path)
    separator, line, heads = _head(text, path, understood)
    start = _start_of_line(text, line + 1)
    cells = _cells(text[start:], separator, heads, path)
    units = ("",) * len(heads)
    if len(cells) and (found := _units(cells, heads)):
        units, cells = found, cells[1:]
    if len(cells) == 0:
        raise _refusal(path, "holds no row below its head", "check that the logger has saved the drive")
    return Table(heads=tuple(heads), units=units, cells=cells, separator=separator)


def _text(path: Path) -> str:
    too_large = _refusal(
        path,
        f"is larger than {LARGEST // 1024**2} MiB",
        "cut out the drive in question, or save fewer columns: 10 readings a second for 3 hours have 20 to 40 MB",
    )
    raw = content(path, largest=LARGEST, too_large=too_large, missing="check the name")
    for marks, encoding in (((b"\xff\xfe", b"\xfe\xff"), "utf-16"), ((b"",), "utf-8-sig"), ((b"",), "latin-1")):
        try:
            if raw.startswith(marks):
                text = raw.decode(encoding)
                break
        except UnicodeDecodeError:
            continue
    else:
        raise _refusal(path, "is not text", "save it as comma separated values")
    if "\0" in text:
        raise _refusal(path, "is not text", "save it as comma separated values")
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _head(text: str, path: Path, understood: Callable[[str], bool]) -> tuple[str, int, list[str]]:
    """Separator, number of the line and heads of the line that is understood best."""
    lines = list(islice(io.StringIO(text), HEAD_WITHIN))
    best: tuple[int, str, int, list[str]] = (0, ",", 0, [])
    widest: list[str] = []
    for number, line in enumerate(lines):
        for separator in SEPARATORS if len(line) <= LONGEST_LINE else ():
            heads = _parted(line.lstrip("#"), separator)
            if len(heads) > MOST_COLUMNS:
                continue
            widest = max(widest, heads, key=len)
            if len(heads) < FEWEST:
                continue  # a whole line of figures as one head would be looked at word by word, for nothing
            score = sum(bool(head) and (is_time(head) or understood(head)) for head in heads)
            if score > best[0] and any(is_time(head) or understood(head) for head in heads):
                best = (score, separator, number, heads)
    score, separator, number, heads = best
    if score < FEWEST:
        seen = ", ".join(head for head in widest if head)
        fix = (
            'its first line must name the columns, such as "time (s), coolant (°C), speed (km/h)"; say what others '
            'mean with --column "T1 = coolant °C"'
        )
        limit = "has no line that names a time and a reading"
        raise Refusal(field=f"log {path.name}", value=shortened(seen) or "(empty)", limit=limit, fix=fix)
    while heads and not heads[-1]:
        heads = heads[:-1]
    return separator, number, heads


def _parted(line: str, separator: str) -> list[str]:
    try:
        rows = list(csv.reader([line], delimiter=separator))
    except csv.Error:
        return []
    return [cell.strip() for cell in rows[0]] if rows else []


def _start_of_line(text: str, number: int) -> int:
    place = 0
    for _ in range(number):
        found = text.find("\n", place)
        if found < 0:
            return len(text)
        place = found + 1
    return place


def _cells(body: str, separator: str, heads: list[str], path: Path) -> pl.DataFrame:
    """Texts below the head; a column more than heads is taken only where it is empty throughout."""
    if not body.strip():
        return pl.DataFrame(schema={str(i): pl.String for i in range(len(heads))})
    for sign in MINUSES:  # one by one: `translate` takes a hundred times as long where a text holds a degree sign
        body = body.replace(sign, "-")
    n = len(heads)
    fix = (
        "quote cells that hold the sign between columns, or use another sign: a comma before decimals needs a "
        "semicolon or a tab between columns"
    )
    try:
        whole = pl.read_csv(
            body.encode("utf-8", errors="replace"),
            has_header=False,
            separator=separator,
            schema={str(i): pl.String for i in range(n + 1)},
            missing_columns="insert",
            comment_prefix="#",
            n_rows=MOST_ROWS + 1,
        )
    except pl.exceptions.PolarsError as error:
        limit = f"has a line with more columns than its {n} heads"
        raise _refusal(path, limit, fix) from error
    if len(whole) > MOST_ROWS:
        raise _refusal(path, f"has more than {MOST_ROWS:,} rows", "cut out the drive in question")
    cleaned = whole.with_columns(_without_nothing(pl.all()))
    filled = int(cleaned[str(n)].is_not_null().sum())
    if filled:
        lines = "one line" if filled == 1 else f"{filled:,} lines"
        raise _refusal(path, f"has {lines} with more columns than its {n} heads", fix)
    named = cleaned.select(str(i) for i in range(n))
    return named.filter(pl.any_horizontal(pl.all().is_not_null()))


def _without_nothing(column: pl.Expr) -> pl.Expr:
    bare = column.str.strip_chars()
    return pl.when(~bare.str.to_lowercase().is_in(NOTHING)).then(bare).name.keep()


def _units(cells: pl.DataFrame, heads: list[str]) -> tuple[str, ...]:
    """The first row as units, if it says a unit of a channel or of time somewhere and a figure nowhere; else empty."""
    first: list[Any] = list(cells.row(0))
    said = ["" if cell is None else str(cell).strip("()[] ") for cell in first]
    if any(any(sign.isdigit() for sign in cell.replace("m3", "").replace("^2", "")) for cell in said):
        return ()
    found = False
    for head, cell in zip(heads, said, strict=True):
        key = channel_named(head_of(head))
        known = key is not None and unit_named(cell, CHANNELS[key].dimension) is not None
        found = found or known or (is_time(head) and cell.lower() in TIME_UNITS)
    return tuple(said) if found else ()


def _refusal(path: Path, limit: str, fix: str) -> Refusal:
    return Refusal(field="log", value=shortened(path.name), limit=limit, fix=fix)
