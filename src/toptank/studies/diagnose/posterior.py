"""What is wrong, given the evidence: importance sampling over causes, severities and everything unknown of the vehicle.

Each round draws sets of causes, and then vehicles, days and severities, more and more where the rounds before have
found what agrees (`gaussian_proposal.py`). All rounds count together, each draw weighted by the mixture of all
proposals (the balance heuristic, veach1995), until enough draws agree with the evidence.
"""

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.catalogue.causes.cause import Cause
from toptank.catalogue.causes.told_cases import prior_weights
from toptank.catalogue.checks.check import checks
from toptank.catalogue.checks.measure import MEASURES, IdleCondition
from toptank.knowledge.sheet import OF_ITS_KIND, DutySheet, Sheet, kind_of_duty, with_rows_in_doubt
from toptank.studies.diagnose.cause_sets import Floats, drawn, prior, sets_of, tilted
from toptank.studies.diagnose.ensemble import Ensemble, drawn_vehicles, severity_from_score, taken
from toptank.studies.diagnose.evidence import Evidence
from toptank.studies.diagnose.fan_in_doubt import with_fan_in_doubt
from toptank.studies.diagnose.gaussian_proposal import LinearGaussianProposal, concatenate, fit
from toptank.studies.diagnose.likelihood import errors, likelihoods_without_model, outlier_likelihoods
from toptank.studies.diagnose.rounds import CandidateCauses, Problem, Proposal, Round, joined, round_of
from toptank.studies.diagnose.seen_sound import left_of_prior
from toptank.studies.diagnose.without_place import driven_as_named
from toptank.units.cancellation import CancelCheck, never_cancelled

ROUNDS = (4096, 4096, 8192, 8192, 8192, 8192, 8192, 8192)
"""Draws of each round [1]."""

ENOUGH = 2500.0
"""Effective sample size at which the answer is steady: half a share scatters by a point [1]."""

FEW = 150.0
"""Effective sample size below which the answer is called rough [1]."""

TEMPER = 0.1
"""Power of the likelihood by which draws count when the guide is learnt [1]."""

AS_BEFORE, AS_BEFORE_LATER, LIKE_THEM = 0.3, 0.1, 0.7
"""Share of sets of causes that are drawn as often as before the evidence, in the first round and later, and as often as
the causes in them were found [1]; the others as the very sets were found."""

SOME = 256
"""Vehicles on which it is seen which causes fit a sheet [1]."""

SLIGHT_AND_BAD = (-0.7, 0.7)
"""Scores of severity at which what was told is tried on every set of causes, in standard deviations [1]."""

LIFT_LIMITS = (0.05, 60.0)
UNKNOWN_SHARE = 0.03
"""Probability before all evidence that the trouble is none that is looked for [1]; judgement."""


STOOD = 600.0
"""How long a vehicle stood of which a driver tells what it does standing [s], within a factor of two; judgement.

A stop on the way is shorter; who tells of idling has sat there until he saw what became of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A vehicle, its days and what is known of its trouble."""

    sheet: Sheet
    duties: tuple[DutySheet, ...]
    evidence: Evidence
    shares: Floats
    """Prior share of every cause of `CAUSES` [1]; only ratios count."""

    def __post_init__(self) -> None:
        """What nobody counted or looked at is in doubt here: rows of tubes, and which kind of fan it has."""
        object.__setattr__(self, "sheet", with_fan_in_doubt(with_rows_in_doubt(self.sheet), self.evidence))
        object.__setattr__(self, "duties", tuple(_stood(driven_as_named(sheet)) for sheet in self.duties))


def _stood(sheet: DutySheet) -> DutySheet:
    """A duty; of a vehicle that stands the time that a driver watches it for, if nobody said how long it was."""
    time = sheet.facts["for"]
    if sheet.after or time.origin != OF_ITS_KIND or kind_of_duty(sheet.facts) != "stop":
        return sheet
    watched = dataclasses.replace(time, value=STOOD, origin="watched")
    return dataclasses.replace(sheet, facts={**sheet.facts, "for": watched})


class PosteriorSample(NamedTuple):
    """Draws with their weights: what the evidence leaves.

    possible : the draws that were gone on with
    weight : weight of each, summing to 1 [1]
    log_likelihoods : logarithm of the likelihood of each piece of evidence, a row a piece
    drawn : number of draws made
    effective_sample_size : number of equally weighted draws that would say as much [1]
    unknown : probability that it is none of the causes looked for [1]
    before : probability of every cause of `CAUSES`, and of none, before the evidence [1]
    """

    possible: Ensemble
    weight: Floats
    log_likelihoods: Floats
    drawn: int
    effective_sample_size: float
    unknown: float
    before: Floats


def known_shares(shares: Sequence[float] | None = None, *, without: str = "") -> Floats:
    """Shares of every cause: the known ones, less a told case that is diagnosed itself; or others in that order."""
    return np.array(shares if shares is not None else prior_weights(without), float)


def infer_posterior(question: Question, seed: int, go_on: CancelCheck = never_cancelled) -> PosteriorSample:
    """Draw until enough draws agree with the evidence, or patience ends.

    Parameters
    ----------
    question : vehicle, days, evidence, shares
    seed : same seed, same answer
    go_on : is called before every round, and may stop the work
    """
    candidates = candidate_causes(question, seed)
    idle_conditions = tuple(dict.fromkeys(_idle_conditions(question.evidence)))
    problem = Problem(question.sheet, question.duties, question.evidence, candidates, idle_conditions)
    proposals = [Proposal(_first(candidates), None)]
    rounds: list[Round] = []
    led: list[list[Floats]] = []
    weight, effective_sample_size = np.ones(1), 0.0
    for number, n in enumerate(ROUNDS):
        go_on()
        if number > 0:
            proposals.append(Proposal(_moved(candidates, rounds, weight), _guide(question.evidence, rounds, weight)))
        for chances, before in zip(led, rounds, strict=True):
            chances.append(proposals[-1].density_ratio(before.set_index, before.scores))
        rounds.append(round_of(problem, proposals[-1], n, (seed, number)))
        led.append([proposal.density_ratio(rounds[-1].set_index, rounds[-1].scores) for proposal in proposals])
        log_weight = _log_weights(candidates.prior, led, rounds) + _found(rounds)
        weight = np.exp(log_weight - log_weight.max())
        weight = weight / weight.sum()
        effective_sample_size = float(1.0 / np.sum(weight * weight))
        if effective_sample_size >= ENOUGH:
            break
    lines = np.concatenate([one.log_likelihoods for one in rounds], axis=1)
    at_first = np.exp(_log_weights(candidates.prior, led, rounds))
    unknown = _unknown(question.evidence, lines, at_first / at_first.sum())
    ensemble = _widened(joined(rounds), candidates.columns)
    before = np.zeros(len(CAUSES) + 1)
    before[candidates.columns] = candidates.prior @ sets_of(len(candidates.columns))
    before[-1] = candidates.prior[0]
    return PosteriorSample(
        ensemble, weight, lines, sum(one.drawn for one in rounds), effective_sample_size, unknown, before
    )


def _idle_conditions(evidence: Evidence) -> list[IdleCondition]:
    measured = [checks()[finding.check].measure for finding in evidence.findings if finding.figure is not None]
    return [place for name in measured if name for place in MEASURES[name].at]


def candidate_causes(question: Question, seed: int) -> CandidateCauses:
    """Causes that some of the vehicles of a question can have."""
    vehicle = drawn_vehicles(question.sheet, SOME, seed)
    prior_factor = np.array([float(np.mean(np.asarray(cause.prior_factor(vehicle), float))) for cause in CAUSES])
    columns = np.flatnonzero((prior_factor > 0.0) & (question.shares > 0.0)).tolist()
    left = left_of_prior(question.sheet, [CAUSES[column] for column in columns], vehicle)
    shares = question.shares[columns] * prior_factor[columns] * left
    causes, before = [CAUSES[column] for column in columns], prior(shares)
    aimed = before * _told_of_sets(question.evidence, causes)
    return CandidateCauses(columns, causes, prior_factor[columns], shares, before, aimed / aimed.sum())


def _told_of_sets(evidence: Evidence, causes: Sequence[Cause]) -> Floats:
    """How likely what needs no model is with every set of causes, roughly: all of them slight, then all of them bad."""
    sets = sets_of(len(causes))
    found: list[Floats] = []
    for score in SLIGHT_AND_BAD:
        # A cause is as bad in every set: its severity is worked out once.
        alone = severity_from_score(causes, np.ones((1, len(causes)), bool), np.full((1, len(causes)), score))
        found.append(likelihoods_without_model(evidence, causes, sets * alone).sum(axis=0))
    return np.exp(np.array(found) - np.max(found)).mean(axis=0)


def _first(candidates: CandidateCauses) -> Floats:
    """First proposal: what was told is heard at once, and rare causes are looked at more often than they occur."""
    lift = np.sqrt(candidates.shares.max() / candidates.shares)
    return AS_BEFORE * tilted(candidates.prior, lift) + (1.0 - AS_BEFORE) * candidates.aimed


def _moved(candidates: CandidateCauses, rounds: Sequence[Round], weight: Floats) -> Floats:
    """Proposal that has moved towards the causes and the number of causes that the draws so far speak for."""
    sets = sets_of(len(candidates.shares))
    set_index = np.concatenate([one.set_index for one in rounds])
    found = weight @ sets[set_index]
    before = candidates.aimed @ sets
    lift = np.clip((found + 0.003) / (before + 0.003), *LIFT_LIMITS)
    seen = np.bincount(set_index, weight, len(candidates.prior))
    like_them = tilted(candidates.aimed, lift)
    return AS_BEFORE_LATER * candidates.prior + LIKE_THEM * like_them + (1.0 - AS_BEFORE_LATER - LIKE_THEM) * seen


def _guide(evidence: Evidence, rounds: Sequence[Round], weight: Floats) -> LinearGaussianProposal | None:
    """What the rounds so far teach of where to look; nothing if no instrument was read."""
    shown = np.concatenate([one.shown for one in rounds])
    if shown.shape[1] == 0:
        return None
    found = _found(rounds)
    trust = np.exp(TEMPER * np.maximum(found - found.max(), -40.0))
    return fit(concatenate([one.scores for one in rounds]), shown, errors(evidence), trust, weight)


def _found(rounds: Sequence[Round]) -> Floats:
    """Logarithm of the likelihood of all evidence, for every draw."""
    return np.concatenate([one.log_likelihoods.sum(axis=0) for one in rounds])


def _log_weights(prior_of_sets: Floats, led: Sequence[Sequence[Floats]], rounds: Sequence[Round]) -> Floats:
    """Logarithm of what each draw stands for before the evidence: its prior over the mixture of all proposals so far.

    led : for every round, how likely each proposal so far draws what it drew
    """
    made = np.array([one.drawn for one in rounds], float)
    share = made / made.sum()
    return np.concatenate(
        [
            np.log(prior_of_sets[one.set_index] / (share @ np.array(chances))) + one.log_correction
            for chances, one in zip(led, rounds, strict=True)
        ]
    )


def _unknown(evidence: Evidence, lines: Floats, before: Floats) -> float:
    """Probability of a trouble that is not looked for.

    It would show each piece as often as other troubles do, or at random where none of them does, unconnected.
    """
    pieces = np.exp(lines)
    together = float(before @ np.exp(lines.sum(axis=0)))
    apart = float(np.prod(np.maximum(pieces @ before, outlier_likelihoods(evidence)))) if len(pieces) else 1.0
    return UNKNOWN_SHARE * apart / (UNKNOWN_SHARE * apart + (1.0 - UNKNOWN_SHARE) * max(together, 1e-300))


def _widened(possible: Ensemble, columns: Sequence[int]) -> Ensemble:
    """With a column for every cause of `CAUSES`, those that do not fit included."""
    severity = np.zeros((possible.n, len(CAUSES)))
    severity[:, columns] = possible.severity
    return possible._replace(present=severity > 0.0, severity=severity)


def resampled(weighed: PosteriorSample, n: int, seed: int) -> Ensemble:
    """N draws of equal weight."""
    return taken(weighed.possible, drawn(weighed.weight, n, np.random.default_rng((seed, 1007))))
