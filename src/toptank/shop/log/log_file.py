"""Reading what a logger or a pencil wrote: rows in time, with units that are said and never guessed."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import polars as pl

from toptank.knowledge.drives.clock_jumps import in_order
from toptank.knowledge.drives.drive_log import TEMPERATURES, DriveLog, on_a_grid, without_spikes
from toptank.knowledge.drives.track import Floats
from toptank.shop.files.read_bytes import shortened
from toptank.shop.log.log_clock import LONGEST, MOSTLY, seconds
from toptank.shop.log.log_columns import CHANNELS, Head, channel_named, checked_unit, head_of, unit_by_standard
from toptank.shop.log.log_figures import BARE_ZERO, decimal_comma, figures, plain_cells
from toptank.shop.log.log_mapping import IGNORE, NO_MAPPING, TIME, LogMapping, Meant, plain_head
from toptank.shop.log.log_text import Table, is_time, read_table
from toptank.shop.log.sensor_limits import ENDS, UNPLUGGED, cold_all_along, never_moves, wrong_unit
from toptank.units.dimension import TEMPERATURE
from toptank.units.refusal import Refusal

GAP = 10.0
"""Time without a row that is told of a logger's file [s]."""

HAND_NOTED = 8.0
"""Time between rows, by their median, from which a log is taken as noted by hand [s]; judgement."""

LONGEST_PAUSE = 2 * 3600.0
"""Longest time without a row inside one drive [s]."""

TOO_FEW = "is too few: two rows with a time are the least"

DISORDER = 0.2
"""Share of rows out of order in time from which a log is refused [1]; judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """How one column was understood: its head, what it means (a key, or empty where it is left out), its unit."""

    head: str
    key: str
    unit: str
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogFile:
    """A log as read: the drive, how each column was understood, and what was left out or bridged.

    began : time of its first row, as written; its drive begins at 0 [s]
    """

    name: str
    log: DriveLog
    began: float
    columns: tuple[Column, ...]
    rows: int
    remarks: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LogRows:
    """A log row by row: times from its first row on [s], figures of each channel in SI; the rest as of a `LogFile`."""

    time: Floats
    values: dict[str, Floats]
    by_hand: bool
    began: float
    columns: tuple[Column, ...]
    rows: int
    remarks: list[str]


def read_log(path: Path, mapping: LogMapping = NO_MAPPING) -> LogFile:
    """Read a log.

    Parameters
    ----------
    path : comma, semicolon, tab or bar between columns, a head that names them
    mapping : what columns mean whose heads do not say it

    Raises
    ------
    Refusal : if it is no log, has no time, or a column that is needed has no unit or impossible figures
    """
    return log_of(read_table(path, understood_by(mapping)), path.name, mapping)


def understood_by(mapping: LogMapping) -> Callable[[str], bool]:
    """Return whether a head means something: by a mapping, or by its own words."""
    return lambda head: plain_head(head) in mapping.columns or channel_named(head_of(head)) is not None


def log_of(table: Table, name: str, mapping: LogMapping = NO_MAPPING) -> LogFile:
    """Make a log of a table of texts. As `read_log`."""
    found = rows_of(table, name, mapping)
    remarks = found.remarks
    _say_gaps(found.time, found.by_hand, remarks)
    return LogFile(
        name=name,
        log=on_a_grid(found.time, found.values, by_hand=found.by_hand),
        began=found.began,
        columns=found.columns,
        rows=found.rows,
        remarks=tuple(remarks),
    )


def read_rows(path: Path, *, longest_pause: float) -> LogRows:
    """Read a log row by row; refuses what `read_log` does, and a time without a row beyond the longest pause [s]."""
    return rows_of(read_table(path, understood_by(NO_MAPPING)), path.name, NO_MAPPING, longest_pause=longest_pause)


def rows_of(table: Table, name: str, mapping: LogMapping, *, longest_pause: float = LONGEST_PAUSE) -> LogRows:
    """Make rows of a table of texts. As `read_rows`."""
    meant = [meant_by(head, mapping) for head in table.heads]
    wanted = [i for i, one in enumerate(meant) if one.key not in ("", IGNORE)]
    comma = decimal_comma(table.cells.select(str(i) for i in wanted), table.separator, mapping.decimal)
    time, time_column, time_form = _time(table, meant, comma)
    remarks: list[str] = []
    rows = _rows_in_order(time, remarks)
    began = float(time[rows[0]])
    time = time[rows] - began
    _not_too_long(time, table.heads[time_column], longest_pause)
    by_hand = len(time) < 2 or float(np.median(np.diff(time))) >= HAND_NOTED
    values, columns = _channels(table, meant, comma, rows, None if by_hand else time, remarks)
    _without_unplugged(time, values, columns, by_hand, remarks)
    _without_faults(time, values, by_hand, remarks)
    _without_wrong_units(name, time, values, remarks)
    if not values:
        fix = "look at the columns of the logger: a thermometer that was not plugged in writes nothing"
        raise Refusal(field="log", value=shortened(name), limit="holds no reading below its heads", fix=fix)
    columns[time_column] = Column(head=table.heads[time_column], key=TIME, unit=time_form)
    said = [columns.get(i, Column(head=head, key="", unit="")) for i, head in enumerate(table.heads)]
    return LogRows(
        time=time,
        values=values,
        by_hand=by_hand,
        began=began,
        columns=tuple(said),
        rows=len(table.cells),
        remarks=remarks,
    )


def meant_by(head: str, mapping: LogMapping) -> Meant:
    """What a head means: by the mapping, else by its own words."""
    told = mapping.columns.get(plain_head(head))
    if told is not None:
        return told
    if not head:
        return Meant(key="", unit="")
    key = channel_named(head_of(head))
    return Meant(key=key or (TIME if is_time(head) else ""), unit="")


def _time(table: Table, meant: list[Meant], comma: bool) -> tuple[Floats, int, str]:
    """Times of the rows, their column and how they are written: the first that can be read; a mapping goes first."""
    places = [i for i, one in enumerate(meant) if one.key == TIME]
    places.sort(key=lambda i: not meant[i].unit)
    first: Refusal | None = None
    for i in places:
        try:
            stated = meant[i].unit or table.units[i].lower()
            found, form = seconds(table.cells[str(i)], head_of(table.heads[i]), stated, comma)
            return found, i, form
        except Refusal as refusal:
            first = first or refusal
    if first is not None:
        raise first
    fix = 'name it "time (s)" or "clock", or say --column "T = time s"'
    raise Refusal(field="log", value=", ".join(table.heads)[:60], limit="has no column of times", fix=fix)


def _rows_in_order(time: Floats, remarks: list[str]) -> np.ndarray:
    """Index of the rows that have a time and go forward."""
    known = np.flatnonzero(np.isfinite(time))
    rows = known[in_order(time[known])]
    astray = len(known) - len(rows)
    if len(known) < 2:
        value, fix = ("one row" if len(known) else "no row"), "write down at least its beginning and its end"
        raise Refusal(field="log time", value=value, limit=TOO_FEW, fix=fix)
    if astray > DISORDER * len(known):
        limit = f"{astray:,} of {len(known):,} rows are not in the order of their times"
        fix = "sort it, or cut out one drive; after noon write 15:00, or 3:00 PM"
        raise Refusal(field="log time", value=f"{len(known):,} rows", limit=limit, fix=fix)
    missing = len(time) - len(known)
    if missing:
        rows_words = "One row without a time is" if missing == 1 else f"{missing:,} rows without a time are"
        remarks.append(f"{rows_words} left out.")
    if astray:
        remarks.append(f"{astray:,} rows are left out because their times jump out of order.")
    return rows


def _not_too_long(time: Floats, head: str, longest_pause: float) -> None:
    field = f"column {shortened(head, 40)!r}"
    steps = np.diff(time)
    if time[-1] > LONGEST or (len(steps) and float(steps.max()) > longest_pause):
        value, limit = f"{time[-1] / 3600.0:.1f} h", f"no more than {LONGEST / 3600.0:.0f} hours in all"
        if longest_pause < LONGEST:
            value += f", longest pause {float(steps.max()) / 3600.0:.1f} h"
            limit = f"no pause beyond {longest_pause / 3600.0:.0f} hours and {limit}"
        limit = f"may have {limit}"
        raise Refusal(field=field, value=value, limit=limit, fix="cut out one drive, and check the unit of the time")
    if time[-1] < 1.0:
        limit = "is less than a second of a drive"
        raise Refusal(field=field, value=f"{time[-1]:g} s", limit=limit, fix="check the unit of the time")


def _channels(
    table: Table, meant: list[Meant], comma: bool, rows: np.ndarray, logged: Floats | None, remarks: list[str]
) -> tuple[dict[str, Floats], dict[int, Column]]:
    """Figures in SI of every channel, of the fullest column where several say the same; how each was understood.

    `logged` are the times of a logger's rows [s]: a thermometer that never moves in them gives way to another.
    """
    values: dict[str, Floats] = {}
    taken: dict[str, int] = {}
    filled: dict[str, int] = {}
    columns: dict[int, Column] = {}
    for i, one in enumerate(meant):
        if one.key not in CHANNELS:
            continue
        cells = plain_cells(table.cells[str(i)][rows], one.key)
        if int(cells.is_not_null().sum()) == 0:
            columns[i] = Column(head=table.heads[i], key="", unit="", note="empty")
            continue
        unit, whence = unit_of_column(table, i, one, cells)
        found, shown_unit, unplugged = figures(cells, one.key, unit, comma, f"column {shortened(table.heads[i], 40)!r}")
        if unplugged and np.isfinite(found).any():
            remarks.append(f"{unplugged:,} readings of {_named(one.key)} are left out: {ENDS} {UNPLUGGED}.")
        dead = logged is not None and never_moves(logged, found, one.key)
        says = 0 if dead else int(np.isfinite(found).sum())
        rival = taken.get(one.key)
        if rival is not None and filled[one.key] >= says:
            note = f"left out: {shortened(table.heads[rival], 40)} says the same"
            columns[i] = Column(head=table.heads[i], key="", unit="", note=note)
            continue
        if rival is not None:
            note = f"left out: {shortened(table.heads[i], 40)} says the same"
            columns[rival] = Column(head=table.heads[rival], key="", unit="", note=note)
        values[one.key], taken[one.key], filled[one.key] = found, i, says
        columns[i] = Column(head=table.heads[i], key=one.key, unit=shown_unit, note=whence)
    return values, columns


def unit_of_column(table: Table, place: int, meant: Meant, cells: pl.Series) -> tuple[str, str]:
    """Unit of a column's figures, empty where its cells say it or need none; and who says so.

    Raises
    ------
    Refusal : if nobody says it, or it is one of something else
    """
    head = head_of(table.heads[place])
    if meant.unit:
        return meant.unit, "unit by the mapping"
    if head.unit:
        return checked_unit(head, meant.key, head.unit, _field(head)), ""
    if table.units[place]:
        return checked_unit(head, meant.key, table.units[place], _field(head)), "unit by the row below the head"
    standard = unit_by_standard(head, meant.key)
    if standard is not None:
        return standard, "unit by the Vehicle Signal Specification"
    said, bare = (int(cells.str.contains(form).sum()) for form in (r"[A-Za-z°%]", BARE_ZERO))
    if said and said + bare * (meant.key in ("speed", "grade")) >= MOSTLY * int(cells.is_not_null().sum()):
        return "", ""  # "210 F": every cell says it
    return checked_unit(head, meant.key, "", _field(head)), ""


def _field(head: Head) -> str:
    return f"column {shortened(head.written, 40)!r}"


def _named(key: str) -> str:
    """What a channel is called in a remark."""
    return CHANNELS[key].means.partition(",")[0]


def _without_unplugged(
    time: Floats, values: dict[str, Floats], columns: dict[int, Column], by_hand: bool, remarks: list[str]
) -> None:
    """Take out thermometers that say nothing all the way, in place; refuse a log that has no other for the engine."""
    dead: list[Refusal] = []
    for i, column in list(columns.items()):
        read = values.get(column.key)
        if read is None or CHANNELS[column.key].dimension != TEMPERATURE:
            continue
        still = not by_hand and never_moves(time, read, column.key)
        if np.isfinite(read).any() and not still:
            continue
        del values[column.key]
        columns[i] = Column(head=column.head, key="", unit="", note="left out: not plugged in")
        value, limit = ("one figure all the way", "never moves while the engine does")
        if not still:
            value, limit = f"{ENDS} all the way", UNPLUGGED
        fix = "plug it in and log again, or take another thermometer"
        dead.append(Refusal(field=f"column {shortened(column.head, 40)!r}", value=value, limit=limit, fix=fix))
        remarks.append(f"Column {shortened(column.head, 40)!r} is left out: {value} {limit}.")
    if dead and not any(key in values for key in ("coolant", "gauge")):
        raise dead[0]


def _without_wrong_units(name: str, time: Floats, values: dict[str, Floats], remarks: list[str]) -> None:
    """Take out an engine's temperature that no engine has in the unit that was read; refuse a log that has no other."""
    doubts = {key: wrong_unit(time, values[key]) for key in ("coolant", "gauge") if key in values}
    for key, doubt in doubts.items():
        if doubt and all(doubts.values()):
            fix = "look at the unit of its column, it may be the other one (°C, °F), and whether the probe was in place"
            raise Refusal(field="log", value=shortened(name), limit=f"{_named(key)} {doubt}", fix=fix)
        if doubt:
            del values[key]
            remarks.append(f"{_named(key).capitalize()} is left out: it {doubt}.")
        elif cold := cold_all_along(values[key]):
            remarks.append(
                f"{_named(key).capitalize()} {cold}: if the engine was warm, its column is in the other unit."
            )


def _without_faults(time: Floats, values: dict[str, Floats], by_hand: bool, remarks: list[str]) -> None:
    """Take out figures that no sensor can mean and single wild temperatures, in place; say how many."""
    for key in list(values):
        low, high = CHANNELS[key].hard
        known = np.isfinite(values[key])
        outside = known & ((values[key] < low) | (values[key] > high))
        if outside.any():
            values[key] = np.where(outside, np.nan, values[key])
            remarks.append(f"{int(outside.sum()):,} impossible figures of {_named(key)} are left out.")
        if not by_hand and CHANNELS[key].dimension == TEMPERATURE and key in TEMPERATURES:
            values[key], wild = without_spikes(time, values[key])
            if wild:
                remarks.append(f"{wild:,} wild figures of {_named(key)} are left out.")
        if not np.isfinite(values[key]).any():
            del values[key]


def _say_gaps(time: Floats, by_hand: bool, remarks: list[str]) -> None:
    gaps = np.diff(time)
    long = gaps > GAP
    if not by_hand and long.any():
        longest = f"{gaps.max():.0f} s" if gaps.max() < 120.0 else f"{gaps.max() / 60.0:.0f} min"
        count = int(long.sum())
        gaps_words = f"A gap of {longest}" if count == 1 else f"{count:,} gaps, the longest {longest}"
        remarks.append(f"{gaps_words}: what was driven is bridged evenly.")
