"""What is wrong, given the evidence: importance sampling over causes, severities and everything unknown of the vehicle.

Vehicles, days and severities are drawn from what is known before; sets of causes from a proposal that each round moves
towards what the rounds before have found. All rounds count together, each draw weighted by the mixture of proposals
(the balance heuristic, veach1995), until enough draws agree with the evidence.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from toptank.knowledge.sheet import DutySheet, Sheet, with_rows_in_doubt
from toptank.studies.diagnose.cause import Cause
from toptank.studies.diagnose.cause_sets import Floats, drawn, prior, sets_of, tilted
from toptank.studies.diagnose.causes import CAUSES
from toptank.studies.diagnose.check import checks
from toptank.studies.diagnose.evidence import Evidence
from toptank.studies.diagnose.likelihood import likelihoods, reading_likelihoods, seen_at_random, told_likelihoods
from toptank.studies.diagnose.measure import MEASURES, Standing
from toptank.studies.diagnose.possible import (
    Possible,
    afflicted,
    days_taken,
    drawn_duties,
    drawn_vehicles,
    settled,
    severities,
    taken,
    unsettled,
)
from toptank.system.jax_library import jax

ROUNDS = (8192, 16384, 24576, 24576, 24576)
"""Draws of each round [1]."""

FAILS, FEW_OF_THEM = 4.0, 0.15
"""A draw whose logarithm of likelihood so far lies so far below the best one fails; of these a share goes on [1].

Each that does stands for all that do not, so that the answer stays what it was."""

ENOUGH = 2500.0
"""Draws' worth at which the answer is steady to about a point [1]."""

FEW = 150.0
"""Draws' worth below which the answer is called rough [1]."""

KEPT_OF_PRIOR = 0.3
LIFT_LIMITS = (0.05, 60.0)
UNKNOWN_SHARE = 0.03
"""Probability before all evidence that the trouble is none that is looked for [1]; judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A vehicle, its days and what is known of its trouble."""

    sheet: Sheet
    duties: tuple[DutySheet, ...]
    evidence: Evidence
    shares: Floats
    """Prior share of every cause of `CAUSES` [1]; only ratios count."""

    def __post_init__(self) -> None:
        """Rows of tubes that nobody counted are in doubt here: one fewer than there should be is a usual reason."""
        object.__setattr__(self, "sheet", with_rows_in_doubt(self.sheet))


class Weighed(NamedTuple):
    """Draws with their weights: what the evidence leaves.

    possible : the draws that were gone on with
    weight : weight of each, summing to 1 [1]
    lines : logarithm of the likelihood of each piece of evidence, a row a piece
    drawn : number of draws made
    worth : number of equally weighted draws that would say as much [1]
    unknown : probability that it is none of the causes looked for [1]
    before : probability of every cause of `CAUSES`, and of none, before the evidence [1]
    """

    possible: Possible
    weight: Floats
    lines: Floats
    drawn: int
    worth: float
    unknown: float
    before: Floats


def known_shares(shares: Sequence[float] | None = None) -> Floats:
    """Shares of every cause: the declared ones, or others in the same order."""
    return np.array(shares if shares is not None else [cause.share for cause in CAUSES], float)


def weigh(question: Question, seed: int) -> Weighed:
    """Draw until enough draws agree with the evidence, or patience ends.

    Parameters
    ----------
    question : vehicle, days, evidence, shares
    seed : same seed, same answer
    """
    needed = tuple(dict.fromkeys(_standings(question.evidence)))
    suspects = _suspects(question, seed)
    prior_of_sets, shares = suspects.prior, suspects.shares
    proposals: list[Floats] = [_spread(prior_of_sets, shares)]
    rounds: list[_Round] = []
    weight, worth = np.ones(1), 0.0
    for number, n in enumerate(ROUNDS):
        if number > 0:
            proposals.append(_moved(prior_of_sets, shares, np.concatenate([one.picks for one in rounds]), weight))
        rounds.append(_round(question, suspects, proposals[-1], needed, n, (seed, number)))
        log_weight = _log_weights(prior_of_sets, proposals, rounds, [one.lines.sum(axis=0) for one in rounds])
        weight = np.exp(log_weight - log_weight.max())
        weight = weight / weight.sum()
        worth = float(1.0 / np.sum(weight * weight))
        if worth >= ENOUGH:
            break
    lines = np.concatenate([one.lines for one in rounds], axis=1)
    at_first = np.exp(_log_weights(prior_of_sets, proposals, rounds, [one.lines[-1] for one in rounds]))
    unknown = _unknown(question.evidence, lines, at_first / at_first.sum())
    together = _widened(_joined([one.possible for one in rounds]), suspects.columns)
    before = np.zeros(len(CAUSES) + 1)
    before[suspects.columns] = prior_of_sets @ sets_of(len(shares))
    before[-1] = prior_of_sets[0]
    return Weighed(together, weight, lines, sum(one.drawn for one in rounds), worth, unknown, before)


def _standings(evidence: Evidence) -> list[Standing]:
    measured = [checks()[finding.check].measure for finding in evidence.findings if finding.figure is not None]
    return [place for name in measured if name for place in MEASURES[name].at]


class _Suspects(NamedTuple):
    """Causes that some of the vehicles can have: places in `CAUSES`, mean odds, shares, prior of their sets."""

    columns: list[int]
    causes: list[Cause]
    odds: Floats
    shares: Floats
    prior: Floats


def _suspects(question: Question, seed: int) -> _Suspects:
    vehicle = drawn_vehicles(question.sheet, 256, seed)
    odds = np.array([float(np.mean(np.asarray(cause.odds(vehicle), float))) for cause in CAUSES])
    columns = np.flatnonzero((odds > 0.0) & (question.shares > 0.0)).tolist()
    shares = question.shares[columns] * odds[columns]
    return _Suspects(columns, [CAUSES[column] for column in columns], odds[columns], shares, prior(shares))


def _spread(prior_of_sets: Floats, shares: Floats) -> Floats:
    """First proposal: rare causes are looked at more often than they occur."""
    lift = np.sqrt(shares.max() / shares)
    return KEPT_OF_PRIOR * prior_of_sets + (1.0 - KEPT_OF_PRIOR) * tilted(prior_of_sets, lift)


def _moved(prior_of_sets: Floats, shares: Floats, picks: np.ndarray, weight: Floats) -> Floats:
    """Proposal that has moved towards the causes and the number of causes that the draws so far speak for."""
    sets = sets_of(len(shares))
    found = weight @ sets[picks]
    before = prior_of_sets @ sets
    lift = np.clip((found + 0.003) / (before + 0.003), *LIFT_LIMITS)
    moved = tilted(prior_of_sets, lift)
    seen = np.bincount(picks, weight, len(prior_of_sets))
    return KEPT_OF_PRIOR * prior_of_sets + 0.4 * moved + (0.6 - KEPT_OF_PRIOR) * seen + 0.1 * moved


class _Round(NamedTuple):
    """How many draws one round made; of those that were gone on with: vehicles, sets and lines.

    The last line is the logarithm of their odds over the usual ones and of how many draws each stands for.
    """

    drawn: int
    possible: Possible
    picks: NDArray[np.intp]
    lines: Floats


def _round(
    question: Question,
    suspects: _Suspects,
    proposal: Floats,
    needed: Sequence[Standing],
    n: int,
    seed: tuple[int, int],
) -> _Round:
    """Draw, and settle duty after duty; of draws that do not agree so far only a few are gone on with."""
    own = 1000 * seed[0] + seed[1]
    rng = np.random.default_rng(seed)
    causes, evidence = suspects.causes, question.evidence
    picks = drawn(proposal / proposal.sum(), n, rng)
    severity = severities(causes, sets_of(len(causes))[picks], rng)
    sound = drawn_vehicles(question.sheet, n, own)
    vehicle, factor = afflicted(sound, causes, severity, suspects.odds)
    duties = drawn_duties(question.duties, n, own)
    outside = next(iter(duties.values()))
    stands_for = np.log(np.maximum(factor, 1e-300))
    so_far = stands_for + told_likelihoods(evidence, causes, severity).sum(axis=0)
    possible = unsettled(sound, vehicle, severity, outside)
    left, more = _gone_on_with(so_far, rng)
    possible, at, stands_for, so_far = taken(possible, left), left, stands_for[left] + more, so_far[left] + more
    for name in dict.fromkeys(reading.duty for reading in evidence.readings):
        possible = settled(possible, {name: days_taken(duties[name], at)}, ())
        seen = [reading for reading in evidence.readings if reading.duty == name]
        so_far = so_far + reading_likelihoods(seen, possible).sum(axis=0)
        left, more = _gone_on_with(so_far, rng)
        possible, at = taken(possible, left), at[left]
        stands_for, so_far = stands_for[left] + more, so_far[left] + more
    possible = settled(possible, {}, needed)
    lines = likelihoods(evidence, causes, possible)
    return _Round(n, possible, picks[at], np.concatenate([lines, stands_for[None]]))


def _gone_on_with(so_far: Floats, rng: np.random.Generator) -> tuple[NDArray[np.intp], Floats]:
    """Draws to go on with, all that agree and a share of the others, and the logarithm of how many each stands for."""
    fails = so_far < so_far.max() - FAILS
    stays = ~fails | (rng.random(len(so_far)) < FEW_OF_THEM)
    left = np.flatnonzero(stays)
    return left, np.where(fails[left], -np.log(FEW_OF_THEM), 0.0)


def _log_weights(
    prior_of_sets: Floats, proposals: Sequence[Floats], rounds: Sequence[_Round], lines: Sequence[Floats]
) -> Floats:
    """Logarithm of prior and likelihood over the mixture of all proposals so far, for every draw."""
    used = [proposal / proposal.sum() for proposal in proposals]
    mixture = np.average(used, axis=0, weights=[one.drawn for one in rounds])
    picks = np.concatenate([one.picks for one in rounds])
    return np.log(prior_of_sets[picks] / mixture[picks]) + np.concatenate(lines)


def _unknown(evidence: Evidence, lines: Floats, before: Floats) -> float:
    """Probability of a trouble that is not looked for.

    It would show each piece as often as other troubles do, or at random where none of them does, unconnected.
    """
    pieces = np.exp(lines[:-1])
    together = float(before @ np.exp(lines[:-1].sum(axis=0)))
    apart = float(np.prod(np.maximum(pieces @ before, seen_at_random(evidence)))) if len(pieces) else 1.0
    return UNKNOWN_SHARE * apart / (UNKNOWN_SHARE * apart + (1.0 - UNKNOWN_SHARE) * max(together, 1e-300))


def _joined(parts: Sequence[Possible]) -> Possible:
    return jax.tree.map(_end_to_end, *parts)


def _end_to_end(*arrays: np.ndarray) -> np.ndarray:
    return np.concatenate(arrays)


def _widened(possible: Possible, columns: Sequence[int]) -> Possible:
    """With a column for every cause of `CAUSES`, those that do not fit included."""
    severity = np.zeros((possible.n, len(CAUSES)))
    severity[:, columns] = possible.severity
    return possible._replace(present=severity > 0.0, severity=severity)


def resampled(weighed: Weighed, n: int, seed: int) -> Possible:
    """N draws of equal weight."""
    return taken(weighed.possible, drawn(weighed.weight, n, np.random.default_rng((seed, 7))))
