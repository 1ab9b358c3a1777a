"""One round of draws: possible vehicles with possible causes, settled duty after duty, weighed by the evidence."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr, ndtri

from toptank.catalogue.causes.cause import Cause
from toptank.catalogue.checks.measure import Standing
from toptank.knowledge.draws import chances_of, doubtful, doubtful_of_duties, duty_at, steps, vehicle_at
from toptank.knowledge.sheet import DutySheet, Sheet
from toptank.studies.diagnose.cause_sets import Floats, drawn, sets_of
from toptank.studies.diagnose.evidence import Evidence
from toptank.studies.diagnose.gaussian_proposal import Guide, Scores, likelier, moved
from toptank.studies.diagnose.likelihood import likelihoods, reading_likelihoods, shown, told_likelihoods
from toptank.studies.diagnose.possible import Possible, afflicted, days_taken, graded, settled, taken, unsettled
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jax
from toptank.system.vehicle import Vehicle

FAINT = 0.001
"""Draws that weigh less than this share of what agreeing draws usually weigh are thinned, in proportion [1]."""

FEWEST = 0.25
"""Share of draws that go on however little they weigh, over all thinnings [1].

Each that goes on stands for those that do not, so that the answer stays what it was."""


class Suspects(NamedTuple):
    """Causes that some of the vehicles can have: places in `CAUSES`, mean odds, shares, prior of their sets."""

    columns: list[int]
    causes: list[Cause]
    odds: Floats
    shares: Floats
    prior: Floats


class Asked(NamedTuple):
    """What is asked in every round: the vehicle, its days, the evidence, the causes, where instruments are read."""

    sheet: Sheet
    duties: Sequence[DutySheet]
    evidence: Evidence
    suspects: Suspects
    standings: Sequence[Standing]


class Way(NamedTuple):
    """How a round draws: how often each set of causes, and where to look for vehicles, once there is a guide."""

    proposal: Floats
    guide: Guide | None

    def likelier(self, picks: NDArray[np.intp], scores: Scores) -> Floats:
        """Chance of the set of each draw, by how much likelier its scores are than by chance [1]."""
        by_set = self.proposal[picks]
        return by_set if self.guide is None else by_set * likelier(self.guide, scores, picks)


class Round(NamedTuple):
    """How many draws one round made; of those that were gone on with: vehicles, sets, scores, lines, instruments.

    lines : logarithm of the likelihood of each piece of evidence, a row a piece
    stands_for : logarithm of the odds of its causes over the usual ones and of how many draws each stands for
    shown : what each instrument that was read would show, (n, d)
    """

    drawn: int
    possible: Possible
    picks: NDArray[np.intp]
    scores: Scores
    lines: Floats
    stands_for: Floats
    shown: Floats


def round_of(asked: Asked, way: Way, n: int, seed: tuple[int, int]) -> Round:
    """Draw, and settle duty after duty; of draws that do not agree so far only a few are gone on with.

    Parameters
    ----------
    asked : the question
    way : how to draw
    n : number of draws
    seed : of all rounds, and number of this one
    """
    rng = np.random.default_rng(seed)
    causes, evidence = asked.suspects.causes, asked.evidence
    picks = drawn(way.proposal, n, rng)
    scores, sound, days = _vehicles(asked, picks, way.guide, 1000 * seed[0] + seed[1], rng)
    severity = graded(causes, scores.present, scores.severity)
    vehicle, factor = afflicted(sound, causes, severity, asked.suspects.odds)
    stands_for = np.log(np.maximum(factor, 1e-300))
    weighs = stands_for + np.log(asked.suspects.prior[picks] / way.likelier(picks, scores))
    undriven = unsettled(sound, vehicle, severity, next(iter(days.values())))
    thinned = _Thinned(undriven, np.arange(n), np.ones(n), stands_for, weighs)
    thinned = thinned.after(told_likelihoods(evidence, causes, severity).sum(axis=0), rng)
    for name in dict.fromkeys(reading.duty for reading in evidence.readings):
        driven = settled(thinned.possible, {name: days_taken(days[name], thinned.at)}, ())
        seen = [reading for reading in evidence.readings if reading.duty == name]
        found = reading_likelihoods(seen, driven).sum(axis=0)
        thinned = thinned._replace(possible=driven).after(found, rng)
    possible = settled(thinned.possible, {}, asked.standings)
    return Round(
        drawn=n,
        possible=possible,
        picks=picks[thinned.at],
        scores=scores.rows(thinned.at),
        lines=likelihoods(evidence, causes, possible),
        stands_for=thinned.stands_for,
        shown=shown(evidence, possible),
    )


def _vehicles(
    asked: Asked, picks: NDArray[np.intp], guide: Guide | None, seed: int, rng: np.random.Generator
) -> tuple[Scores, Vehicle, dict[str, Duty]]:
    """Draw vehicles and their days, led by a guide if there is one."""
    n = len(picks)
    declared = doubtful(asked.sheet) | doubtful_of_duties(asked.duties)
    chances = dict(chances_of(declared, n, seed))
    smooth = [path for path, declaration in declared.items() if not steps(declaration)]
    stepped = [path for path, declaration in declared.items() if steps(declaration)]
    present = sets_of(len(asked.suspects.causes))[picks]
    places = np.array([chances[path] for path in smooth]).reshape(len(smooth), n).T
    scores = Scores(
        smooth=np.asarray(ndtri(places), float),
        steps=np.array([chances[path] for path in stepped]).reshape(len(stepped), n).T,
        severity=rng.standard_normal(present.shape),
        present=present,
    )
    if guide is not None:
        scores = moved(guide, scores, picks, rng)
        chances |= dict(zip(smooth, np.asarray(ndtr(scores.smooth), float).T, strict=True))
    sound = vehicle_at(asked.sheet, chances, n)
    return scores, sound, {sheet.name: duty_at(sheet, chances, n) for sheet in asked.duties}


class _Thinned(NamedTuple):
    """Draws that are left.

    at : their places among all that were drawn
    thinned : how many draws each stands for by thinning [1]
    stands_for, weighs : logarithm of that and its odds, and of what it weighs by the evidence so far
    """

    possible: Possible
    at: NDArray[np.intp]
    thinned: Floats
    stands_for: Floats
    weighs: Floats

    def after(self, found: Floats, rng: np.random.Generator) -> "_Thinned":
        """Go on with all that agree with what was found and with a share of the others, each of which stands for more.

        What agreeing draws usually weigh is the mean of the weights, each weighed by itself. However often draws are
        thinned, none comes to stand for more than 1 / `FEWEST`.
        """
        weighs = self.weighs + found
        weight = np.exp(weighs - weighs.max())
        usual = float((weight * weight).sum() / weight.sum())
        least = np.minimum(FEWEST * self.thinned, 1.0)
        chance = np.clip(weight / (FAINT * usual), least, 1.0)
        left = np.flatnonzero(rng.random(len(weight)) < chance)
        more = -np.log(chance[left])
        return _Thinned(
            possible=taken(self.possible, left),
            at=self.at[left],
            thinned=self.thinned[left] / chance[left],
            stands_for=self.stands_for[left] + more,
            weighs=weighs[left] + more,
        )


def joined(rounds: Sequence[Round]) -> Possible:
    """The vehicles of all rounds."""
    return jax.tree.map(_end_to_end, *[one.possible for one in rounds])


def _end_to_end(*arrays: np.ndarray) -> np.ndarray:
    return np.concatenate(arrays)
