"""Which assumption widens a band most: its share of the variance, from a regression on ranks."""

from collections.abc import Mapping, Set

import numpy as np
from numpy.typing import NDArray

SMALLEST = 0.005
"""Shares below this are not told: they are lost in the scatter of the draws [1]."""

FLAT = 1e-6
"""Range of a result that counts as none, in its own unit."""


def shares_of_variance(
    result: NDArray[np.float64], columns: Mapping[str, NDArray[np.float64]], assumed: Set[str]
) -> tuple[tuple[str, float], ...]:
    """Return (path, share of the variance of the result's ranks) of the assumptions that matter, largest first.

    The ranks of the result are regressed on the ranks of every field that varies. The fields are drawn independently,
    so that the squared coefficient of a field is its own share; what chance alone would give is taken off.

    Parameters
    ----------
    result : one value a draw
    columns : draws of every field that varies
    assumed : the paths that may be told; the rest only takes its part of the variance away
    """
    n, p = len(result), len(columns)
    if p == 0 or n < 2 * p or np.ptp(result) < FLAT:
        return ()
    X = np.column_stack([_standard(column) for column in columns.values()])
    y = _standard(result)
    # Independent columns of unit variance: the normal equations are as good as the unit matrix.
    beta = np.linalg.solve(X.T @ X + 1e-9 * n * np.eye(p), X.T @ y)
    left = float(np.mean((y - X @ beta) ** 2))
    by_chance = left / (n - p)
    shares = [(path, float(b * b) - by_chance) for path, b in zip(columns, beta, strict=True) if path in assumed]
    return tuple(sorted((pair for pair in shares if pair[1] >= SMALLEST), key=lambda pair: -pair[1]))


def _standard(values: NDArray[np.float64]) -> NDArray[np.float64]:
    """Ranks of the values (equal values share a rank), with mean 0 and variance 1."""
    _, place, count = np.unique(values, return_inverse=True, return_counts=True)
    ranks = (np.cumsum(count) - 0.5 * (count - 1))[place]
    return (ranks - ranks.mean()) / ranks.std()
