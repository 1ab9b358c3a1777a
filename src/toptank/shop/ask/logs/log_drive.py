"""From a log to the drive that it tells of: what the log does not say is asked for, never taken as flat or mild."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
from numpy.typing import NDArray

from toptank.knowledge.drives.logged import LoggedDrive
from toptank.knowledge.drives.road import road
from toptank.knowledge.sheet import duty
from toptank.shop.files.read_bytes import shortened
from toptank.shop.files.typed_figure import between
from toptank.shop.log.weather import read_weather
from toptank.system.duty import HEATER_FULL
from toptank.system.profile import Profile
from toptank.units.dimension import ALTITUDE, GRADE, SPEED
from toptank.units.refusal import Refusal
from toptank.units.sentence import Quantity, Sentence, Text, sentence

if TYPE_CHECKING:
    from toptank.knowledge.drives.drive_log import DriveLog
    from toptank.knowledge.drives.track import Floats
    from toptank.shop.job.job import Job
    from toptank.shop.log.log_file import LogFile
    from toptank.units.conversion import System

TURNING = 200.0 / 60.0
"""Engine speed beyond which an engine runs [1/s]."""

ROLLING, SOME = 2.5, 5
"""Speed at which an engine that is logged as off is doubted [m/s], and after how many seconds that is told [1]."""

MOSTLY = 0.5
"""Share of the driving without a figure from which an engine speed is not used at all [1]; judgement."""

SHORTEST = 120.0
"""Shortest drive that says something [s]."""

FEWEST = 2
FITTED = 600.0
"""Length of road that a grade is fitted to [m]; see `knowledge.road`."""


class DriveTold(NamedTuple):
    """The drive of a log, what was taken for granted, bare numbers with the unit that they were taken in."""

    drive: LoggedDrive
    remarks: tuple[Text, ...]
    assumed_units: tuple[str, ...]


def logged_drive(
    file: LogFile,
    job: Job,
    *,
    ambient: str | None = None,
    grade: str | None = None,
    load: str = "",
    system: System,
) -> DriveTold:
    """Return the drive of a log, and what was taken for granted.

    Parameters
    ----------
    file : the log as read
    job : whose load and humidity it was driven with
    ambient, grade : what the log does not say, as people write it
    load : condition of the job that it was loaded as, trailer and all; the first one where none is named
    system : what bare figures mean

    Raises
    ------
    Refusal : if temperatures, speed, air outside or grade are missing
    """
    log, notes, units = file.log, list[Text](), list[str]()
    _all_there(file, ambient=ambient, grade=grade)
    speed = _speed(log, file)
    first = next((one for one in job.duties if one.name == load), job.duties[0])
    along = duty(first)
    height, slope = _height_and_grade(log, file, speed, grade, float(along.altitude), system, notes, units)
    outside = _outside(log, file, ambient, system, notes, units)
    running, turning = _engine(log, speed, notes)
    profile = Profile.of(
        time=log.time,
        running=running,
        duty=dataclasses.replace(
            along,
            ambient=np.clip(outside, 233.15, 333.15),
            altitude=np.clip(height, -500.0, 5500.0),
            speed=speed,
            grade=np.clip(slope, -0.3, 0.4),
            air_conditioning=_switch(log, "air_conditioning", float(along.air_conditioning), notes),
            heater=HEATER_FULL * log.driven.get("heater", 0.0),
            engine_speed=turning,
            in_gear=0.0,
            gear=0.0,
        ),
    )
    pulled = float(along.trailer_mass)
    notes.append(f"Load and humidity are those of {first.name!r}{', trailer included' if pulled else ''}.")
    return DriveTold(LoggedDrive.of(log, profile), tuple(notes), tuple(units))


def _all_there(file: LogFile, *, ambient: str | None, grade: str | None) -> None:
    """Refuse a log with all that it lacks at once: nobody wants to be sent away three times."""
    driven = file.log.driven
    asked = (
        (lambda: _enough(file), True),
        (lambda: _speed(file.log, file), True),
        (lambda: _refuse(no_ambient(file.name)), ambient is None and "ambient" not in driven),
        (lambda: _refuse(no_grade(file.name)), grade is None and not {"grade", "altitude"} & driven.keys()),
    )
    lacks: list[Refusal] = []
    for ask, due in asked:
        if not due:
            continue
        try:
            ask()
        except Refusal as refusal:
            lacks.append(refusal)
    if len(lacks) == 1:
        raise lacks[0]
    if lacks:
        limit, fix = ("; ".join(getattr(one, part) for one in lacks) for part in ("limit", "fix"))
        raise Refusal(field="log", value=shortened(file.name), limit=limit, fix=fix)


def _refuse(refusal: Refusal) -> None:
    raise refusal


def _enough(file: LogFile) -> None:
    log = file.log
    if not log.place:
        fix = 'it needs a column such as "coolant (°C)" or "gauge (°F)"'
        raise Refusal(field="log", value=shortened(file.name), limit="holds no temperature of the engine", fix=fix)
    if log.length < SHORTEST or int(np.isfinite(log.read[log.place]).sum()) < FEWEST:
        limit = f"a drive has two readings and {SHORTEST / 60.0:.0f} minutes at the least"
        raise Refusal(field="log", value=f"{log.length:.0f} s", limit=limit, fix="drive on, and log again")


def _speed(log: DriveLog, file: LogFile) -> Floats:
    if "speed" in log.driven:
        return log.driven["speed"]
    if "distance" in log.driven:
        moved = np.gradient(log.driven["distance"])
        window = np.ones(min(11, len(moved))) / min(11, len(moved))
        return np.clip(np.convolve(moved, window, mode="same"), 0.0, 70.0)
    fix = 'log or note it, in a column such as "speed (mph)"; 0 while it stands'
    raise Refusal(field="log", value=shortened(file.name), limit="does not say how fast it was driven", fix=fix)


def _height_and_grade(
    log: DriveLog,
    file: LogFile,
    speed: Floats,
    grade: str | None,
    usual: float,
    system: System,
    notes: list[Text],
    units: list[str],
) -> tuple[Floats, Floats]:
    """Height and grade every second: from the grade that is logged or given, else from heights along the way."""
    distance = np.concatenate([[0.0], np.cumsum(speed[:-1])])
    slope = log.driven.get("grade")
    if slope is None and grade is not None:
        slope = np.full(len(log.time), between("grade", grade, GRADE, -0.3, 0.4, system, units))
    if slope is None and "altitude" in log.driven:
        way = road(distance, log.driven["altitude"])
        notes.append(
            sentence(
                "Grade: slope of a line fitted to the heights of {road} of road.", {"road": Quantity(FITTED, ALTITUDE)}
            )
        )
        return np.interp(distance, way.distance, way.altitude), np.interp(distance, way.distance, way.grade)
    if slope is None:
        raise no_grade(file.name)
    risen = np.concatenate([[0.0], np.cumsum(speed[:-1] * slope[:-1])])
    if "altitude" in log.driven:
        return log.driven["altitude"], slope
    notes.append("Height above the sea: that of the job's first duty, and what the grade adds.")
    return usual + risen, slope


def _outside(
    log: DriveLog, file: LogFile, ambient: str | None, system: System, notes: list[Text], units: list[str]
) -> Floats:
    if ambient is not None:
        weather = read_weather(ambient, system=system)
        units += weather.notes
        notes += weather.said(log.length)
        return weather.along(log.time)
    if "ambient" in log.driven:
        return log.driven["ambient"]
    raise no_ambient(file.name)


def no_ambient(name: str) -> Refusal:
    """Return why a log without the air outside cannot be used."""
    fix = 'say --ambient "92 F", or "88 F to 95 F" from start to end'
    return Refusal(field="log", value=shortened(name), limit="does not say how warm the air was", fix=fix)


def no_grade(name: str) -> Refusal:
    """Return why a log without height and grade cannot be used."""
    fix = 'log altitude, note the grade in a column, or say --grade "0 %" if it was flat'
    return Refusal(field="log", value=shortened(name), limit="says neither height nor grade", fix=fix)


def _engine(log: DriveLog, speed: Floats, notes: list[Text]) -> tuple[Floats, Floats]:
    """Whether the engine runs, and its speed [1/s]; 0, as geared, where none is logged or it cannot be believed.

    A vehicle that drives has its engine on: what says otherwise is not used, rather than taken for a heat soak. A rev
    counter that drops out now and then is believed for the rest, and where the vehicle stands.
    """
    rolling, turning = speed > ROLLING, log.driven.get("engine_speed")
    turns = np.zeros(len(speed)) if turning is None else np.clip(turning, 0.0, 150.0)
    turns = np.where(turns > TURNING, turns, 0.0)
    silent = rolling & (turns == 0.0)
    if turning is not None and np.sum(silent) > MOSTLY * np.sum(rolling):
        notes.append(_driven("The engine speed is not used: it is 0 {driven}.", silent, speed))
        turning, turns = None, np.zeros(len(speed))
    elif turning is not None and np.sum(silent) > SOME:
        notes.append(_driven("The engine speed is taken as geared where it is 0 {driven}.", silent, speed))
    if "running" in log.driven:
        on = log.driven["running"] > 0.5
    else:
        on = turns > 0.0 if turning is not None else np.ones(len(speed), bool)
    astray = rolling & ~on
    if np.sum(astray) > SOME:
        notes.append(_driven("The engine is taken as on {driven}, although the log has it off.", astray, speed))
    return (on | rolling).astype(float), turns


def _driven(pattern: str, where: NDArray[np.bool_], speed: Floats) -> Sentence:
    """Say for how long and how fast it was driven at these seconds."""
    driven = sentence(
        "for {seconds} s of driving at up to {fastest}",
        {"seconds": f"{int(where.sum()):,}", "fastest": Quantity(float(speed[where].max()), SPEED, 0)},
    )
    return sentence(pattern, {"driven": driven})


def _switch(log: DriveLog, key: str, usual: float, notes: list[Text]) -> Floats:
    if key in log.driven:
        return log.driven[key]
    notes.append(f"Air conditioning: {'on' if usual > 0.5 else 'off'}, as at the job's first duty.")
    return np.full(len(log.time), usual)
