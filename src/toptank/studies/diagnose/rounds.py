"""One round of draws: possible vehicles with possible causes, settled duty after duty, weighed by the evidence."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr, ndtri

from toptank.catalogue.causes.cause import Cause
from toptank.catalogue.checks.measure import IdleCondition
from toptank.knowledge.conditions import conditions_at
from toptank.knowledge.draws import doubtful, doubtful_of_duties, steps, unit_samples, vehicle_at
from toptank.knowledge.sheet import DutySheet, Sheet
from toptank.studies.diagnose.cause_sets import Floats, drawn, sets_of
from toptank.studies.diagnose.ensemble import (
    Ensemble,
    apply_causes,
    settled,
    severity_from_score,
    taken,
    unsettled,
)
from toptank.studies.diagnose.evidence import Evidence
from toptank.studies.diagnose.gaussian_proposal import LinearGaussianProposal, Scores, density_ratio, propose
from toptank.studies.diagnose.heard import TRADE
from toptank.studies.diagnose.likelihood import likelihoods, likelihoods_without_model, reading_likelihoods, shown
from toptank.studies.diagnose.trade_expectation import Expectation, expectation
from toptank.studies.diagnose.without_place import hot_anywhere, says_no_place
from toptank.system.condition_batch import Condition
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jax
from toptank.system.vehicle import Vehicle

PRUNE_BELOW = 0.03
"""Draws that weigh less than this share of what agreeing draws usually weigh are thinned, in proportion [1]."""

LEAST_SURVIVAL = 0.05
"""Share of draws that go on however little they weigh, over all thinnings [1].

Each that goes on stands for those that do not, so that the answer stays what it was."""


class CandidateCauses(NamedTuple):
    """Causes that some of the vehicles can have.

    columns : places in `CAUSES`
    prior_factor : mean factor of each over the vehicles [1]
    shares : of each [1]
    prior : probability of every set of them among vehicles that come in [1]
    aimed : the same after what needs no model, at middling severities: where it pays to look [1]
    """

    columns: list[int]
    causes: list[Cause]
    prior_factor: Floats
    shares: Floats
    prior: Floats
    aimed: Floats


class Problem(NamedTuple):
    """What is asked in every round: the vehicle, its days, the evidence, the causes, where instruments are read."""

    sheet: Sheet
    duties: Sequence[DutySheet]
    evidence: Evidence
    candidates: CandidateCauses
    idle_conditions: Sequence[IdleCondition]


class Proposal(NamedTuple):
    """How a round draws: how often each set of causes, and where to look for vehicles, once there is a guide."""

    set_probability: Floats
    guide: LinearGaussianProposal | None

    def density_ratio(self, set_index: NDArray[np.intp], scores: Scores) -> Floats:
        """Chance of the set of each draw, by how much likelier its scores are than by chance [1]."""
        by_set = self.set_probability[set_index]
        return by_set if self.guide is None else by_set * density_ratio(self.guide, scores, set_index)


class Round(NamedTuple):
    """How many draws one round made; of those that were gone on with: vehicles, sets, scores, likelihoods, instruments.

    log_likelihoods : logarithm of the likelihood of each piece of evidence, a row a piece
    log_correction : logarithm of the odds of its causes over the usual ones and of how many draws each stands for
    shown : what each instrument that was read would show, (n, d)
    """

    drawn: int
    possible: Ensemble
    set_index: NDArray[np.intp]
    scores: Scores
    log_likelihoods: Floats
    log_correction: Floats
    shown: Floats


def round_of(problem: Problem, proposal: Proposal, n: int, seed: tuple[int, int]) -> Round:
    """Draw, and settle duty after duty; of draws that do not agree so far only a few are gone on with.

    Parameters
    ----------
    problem : the question
    proposal : how to draw
    n : number of draws
    seed : of all rounds, and number of this one
    """
    rng = np.random.default_rng(seed)
    causes, evidence = problem.candidates.causes, problem.evidence
    set_index = drawn(proposal.set_probability, n, rng)
    scores, sound, days = _vehicles(problem, set_index, proposal.guide, 1000 * seed[0] + seed[1], rng)
    severity = severity_from_score(causes, scores.present, scores.severity)
    vehicle, factor = apply_causes(sound, causes, severity, problem.candidates.prior_factor)
    log_correction = np.log(np.maximum(factor, 1e-300))
    weighs = log_correction + np.log(problem.candidates.prior[set_index] / proposal.density_ratio(set_index, scores))
    undriven = unsettled(sound, vehicle, severity, days)._replace(
        by_trade=scores.stays, off_the_trade=rng.standard_normal(n)
    )
    thinned = _Pruned(undriven, np.arange(n), np.ones(n), log_correction, weighs)
    thinned = thinned.prune(likelihoods_without_model(evidence, causes, severity).sum(axis=0), rng)
    for name in dict.fromkeys(reading.duty for reading in evidence.readings):
        driven = settled(thinned.possible, [name], ())
        day = driven.conditions[name].duty
        driven = driven._replace(expected={**driven.expected, name: _expected(problem, name, driven, day)})
        seen = [reading for reading in evidence.readings if reading.duty == name]
        found = reading_likelihoods(seen, driven).sum(axis=0)
        thinned = thinned._replace(possible=driven).prune(found, rng)
    possible = settled(thinned.possible, (), problem.idle_conditions)
    return Round(
        drawn=n,
        possible=possible,
        set_index=set_index[thinned.at],
        scores=scores.rows(thinned.at),
        log_likelihoods=likelihoods(evidence, causes, possible),
        log_correction=thinned.log_correction,
        shown=shown(evidence, possible),
    )


def _expected(problem: Problem, name: str, driven: Ensemble, day: Duty) -> Expectation:
    """What the trade expects of vehicles on a duty."""
    causes = problem.candidates.causes
    expected = expectation(causes, driven.severity, driven.sound, day)
    expected = expected._replace(coolant=expected.coolant + expected.spread * driven.off_the_trade)
    if not says_no_place(next(duty for duty in problem.duties if duty.name == name)):
        return expected
    return expected._replace(anywhere=hot_anywhere(causes, driven.severity, driven.sound, driven.vehicle, day))


def _vehicles(
    problem: Problem,
    set_index: NDArray[np.intp],
    guide: LinearGaussianProposal | None,
    seed: int,
    rng: np.random.Generator,
) -> tuple[Scores, Vehicle, dict[str, Condition]]:
    """Draw vehicles and their days, led by a guide if there is one."""
    n = len(set_index)
    declared = doubtful(problem.sheet) | doubtful_of_duties(problem.duties)
    chances = dict(unit_samples(declared, n, seed))
    smooth = [path for path, declaration in declared.items() if not steps(declaration)]
    stepped = [path for path, declaration in declared.items() if steps(declaration)]
    present = sets_of(len(problem.candidates.causes))[set_index]
    places = np.array([chances[path] for path in smooth]).reshape(len(smooth), n).T
    scores = Scores(
        smooth=np.asarray(ndtri(places), float),
        steps=np.array([chances[path] for path in stepped]).reshape(len(stepped), n).T,
        severity=rng.standard_normal(present.shape),
        present=present,
        stays=rng.random(n) < TRADE,
    )
    if guide is not None:
        scores = propose(guide, scores, set_index, rng)
        chances |= dict(zip(smooth, np.asarray(ndtr(scores.smooth), float).T, strict=True))
    sound = vehicle_at(problem.sheet, chances, n)
    return scores, sound, conditions_at(problem.sheet, problem.duties, chances, n)


class _Pruned(NamedTuple):
    """Draws that are left.

    at : their places among all that were drawn
    thinned : how many draws each stands for by thinning [1]
    log_correction, weighs : logarithm of that and its odds, and of what it weighs by the evidence so far
    """

    possible: Ensemble
    at: NDArray[np.intp]
    thinned: Floats
    log_correction: Floats
    weighs: Floats

    def prune(self, found: Floats, rng: np.random.Generator) -> "_Pruned":
        """Go on with all that agree with what was found and with a share of the others, each of which stands for more.

        What agreeing draws usually weigh is the mean of the weights, each weighed by itself. However often draws are
        thinned, none comes to stand for more than 1 / `LEAST_SURVIVAL`.
        """
        weighs = self.weighs + found
        weight = np.exp(weighs - weighs.max())
        usual = float((weight * weight).sum() / weight.sum())
        least = np.minimum(LEAST_SURVIVAL * self.thinned, 1.0)
        chance = np.clip(weight / (PRUNE_BELOW * usual), least, 1.0)
        left = np.flatnonzero(rng.random(len(weight)) < chance)
        more = -np.log(chance[left])
        return _Pruned(
            possible=taken(self.possible, left),
            at=self.at[left],
            thinned=self.thinned[left] / chance[left],
            log_correction=self.log_correction[left] + more,
            weighs=weighs[left] + more,
        )


def joined(rounds: Sequence[Round]) -> Ensemble:
    """The vehicles of all rounds."""
    return jax.tree.map(_end_to_end, *[one.possible for one in rounds])


def _end_to_end(*arrays: np.ndarray) -> np.ndarray:
    return np.concatenate(arrays)
