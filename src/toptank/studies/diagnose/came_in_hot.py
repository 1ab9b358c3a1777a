"""Hot somewhere: how often a vehicle with a cause is called hot on any of its usual days.

The shares of the causes are those among vehicles that come in hot. A mild cause brings few vehicles in, and those few
are hot: that one of them runs hot somewhere is no evidence against it. So a complaint of heat counts by where and how
it is hot, over how often such a vehicle is hot anywhere; one that does not say where says no more than that.
"""

import dataclasses
from collections.abc import Iterable, Sequence

import numpy as np

from toptank.catalogue.causes.cause import Cause
from toptank.knowledge.draws import draw_duty
from toptank.knowledge.sheet import DutySheet, Fact, Provenance, duty_sheet
from toptank.studies.diagnose.cause_sets import Flags, Floats, sets_of
from toptank.studies.diagnose.ensemble import severity_from_score
from toptank.studies.diagnose.evidence import Evidence, Reading
from toptank.studies.diagnose.heard import called_hot
from toptank.studies.diagnose.trade_expectation import expectation
from toptank.system.duty import Duty
from toptank.system.vehicle import Vehicle

IN_TRAFFIC = {"speed": 1.0, "grade": 0.0, "in_gear": 1.0}
ON_THE_ROAD = {"speed": 25.0, "grade": 0.0, "in_gear": 0.0}
ON_ITS_HILL = {"speed": 20.0, "grade": 0.06, "in_gear": 0.0}
"""Where a usual vehicle is taken [m/s, 1]; in traffic with the air conditioning on, if there is one."""

WARM_DAY = 303.0
LEAST = 0.02
"""Least chance of running hot anywhere [1]; below it nobody would come in for heat."""

WIDE_OF_SPEED = 5.0
"""Spread of a speed that is only assumed from which nobody has said what the vehicle was doing [m/s]."""


def tells_of_heat(evidence: Evidence) -> bool:
    """Whether any reading is one of heat."""
    return any(is_hot(reading) for reading in evidence.readings)


def is_hot(reading: Reading) -> bool:
    """Whether a reading tells of heat, in words or by the needle."""
    return reading.words in ("hot", "boiled") or reading.needle in ("three quarters", "red")


def says_no_place(duty: DutySheet) -> bool:
    """Whether a duty stands for driving of which nobody has said where or how."""
    speed = duty.facts["speed"]
    return speed.how == Provenance.ASSUMED and speed.spread >= WIDE_OF_SPEED


def hot_anywhere(causes: Sequence[Cause], severity: Floats, sound: Vehicle, ill: Vehicle, day: Duty) -> Floats:
    """Chance that n vehicles are called hot somewhere, on days as warm as a duty [1].

    Parameters
    ----------
    causes, severity : what is wrong, (n, causes)
    sound, ill : the vehicles without it and with it
    day : whose weather it is
    """
    fitted = np.asarray(sound.condenser.present, float)
    calm: Floats = np.ones(len(severity))
    for place, cooled in ((IN_TRAFFIC, fitted), (ON_THE_ROAD, 0.0 * fitted), (ON_ITS_HILL, 0.0 * fitted)):
        duty = dataclasses.replace(day, **place, air_conditioning=cooled)
        calm = calm * (1.0 - called_hot(expectation(causes, severity, sound, duty), ill, duty))
    return 1.0 - calm


def come_in(causes: Sequence[Cause], vehicle: Vehicle, n: int, seed: int) -> Floats:
    """Chance that a vehicle with each set of causes is called hot somewhere on a warm day [1], a row a set.

    Parameters
    ----------
    causes : the causes of the sets
    vehicle : n sound vehicles
    n : number of vehicles
    seed : of severities and days
    """
    rng = np.random.default_rng((seed, 77))
    day = draw_duty(_warm_day(), n, seed)
    calm = np.ones(len(causes) + 1)
    for row, present in enumerate(_alone(len(causes))):
        severity = severity_from_score(causes, np.tile(present, (n, 1)), rng.standard_normal((n, len(causes))))
        ill = vehicle if row == len(causes) else causes[row].effect(vehicle, severity[:, row])
        calm[row] = 1.0 - max(float(np.mean(hot_anywhere(causes, severity, vehicle, ill, day))), LEAST)
    sets = sets_of(len(causes))
    together: Floats = np.exp(sets @ np.log(calm[:-1] / calm[-1])) * calm[-1]
    return np.clip(1.0 - together, LEAST, 1.0)


def _alone(causes: int) -> Iterable[Flags]:
    """Each cause alone, and none of them last."""
    return np.eye(causes + 1, causes, dtype=bool)


def _warm_day() -> DutySheet:
    return duty_sheet(
        "a warm day", {"ambient": Fact(value=WARM_DAY, how=Provenance.ASSUMED, spread=4.0, origin="usual")}
    )
