"""A logged drive beside the same drive of possible vehicles: what each would have shown when it was read."""

import dataclasses
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from toptank.knowledge.drives.drive_log import DriveLog
from toptank.knowledge.drives.track import Floats
from toptank.knowledge.model_discrepancy import NEEDLE, START, THERMOMETER, covariance, looked_at
from toptank.system.drive_batch import Drives, Unsure, drive_all
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jax
from toptank.system.profile import Profile
from toptank.system.vehicle import Vehicle
from toptank.units.cancellation import CancelCheck, never_cancelled

STEPS, LONGEST_STEP = 600, 2.0
"""Steps that a drive is gone through in, if none of them then exceeds so long [s].

Against steps of one second the gauge of the built-in example moves by 0.02 K in the middle, 0.2 K in one place of ten,
1 K in one of a hundred, where a clutch goes to and fro at another second."""

COLD = 12.0
"""How near to the air outside an engine that stood overnight begins [K]."""

AMBIENT_DOUBT, WIND_DOUBT = 1.0, 1.5
"""How far a thermometer on the road may be off the air at the grille [K], and the wind against the nose [m/s];
judgement."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LoggedDrive:
    """A log with the profile that was driven.

    log : the log
    profile : the duties that it tells of
    noise : of the instrument that was read [K]
    """

    log: DriveLog
    profile: Profile
    noise: float

    @classmethod
    def of(cls, log: DriveLog, profile: Profile) -> "LoggedDrive":
        """Take a needle for noted by eye, anything else for an instrument."""
        return cls(log=log, profile=profile, noise=NEEDLE if log.by_hand else THERMOMETER)

    @property
    def read(self) -> Floats:
        """Temperature read each second [K]; NaN where none was."""
        return self.log.read[self.log.place]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Beside:
    """Readings of a log and what possible vehicles would have shown then.

    time, read : (reading,) [s], [K]
    shown : (draw, reading) [K]
    spread : covariance of what the right vehicle may still miss (reading, reading) [K2]
    drives : the whole drives
    """

    time: Floats
    read: Floats
    shown: Floats
    spread: Floats
    drives: Drives


def beside(drive: LoggedDrive, vehicles: Vehicle, unsure: Unsure, go_on: CancelCheck = never_cancelled) -> Beside:
    """Drive possible vehicles along the profile of a log and read them where it was read.

    Parameters
    ----------
    drive : the log and its profile
    vehicles : fields are arrays (draw,)
    unsure : what the day of each draw differs by
    go_on : is called between pieces of the drives, and may stop the work
    """
    drives = gone_along(drive, vehicles, unsure, go_on)
    places = looked_at(drive.read)
    time, read = drive.log.time[places], drive.read[places]
    shown = shown_at(drive, drives, time)
    start = max(START, abs(float(np.median(shown[:, 0]) - read[0])) if time[0] < 60.0 else START)
    return Beside(
        time=time, read=read, shown=shown, spread=covariance(time, noise=drive.noise, start=start), drives=drives
    )


def gone_along(drive: LoggedDrive, vehicles: Vehicle, unsure: Unsure, go_on: CancelCheck = never_cancelled) -> Drives:
    """Drive possible vehicles along the profile of a log."""
    return drive_all(vehicles, coarser(drive.profile), before=came_from(drive), unsure=unsure, go_on=go_on)


def shown_at(drive: LoggedDrive, drives: Drives, time: Floats) -> Floats:
    """What each vehicle shows at times [s], at the place that was read (draw, reading) [K]."""
    track = drives.gauge if drive.log.place == "gauge" else drives.engine_out
    kept = np.asarray(coarser(drive.profile).time, float)
    return np.array([np.interp(time, kept, row) for row in list(track)], np.float64)


def coarser(profile: Profile) -> Profile:
    """The same drive in fewer steps: means over as many seconds as it takes."""
    seconds = len(profile.time)
    together = int(min(max(-(-seconds // STEPS), 1), LONGEST_STEP))
    starts = np.arange(0, seconds, together)
    count = np.diff(np.append(starts, seconds))

    def mean(leaf: Floats) -> Floats:
        return np.add.reduceat(np.asarray(leaf, float), starts) / count

    if len(starts) < 2:
        return profile
    duty: Duty = jax.tree.map(mean, profile.duty)
    return Profile(
        time=np.asarray(profile.time, float)[starts],
        distance=np.asarray(profile.distance, float)[starts],
        running=np.round(mean(profile.running)),
        duty=duty,
    )


def came_from(drive: LoggedDrive) -> Duty | None:
    """The duty at which a warm vehicle had settled before the log begins: that of its first minute, level; None: cold.

    What that leaves open of the start is part of the covariance.
    """
    profile, read = drive.profile, drive.read
    first = read[np.isfinite(read)][0]
    if first < float(profile.ambient[0]) + COLD:
        return None
    minute: NDArray[np.bool_] = np.asarray(profile.time, float) <= 60.0

    def mean(leaf: Floats) -> float:
        return float(np.mean(np.asarray(leaf, float)[minute]))

    duty: Duty = jax.tree.map(mean, profile.duty)
    return dataclasses.replace(duty, grade=0.0)


def doubts_of_the_day(n: int, seed: int) -> Unsure:
    """What the day of each of n draws differs by from what was logged."""
    rng = np.random.default_rng((seed, 31))
    return Unsure(ambient=AMBIENT_DOUBT * rng.standard_normal(n), head_wind=WIND_DOUBT * rng.standard_normal(n))
