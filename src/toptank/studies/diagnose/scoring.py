"""How good diagnoses were, once the causes are known: rank, log score, calibration, and two simpler rivals."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from toptank.catalogue.causes.air import CAUSES_OF_AIR
from toptank.catalogue.causes.all_causes import CAUSE_IDS, CAUSES
from toptank.studies.diagnose.cause_sets import Floats
from toptank.studies.diagnose.diagnosis import flags, likely_causes
from toptank.studies.diagnose.evidence import Reading
from toptank.studies.diagnose.posterior import PosteriorSample, Question

LEAST = 1e-4
"""Probability below which a wrong answer costs no more [1]."""

SLOW, CLIMBING = 3.0, 0.025
"""Road speed below which a vehicle counts as standing [m/s], grade from which it counts as climbing [1]."""

BANDS = ((0.0, 0.1), (0.1, 0.25), (0.25, 0.5), (0.5, 0.75), (0.75, 1.0))
"""Bands of stated probability in the calibration table [1]."""

LOOKED_UP = 0.8
"""Probability that a look-up by symptom gives to the causes of its line [1]; judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """One diagnosis against what was confirmed.

    rank : place of the confirmed causes, taken as one answer; 1 is first
    probability, prior, looked_up : given to them by the diagnosis, before all evidence, by the look-up [1]
    in_likely : one of them is among the likely causes
    stated : probability of every cause, none the last [1]
    held : which of them were confirmed, contributing ones too
    """

    rank: int
    probability: float
    prior: float
    looked_up: float
    in_likely: bool
    stated: Floats
    held: Floats


def score(question: Question, weighed: PosteriorSample, confirmed: Sequence[str], contributing: Sequence[str]) -> Score:
    """Score one diagnosis; several confirmed causes are one answer, as a label that covers both."""
    places = [CAUSE_IDS.index(cause) for cause in confirmed]
    with_none = flags(weighed)
    stated = weighed.weight @ with_none
    together = float(weighed.weight @ with_none[:, places].max(axis=1))
    others = np.delete(stated, places)
    held = np.isin(np.arange(len(CAUSE_IDS)), [*places, *(CAUSE_IDS.index(cause) for cause in contributing)])
    return Score(
        rank=1 + int(np.sum(others > together)),
        probability=together,
        prior=_either(weighed.before[places]),
        looked_up=_either(look_up(question)[places]),
        in_likely=bool(set(confirmed) & set(likely_causes(weighed))),
        stated=stated,
        held=held.astype(float),
    )


def _either(chances: Floats) -> float:
    return float(1.0 - np.prod(1.0 - chances))


def look_up(question: Question) -> Floats:
    """Probability of every cause, none the last, from where it runs hot alone, as a table on a wall would say it [1].

    Hot standing only: the air's side. Hot on a climb only: core, flow and heat. Otherwise: the shares.
    """
    share = np.append(question.shares / question.shares.sum(), 0.1)
    share = share / share.sum()
    air = {cause.id for cause in CAUSES_OF_AIR} - {"core_too_small", "fins_loose"}
    hot = {_place(question, reading) for reading in question.evidence.readings if _is_hot(reading)}
    if hot == {"standing"}:
        line = np.array([cause.id in air for cause in CAUSES] + [False])
    elif hot == {"climbing"}:
        line = np.array([cause.id not in air for cause in CAUSES] + [True])
    else:
        return share
    inside = np.where(line, share, 0.0)
    outside = np.where(line, 0.0, share)
    return LOOKED_UP * inside / inside.sum() + (1.0 - LOOKED_UP) * outside / outside.sum()


def _place(question: Question, reading: Reading) -> str:
    facts = next(duty.facts for duty in question.duties if duty.name == reading.duty)
    if facts["speed"].value < SLOW:
        return "standing"
    return "climbing" if facts["grade"].value >= CLIMBING else "moving"


def _is_hot(reading: Reading) -> bool:
    return reading.words in ("hot", "boiled") or reading.needle in ("three quarters", "red")


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """Causes that were given a probability in this band: how many, how probable on the mean, how many were there."""

    low: float
    high: float
    causes: int
    stated: float
    found: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Summary:
    """Many diagnoses together; log scores are mean natural logarithms, the nearer to 0 the better."""

    cases: int
    top_1: float
    top_3: float
    log_score: float
    log_score_of_prior: float
    log_score_of_look_up: float
    in_likely: float
    calibration: tuple[Band, ...]


def summed_up(scores: Sequence[Score]) -> Summary:
    """Sum up scores."""
    stated = np.concatenate([one.stated for one in scores])
    held = np.concatenate([one.held for one in scores])
    calibration: list[Band] = []
    for low, high in BANDS:
        inside = (stated >= low) & ((stated < high) | (high >= 1.0)) & (stated > 0.0)
        if inside.any():
            band = Band(
                low=low,
                high=high,
                causes=int(inside.sum()),
                stated=float(stated[inside].mean()),
                found=float(held[inside].mean()),
            )
            calibration.append(band)
    return Summary(
        cases=len(scores),
        top_1=_mean([one.rank == 1 for one in scores]),
        top_3=_mean([one.rank <= 3 for one in scores]),
        log_score=_mean_log([one.probability for one in scores]),
        log_score_of_prior=_mean_log([one.prior for one in scores]),
        log_score_of_look_up=_mean_log([one.looked_up for one in scores]),
        in_likely=_mean([one.in_likely for one in scores]),
        calibration=tuple(calibration),
    )


def _mean(values: Sequence[float]) -> float:
    return float(np.mean(np.asarray(values, float)))


def _mean_log(chances: Sequence[float]) -> float:
    return float(np.mean(np.log(np.maximum(np.asarray(chances, float), LEAST))))
