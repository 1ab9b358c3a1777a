"""The answer: causes with probabilities, what speaks for and against each, what to repair, which check comes next."""

from dataclasses import dataclass

import numpy as np

from toptank.catalogue.causes.all_causes import CAUSE_IDS, CAUSES, NOTHING_TO_REPAIR
from toptank.studies.diagnose.asking.ask_first import DriverQuestion, questions_to_ask
from toptank.studies.diagnose.asking.next_check import (
    SAMPLE,
    Suggestion,
    cause_indicators,
    first_repair,
    repair_indicators,
    repairs_of,
    stands_first,
    suggest,
)
from toptank.studies.diagnose.cause_sets import Floats
from toptank.studies.diagnose.evidence import Piece
from toptank.studies.diagnose.posterior import FEW, PosteriorSample, Question, infer_posterior, resampled
from toptank.units.cancellation import CancelCheck, never_cancelled

LIKELY = 0.8
"""Probability that at least one of the likely causes is there [1]."""

CONTRADICTION = 0.25
"""Probability of a trouble not looked for beyond which it is said aloud [1]."""

STEADY = 1000.0
"""Draws' worth from which seeds agree within three points [1]."""

PAIRS_TOLD = 3
LEAST_PAIR = 0.03
LEAST_SHIFT = 0.1
"""Logarithm (base 10) of the odds below which a piece of evidence says nothing worth telling."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Voice:
    """What one piece of evidence says of one cause: the factor on its odds; above 1 it speaks for it [1]."""

    evidence: Piece
    factor: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspect:
    """One cause (id): its repair (id), probability before and after the evidence, severity (10, 50, 90 %) [1]."""

    cause: str
    repair: str
    before: float
    probability: float
    severity: tuple[float, float, float] | None
    voices: tuple[Voice, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagnosis:
    """The whole answer.

    Parameters
    ----------
    suspects : every cause that the vehicle can have, and none at all, the likeliest first
    likely : the fewest causes of which at least one is there with 80 % probability
    pairs : two causes at once, with their probability
    repairs : what would be repaired, with the probability that it is needed
    unknown : probability that it is none of the causes looked for
    drawn, worth : draws made, and equally weighted draws that would say as much
    remarks : what to know of the answer itself
    ask_first : what to ask the driver before anything is done, the best first
    checks : what to do next, the best first
    settled : the first repair, where it no longer depends on a check; otherwise empty
    """

    suspects: tuple[Suspect, ...]
    likely: tuple[str, ...]
    pairs: tuple[tuple[str, str, float], ...]
    repairs: tuple[tuple[str, float], ...]
    unknown: float
    drawn: int
    effective_sample_size: float
    remarks: tuple[str, ...]
    ask_first: tuple[DriverQuestion, ...]
    checks: tuple[Suggestion, ...]
    settled: str

    @property
    def first_check(self) -> Suggestion | None:
        """What to do before anything else; None where no check would change the first repair."""
        return stands_first(self.checks, settled=bool(self.settled))


def diagnose(question: Question, seed: int) -> Diagnosis:
    """Say what is wrong, and which check to make next."""
    return diagnosis_of(question, infer_posterior(question, seed), seed)


def diagnosis_of(
    question: Question, weighed: PosteriorSample, seed: int, go_on: CancelCheck = never_cancelled
) -> Diagnosis:
    """Say it from draws that are weighed already; `go_on` is called before every part, and may stop the work."""
    go_on()
    with_none = flags(weighed)
    after = weighed.weight @ with_none
    order = np.argsort(-after, kind="stable")
    left = without_each_piece(weighed, with_none)
    suspects = tuple(
        _suspect(question, weighed, int(place), after, left) for place in order if weighed.before[place] > 0.0
    )
    repairs = repairs_of(with_none, weighed.weight)
    go_on()
    checks, settled = suggest(question, weighed, seed)
    return Diagnosis(
        suspects=suspects,
        likely=likely_causes(weighed),
        pairs=_pairs(weighed),
        repairs=tuple(repairs.items()),
        unknown=weighed.unknown,
        drawn=weighed.drawn,
        effective_sample_size=weighed.effective_sample_size,
        remarks=tuple(_remarks(weighed)),
        ask_first=_ask_first(question, weighed, seed),
        checks=checks,
        settled=first_repair(repairs) if settled else "",
    )


def _ask_first(question: Question, weighed: PosteriorSample, seed: int) -> tuple[DriverQuestion, ...]:
    possible = resampled(weighed, SAMPLE, seed)
    return questions_to_ask(question.evidence, possible, repair_indicators(cause_indicators(possible)))


def flags(weighed: PosteriorSample) -> Floats:
    """Which causes every draw has, with a last column for none at all [1]."""
    return cause_indicators(weighed.possible)


def likely_causes(weighed: PosteriorSample) -> tuple[str, ...]:
    """The fewest causes of which at least one is there in 80 % of what the evidence leaves: one after the other."""
    with_none, left = flags(weighed), weighed.weight.copy()
    named: list[str] = []
    while float(left.sum()) > 1.0 - LIKELY:
        place = int(np.argmax(left @ with_none))
        named.append(CAUSE_IDS[place])
        left = left * (1.0 - with_none[:, place])
    return tuple(named)


def _suspect(question: Question, weighed: PosteriorSample, place: int, after: Floats, left: Floats) -> Suspect:
    none = place == len(CAUSES)
    severity = None
    if not none:
        there = weighed.possible.present[:, place]
        severity = _band(weighed.possible.severity[there, place], weighed.weight[there])
    return Suspect(
        cause=CAUSE_IDS[place],
        repair=NOTHING_TO_REPAIR if none else CAUSES[place].repair,
        before=float(weighed.before[place]),
        probability=float(after[place]),
        severity=severity,
        voices=_voices(question, float(after[place]), left[:, place]),
    )


def _band(values: Floats, weight: Floats) -> tuple[float, float, float] | None:
    if weight.sum() <= 0.0:
        return None
    order = np.argsort(values)
    reached = np.cumsum(weight[order]) / weight.sum()
    low, middle, high = (
        float(values[order][min(int(np.searchsorted(reached, q)), len(order) - 1)]) for q in (0.1, 0.5, 0.9)
    )
    return low, middle, high


def without_each_piece(weighed: PosteriorSample, with_none: Floats) -> Floats:
    """Return the probability of every cause without one piece of the evidence [1], a row a piece."""
    lines = weighed.log_likelihoods
    if not len(lines):
        return np.zeros((0, with_none.shape[1]))
    without = weighed.weight * np.exp(lines.max(axis=1, keepdims=True) - lines)
    return without @ with_none / without.sum(axis=1, keepdims=True)


def _voices(question: Question, share: float, without: Floats) -> tuple[Voice, ...]:
    """Odds of a cause, whose probability is a share [1], with all evidence over those without one piece of it."""
    if not 0.0 < share < 1.0:
        return ()
    voices: list[Voice] = []
    for piece, left in zip(question.evidence.pieces, without.tolist(), strict=False):
        if 0.0 < left < 1.0:
            factor = share / (1.0 - share) * (1.0 - left) / left
            if abs(np.log10(factor)) >= LEAST_SHIFT:
                voices.append(Voice(evidence=piece, factor=factor))
    return tuple(sorted(voices, key=_strength, reverse=True))


def _strength(voice: Voice) -> float:
    return abs(float(np.log(voice.factor)))


def _pairs(weighed: PosteriorSample) -> tuple[tuple[str, str, float], ...]:
    present = weighed.possible.present.astype(float)
    together = (present * weighed.weight[:, None]).T @ present
    first, second = np.triu_indices(len(CAUSES), 1)
    order = np.argsort(-together[first, second])[:PAIRS_TOLD]
    found = [(CAUSES[first[i]].id, CAUSES[second[i]].id, float(together[first[i], second[i]])) for i in order]
    return tuple(pair for pair in found if pair[2] >= LEAST_PAIR)


def _remarks(weighed: PosteriorSample) -> list[str]:
    remarks: list[str] = []
    if weighed.unknown >= CONTRADICTION:
        remarks.append(
            "What was seen does not go together for any cause looked for: read the figures again, look at the gauge "
            "first, or think of something that is not on the list."
        )
    if weighed.effective_sample_size < FEW:
        remarks.append(
            f"Only {weighed.effective_sample_size:.0f} draws' worth agree with all that was seen, of {weighed.drawn:,} "
            "made: the percentages are rough."
        )
    elif weighed.effective_sample_size < STEADY:
        remarks.append("Few draws agree with all that was seen: a percentage may be off by some points.")
    return remarks
