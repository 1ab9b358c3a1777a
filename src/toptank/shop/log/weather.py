"""The air outside along a drive: one figure, a change from start to end, or a small file of times and temperatures."""

import re
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from toptank.knowledge.drives.drive_log import on_a_grid
from toptank.knowledge.drives.track import Floats
from toptank.shop.files.read_bytes import shortened
from toptank.shop.files.typed_figure import between
from toptank.shop.log.log_clock import LONGEST, MINUTES_AND_SECONDS
from toptank.shop.log.log_columns import TIME_UNITS
from toptank.shop.log.log_file import TOO_FEW, LogRows, read_rows
from toptank.shop.log.log_mapping import TIME
from toptank.units.conversion import System
from toptank.units.dimension import TEMPERATURE
from toptank.units.refusal import Refusal

COLDEST, HOTTEST = 233.15, 333.15
"""Limits of the air outside [K]; those of a duty."""

SHORT_BY = 60.0
"""How much sooner than the drive a file of the weather may end without a word [s]."""

SUDDEN = 1.0
"""Time that a sudden change takes [s]: one step of a drive."""

_RAMP = re.compile(r"(.+?)\s+to\s+(.+)", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Weather:
    """Air temperature outside.

    Parameters
    ----------
    at : where each temperature holds: shares of the drive's length [1], or times from its start [s]
    ambient : the temperatures [K]; even change between them, the first and the last hold beyond
    timed : `at` are times
    notes : bare figures and the unit they were taken in
    file : name of the file it was read from; empty without one
    remarks : what was left out of that file
    """

    at: tuple[float, ...]
    ambient: tuple[float, ...]
    timed: bool
    notes: tuple[str, ...] = ()
    file: str = ""
    remarks: tuple[str, ...] = ()

    def along(self, time: Floats) -> Floats:
        """Air temperature [K] at the times of a drive [s]."""
        place = time if self.timed else time / max(float(time[-1]), 1e-9)
        return np.interp(place, self.at, self.ambient)

    def said(self, seconds: float) -> tuple[str, ...]:
        """What a person should look at again before a drive that takes so long [s]."""
        said = tuple(f"{self.file}: {remark}" for remark in self.remarks)
        if self.timed and seconds > self.at[-1] + SHORT_BY:
            end = f"{self.at[-1] / 60.0:.0f} of the {seconds / 60.0:.0f} minutes of the drive"
            said += (f"{self.file} ends after {end}: its last figure holds from there on.",)
        return said


def read_weather(text: str, *, system: System, field: str = "ambient") -> Weather:
    """Read "98 F", "88 F to 98 F" (even change from start to end), or the name of a file with times and temperatures.

    The file is read like a log: a column of times, from the start of the drive on, and one for the air outside.

    Raises
    ------
    Refusal : if it is none of them, or a temperature that no weather has
    """
    notes: list[str] = []
    if text.strip().lower().endswith((".csv", ".tsv", ".txt")):
        return _from_file(Path(text.strip()), field)
    if ramp := _RAMP.fullmatch(text.strip()):
        first, last = (end.strip() for end in ramp.groups())
        units = [end.lstrip("+-−0123456789.,/ ") for end in (first, last)]
        written = [
            f"{end} {units[0] or units[1]}".rstrip() if not unit else end
            for end, unit in zip((first, last), units, strict=True)
        ]  # an end without a unit has the other's
        ends = tuple(between(field, end, TEMPERATURE, COLDEST, HOTTEST, system, notes) for end in written)
        return Weather(at=(0.0, 1.0), ambient=ends, timed=False, notes=tuple(notes))
    constant = between(field, text, TEMPERATURE, COLDEST, HOTTEST, system, notes)
    return Weather(at=(0.0,), ambient=(constant,), timed=False, notes=tuple(notes))


def _from_file(path: Path, field: str) -> Weather:
    try:
        file = read_rows(path, longest_pause=LONGEST)  # the air is read by the hour, where a drive has no pause
    except Refusal as refusal:  # it speaks of a log and of options that only logs have
        where = f"{field} in {shortened(path.name)}, {refusal.field.removeprefix('log ')}"
        fix = refusal.fix.partition(", or say --column")[0]
        if refusal.field == "log time" and refusal.limit == TOO_FEW:
            fix = 'for one figure all the way say it itself, such as "98 F"; else write down its beginning and its end'
        raise Refusal(field=where, value=refusal.value, limit=refusal.limit, fix=fix) from refusal
    if "ambient" not in file.values:
        fix = 'it needs a column of times and one called "ambient (°F)" or "ambient (°C)"'
        limit = "has no column for the air outside"
        raise Refusal(field=field, value=shortened(path.name), limit=limit, fix=fix)
    elapsed = any(one.key == TIME and one.unit in (*TIME_UNITS, MINUTES_AND_SECONDS) for one in file.columns)
    at, air, steps = _rows(file)
    at = at + (file.began if elapsed else 0.0)
    remarks = [] if elapsed else ["its first time is taken as the start of the drive"]
    if at[0] > SHORT_BY:
        remarks.append(f"it begins {at[0] / 60.0:.0f} minutes after the start: its first figure holds until then")
    if at[0] < 0.0:
        remarks.append(f"it begins {-at[0] / 60.0:.0f} minutes before the start: what was before is left alone")
    if steps:
        remarks.append("two figures for one moment are taken as a sudden change")
    return Weather(
        at=tuple(at.tolist()),
        ambient=tuple(air.tolist()),
        timed=True,
        file=shortened(path.name),
        remarks=(*remarks, *file.remarks),
    )


def _rows(file: LogRows) -> tuple[Floats, Floats, bool]:
    """Times from the first row on [s] and air outside [K] of a file; whether it changes suddenly somewhere.

    Rows of a logger are brought to one a second; in a table by hand a moment that is told twice has a figure before it
    and one after it.
    """
    if not file.by_hand:
        log = on_a_grid(file.time, {"ambient": file.values["ambient"]}, by_hand=False)
        return log.time, log.driven["ambient"], False
    known = np.isfinite(file.values["ambient"])
    time, air = file.time[known], file.values["ambient"][known]
    first, last = (np.unique(values, return_index=True)[1] for values in (time, time[::-1]))
    last = len(time) - 1 - last
    sudden = bool(np.any(air[first] != air[last]))
    places = np.unique(np.concatenate([first, last]))
    again = np.append(False, np.diff(time[places]) == 0.0)
    return time[places] + SUDDEN * again, air[places], sudden
