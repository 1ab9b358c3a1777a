"""Where to look for vehicles that agree with the readings: a linear picture of what earlier draws showed.

Every thing unknown of a vehicle, of its day and of how severe its causes are has a score: its place among all that it
may be, as a standard normal number. What the instruments would show is fitted, on the draws of earlier rounds, as a
linear function of the scores. With that, a draw is moved to where it would show what the draws that agree have shown,
as far as its own scores allow (Matheron's rule: a Gaussian updated by an observation). How much likelier a moved draw
is than an unmoved one is known exactly, so that the weights make good whatever the picture gets wrong.

Source: the optimal proposal of doucet2000, section II.D, for a linear picture (from memory); some draws stay unmoved,
so that no weight grows without bound, hesterberg1995 (from memory).
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from toptank.studies.diagnose.cause_sets import Flags, Floats

MOVED = 0.7
"""Share of draws that are moved [1]; the others bound the weights."""

WIDER = 1.5
"""Spread of what the draws that agree have shown is widened by so much, since the picture is rough [1]."""

FAINT = 1.0
"""So many draws' worth of doubt in every coefficient that there might be no effect at all [1]."""

LEAST_SPREAD = 0.5
"""Least standard deviation of what is to be shown, in units of its own error [1]."""


class Scores(NamedTuple):
    """Scores of n draws.

    smooth : of every field that can be moved, (n, fields)
    steps : of every field that takes separate values, (n, fields); not moved
    severity : of every cause, (n, causes); only of those present it counts
    present : which causes are there, (n, causes)
    stays : draws that are never moved, since what they show is not read by the model, (n,)
    """

    smooth: Floats
    steps: Floats
    severity: Floats
    present: Flags
    stays: Flags

    def rows(self, index: NDArray[np.intp]) -> "Scores":
        """The draws at an index."""
        return Scores(
            self.smooth[index], self.steps[index], self.severity[index], self.present[index], self.stays[index]
        )


def concatenate(parts: Sequence[Scores]) -> Scores:
    """The draws of several rounds."""
    return Scores(
        smooth=np.concatenate([part.smooth for part in parts]),
        steps=np.concatenate([part.steps for part in parts]),
        severity=np.concatenate([part.severity for part in parts]),
        present=np.concatenate([part.present for part in parts]),
        stays=np.concatenate([part.stays for part in parts]),
    )


class LinearGaussianProposal(NamedTuple):
    """A linear picture of what d instruments show, and what they should.

    constant : (d,)
    of_smooth, of_steps, of_severity, of_presence : effect of each score, (scores, d)
    mean, covariance : what the draws that agree have shown, as the picture has it, (d,) and (d, d)
    """

    constant: Floats
    of_smooth: Floats
    of_steps: Floats
    of_severity: Floats
    of_presence: Floats
    mean: Floats
    covariance: Floats


def fit(scores: Scores, shown: Floats, errors: Floats, trust: Floats, weight: Floats) -> LinearGaussianProposal:
    """Fit the picture.

    Parameters
    ----------
    scores : of n draws
    shown : what d instruments would show, (n, d)
    errors : usual error of each instrument, (d,)
    trust : how much each draw counts in the fit, (n,)
    weight : how much each draw agrees with the evidence, (n,), summing to 1
    """
    present = scores.present.astype(float)
    parts = (scores.smooth, scores.steps, scores.severity * present, present)
    columns = np.concatenate(parts, axis=1)
    centre = trust @ shown / trust.sum()
    middle = trust @ columns / trust.sum()
    about = columns - middle
    trusted = trust[:, None] * about
    effects = _solution(about.T @ trusted + FAINT * np.eye(about.shape[1]), trusted.T @ (shown - centre))
    constant = centre - middle @ effects
    pictured = constant + columns @ effects
    mean = weight @ pictured
    off = pictured - mean
    covariance = WIDER * (off * weight[:, None]).T @ off
    least = np.maximum((LEAST_SPREAD * errors) ** 2, 1e-6 * np.diag(covariance))  # instruments may say the same twice
    covariance = covariance + np.diag(np.maximum(least, 1e-18))
    first, second, third = np.cumsum([part.shape[1] for part in parts[:-1]])
    return LinearGaussianProposal(
        constant=constant,
        of_smooth=effects[:first],
        of_steps=effects[first:second],
        of_severity=effects[second:third],
        of_presence=effects[third:],
        mean=mean,
        covariance=covariance,
    )


def propose(guide: LinearGaussianProposal, scores: Scores, sets: NDArray[np.intp], rng: np.random.Generator) -> Scores:
    """Move a share of the draws to where they show what they should; draws of one set have the same causes, (n,)."""
    n, d = len(scores.smooth), len(guide.mean)
    aim = guide.mean + rng.standard_normal((n, d)) @ np.linalg.cholesky(guide.covariance).T
    inverse, _, place = _inverses(guide, scores, sets)
    lack = _product(inverse, place, aim - _shown(guide, scores))
    lack *= ((rng.random(n) < MOVED) & ~scores.stays)[:, None]
    severity = scores.severity + np.where(scores.present, lack @ guide.of_severity.T, 0.0)
    return scores._replace(smooth=scores.smooth + lack @ guide.of_smooth.T, severity=severity)


def density_ratio(guide: LinearGaussianProposal, scores: Scores, sets: NDArray[np.intp]) -> Floats:
    """How much likelier draws are by a guide than by chance [1], (n,); draws of one set have the same causes, (n,).

    A moved draw has the density of the unmoved one times a Gaussian in what it shows, over that product's integral.
    """
    inverse, log_size, place = _inverses(guide, scores, sets)
    beyond, off = _shown(guide, scores) - guide.mean, guide.mean - _fixed(guide, scores)
    own = np.asarray(np.linalg.inv(guide.covariance), np.float64)
    at = -0.5 * (beyond * (beyond @ own)).sum(axis=1) - 0.5 * np.linalg.slogdet(guide.covariance)[1]
    usual = -0.5 * (off * _product(inverse, place, off)).sum(axis=1) - 0.5 * log_size[place]
    moved = MOVED * ~scores.stays
    return 1.0 - moved + moved * np.exp(np.minimum(at - usual, 700.0))


def _fixed(guide: LinearGaussianProposal, scores: Scores) -> Floats:
    """What the instruments show by what cannot be moved, (n, d)."""
    return guide.constant + scores.steps @ guide.of_steps + scores.present @ guide.of_presence


def _shown(guide: LinearGaussianProposal, scores: Scores) -> Floats:
    moving = scores.smooth @ guide.of_smooth + (scores.severity * scores.present) @ guide.of_severity
    return _fixed(guide, scores) + moving


def _inverses(
    guide: LinearGaussianProposal, scores: Scores, sets: NDArray[np.intp]
) -> tuple[Floats, Floats, NDArray[np.intp]]:
    """Covariance of what the instruments show and should, over the scores that can be moved: one for each set.

    Returns its inverse (sets, d, d), the logarithm of its determinant (sets,), and which of them each draw has (n,).
    """
    _, first, place = np.unique(sets, return_index=True, return_inverse=True)
    own = guide.of_severity[:, :, None] * guide.of_severity[:, None, :]
    d = len(guide.mean)
    of_causes = (scores.present[first].astype(float) @ own.reshape(len(own), d * d)).reshape(-1, d, d)
    covariance = of_causes + guide.of_smooth.T @ guide.of_smooth + guide.covariance
    log_size = np.asarray(np.linalg.slogdet(covariance)[1], np.float64)
    return np.asarray(np.linalg.inv(covariance), np.float64), log_size, place


def _product(matrices: Floats, place: NDArray[np.intp], vectors: Floats) -> Floats:
    """Product of each vector (n, d) with the matrix at its place."""
    return np.asarray(np.einsum("nij,nj->ni", matrices[place], vectors), np.float64)


def _solution(matrix: Floats, right: Floats) -> Floats:
    return np.asarray(np.linalg.solve(matrix, right), np.float64)
