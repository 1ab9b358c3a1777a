"""Times of a log in seconds: as a clock, as ISO, as seconds or another unit that is named. Never guessed."""

import numpy as np
import polars as pl

from toptank.knowledge.drives.track import Floats
from toptank.shop.files.read_bytes import shortened
from toptank.shop.log.log_columns import TIME_UNITS, Head
from toptank.units.refusal import Refusal

DAY, HOUR = 86_400.0, 3600.0
TWELVE_FALLS_BY = 2.0 * HOUR
"""How near to twelve hours a clock of twelve hours falls from one row to the next [s]: a drive has no longer pause."""

LONGEST = 86_400
"""Longest drive that is read [s]."""

MINUTES_AND_SECONDS = "minutes and seconds"
"""How mm:ss is called."""

MOSTLY = 0.9
"""Share of the cells that must be readable as times [1]."""

UNIX = (1e8, 1e10)
"""Figures that can only be seconds since 1970; a thousand times as large: milliseconds."""

_CLOCK = r"(\d{1,2}):(\d{2}):(\d{2}(?:[.,]\d+)?)\s*([AaPp])?\.?[Mm]?"
_SHORT = r"^(\d{1,3}):(\d{2}(?:[.,]\d+)?)\s*(?:([AaPp])\.?[Mm]\.?)?$"
_DATE = r"(\d{4}-\d{2}-\d{2})[T ]"
_WHEN = ("clock", "time of day", "local time")


def seconds(cells: pl.Series, head: Head, stated: str, decimal_comma: bool) -> tuple[Floats, str]:
    """Times of every row [s], NaN where none stands, and how they were understood.

    Parameters
    ----------
    cells : texts; null where nothing stands
    head : head of the column
    stated : what a mapping or a row of units says: a unit of time, hh:mm, mm:ss, unix, or nothing
    decimal_comma : figures have a comma before their decimals

    Raises
    ------
    Refusal : they are no times, or it is not said which unit they have
    """
    form = stated or head.unit.lower() or _form_in_words(head.words)
    known = int(cells.is_not_null().sum())
    if known == 0:
        raise _refusal(head, "(empty)", "holds no time", "name the column that does")
    plain = cells.str.replace(",", ".", literal=True) if decimal_comma else cells
    figures = plain.cast(pl.Float64, strict=False)
    if int(figures.is_finite().sum()) >= MOSTLY * known:
        return _figures(np.asarray(figures.fill_null(np.nan).to_numpy(), float), head, form)
    each = _each_with_its_unit(plain)
    if int(np.isfinite(each).sum()) >= MOSTLY * known:
        return each, "unit in every cell"
    long = cells.str.extract_groups(_CLOCK)
    fields = long.struct.unnest()
    if int(fields.to_series(2).is_not_null().sum()) >= MOSTLY * known:
        return _clock(cells, fields), "clock"
    short = cells.str.extract_groups(_SHORT).struct.unnest()
    if int(short.to_series(1).is_not_null().sum()) >= MOSTLY * known:
        return _short(short, head, form)
    example = next(cell for cell in cells if cell is not None)
    fix = 'write a clock such as 14:05:30, an ISO time, or seconds in a column named "time (s)"'
    raise _refusal(head, str(example), "is no time that can be read", fix)


def _each_with_its_unit(cells: pl.Series) -> Floats:
    """Times such as "6 min" or "30 s" [s]; NaN where a cell is none."""
    parts = cells.str.extract_groups(r"^(\d+(?:\.\d+)?)\s*([A-Za-z]+)$").struct.unnest()
    sizes = (
        parts.to_series(1).str.to_lowercase().replace_strict(dict(TIME_UNITS), default=None, return_dtype=pl.Float64)
    )
    return _number(parts.to_series(0)) * np.array(sizes.fill_null(np.nan).to_numpy(), float)


def _form_in_words(words: str) -> str:
    """A unit or form that the head itself says: "minutes", "clock"."""
    last = words.rpartition(" ")[2]
    if last in TIME_UNITS and (last == words or len(last) > 2):
        return last
    if words.startswith("unix"):
        return "unix"
    return "hh:mm" if words in _WHEN else ""


def _figures(figures: Floats, head: Head, form: str) -> tuple[Floats, str]:
    if form in TIME_UNITS:
        return figures * TIME_UNITS[form], form
    known = figures[np.isfinite(figures)]
    if form in ("unix", "") and len(known):
        for size, told in ((1.0, "seconds since 1970"), (1e-3, "milliseconds since 1970")):
            if bool(np.all((known * size > UNIX[0]) & (known * size < UNIX[1]))):
                return figures * size, told
    if form == "hh:mm":
        raise _refusal(head, f"{known[0]:g}" if len(known) else "?", "is no clock", "write it with a colon: 14:05")
    fix = f'write the unit into its head, such as "{shortened(head.written, 30)} (s)", or say --column "... = time s"'
    raise _refusal(head, f"{known[0]:g}" if len(known) else "?", "is a figure without a unit of time", fix)


def _clock(cells: pl.Series, fields: pl.DataFrame) -> Floats:
    """Hours, minutes and seconds, past midnight too; with the date where it is written as in ISO."""
    hour, minute, second = (_number(fields.to_series(i)) for i in range(3))
    half = fields.to_series(3)
    hour = _with_half_of_day(hour, half)
    of_day = hour * 3600.0 + minute * 60.0 + second
    of_day[(hour > 24.0) | (minute > 59.0) | (second >= 61.0)] = np.nan
    dates = cells.str.extract(_DATE).str.to_date("%Y-%m-%d", strict=False)
    if int(dates.is_not_null().sum()) >= MOSTLY * int(cells.is_not_null().sum()):
        days = dates.cast(pl.Int32).cast(pl.Float64).fill_null(np.nan)
        return of_day + DAY * np.asarray(days.to_numpy(), float)
    return _going_on(of_day, half)


def _short(fields: pl.DataFrame, head: Head, form: str) -> tuple[Floats, str]:
    """Two figures with a colon: hours and minutes only if it is said, or a half of the day stands behind them."""
    first, second, half = fields.to_series(0), fields.to_series(1), fields.to_series(2)
    large, small = _number(first), _number(second)
    halves = bool(half.is_not_null().any())  # once is enough: whoever writes by hand writes it once
    fractions = bool(second.str.contains(r"[.,]").any())
    small[small >= 60.0] = np.nan
    if form == "mm:ss" or (fractions and form != "hh:mm"):
        turned = large * 60.0 + small
        known = np.isfinite(turned)
        if bool(np.all(large[known] < 60.0)):  # a spreadsheet cuts the hours off
            turned[known] = np.unwrap(turned[known], period=3600.0)
        return turned, MINUTES_AND_SECONDS
    if form == "hh:mm" or halves:
        of_day = _with_half_of_day(large, half) * 3600.0 + small * 60.0
        return _going_on(of_day, half), "hours and minutes"
    example = next(cell for cell in first if cell is not None)
    fix = 'call the column "clock" for hours and minutes, or write "(mm:ss)" behind its head for minutes and seconds'
    raise _refusal(head, f"{example}:..", "may be hours and minutes or minutes and seconds", fix)


def _going_on(of_day: Floats, half: pl.Series) -> Floats:
    """Times of the day [s] as times that go on: past midnight, and past 12:59 on a clock of twelve hours.

    A half of the day that stands in some rows only holds for the others too, as it does for whoever wrote "2:05 pm" in
    the first line and "2:20" in the next.
    Where no hour is 0 or beyond 12, a fall by about twelve hours from one row to the next is a clock of twelve hours
    that goes on: on one of twenty-four it would be a pause of half a day, which no drive has.
    """
    known = np.isfinite(of_day)
    found = of_day[known]
    told = np.asarray(half.is_not_null().to_numpy(), bool) & known
    if told.any() and not told[known].all() and bool(np.all((found < 13.0 * HOUR) | told[known])):
        on_dial = np.unwrap(found % (0.5 * DAY), period=0.5 * DAY)
        first = int(np.argmax(told[known]))
        of_day[known] = on_dial + (found[first] - on_dial[first])
        return of_day
    falls = bool(np.any(np.abs(np.diff(found) + 0.5 * DAY) <= TWELVE_FALLS_BY))
    twelve = falls and bool(np.all((found >= HOUR) & (found < 13.0 * HOUR)))
    of_day[known] = np.unwrap(found, period=0.5 * DAY if twelve else DAY)
    return of_day


def _with_half_of_day(hour: Floats, half: pl.Series) -> Floats:
    later = np.asarray((half.str.to_lowercase() == "p").fill_null(False).to_numpy(), bool)
    sooner = np.asarray((half.str.to_lowercase() == "a").fill_null(False).to_numpy(), bool)
    return np.where(later & (hour < 12.0), hour + 12.0, np.where(sooner & (hour == 12.0), 0.0, hour))


def _number(texts: pl.Series) -> Floats:
    figures = texts.str.replace(",", ".", literal=True).cast(pl.Float64, strict=False)
    return np.array(figures.fill_null(np.nan).to_numpy(), float)


def _refusal(head: Head, value: str, limit: str, fix: str) -> Refusal:
    return Refusal(field=f"column {shortened(head.written, 40)!r}", value=shortened(value), limit=limit, fix=fix)
