"""Conditions of which little is told: a name without a speed is driven as usual there; no place is hot somewhere."""

import dataclasses
import re
from collections.abc import Sequence

import numpy as np

from toptank.catalogue.causes.cause import Cause
from toptank.knowledge.sheet import DECLARED, DutySheet, Fact, Provenance, duty_sheet
from toptank.studies.diagnose.cause_sets import Floats
from toptank.studies.diagnose.heard import called_hot, seen_boiling
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

USUAL = (
    (re.compile(r"\b(?:idl\w+|stand\w*|park\w*|stopped|lights?|yard|driveway)\b", re.IGNORECASE), None),
    (
        re.compile(r"\b(?:hills?|grades?|climb\w*|pass|mountains?|uphill|ridge|canyon)\b", re.IGNORECASE),
        (18.0, 4.0, 0.05),
    ),
    (re.compile(r"\b(?:traffic|town|city|queue|jam|crawl\w*|rush|stop.and.go)\b", re.IGNORECASE), (5.4, 2.5, 0.0)),
    (
        re.compile(r"\b(?:highway|freeway|interstate|motorway|turnpike|cruis\w+|open road|main road)\b", re.IGNORECASE),
        (27.0, 3.0, 0.0),
    ),
    (NAMES_NO_PLACE, (16.0, 7.0, 0.0)),
)
"""Names of conditions, and the speed, its spread and the grade that are usual there [m/s, m/s, 1], None for standing;
the first that fits counts; judgement."""


def driven_as_named(duty: DutySheet) -> DutySheet:
    """A duty at the speed that is usual where its name says, if nobody said a speed: a highway is not stood on."""
    speed = duty.facts["speed"]
    works = any(duty.facts[key].value > 0.0 for key in ("engine_speed", "shaft_load"))
    usual = next((told for named, told in USUAL if named.search(duty.name.strip())), None)
    if speed.origin != DECLARED or works or usual is None:
        return duty
    value, spread, grade = usual
    facts = {**duty.facts, "speed": Fact(value=value, how=Provenance.ASSUMED, spread=spread, origin=BY_NAME)}
    if duty.facts["grade"].origin == DECLARED and grade:
        facts["grade"] = Fact(value=grade, how=Provenance.ASSUMED, spread=0.3 * grade, origin=BY_NAME)
    return duty_sheet(duty.name, facts, duty.after)


BY_NAME = "usual where its name says"
"""Origin of a speed and a grade that only the name of a condition tells."""


def says_no_place(duty: DutySheet) -> bool:
    """Whether a duty stands for driving of which nobody has said where or how."""
    speed, grade = duty.facts["speed"], duty.facts["grade"]
    if Provenance.MEASURED in (speed.how, grade.how):
        return False
    named = NAMES_NO_PLACE.fullmatch(duty.name.strip()) is not None
    return speed.how == Provenance.ASSUMED and (named or speed.spread >= WIDE_OF_SPEED)


def hot_anywhere(
    causes: Sequence[Cause], severity: Floats, sound: Vehicle, ill: Vehicle, day: Duty
) -> tuple[Floats, Floats]:
    """Chance that n vehicles are called hot somewhere, and that they are seen boiling, on days as warm as a duty [1].

    Parameters
    ----------
    causes, severity : what is wrong, (n, causes)
    sound, ill : the vehicles without it and with it
    day : whose weather it is
    """
    fitted = np.asarray(sound.condenser.present, float)
    calm: Floats = np.ones(len(severity))
    quiet: Floats = np.ones(len(severity))
    for place, cooled in ((IN_TRAFFIC, fitted), (ON_THE_ROAD, 0.0 * fitted), (ON_ITS_HILL, 0.0 * fitted)):
        duty = dataclasses.replace(day, **place, air_conditioning=cooled)
        expected = expectation(causes, severity, sound, duty)
        calm = calm * (1.0 - called_hot(expected, ill, duty))
        quiet = quiet * (1.0 - seen_boiling(expected, ill, duty))
    return 1.0 - calm, 1.0 - quiet
