"""An emulator of the figures of one source: a quadratic in the constants, fitted to runs of the real model.

What the constants do not explain - all else that is not known of the vehicle, and what a quadratic misses - is kept as
a covariance between the figures, so that it counts as what it is: doubt that a figure shares with the others.
"""

from dataclasses import dataclass

import numpy as np

from calibration.answers import answers
from calibration.constants import Constant, log_factors, loosened
from calibration.evidence import Figure, Floats, Source
from toptank.knowledge.draws import draws

RIDGE = (0.1, 0.3, 1.0, 3.0, 10.0, 30.0, 100.0, 300.0)
MIXED = 5.0
"""Penalties that are tried on held-out runs, over the number of runs in a hundred; how much more of what is not straight
carries."""

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
    covariance: Floats
    places: tuple[int, ...]
    error: float

    @property
    def figures(self) -> tuple[Figure, ...]:
        """The figures that it tells of."""
        return tuple(self.source.figures[place] for place in self.places)


def to_scale(figure: Figure, value: Floats | float) -> Floats:
    """A figure on the scale of its errors: a length of time by its logarithm, an effect over what it is told for."""
    return np.log(np.maximum(value, 1e-3)) if figure.ask in CYCLE else np.asarray(value) / unit_of(figure)


CYCLE = ("fan period", "fan on for", "rate of rise")


def unit_of(figure: Figure) -> float:
    """What a figure is divided by: effects in kelvin by the difference that they are told at, amounts by themselves."""
    if figure.ask == "hotter by":
        return float(figure.of["at_difference_K"])
    return abs(figure.value) if figure.ask in ("face velocity", "fuel per litre at idle") else 1.0


def error_of(figure: Figure) -> float:
    """The error of the measurement on that scale."""
    return figure.error / abs(figure.value) if figure.ask in CYCLE else figure.error / unit_of(figure)


def kind_of(figure: Figure) -> str:
    """Which discrepancy a figure has."""
    if figure.ask in CYCLE:
        return "fan cycle"
    if figure.ask.startswith(("share", "fuel")):
        return "engine"
    if figure.ask.startswith(("hotter", "ratio", "exponent", "face")):
        return "effects"
    return figure.regime


def features(x: Floats, xp: object = np) -> Floats:
    """Constant, linear, square and mixed terms of scaled log factors (..., constant)."""
    count = x.shape[-1]
    mixed = [x[..., i] * x[..., j] for i in range(count) for j in range(i, count)]
    columns = [x[..., i] for i in range(count)] + mixed
    ones = columns[0] * 0.0 + 1.0
    return xp.stack([ones, *columns], axis=-1)  # type: ignore[attr-defined]


def emulate(source: Source, wanted: tuple[Constant, ...], n: int, seed: int) -> Emulator:
    """Run the real model on n vehicles drawn from the loosened sheet and fit the quadratics."""
    sheet, open_ones = loosened(source.sheet, wanted)
    x = log_factors(sheet, draws(sheet, n, seed), wanted)[:, open_ones]
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
    A = features(x / scale)
    held = np.arange(n) % round(1.0 / HELD_OUT) == 0
    spread = np.maximum(y.std(axis=0), 1e-6)
    tried = [(_missed(A, y, held, ridge, spread), ridge) for ridge in RIDGE]
    error, best = min(tried)
    weights = _solved(A, y, best)
    left = y[held] - A[held] @ _solved(A[~held], y[~held], best)
    return Emulator(
        source=source, open_ones=open_ones, scale=scale, weights=weights,
        covariance=left.T @ left / held.sum(), places=tuple(places), error=error,
    )  # fmt: skip


def _solved(A: Floats, y: Floats, ridge: float) -> Floats:
    straight = round((np.sqrt(1.0 + 8.0 * A.shape[1]) - 3.0) / 2.0)  # constants of which A holds all pairs
    penalty = np.full(A.shape[1], MIXED * ridge * len(A) / 100.0)
    penalty[: straight + 1] = ridge * len(A) / 100.0
    penalty[0] = 1e-9
    return np.linalg.solve(A.T @ A + np.diag(penalty), A.T @ y)


def _missed(A: Floats, y: Floats, held: Floats, ridge: float, spread: Floats) -> float:
    left = y[held] - A[held] @ _solved(A[~held], y[~held], ridge)
    return float(np.median(np.sqrt(np.mean((left / spread) ** 2, axis=0))))
