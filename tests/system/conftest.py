"""What the tests of whole vehicles share: vehicles and duties anywhere inside their limits."""

import dataclasses
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from toptank.system.duty import Duty
from toptank.system.vehicle import Vehicle
from toptank.units.declaration import declarations


def _random_record(kind: Any, n: int, rng: np.random.Generator, limits: str) -> Any:
    """A record of a declared kind with every field drawn between its limits, a tenth of them at a limit."""
    values: dict[str, Any] = {}
    for name, declared in declarations(kind):
        low, high = getattr(declared, limits)
        u = rng.uniform(size=n)
        u = np.where(rng.uniform(size=n) < 0.1, rng.integers(0, 2, n), u)
        x = low * (high / low) ** u if low > 0.0 and high > 20.0 * low else low + (high - low) * u
        if declared.choices or name in ("rows", "passes", "count"):
            x = np.round(x)
        values[name] = x
    return kind(**values)


def _random_vehicles(n: int, rng: np.random.Generator, limits: str) -> Vehicle:
    return Vehicle(
        **{part.name: _random_record(part.default_factory, n, rng, limits) for part in dataclasses.fields(Vehicle)}
    )


@pytest.fixture(scope="session")
def random_draws() -> Callable[[int, int, str], tuple[Vehicle, Duty]]:
    """Return a maker of so many vehicles and duties from a seed, inside the "hard" or the "plausible" limits."""

    def make(n: int, seed: int, limits: str) -> tuple[Vehicle, Duty]:
        rng = np.random.default_rng(seed)
        return _random_vehicles(n, rng, limits), _random_record(Duty, n, rng, limits)

    return make
