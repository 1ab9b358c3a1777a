"""Trials of `after_log`: vehicles with known causes are driven, logged and weighed; what is stated should come true.

The log is that of the true vehicle on its own day, off by what the model itself says that it misses. Where the truth is
drawn from what is believed before, the rank of the truth among the draws of the answer is then uniform.
"""

import dataclasses
from typing import NamedTuple

import numpy as np

from toptank.knowledge.drives.drive_log import on_a_grid
from toptank.knowledge.drives.logged import LoggedDrive, came_from, doubts_of_the_day, gone_along, shown_at
from toptank.knowledge.model_discrepancy import START, drawn_misfit
from toptank.studies.diagnose.cause_sets import Floats
from toptank.studies.diagnose.ensemble import Ensemble
from toptank.studies.diagnose.log_evidence import LogSays, after_log
from toptank.studies.diagnose.posterior import Question
from toptank.system.duty import Duty
from toptank.system.profile import Profile

EXACT = 1e-9
"""Difference up to which two figures are the same, of any unit."""


class LogTrial(NamedTuple):
    """One vehicle and what its log led to.

    truth : the vehicle, alone
    drive : its log
    says : the answer
    """

    truth: Ensemble
    drive: LoggedDrive
    says: LogSays

    def rank(self, values: Floats, truth: float, seed: int) -> float:
        """Share of the answer that lies below the truth [1]; of what equals it, a random part."""
        weight = self.says.weighed.weight
        near = np.abs(values - truth) <= EXACT
        return float(weight @ ((values < truth) & ~near) + np.random.default_rng((seed, 3)).random() * (weight @ near))

    def held(self) -> Floats:
        """1 for every cause that is there, and for none if there is none (cause + 1,) [1]."""
        present = self.truth.present[0]
        return np.append(present, not present.any()).astype(float)


def logged(truth: Ensemble, profile: Profile, seed: int) -> LoggedDrive:
    """The log of one vehicle on one profile, once a second: its own day, and what the model misses.

    Parameters
    ----------
    truth : one vehicle
    profile : what the log tells of the drive, a second a step
    seed : of the day and of what is missed
    """
    duty, time = profile.duty, np.asarray(profile.time, float)
    driven = {name: np.asarray(getattr(duty, name), float) for name in ("speed", "grade", "altitude", "ambient")}
    driven |= {"air_conditioning": np.asarray(duty.air_conditioning, float), "running": np.asarray(profile.running)}
    warm = {"coolant": np.full(len(time), float(driven["ambient"][0]) + 60.0)}  # it came warm; read further below
    unread = LoggedDrive.of(on_a_grid(time, driven | warm, by_hand=False), profile)
    assert came_from(unread) is not None
    day = doubts_of_the_day(1, seed)
    shown = shown_at(unread, gone_along(unread, truth.vehicle, day), time)[0]
    coolant = shown + drawn_misfit(time, seed, start=START)
    return dataclasses.replace(unread, log=on_a_grid(time, driven | {"coolant": coolant}, by_hand=False))


def log_trial(question: Question, truth: Ensemble, profile: Profile, seed: int) -> LogTrial:
    """Drive and log one vehicle, and weigh the causes with the log."""
    drive = logged(truth, profile, seed)
    return LogTrial(truth, drive, after_log(question, drive, seed + 500_000))


def check_road(duty: Duty) -> Profile:
    """A road that shows much: five minutes level, ten minutes up 6 %, five minutes at idle [1 s a step].

    Parameters
    ----------
    duty : load, weather and switches, as numbers
    """
    time = np.arange(1200.0)
    climbing, standing = (time >= 300.0) & (time < 900.0), time >= 900.0
    speed, grade = np.where(standing, 0.0, np.where(climbing, 17.0, 22.0)), np.where(climbing, 0.06, 0.0)
    altitude = float(duty.altitude) + np.concatenate([[0.0], np.cumsum(speed * grade)[:-1]])
    return Profile.of(time=time, duty=dataclasses.replace(duty, speed=speed, grade=grade, altitude=altitude))
