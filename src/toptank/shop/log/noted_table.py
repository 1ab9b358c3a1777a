"""A drive that was noted by hand, line by line: made into the text of a log, each figure with its unit."""

import csv
import io
import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from toptank.shop.files.read_bytes import shortened
from toptank.units.conversion import System
from toptank.units.dimension import GRADE, SPEED, TEMPERATURE, Dimension
from toptank.units.quantity import parse
from toptank.units.refusal import Refusal

MOST_ROWS, FEWEST = 60, 2
LONGEST_BACK = 600.0
"""Minutes by which a clock goes back at least that goes past noon, 12:59 to 1:00, or midnight: less is a slip."""

FLAT = ("flat", "level")

HALF = re.compile(r"\s*[ap]\.?m\.?$", re.IGNORECASE)
"""The half of the day behind a clock; it need stand in one line only."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NotedRow:
    """One line as it was typed; what is empty was not noted.

    Parameters
    ----------
    at : a clock, 14:05, or minutes from the start
    gauge, speed, grade : figures as people write them
    air_conditioning : on or off
    """

    at: str
    gauge: str
    speed: str
    grade: str
    air_conditioning: str


def table_text(rows: Sequence[NotedRow], system: System) -> str:
    """Return the lines as the text of a log.

    Parameters
    ----------
    rows : empty ones are left out
    system : what bare figures mean

    Raises
    ------
    Refusal : if there are too few lines, one has no time, or a figure cannot be used
    """
    told = [(number, row) for number, row in enumerate(rows, start=1) if _says_something(row)]
    if len([row for _, row in told if row.gauge.strip()]) < FEWEST or len(told) > MOST_ROWS:
        limit = f"must have between {FEWEST} lines with a reading and {MOST_ROWS} in all"
        fix = "write the time, the gauge and the speed, at least at the start, where it was hottest and at the end"
        raise Refusal(field="table", value=f"{len(told)} lines", limit=limit, fix=fix)
    clock = _is_clock(told)
    lines = [["clock" if clock else "time (min)", "gauge", "speed", "grade", "A/C"]]
    for number, row in told:
        cells = (("gauge", row.gauge, TEMPERATURE), ("speed", row.speed, SPEED), ("grade", row.grade, GRADE))
        written = [_with_unit(f"line {number}, {name}", text, kind, system) for name, text, kind in cells]
        lines.append([row.at.strip(), *written, _switch(number, row.air_conditioning)])
    noted = [i for i in range(len(lines[0])) if any(line[i] for line in lines[1:])]
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows([[line[i] for i in noted] for line in lines])
    return text.getvalue()


def _says_something(row: NotedRow) -> bool:
    return any(text.strip() for text in (row.at, row.gauge, row.speed, row.grade))


def _is_clock(told: Sequence[tuple[int, NotedRow]]) -> bool:
    """Whether the times are clocks; all must be of one kind."""
    clocks = 0
    for number, row in told:
        at = row.at.strip()
        hour, colon, minute = _dial(at).partition(":")
        if not (hour.isdecimal() and minute.isdecimal() if colon else _is_figure(at)):
            fix = "write a clock such as 14:05, or minutes from the start such as 6"
            limit = "is no time" if at else "is needed in every line that says something"
            raise Refusal(field=f"line {number}, time", value=shortened(at) or "(missing)", limit=limit, fix=fix)
        clocks += bool(colon)
    if clocks not in (0, len(told)):
        limit, fix = "are clocks in some lines and minutes in others", "write all of them alike"
        raise Refusal(field="time", value=f"{clocks} of {len(told)}", limit=limit, fix=fix)
    _in_order(told)
    return clocks > 0


def _in_order(told: Sequence[tuple[int, NotedRow]]) -> None:
    """Refuse a time that is before the one above it; a clock may go past noon or midnight."""
    for (_, above), (number, row) in pairwise(told):
        back = _minutes(above.at) - _minutes(row.at)
        if back > 0.0 and not (":" in row.at and back > LONGEST_BACK):
            limit, fix = f"is before {above.at.strip()} in the line above", "write the time anew, or the lines in order"
            raise Refusal(field=f"line {number}, time", value=shortened(row.at.strip()), limit=limit, fix=fix)


def _minutes(at: str) -> float:
    hour, colon, minute = _dial(at).partition(":")
    return 60.0 * float(hour) + float(minute) if colon else float(hour)


def _dial(at: str) -> str:
    """A clock without its half of the day, "2:05" of "2:05 pm"; whatever else as it is."""
    told = at.strip()
    bare = HALF.sub("", told)
    return bare if ":" in bare else told


def _is_figure(text: str) -> bool:
    whole, _, part = text.partition(".")
    return whole.isdecimal() and (part == "" or part.isdecimal())


def _with_unit(field: str, text: str, dimension: Dimension, system: System) -> str:
    told = text.strip()
    if not told:
        return ""
    if dimension == GRADE and told.lower() in FLAT:
        return "0 %"
    read = parse(told, dimension, system=system, field=field)
    return f"{told} {read.unit}" if read.assumed else told


def _switch(number: int, text: str) -> str:
    word = text.strip().lower()
    if word not in ("", "on", "off"):
        fix = "write one of the two, or leave it empty"
        raise Refusal(field=f"line {number}, A/C", value=shortened(text), limit="must be on or off", fix=fix)
    return word
