"""The hierarchical model finds again what made-up evidence was made of."""

import numpy as np
import pytest
from calibrating.constants import Constant
from calibrating.emulator import Emulator
from calibrating.evidence import Figure, Floats, Source
from calibrating.population import sampled

from toptank.knowledge.sheet import declared_sheet

MIDDLE, BETWEEN = np.array([0.20, -0.15]), np.array([0.10, 0.06])
"""Logarithms of two factors over all made-up vehicles, and their spread between them."""

VEHICLES, FIGURES, ERROR, REMAINS = 14, 8, 0.5, 1.5

CONSTANTS = tuple(
    Constant(path=f"made.up_{place}", population=0.25, between=between, lowest=0.5, highest=2.0, source="made up")
    for place, between in enumerate((0.12, 0.08))
)


def _made(number: int, rng: np.random.Generator) -> Emulator:
    """A vehicle whose figures are straight in its constants, each in a drive of its own."""
    own = MIDDLE + BETWEEN * rng.standard_normal(2)
    slope = 20.0 * rng.standard_normal((2, FIGURES))
    read: Floats = 90.0 + own @ slope + np.hypot(ERROR, REMAINS) * rng.standard_normal(FIGURES)
    figures = tuple(
        Figure(ask="temperature at", of={"at": 1.0}, value=float(value), error=ERROR, regime="warm-up", fit=True)
        for value in read
    )
    source = Source(
        name=f"made up {number}", title="", where="", trust="", checksum="", sheet=declared_sheet(), drives=(),
        asked=figures, fuel_error=0.0, told=False, document={},
    )  # fmt: skip
    weights = np.vstack([np.full(FIGURES, 90.0), slope])
    return Emulator(
        source=source, open_ones=(0, 1), scale=np.ones(2), weights=weights, pairs=(),
        covariance=np.zeros((FIGURES, FIGURES)), places=tuple(range(FIGURES)), error=0.0,
    )  # fmt: skip


@pytest.fixture(scope="module")
def evidence() -> tuple[Emulator, ...]:
    rng = np.random.default_rng(4)
    return tuple(_made(number, rng) for number in range(VEHICLES))


def test_middle_spread_and_what_remains_are_found_again(evidence: tuple[Emulator, ...]) -> None:
    found = sampled(evidence, CONSTANTS, warmup=150, kept=150, seed=1)
    doubt = found.population.std(axis=0)
    # within: three of its own standard deviations, which fourteen vehicles leave at a few hundredths
    assert np.all(np.abs(found.population.mean(axis=0) - MIDDLE) < 3.0 * doubt)
    assert np.all(doubt < 0.06)
    assert found.between.mean(axis=0) == pytest.approx(BETWEEN, rel=0.5)
    assert found.remains["warm-up"].mean() == pytest.approx(REMAINS, rel=0.25)
    assert found.worst_r_hat < 1.1


def test_a_source_that_is_left_out_is_not_read(evidence: tuple[Emulator, ...]) -> None:
    odd = _made(99, np.random.default_rng(5))
    far = Emulator(
        source=odd.source, open_ones=odd.open_ones, scale=odd.scale, weights=odd.weights + 40.0, pairs=(),
        covariance=odd.covariance, places=odd.places, error=0.0,
    )  # fmt: skip
    few = evidence[:6]
    without = sampled((*few, far), CONSTANTS, without="made up 99", warmup=60, kept=60, seed=2)
    never = sampled(few, CONSTANTS, warmup=60, kept=60, seed=2)
    doubt = np.hypot(without.population.std(axis=0), never.population.std(axis=0))
    assert np.all(np.abs(without.population.mean(axis=0) - never.population.mean(axis=0)) < doubt)
