"""A check drive that proves something: steep, long and loaded enough, and no hotter than the customer allows."""

import dataclasses
from dataclasses import dataclass
from typing import Any

import numpy as np

from toptank.knowledge.drives.logged import LoggedDrive, doubts_of_the_day
from toptank.knowledge.model_discrepancy import START, THERMOMETER, covariance
from toptank.studies.verify.telling import telling
from toptank.system.drive_batch import drive_all
from toptank.system.numerics.jax_library import jax
from toptank.system.profile import Profile
from toptank.system.vehicle import Vehicle
from toptank.units.cancellation import CancelCheck, never_cancelled

DRAWS = 128
STEP = 3.0
"""Step of a drive that is only proposed [s]."""

READ_EVERY = 10
"""Steps between the readings that it is judged by [1]."""

EASY, IDLE = 180.0, 300.0
"""Time on the level before the climb and at idle behind it [s]."""

GRADES, TIMES = (0.03, 0.05, 0.07), (600.0, 900.0)
"""Climbs that are tried: the gentlest and shortest that shows enough is proposed; ten minutes are the least that the
coolant takes to show a hill [1], [s]."""

MOVING, CLIMBING, SLOWEST_CLIMB, FASTEST_CLIMB = 5.0, 15.6, 8.0, 22.0
"""Speed from which a log tells how fast to climb, that where it tells of none, the lowest and the highest [m/s]."""

SHOWS = 0.8
"""Chance to show a repair that has done nothing that is looked for [1]."""

SAFE = 0.1
"""Chance that a repaired vehicle passes its limit or boils up to which a drive is proposed [1]; judgement. What nine in
ten stay under is then never above the limit at which the driver is told to pull over."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """A better check drive.

    Parameters
    ----------
    grade, climb_time, speed : of its climb [1], [s], [m/s]
    air_conditioning : on all the way
    idle_time : at the top, engine running [s]
    ambient : air outside that it was reckoned with [K]
    power : chance that it would show a repair that has done nothing [1]
    hottest : highest reading that nine in ten repaired vehicles stay under [K]
    """

    grade: float
    climb_time: float
    speed: float
    air_conditioning: bool
    idle_time: float
    ambient: float
    power: float
    hottest: float


def better_drive(
    before: Vehicle,
    after: Vehicle,
    drive: LoggedDrive,
    limit: float,
    seed: int,
    than: float,
    go_on: CancelCheck = never_cancelled,
) -> Proposal | None:
    """The gentlest climb that would show enough; else the one that shows most.

    Parameters
    ----------
    before, after : possible vehicles before and after the work, fields are arrays (draw,)
    drive : the one that proves little: its load, weather and speed are gone on with
    limit : coolant stays under [K]
    seed : same seed, same answer
    than : chance of that drive to show work that has done nothing [1]
    go_on : is called between pieces of drives, and may stop the work

    Returns
    -------
    proposal : None if none that is safe for a repaired vehicle shows more
    """
    few: tuple[Vehicle, Vehicle] = jax.tree.map(_first, (before, after))
    speeds = np.asarray(drive.profile.speed, float)
    moving = speeds[speeds > MOVING]
    speed = float(np.clip(np.median(moving), SLOWEST_CLIMB, FASTEST_CLIMB)) if len(moving) else CLIMBING
    best: Proposal | None = None
    for cooled in (True, False):  # the load that shows most goes first, where a repaired vehicle bears it
        for grade, climb in sorted(((g, t) for g in GRADES for t in TIMES), key=_effort):
            found, risky = _tried(drive, few, grade, climb, speed, cooled, limit, seed, go_on)
            if risky > SAFE:
                break  # steeper or longer is hotter still
            if found.power > (than if best is None else best.power):
                best = found
            if best is not None and best.power >= SHOWS:
                return best
    return best


def _tried(
    drive: LoggedDrive,
    few: tuple[Vehicle, Vehicle],
    grade: float,
    climb: float,
    speed: float,
    cooled: bool,
    limit: float,
    seed: int,
    go_on: CancelCheck,
) -> tuple[Proposal, float]:
    """What a drive would show, and the chance that a repaired vehicle passes its limit or boils on it [1]."""
    before, after = few
    ambient = float(np.max(drive.profile.ambient))
    profile = _profile(drive, grade, climb, speed, ambient, cooled)
    unsure, flat = doubts_of_the_day(DRAWS, seed), jax.tree.map(_at_start, profile.duty)
    bad, sound = (
        drive_all(vehicles, profile, before=flat, unsure=unsure, every=READ_EVERY, go_on=go_on)
        for vehicles in (before, after)
    )
    time = np.asarray(profile.time, float)[::READ_EVERY]
    part = telling(time, sound.gauge, bad.gauge, covariance(time, noise=THERMOMETER, start=START))
    found = Proposal(
        grade=grade,
        climb_time=climb,
        speed=speed,
        air_conditioning=cooled,
        idle_time=IDLE,
        ambient=ambient,
        power=part.power,
        hottest=float(np.quantile(sound.peak, 1.0 - SAFE, method="lower")),
    )
    return found, float(np.mean((sound.peak > limit) | sound.boiled()))


def _effort(climb: tuple[float, float]) -> float:
    """Height gained: what is asked of the road."""
    return climb[0] * climb[1]


def _profile(drive: LoggedDrive, grade: float, climb: float, speed: float, ambient: float, cooled: bool) -> Profile:
    """Level road, climb and idle, with the load of the log, with the air conditioning on or off."""
    time = np.arange(0.0, EASY + climb + IDLE, STEP)
    climbing, standing = (time >= EASY) & (time < EASY + climb), time >= EASY + climb
    base = jax.tree.map(_at_start, drive.profile.duty)
    duty = dataclasses.replace(
        base,
        ambient=ambient,
        speed=np.where(standing, 0.0, speed),
        grade=np.where(climbing, grade, 0.0),
        altitude=np.clip(base.altitude + grade * speed * np.clip(time - EASY, 0.0, climb), -500.0, 5500.0),
        air_conditioning=float(cooled),
        engine_speed=0.0,
        heater=0.0,
    )
    return Profile.of(time=time, duty=duty)


def _first(leaf: Any) -> Any:
    return np.asarray(leaf)[:DRAWS] if np.ndim(leaf) else leaf


def _at_start(leaf: Any) -> float:
    return float(np.asarray(leaf)[0])
