"""What is read or said of a temperature: how likely a figure, a needle, a word is where the coolant is so hot."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from scipy.special import expit, ndtr

from toptank.knowledge.model_discrepancy import MISSED
from toptank.studies.diagnose.cause_sets import Floats
from toptank.studies.diagnose.ensemble import Ensemble
from toptank.studies.diagnose.evidence import NEEDLE, WORDS, Reading
from toptank.studies.diagnose.spoken_heat import hot_from
from toptank.studies.diagnose.trade_expectation import Expectation
from toptank.system.balance import Balance
from toptank.system.condition import Passage
from toptank.system.duty import Duty
from toptank.system.margins import boiling_point
from toptank.system.vehicle import Vehicle

TRADE = 0.25
"""Share of vehicles that are read as the trade expects, and not as the model has it [1]; judgement."""

AS_TOLD = 3.0
"""What "on the ridge", "in traffic" leave open of the minute that was read: wind, load, what was before [K]; judgement.

Measured drives leave nothing of it: the calibration does not see it."""

MODEL_ERROR = float(np.hypot(MISSED, AS_TOLD))
"""How far the right vehicle at the duty that was told may be off what was read [K]: what the calibrated model misses,
and what a telling leaves open."""

NEEDLE_ERROR, SECOND_ERROR = 2.5, 2.0
"""Reading a needle, reading a thermometer [K]; judgement."""

BOIL_OVER = 4.0
"""How far above its boiling point coolant can be seen before it throws itself out [K]; judgement."""

MISTAKEN = 0.015
"""Share of readings and findings that are mistaken: wrong duty, misread, misremembered [1]; judgement."""

SECOND_MISTAKEN = 0.005
"""The same of a second thermometer [1]; judgement: who fetches one does so to be sure, and reads it twice."""

SEEN_SPAN = 100.0
"""Range over which a mistaken reading may lie [K]."""

WORD_SOFTNESS = 3.0
HOT_SPOTS, BOILING_SOFTNESS = 11.0, 5.0
"""How far hot spots of the head, or all of it after a stop, are above the coolant that leaves it [K]; judgement.

Steam forms there before the stream boils: after a hot stop the coolant gains 5 to 10 K, from memory."""

SAID_TO_BOIL = 0.5
"""How often boiling is called so, and not just hot [1]; judgement.

Nobody calls it warm or fine, whatever the needle shows: with a dry sender it falls while steam comes out."""

NEEDLE_EDGES = (-14.0, 13.0, 30.0)
"""Edges of low, half, three quarters and red against the start of the thermostat [K]; judgement."""

NEEDLE_SOFTNESS = 5.0


def reading_likelihood(reading: Reading, possible: Ensemble) -> Floats:
    """Likelihood of one reading [1], on every possible vehicle: as the model has it, or as the trade expects it."""
    passage = possible.passages[reading.duty]
    balance = passage.end
    start = np.asarray(possible.sound.thermostat.starts_opening, float)
    expected = possible.expected.get(reading.duty)
    coolant, off = _coolant(reading.place, balance), _off(reading.place, balance)
    margin = np.asarray(passage.least_margin, float)
    if expected is not None and reading.place != "transmission":
        coolant = np.where(possible.by_trade, expected.coolant, coolant)
        margin = np.where(possible.by_trade, balance.T_boiling - expected.coolant, margin)
        if reading.place == "gauge":
            off = np.where(possible.by_trade, _off_by_trade(possible.vehicle), off)
    heard = _said_of(reading, _Shown(coolant, off, balance.T_boiling, margin, start, MODEL_ERROR))
    figure = reading.low is not None or reading.high is not None
    if expected is None or expected.anywhere is None or figure or reading.words not in ("hot", "boiled"):
        return heard
    return with_outliers(expected.anywhere[reading.words == "boiled"], 1 / len(WORDS))


def seen_of_the_model(reading: Reading, passage: Passage, opens: Floats, missed: Floats) -> Floats:
    """Likelihood of one reading [1] where it is known by how much the model misses each vehicle.

    Parameters
    ----------
    passage : of the vehicles through the condition that was read (draw,)
    opens : where their thermostats start to open [K]
    missed : what the model misses of each [K]: the coolant is so much hotter than it has it
    """
    balance = passage.end
    coolant = _coolant(reading.place, balance) + missed
    margin = np.asarray(passage.least_margin, float) - missed
    return _said_of(reading, _Shown(coolant, _off(reading.place, balance), balance.T_boiling, margin, opens, AS_TOLD))


def drawn_hot_spots(n: int, rng: np.random.Generator) -> Floats:
    """How far under its boiling point the coolant of n vehicles is seen to boil [K], 0 at the least."""
    return np.maximum(rng.logistic(HOT_SPOTS, BOILING_SOFTNESS, n), 0.0)


class _Shown(NamedTuple):
    """Coolant, by how much the instrument is off, boiling point, least margin to it, thermostat's start, spread [K]."""

    coolant: Floats
    off: Floats
    boiling: Floats
    margin: Floats
    start: Floats
    spread: Floats | float

    @property
    def shown(self) -> Floats:
        """What the instrument shows [K]; boiling coolant gets no hotter."""
        return np.minimum(self.coolant, self.boiling + BOIL_OVER) + self.off

    @property
    def boils(self) -> Floats:
        """Chance that it is seen boiling [1]."""
        softness = BOILING_SOFTNESS * np.hypot(1.0, 0.6 * self.spread / BOILING_SOFTNESS)
        return np.asarray(expit((HOT_SPOTS - self.margin) / softness), float)


def _coolant(place: str, balance: Balance) -> Floats:
    return np.asarray(balance.T_transmission if place == "transmission" else balance.T_engine_out, float)


def _off(place: str, balance: Balance) -> Floats:
    return np.asarray(balance.T_gauge - balance.T_engine_out if place == "gauge" else 0.0 * balance.T_gauge, float)


def _off_by_trade(vehicle: Vehicle) -> Floats:
    """By how much the gauge is off [K] of what the trade expects: its rises are what a gauge showed, a dry one too."""
    return np.asarray(vehicle.gauge.sender_offset + vehicle.gauge.error, float)


def _said_of(reading: Reading, shown: _Shown) -> Floats:
    """Likelihood of what was read or said [1]."""
    likelihood = np.ones(len(shown.coolant))
    softer = np.maximum(0.55 * np.asarray(shown.spread), WORD_SOFTNESS)  # a logistic of that scale is as wide
    if reading.low is not None or reading.high is not None:
        likelihood = _between(reading, shown)
    elif reading.needle is not None:
        edges = [shown.start + edge for edge in NEEDLE_EDGES]
        softness = np.maximum(softer, NEEDLE_SOFTNESS)
        likelihood = with_outliers(
            _ordinal(NEEDLE.index(reading.needle), shown.shown, edges, softness), 1 / len(NEEDLE)
        )
    elif reading.words is not None and reading.words != "boiled":
        spoken = _ordinal(WORDS.index(reading.words), shown.shown, hot_from(shown.start), softer)
        while_it_boils = 1.0 - SAID_TO_BOIL if reading.words == "hot" else 0.0
        told = (1.0 - shown.boils) * spoken + shown.boils * while_it_boils
        likelihood = with_outliers(told, 1 / len(WORDS))
    if reading.words == "boiled":
        likelihood = likelihood * with_outliers(SAID_TO_BOIL * shown.boils, 1 / len(WORDS))
    return likelihood


def _between(reading: Reading, shown: _Shown) -> Floats:
    error = np.hypot(shown.spread, NEEDLE_ERROR if reading.place == "gauge" else SECOND_ERROR)
    low = -np.inf if reading.low is None else reading.low
    high = np.inf if reading.high is None else reading.high
    if reading.low is not None and reading.high is not None and high - low < 1.0:
        low, high = 0.5 * (low + high) - 0.5, 0.5 * (low + high) + 0.5
    likelihood = ndtr((high - shown.shown) / error) - ndtr((low - shown.shown) / error)
    share = SECOND_MISTAKEN if reading.place == "second" else MISTAKEN
    return with_outliers(likelihood, min(high - low, 0.5 * SEEN_SPAN) / SEEN_SPAN, share)


def _ordinal(place: int, value: Floats, edges: Sequence[Floats], softness: Floats) -> Floats:
    """Chance that a value is called by the word at a place, with soft edges between the words."""
    below = [np.zeros_like(value), *(expit((edge - value) / softness) for edge in edges), np.ones_like(value)]
    return below[place + 1] - below[place]


def with_outliers(likelihood: Floats, at_random: float, share: float = MISTAKEN) -> Floats:
    """The same where a share of what is told is mistaken [1]."""
    return (1.0 - share) * likelihood + share * at_random


def called_hot(expected: Expectation, vehicle: Vehicle, duty: Duty) -> Floats:
    """Chance that a driver calls vehicles hot, or sees them boil, by what the trade expects of them [1]."""
    seen = _by_trade(expected, vehicle, duty)
    return _said_of(Reading(duty="", words="hot"), seen) + _said_of(Reading(duty="", words="boiled"), seen)


def seen_boiling(expected: Expectation, vehicle: Vehicle, duty: Duty) -> Floats:
    """Chance that a driver says that vehicles boil, by what the trade expects of them [1]."""
    return _said_of(Reading(duty="", words="boiled"), _by_trade(expected, vehicle, duty))


def _by_trade(expected: Expectation, vehicle: Vehicle, duty: Duty) -> _Shown:
    boiling = np.asarray(boiling_point(vehicle, duty), float)
    start = np.asarray(vehicle.thermostat.starts_opening, float)
    margin = boiling - expected.coolant
    return _Shown(expected.coolant, _off_by_trade(vehicle), boiling, margin, start, expected.spread)
