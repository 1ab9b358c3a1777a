"""How the columns of a log are understood, and what is still to be asked, for whoever asks it beside the log."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from toptank.shop.ask.logs.log_drive import logged_drive, no_ambient, no_grade
from toptank.shop.log.log_clock import seconds
from toptank.shop.log.log_columns import CHANNELS, TIME_FORMS, head_of
from toptank.shop.log.log_figures import decimal_comma
from toptank.shop.log.log_file import log_of, meant_by, understood_by, unit_of_column
from toptank.shop.log.log_mapping import IGNORE, NO_MAPPING, TIME, LogMapping
from toptank.shop.log.log_text import Table, read_table
from toptank.units.cancellation import CancelCheck, never_cancelled
from toptank.units.dimension import YES_NO
from toptank.units.refusal import Refusal, without_options

if TYPE_CHECKING:
    from pathlib import Path

    from toptank.shop.job.job import Job

SAMPLES = 3
TIMES = ("s", "ms", "min", "h", *TIME_FORMS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Meaning:
    """What a column may be: its key, what that is, the units it may have; empty where it has none."""

    key: str
    means: str
    units: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """One column: its head, its first cells, what it is taken as, and what is to be asked of it; empty if nothing is.

    The key is empty where the column is left out.
    """

    head: str
    cells: tuple[str, ...]
    key: str
    unit: str
    asks: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LogLook:
    """A log as far as it is understood.

    Parameters
    ----------
    columns : in the order of the file
    rows, minutes : its length; None where it cannot be read yet
    refused : why it cannot be used yet, in a sentence; empty if it can
    needs_ambient, needs_grade : no column says it, so that it is to be told
    remarks : what was left out or bridged
    decimal : what the job says of the sign before decimals
    """

    name: str
    columns: tuple[Looked, ...]
    rows: int | None
    minutes: float | None
    refused: str
    needs_ambient: bool
    needs_grade: bool
    remarks: tuple[str, ...]
    decimal: str

    def lacks(self, ambient: str, grade: str) -> Refusal | None:
        """Return what is still to be told beside what was typed, before anybody waits for an answer; None: nothing."""
        if self.needs_ambient and not ambient.strip():
            return no_ambient(self.name)
        return no_grade(self.name) if self.needs_grade and not grade.strip() else None


def meanings() -> tuple[Meaning, ...]:
    """Return what a column may be."""
    channels = [
        Meaning(key=key, means=one.means, units=() if one.dimension == YES_NO else _units_of(key))
        for key, one in CHANNELS.items()
    ]
    return (Meaning(key=TIME, means="time", units=TIMES), *channels)


def _units_of(key: str) -> tuple[str, ...]:
    return tuple(name for name, _ in CHANNELS[key].dimension.words)


def look(job: Job, path: Path, go_on: CancelCheck = never_cancelled) -> LogLook:
    """Look at a log with what the job says of its columns; `go_on` may stop that between its steps.

    Raises
    ------
    Refusal : if it is no text, no table, or too large: nothing can be asked then
    """
    table, no_head = _table(path, job.log)
    go_on()
    columns = _columns(table, job.log)
    go_on()
    refused, needs, remarks = "", (False, False), ()
    rows, minutes = None, None
    try:
        if no_head is not None:
            raise no_head
        file = log_of(table, path.name, job.log)
        go_on()
        driven, rows, minutes, remarks = file.log.driven, file.rows, file.log.length / 60.0, file.remarks
        needs = ("ambient" not in driven, "grade" not in driven and "altitude" not in driven)
        air, slope = ("20 C" if needs[0] else None), ("0 %" if needs[1] else None)  # only to see what else is missing
        logged_drive(file, job, ambient=air, grade=slope, system=job.system)
    except Refusal as refusal:
        refused = without_options(refusal)
    return LogLook(
        name=path.name,
        columns=columns,
        rows=rows,
        minutes=minutes,
        refused=refused,
        needs_ambient=needs[0],
        needs_grade=needs[1],
        remarks=remarks,
        decimal=job.log.decimal,
    )


def look_at_columns(path: Path, mapping: LogMapping = NO_MAPPING) -> tuple[Looked, ...]:
    """Return how each column is understood; where no head says anything, the first line of words is the head."""
    return _columns(_table(path, mapping)[0], mapping)


def _table(path: Path, mapping: LogMapping) -> tuple[Table, Refusal | None]:
    """The log as texts; where no head says anything, below the first line of words, and why it is no head."""
    try:
        return read_table(path, understood_by(mapping)), None
    except Refusal as refusal:
        return read_table(path, _is_words), refusal


def _columns(table: Table, mapping: LogMapping) -> tuple[Looked, ...]:
    comma = _comma(table, mapping)
    return tuple(_looked(table, place, mapping, comma) for place in range(len(table.heads)))


def _is_words(head: str) -> bool:
    return any(sign.isalpha() for sign in head)


def _comma(table: Table, mapping: LogMapping) -> bool:
    try:
        return decimal_comma(table.cells, table.separator, mapping.decimal)
    except Refusal:
        return False


def _looked(table: Table, place: int, mapping: LogMapping, comma: bool) -> Looked:
    head, cells = table.heads[place], table.cells[str(place)]
    meant = meant_by(head, mapping)
    key, unit, asks = ("" if meant.key == IGNORE else meant.key), meant.unit, ""
    stated = unit or table.units[place]
    try:
        if key == TIME:
            seconds(cells, head_of(head), stated.lower(), comma)
            unit = unit or head_of(head).unit
        elif key:
            unit = unit_of_column(table, place, meant, cells)[0]
    except Refusal as refusal:
        asks = refusal.limit.partition(";")[0]
    shown = tuple(str(cell) for cell in cells.drop_nulls().head(SAMPLES))
    return Looked(head=head, cells=shown, key=key, unit=unit, asks=asks)
