"""One fact told a little otherwise, within what was said, and how far the answer moves.

A needle at 245 degF, "over 240" and "hot" are one observation in three wordings. Draws that are weighed already are
weighed anew with one reading reworded; the cause that led should lead nearly as before.
"""

import dataclasses
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from toptank.studies.diagnose.cause_sets import Floats
from toptank.studies.diagnose.diagnosis import flags
from toptank.studies.diagnose.evidence import Reading
from toptank.studies.diagnose.heard import reading_likelihood
from toptank.studies.diagnose.posterior import PosteriorSample, Question
from toptank.studies.diagnose.spoken_heat import hot_from

MOST = 0.15
"""Points by which a fact may move the leading cause when it is told otherwise [1]."""

MISREAD = 1.7
"""How far off a figure may be read: 3 degF [K]."""

ROUGHLY = 3.3
"""Half the range of a figure that is told roughly [K]."""


class Moved(NamedTuple):
    """One rewording of a reading, and by how much it moves the probability of the leading cause [1]."""

    reading: Reading
    told_as: Reading
    by: float


def moved(question: Question, weighed: PosteriorSample) -> tuple[Moved, ...]:
    """Reword every reading in every way, one at a time."""
    with_none = flags(weighed)
    stated = weighed.weight @ with_none
    leads = int(np.argmax(stated))
    start = float(weighed.weight @ np.asarray(weighed.possible.sound.thermostat.starts_opening, float))
    found: list[Moved] = []
    for place, reading in enumerate(question.evidence.readings):
        as_told: Floats = weighed.log_likelihoods[place]
        for other in _reworded(reading, start):
            anew = np.log(np.maximum(reading_likelihood(other, weighed.possible), 1e-300))
            weight = weighed.weight * np.exp(anew - as_told - (anew - as_told).max())
            found.append(Moved(reading, other, abs(float(weight @ with_none[:, leads] / weight.sum() - stated[leads]))))
    return tuple(found)


def _reworded(reading: Reading, start: float) -> Iterator[Reading]:
    """The same observation in other words.

    Parameters
    ----------
    reading : as it was told
    start : temperature at which the thermostat begins to open [K]
    """
    figure = reading.figure
    if figure is not None:
        for off in (-MISREAD, MISREAD):
            yield dataclasses.replace(reading, low=figure + off, high=figure + off)
        yield dataclasses.replace(reading, low=figure - ROUGHLY, high=figure + ROUGHLY)
        if reading.words is None and reading.place == "gauge":
            warm, hot = hot_from(np.array(start))
            words = "fine" if figure < warm else "warm" if figure < hot else "hot"
            yield Reading(duty=reading.duty, words=words)
    elif reading.low is not None:
        yield dataclasses.replace(reading, high=reading.low + 4.0 * ROUGHLY)
    elif reading.needle == "red":
        yield Reading(duty=reading.duty, words="hot")
    elif reading.words == "hot" and reading.high is None:
        yield Reading(duty=reading.duty, needle="three quarters")
