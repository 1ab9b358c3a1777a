"""Which causes can be there together: every set of up to three, with its probability before anything is known."""

from functools import cache
from itertools import combinations
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Floats: TypeAlias = NDArray[np.float64]
Flags: TypeAlias = NDArray[np.bool_]

AT_ONCE = (0.13, 0.60, 0.21, 0.06)
"""Share of vehicles that come in with no, one, two and three causes [1]; two at once are common practice, the figures
judgement."""


@cache
def sets_of(causes: int) -> Flags:
    """Every set of up to three of so many causes, a row a set and a column a cause."""
    rows = [chosen for size in range(len(AT_ONCE)) for chosen in combinations(range(causes), size)]
    flags = np.zeros((len(rows), causes), bool)
    for row, chosen in enumerate(rows):
        flags[row, list(chosen)] = True
    flags.setflags(write=False)
    return flags


def prior(shares: Floats) -> Floats:
    """Probability of every set: the number at once by `AT_ONCE`, among those of one size by the product of shares."""
    sets = sets_of(len(shares))
    size = sets.sum(axis=1)
    weight = np.exp(sets @ np.log(np.maximum(shares, 1e-300)))
    for number, share in enumerate(AT_ONCE):
        of_size = size == number
        weight[of_size] *= share / max(weight[of_size].sum(), 1e-300)
    return weight / weight.sum()


def tilted(probability: Floats, lift: Floats) -> Floats:
    """Probabilities of sets multiplied by a factor for each cause in them, normalised."""
    raised = probability * np.exp(sets_of(len(lift)) @ np.log(lift))
    return raised / raised.sum()


def drawn(probability: Floats, n: int, rng: np.random.Generator) -> NDArray[np.intp]:
    """Draw n sets with as little scatter as can be (systematic), in random order."""
    places = (np.arange(n) + rng.random()) / n
    chosen = np.searchsorted(np.cumsum(probability), places).clip(max=len(probability) - 1)
    return rng.permutation(chosen)
