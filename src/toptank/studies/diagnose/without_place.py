"""A complaint that says no place: hot somewhere on its usual days, and no more than that."""

import dataclasses
import re
from collections.abc import Sequence

import numpy as np

from toptank.catalogue.causes.cause import Cause
from toptank.knowledge.sheet import DutySheet, Provenance
from toptank.studies.diagnose.cause_sets import Floats
from toptank.studies.diagnose.heard import called_hot
from toptank.studies.diagnose.trade_expectation import expectation
from toptank.system.duty import Duty
from toptank.system.vehicle import Vehicle

IN_TRAFFIC = {"speed": 1.0, "grade": 0.0, "in_gear": 1.0}
ON_THE_ROAD = {"speed": 25.0, "grade": 0.0, "in_gear": 0.0}
ON_ITS_HILL = {"speed": 20.0, "grade": 0.06, "in_gear": 0.0}
"""Where a usual vehicle is taken [m/s, 1]; in traffic with the air conditioning on, if there is one."""

WIDE_OF_SPEED = 5.0
"""Spread of a speed that is only assumed from which nobody has said what the vehicle was doing [m/s]."""


NAMES_NO_PLACE = re.compile(
    r"(driving|running|any ?where|every ?where|always|in general|usual|where it runs hot|condition \d+)( hot)?",
    re.IGNORECASE,
)
"""Names of conditions that tell nothing of the place: whoever writes "driving" beside a speed that nobody measured has
been told no more than that."""


def says_no_place(duty: DutySheet) -> bool:
    """Whether a duty stands for driving of which nobody has said where or how."""
    speed, grade = duty.facts["speed"], duty.facts["grade"]
    if Provenance.MEASURED in (speed.how, grade.how):
        return False
    named = NAMES_NO_PLACE.fullmatch(duty.name.strip()) is not None
    return speed.how == Provenance.ASSUMED and (named or speed.spread >= WIDE_OF_SPEED)


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
