"""How good diagnoses were, once the causes are known: rank, log score, calibration, families, and simpler rivals."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from toptank.catalogue.causes.all_causes import CAUSE_IDS, CAUSES
from toptank.catalogue.causes.family import FAMILIES, family_of
from toptank.studies.diagnose.asking.next_check import repair_indicators
from toptank.studies.diagnose.cause_sets import Floats
from toptank.studies.diagnose.diagnosis import flags, likely_causes
from toptank.studies.diagnose.posterior import PosteriorSample, Question
from toptank.studies.diagnose.trial.chart import by_chart

GAUGE_LIES = "gauge_reads_high"

LEAST = 1e-4
"""Probability below which a wrong answer costs no more [1]."""

BANDS = ((0.0, 0.1), (0.1, 0.25), (0.25, 0.5), (0.5, 0.75), (0.75, 1.0))
"""Bands of stated probability in the calibration table [1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """One diagnosis against what was confirmed.

    rank : place of the confirmed causes, taken as one answer; 1 is first
    probability, prior, charted : given to them by the diagnosis, before all evidence, by the chart of the trade [1]
    chart_rank : their place by the chart
    family : of the first of them
    families : probability of every family of `FAMILIES` that one of its causes is there [1]
    excuse : probability of a lying gauge or of something else [1], where it is neither; otherwise None
    in_likely : one of them is among the likely causes
    stated : probability of every cause, none the last [1]
    needed : probability that each of `REPAIRS` is needed [1]
    held : which of them were needed, by the confirmed causes and the contributing ones
    """

    rank: int
    probability: float
    prior: float
    charted: float
    chart_rank: int
    family: str
    families: Floats
    excuse: float | None
    in_likely: bool
    stated: Floats
    needed: Floats
    held: Floats


def score(question: Question, weighed: PosteriorSample, confirmed: Sequence[str], contributing: Sequence[str]) -> Score:
    """Score one diagnosis; several confirmed causes are one answer, as a label that covers both."""
    places = _places(confirmed)
    with_none = flags(weighed)
    stated = weighed.weight @ with_none
    together = float(weighed.weight @ with_none[:, places].max(axis=1))
    others = np.delete(stated, places)
    charted, lies = by_chart(question), CAUSE_IDS.index(GAUGE_LIES)
    named = np.isin(np.arange(len(CAUSE_IDS)), [*places, *_places(contributing)]).astype(float)
    return Score(
        rank=1 + int(np.sum(others > together)),
        probability=together,
        prior=_either(weighed.before[places]),
        charted=_either(charted[places]),
        chart_rank=1 + int(np.sum(np.delete(charted, places) > _either(charted[places]))),
        family=family_of(CAUSE_IDS[places[0]]),
        families=_families(weighed, with_none),
        excuse=None if lies in places else float(stated[lies]) + weighed.unknown,
        in_likely=bool({CAUSE_IDS[place] for place in places} & set(likely_causes(weighed))),
        stated=stated,
        needed=weighed.weight @ repair_indicators(with_none),
        held=repair_indicators(named[None])[0],
    )


def _places(named: Sequence[str]) -> list[int]:
    """Places of causes and of the kinds of them, none the last: who names a cause has named every kind of it."""
    kinds = {cause.id: cause.kind_of for cause in CAUSES}
    return [place for place, name in enumerate(CAUSE_IDS) if name in named or kinds.get(name) in named]


def _families(weighed: PosteriorSample, with_none: Floats) -> Floats:
    own = np.array([FAMILIES.index(family_of(cause)) for cause in CAUSE_IDS])
    return np.array([weighed.weight @ with_none[:, own == family].max(axis=1) for family in range(len(FAMILIES))])


def _either(chances: Floats) -> float:
    return float(1.0 - np.prod(1.0 - chances))


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """Repairs that were given a probability in this band: how many, how probable on the mean, how many were needed.

    Repairs and not causes: what is put right by one repair need not be told apart, and the names that people give to
    what they found ("clutch", "core clogged") do not tell it apart.
    """

    low: float
    high: float
    repairs: int
    stated: float
    found: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyScore:
    """Jobs of one family of causes: how many, how often cause and family came first, mean log score of the cause."""

    family: str
    cases: int
    top_1: float
    top_3: float
    family_first: float
    log_score: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Summary:
    """Many diagnoses together; log scores are mean natural logarithms, the nearer to 0 the better.

    excuse : mean probability of a lying gauge and of something else, over jobs that are neither [1]; None without any
    """

    cases: int
    top_1: float
    top_3: float
    log_score: float
    log_score_of_prior: float
    log_score_of_chart: float
    top_1_of_chart: float
    top_3_of_chart: float
    in_likely: float
    excuse: float | None
    calibration: tuple[Band, ...]
    families: tuple[FamilyScore, ...]


def summed_up(scores: Sequence[Score]) -> Summary:
    """Sum up scores."""
    stated = np.concatenate([one.needed for one in scores])
    held = np.concatenate([one.held for one in scores])
    calibration: list[Band] = []
    for low, high in BANDS:
        inside = (stated >= low) & ((stated < high) | (high >= 1.0)) & (stated > 0.0)
        if inside.any():
            band = Band(
                low=low,
                high=high,
                repairs=int(inside.sum()),
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
        log_score_of_chart=_mean_log([one.charted for one in scores]),
        top_1_of_chart=_mean([one.chart_rank == 1 for one in scores]),
        top_3_of_chart=_mean([one.chart_rank <= 3 for one in scores]),
        in_likely=_mean([one.in_likely for one in scores]),
        excuse=_mean(excuses) if (excuses := [one.excuse for one in scores if one.excuse is not None]) else None,
        calibration=tuple(calibration),
        families=tuple(_of_family(family, scores) for family in FAMILIES if any(s.family == family for s in scores)),
    )


def _of_family(family: str, scores: Sequence[Score]) -> FamilyScore:
    own = [one for one in scores if one.family == family]
    return FamilyScore(
        family=family,
        cases=len(own),
        top_1=_mean([one.rank == 1 for one in own]),
        top_3=_mean([one.rank <= 3 for one in own]),
        family_first=_mean([FAMILIES[int(np.argmax(one.families))] == family for one in own]),
        log_score=_mean_log([one.probability for one in own]),
    )


def _mean(values: Sequence[float]) -> float:
    return float(np.mean(np.asarray(values, float)))


def _mean_log(chances: Sequence[float]) -> float:
    return float(np.mean(np.log(np.maximum(np.asarray(chances, float), LEAST))))
