"""What a logged drive says of the causes: the same drive with every possible vehicle, and what the log shows by itself.

Readings of stretches that had settled lead to the vehicles that are worth driving; driven, their weights are set
right: what the stretches had said is taken out again, and what the whole log says takes its place. Where too few of
them go with the log for percentages to be made of, the log counts for less: rather too little is claimed than too much.
Swings of a steady drive are the finding of the check `needle_movement`; an opening seen in a warm-up is a reading
of the thermostat.
"""

import dataclasses
from typing import NamedTuple

import numpy as np

from toptank.knowledge.drives.logged import Beside, LoggedDrive, beside, doubts_of_the_day
from toptank.knowledge.drives.stretches import Stretch, opening, settled, swings
from toptank.knowledge.model_discrepancy import independent, log_likelihood
from toptank.knowledge.sheet import TIMING_KEYS, DutySheet, Fact, Provenance, duty_fields, duty_sheet
from toptank.studies.diagnose.cause_sets import Floats, drawn
from toptank.studies.diagnose.diagnosis import flags
from toptank.studies.diagnose.ensemble import taken
from toptank.studies.diagnose.evidence import Evidence, Finding, Reading
from toptank.studies.diagnose.posterior import PosteriorSample, Question, infer_posterior
from toptank.system.vehicle import Vehicle
from toptank.units.cancellation import CancelCheck, never_cancelled
from toptank.units.dimension import STEADY

DRIVEN = 2048
"""Draws that are driven along a log."""

LED = 0.35
"""Power of what the stretches say by which they lead [1]: they miss together what is told of each alone, and a stretch
has settled only nearly, so that at full power vehicles that the whole log speaks for would hardly be driven."""

CARRIES = 100.0
"""Draws' worth that must be left for a log to count in full [1]; judgement."""

NEEDLE_CHECK, SWINGS_OUTCOME = "needle_movement", "swings"
OPENING_ERROR = 4.0
"""How far off the start of a thermostat's opening the break of a rise is seen [K]; judgement: wax takes time."""

MISREAD = 0.05
"""Share of breaks in a rise that are no opening: a slope, a heater turned on [1]; judgement."""

RANGE = 40.0
"""Where else a break may lie [K]."""

DRIVEN_DOUBT = {"ambient": 1.0, "head_wind": 1.5, "speed": 0.3, "grade": 0.004, "altitude": 20.0}
"""Standard deviations of what a log says of a stretch, in SI; judgement."""


class LogSays(NamedTuple):
    """Causes after a log.

    weighed : the draws that were driven, weighted by all evidence, the log included
    compared : the log beside them
    worth : number of independent readings that the log is worth [1]
    stated : probability of every cause of `CAUSES`, and of none [1]
    counted : power of the log's likelihood that the draws could carry; 1: all of it [1]
    stretches : stretches that had settled
    swung : swings were taken as a finding
    opened : the opening that was seen in a warm-up [K], or None
    """

    weighed: PosteriorSample
    compared: Beside
    worth: float
    stated: Floats
    counted: float
    stretches: tuple[Stretch, ...]
    swung: bool
    opened: float | None


def after_log(question: Question, drive: LoggedDrive, seed: int, go_on: CancelCheck = never_cancelled) -> LogSays:
    """Weigh the causes with a log beside all other evidence.

    Parameters
    ----------
    question : vehicle, days, evidence, shares
    drive : the log and its profile
    seed : same seed, same answer
    go_on : is called between rounds and pieces of drives, and may stop the work
    """
    stretches = settled(drive.log)
    swung = swings(drive.log) is not None and not _told_of(question.evidence)
    led = _led(question, drive, stretches, swung=swung)
    guided = infer_posterior(led, seed, go_on)
    own, read = len(question.evidence.readings), len(stretches)
    of_stretches = guided.log_likelihoods[own : own + read].sum(axis=0)
    picks = drawn(_led_less(guided.weight, of_stretches, LED), DRIVEN, np.random.default_rng((seed, 11)))
    possible = taken(guided.possible, picks)
    lines = guided.log_likelihoods[:, picks]
    compared = beside(drive, possible.vehicle, doubts_of_the_day(DRIVEN, seed), go_on)
    of_log = log_likelihood(compared.time, compared.read, compared.shown, compared.spread)
    opened = opening(drive.log)
    of_opening = _opening_line(opened, drive, possible.vehicle) if opened is not None else np.zeros(DRIVEN)
    counted, weight = carried(of_log + of_opening - LED * of_stretches[picks])
    weighed = PosteriorSample(
        possible=possible,
        weight=weight,
        log_likelihoods=np.concatenate(
            [np.delete(lines, np.s_[own : own + read], axis=0), of_log[None], of_opening[None]]
        ),
        drawn=guided.drawn,
        effective_sample_size=float(1.0 / np.sum(weight * weight)),
        unknown=guided.unknown,
        before=guided.before,
    )
    without = _led_less(guided.weight, of_stretches, 0.0) @ flags(guided)
    stated = steadied(weight @ flags(weighed), without, weighed.effective_sample_size)
    return LogSays(weighed, compared, independent(compared.spread), stated, counted, stretches, swung, opened)


def steadied(found: Floats, before: Floats, worth: float) -> Floats:
    """Probabilities after a log [1], from what few draws found and from what was known before it.

    A cause that is in one vehicle of a hundred is in none or two of a hundred draws by chance. One draw more is counted
    with the cause, among as many as it took to find one before: the mean of a beta distribution that lets a rare cause
    grow or shrink by its own size.

    Parameters
    ----------
    found : share of the draws by weight [1] (cause,)
    before : probability without the log [1] (cause,)
    worth : draws of equal weight that would say as much [1]
    """
    mean = (worth * found + 1.0) / (worth + 1.0 / np.maximum(before, 1e-12))
    return np.where(before > 0.0, mean, found)


def carried(log_weight: Floats) -> tuple[float, Floats]:
    """Greatest power up to 1 at which weights are still worth `CARRIES` draws, and the weights at it, summing to 1."""
    if len(log_weight) <= CARRIES:
        raise ValueError(f"{len(log_weight)} draws can never be worth {CARRIES:.0f}")

    def at(power: float) -> Floats:
        weight = np.exp(power * (log_weight - log_weight.max()))
        return np.asarray(weight / weight.sum(), float)

    low, high = 0.0, 1.0
    if float(np.sum(at(high) ** 2)) * CARRIES <= 1.0:
        return 1.0, at(high)
    for _ in range(40):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if float(np.sum(at(middle) ** 2)) * CARRIES <= 1.0 else (low, middle)
    return low, at(low)


def _led_less(weight: Floats, of_stretches: Floats, power: float) -> Floats:
    """Weights [1] with what the stretches say at a lower power."""
    log_weight = np.log(np.maximum(weight, 1e-300)) - (1.0 - power) * of_stretches
    less = np.where(weight > 0.0, np.exp(log_weight - log_weight[weight > 0.0].max()), 0.0)
    return np.asarray(less / less.sum(), float)


def _told_of(evidence: Evidence) -> bool:
    return any(finding.check == NEEDLE_CHECK for finding in evidence.findings)


def _led(question: Question, drive: LoggedDrive, stretches: tuple[Stretch, ...], *, swung: bool) -> Question:
    """The question with readings of the settled stretches, and with the finding of swings."""
    place = "gauge" if drive.log.place == "gauge" else "second"
    sheets = tuple(_sheet(drive, stretch) for stretch in stretches)
    readings = tuple(
        Reading(duty=sheet.name, low=stretch.temperature, high=stretch.temperature, place=place)
        for sheet, stretch in zip(sheets, stretches, strict=True)
    )
    evidence = question.evidence
    seen = (Finding(check=NEEDLE_CHECK, outcome=SWINGS_OUTCOME),) if swung else ()
    evidence = dataclasses.replace(
        evidence, readings=(*evidence.readings, *readings), findings=(*evidence.findings, *seen)
    )
    return dataclasses.replace(question, duties=(*question.duties, *sheets), evidence=evidence)


def _sheet(drive: LoggedDrive, stretch: Stretch) -> DutySheet:
    """What was driven in a stretch as a duty of its own."""
    inside = (drive.log.time >= stretch.begin) & (drive.log.time <= stretch.end)
    facts: dict[str, Fact] = {}
    for key in (key for key in duty_fields() if key not in TIMING_KEYS):
        values = np.asarray(getattr(drive.profile.duty, key), float)
        facts[key] = Fact(
            value=float(np.mean(values[inside])),
            how=Provenance.MEASURED,
            spread=DRIVEN_DOUBT.get(key, 0.0),
            origin="log",
        )
    for switch in ("air_conditioning", "heater", "in_gear", "gear"):
        facts[switch] = dataclasses.replace(facts[switch], value=float(np.round(facts[switch].value)))
    facts["for"] = Fact(value=STEADY, how=Provenance.MEASURED, spread=0.0, origin="log")  # a stretch that has settled
    return duty_sheet(f"log, {stretch.begin:.0f} s to {stretch.end:.0f} s", facts)


def _opening_line(opened: float, drive: LoggedDrive, vehicle: object) -> Floats:
    """Logarithm of the likelihood that a warm-up broke off at a temperature [K], on every draw."""
    assert isinstance(vehicle, Vehicle)
    starts = np.broadcast_to(np.asarray(vehicle.thermostat.starts_opening, float), (DRIVEN,))
    if drive.log.place == "gauge":
        starts = np.asarray(vehicle.gauge.shown(T_sender=starts), float)
    z = (opened - starts) / OPENING_ERROR
    seen = np.exp(-0.5 * z * z) / (OPENING_ERROR * np.sqrt(2.0 * np.pi))
    return np.log((1.0 - MISREAD) * seen + MISREAD / RANGE)
