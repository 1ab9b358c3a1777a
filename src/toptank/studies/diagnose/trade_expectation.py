"""What the trade would expect to read, beside the model: sound figures, and what each cause adds at its worst.

A second opinion on every reading. The model knows the vehicle, the trade has seen its faults; where they differ, none
is believed alone, and no cause is ruled out because the model makes it too mild.

Source: common practice, no source; the figures of sound vehicles are those of a V8 with a clutch fan and of a small
cross-flow core with electric fans, the other kinds lie between; spreads are judgement.
"""

from collections.abc import Sequence
from functools import cache
from typing import NamedTuple

import numpy as np
from scipy.special import expit

from toptank.catalogue.causes.cause import Cause
from toptank.catalogue.causes.worst import Worst, worst
from toptank.studies.diagnose.cause_sets import Floats
from toptank.system.duty import Duty
from toptank.system.vehicle import Vehicle

STANDS_BELOW, STANDS_WITHIN = 6.0, 1.2
"""Road speed at which ram air begins to count, and how sharply [m/s]."""

CLIMBS_FROM, CLIMBS_WITHIN = 0.028, 0.007
FAST_FROM, FAST_WITHIN = 28.5, 1.5
HEAVY = 400.0
"""Trailer from which the level road counts as a hill in part [kg]."""

SOUND_IDLE, SOUND_ROAD, SOUND_HILL = 10.0, 7.0, 16.0
"""A sound gauge above the start of its thermostat at 305 K: in traffic, on the level, on its hill [K]."""

COOLED = 6.0
"""What the air conditioning adds in traffic [K]."""

OF_AMBIENT = (0.45, 0.25, 0.6)
"""How much of a warmer day comes through at idle, on the road, on a hill [1]."""

USUAL_DAY = 305.4
SOUND_SPREAD = 5.0
"""Standard deviation of sound vehicles of one kind about these figures [K]."""


class Expectation(NamedTuple):
    """What the trade expects of n vehicles on a duty.

    coolant, spread : temperature and its standard deviation [K]
    anywhere : chances that they are called hot, and seen boiling, anywhere [1], where nobody has said what the duty was
    """

    coolant: Floats
    spread: Floats
    anywhere: tuple[Floats, Floats] | None = None


def expectation(causes: Sequence[Cause], severity: Floats, sound: Vehicle, duty: Duty) -> Expectation:
    """What the trade expects on a duty of vehicles with causes of a severity (n, causes)."""
    n = len(severity)
    idle, road, fast, hill = places = [np.broadcast_to(place, (n,)) for place in _places(duty)]
    cooled = np.broadcast_to(np.asarray(duty.air_conditioning, float) > 0.5, (n,))
    least, most = _rises(tuple(causes))
    only, never = _switched(tuple(causes))
    acting = severity * np.where(cooled[:, None], 1.0 - never, 1.0 - only)
    by_place = np.stack(places, axis=1)
    middle = ((acting @ (0.5 * (least + most))) * by_place).sum(axis=1)
    doubt = ((acting @ (0.3 * (most - least))) * by_place).sum(axis=1)
    warm = np.asarray(duty.ambient, float) - USUAL_DAY
    rise_idle, rise_road, rise_hill = (
        figure + share * warm for figure, share in zip((SOUND_IDLE, SOUND_ROAD, SOUND_HILL), OF_AMBIENT, strict=True)
    )
    rise_idle = rise_idle + COOLED * cooled
    sound_rise = idle * rise_idle + (road + fast) * rise_road + hill * rise_hill
    start = np.asarray(sound.thermostat.starts_opening, float)
    switched = np.asarray(sound.fan.switch_on, float)
    electric = np.asarray(sound.fan.electric(), float)
    floor = start + electric * idle * np.maximum(switched - start, 0.0)
    at = np.maximum(start + sound_rise, floor) + middle
    return Expectation(at, np.hypot(SOUND_SPREAD, doubt + 0.15 * np.abs(middle)))


def _places(duty: Duty) -> tuple[Floats, Floats, Floats, Floats]:
    """Shares of standing, level road, fast level road and hill in a duty [1]."""
    speed, grade = np.asarray(duty.speed, float), np.asarray(duty.grade, float)
    idle = np.asarray(expit((STANDS_BELOW - speed) / STANDS_WITHIN), float)
    climbs = np.asarray(expit((grade - CLIMBS_FROM) / CLIMBS_WITHIN), float)
    loaded = np.asarray(duty.trailer_mass, float) > HEAVY
    hill = (1.0 - idle) * np.maximum(climbs, 0.5 * loaded)
    level = 1.0 - idle - hill
    fast = level * np.asarray(expit((speed - FAST_FROM) / FAST_WITHIN), float)
    return idle, level - fast, fast, hill


def _worst_of(causes: tuple[Cause, ...]) -> list[Worst]:
    return [worst()[cause.id] for cause in causes]


@cache
def _rises(causes: tuple[Cause, ...]) -> tuple[Floats, Floats]:
    """Least and most rise of each cause at severity 1 [K], (causes, places)."""
    rises = [(one.idle, one.road, one.fast, one.hill) for one in _worst_of(causes)]
    both = np.array(rises, float).reshape(len(causes), 4, 2)
    return both[:, :, 0], both[:, :, 1]


@cache
def _switched(causes: tuple[Cause, ...]) -> tuple[Floats, Floats]:
    """Causes that act with the air conditioning on only, and with it off only [1]."""
    both = _worst_of(causes)
    return np.array([one.only_cooled for one in both], float), np.array([one.not_cooled for one in both], float)
