"""An emulator of the figures of one source: a quadratic in the constants, fitted to runs of the real model.

What the constants do not explain - all else that is not known of the vehicle, and what a quadratic misses - is kept as
a covariance between the figures, so that it counts as what it is: doubt that a figure shares with the others.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from calibrating.answers import answers
from calibrating.constants import Constant, log_factors, loosened
from calibrating.evidence import Figure, Floats, Source
from calibrating.scale import to_scale
from toptank.knowledge.draws import draws

RIDGE = (0.1, 0.3, 1.0, 3.0, 10.0, 30.0, 100.0, 300.0)
MIXED, MATTER = 5.0, 8
"""Penalties that are tried on held-out runs, over the number of runs in a hundred; how much more what is bent carries,
and how many constants are taken in pairs: those that matter most."""

HELD_OUT = 0.25
"""Share of the runs that are held out to choose the penalty and to measure the error."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Emulator:
    """Figures of one source as quadratics of the constants.

    open_ones : which constants the source leaves open; scale : their standard deviations in the design
    weights : (feature, figure); covariance : (figure, figure) of what is left, on the scale of `to_scale`
    places : which figures of the source; error : of the emulator on held-out runs, over the scatter of the figures
    """

    source: Source
    open_ones: tuple[int, ...]
    scale: Floats
    weights: Floats
    pairs: tuple[tuple[int, int], ...]
    covariance: Floats
    places: tuple[int, ...]
    error: float

    @property
    def figures(self) -> tuple[Figure, ...]:
        """The figures that it tells of."""
        return tuple(self.source.figures[place] for place in self.places)


def features(x: Floats, pairs: tuple[tuple[int, int], ...], xp: Any = np) -> Floats:
    """Constant, linear, square and mixed terms of scaled log factors (..., constant)."""
    count = x.shape[-1]
    straight = [x[..., i] for i in range(count)]
    bent = [x[..., i] * x[..., j] for i, j in pairs]
    return xp.stack([x[..., 0] * 0.0 + 1.0, *straight, *bent], axis=-1)


def _pairs(x: Floats, y: Floats) -> tuple[tuple[int, int], ...]:
    """All squares, and the products of the constants that matter most to these figures."""
    count = x.shape[1]
    squares = tuple((i, i) for i in range(count))
    straight = _solved(features(x, ()), y, 3.0, count)[1:]
    matters = np.sqrt(np.mean((straight / np.maximum(y.std(axis=0), 1e-6)) ** 2, axis=1))
    first = sorted(np.argsort(-matters)[:MATTER].tolist())
    return squares + tuple((i, j) for i in first for j in first if i < j)


def emulate(source: Source, wanted: tuple[Constant, ...], n: int, seed: int) -> Emulator:
    """Run the real model on n vehicles drawn from the loosened sheet and fit the quadratics."""
    sheet, open_ones = loosened(source.sheet, wanted)
    x = log_factors(sheet, draws(sheet, n, seed, made_to_hold=False), wanted)[:, open_ones]
    scale = np.maximum(x.std(axis=0), 1e-9)
    shown = answers(source, n, sheet=sheet, seed=seed)
    places, columns = list[int](), list[Floats]()
    for place, figure in enumerate(source.figures):
        known = np.isfinite(shown[:, place])
        if not figure.fit or known.mean() < 0.3:
            continue
        values = to_scale(figure, np.where(known, shown[:, place], np.nanmedian(shown[known, place])))
        places.append(place)
        columns.append(values)
    y = np.stack(columns, axis=1)
    pairs = _pairs(x / scale, y)
    A = features(x / scale, pairs)
    held = np.arange(n) % round(1.0 / HELD_OUT) == 0
    spread = np.maximum(y.std(axis=0), 1e-6)
    tried = [(_missed(A, y, held, ridge, spread, len(open_ones)), ridge) for ridge in RIDGE]
    error, best = min(tried)
    weights = _solved(A, y, best, len(open_ones))
    left = y[held] - A[held] @ _solved(A[~held], y[~held], best, len(open_ones))
    return Emulator(
        source=source, open_ones=open_ones, scale=scale, weights=weights, pairs=pairs,
        covariance=left.T @ left / held.sum(), places=tuple(places), error=error,
    )  # fmt: skip


def _solved(A: Floats, y: Floats, ridge: float, straight: int) -> Floats:
    penalty = np.full(A.shape[1], MIXED * ridge * len(A) / 100.0)
    penalty[: straight + 1] = ridge * len(A) / 100.0
    penalty[0] = 1e-9
    return np.asarray(np.linalg.solve(A.T @ A + np.diag(penalty), A.T @ y), np.float64)


def _missed(A: Floats, y: Floats, held: NDArray[np.bool_], ridge: float, spread: Floats, straight: int) -> float:
    left = y[held] - A[held] @ _solved(A[~held], y[~held], ridge, straight)
    return float(np.median(np.sqrt(np.mean((left / spread) ** 2, axis=0))))
