"""Many vehicles or duties at once: one compiled kernel for every caller.

Every new array length would cost a compilation, so draws are padded to one of two lengths and longer runs go in pieces.
"""

import os
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from functools import cache, partial
from importlib.metadata import version
from pathlib import Path
from typing import Any

import numpy as np

from toptank.system.balance import Balance
from toptank.system.duty import Duty
from toptank.system.jax_library import jax, jnp
from toptank.system.margins import boiling_point, limiting_ambient
from toptank.system.steady import HOTTEST, NO_START, QUICK, Start, Steps, advance, steady
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real

BUCKETS = (256, 2048)
"""The two lengths for which kernels are compiled."""

SETTLED_TO = 1e-8
"""Imbalance over engine heat at which a draw counts as settled [1]."""

MOST_ROUNDS = 6

FOR_MARGINS = Steps(14, 8)
"""Leaves a margin within a hundredth of a kelvin in all but odd draws."""

NO_CACHE = "TOPTANK_NO_COMPILE_CACHE"
"""Environment variable that turns the compile cache on disk off."""


def settle(vehicles: Vehicle, duties: Duty) -> Balance:
    """Settle every draw; fields are numbers or arrays of one length n, the answer holds NumPy arrays of length n.

    All draws get the quick steps; those that have not settled are taken up again from where they stand, and the odd
    ones that will not settle in a hurry get the patient steps.
    """
    quick = _kernel(_quick)
    balance, start = _in_buckets(quick, (vehicles, duties, NO_START))
    bucket = _bucket(len(balance.status))
    for _ in range(MOST_ROUNDS):
        left = _unsettled(balance)
        if len(left) == 0:
            return balance
        rest = jax.tree.map(partial(_taken, left), (vehicles, duties, start))
        jax.tree.map(partial(_put, left), (balance, start), _in_buckets(quick, rest, bucket))
    left = _unsettled(balance)
    if len(left) > 0:
        rest = jax.tree.map(partial(_taken, left), (vehicles, duties))
        jax.tree.map(partial(_put, left), balance, _in_buckets(_kernel(steady), rest, BUCKETS[0]))
    return balance


def margins(vehicles: Vehicle, duties: Duty, T_limit: Any) -> tuple[np.ndarray, np.ndarray]:
    """Ambient temperatures [K] at which every draw would boil, and at which it would reach T_limit [K]."""
    kernel = _kernel(_ambient)
    boiling = boiling_point(vehicles, duties)
    return _in_buckets(kernel, (vehicles, duties, boiling)), _in_buckets(kernel, (vehicles, duties, T_limit))


def _quick(vehicle: Vehicle, duty: Duty, start: Start) -> tuple[Balance, Start]:
    return advance(vehicle, duty, start, steps=QUICK)


def _unsettled(balance: Balance) -> np.ndarray:
    off = np.abs(balance.heat_imbalance) > SETTLED_TO * balance.engine_heat
    return np.flatnonzero(off & (balance.T_engine_out < HOTTEST))  # at the end there is no root to go on to


def _taken(index: np.ndarray, array: Any) -> np.ndarray:
    return np.asarray(array)[index] if np.ndim(array) else np.asarray(array)


def _put(index: np.ndarray, array: np.ndarray, values: np.ndarray) -> None:
    array[index] = values


def _ambient(vehicle: Vehicle, duty: Duty, T_limit: Real) -> Real:
    return limiting_ambient(vehicle, duty, T_limit, steps=FOR_MARGINS)


@cache
def _kernel(function: Callable[..., Any]) -> Callable[..., Any]:
    _prepare()
    return jax.jit(jax.vmap(function))


@cache
def _prepare() -> None:
    """Keep compiled kernels in the user's own cache folder, closed to others."""
    if os.environ.get(NO_CACHE):
        return
    root = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    folder = root / "toptank" / f"compiled-jaxlib-{version('jaxlib')}"
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError:
        return  # a cache is a convenience: without a writable home, compile each time
    jax.config.update("jax_compilation_cache_dir", str(folder))
    jax.config.update("jax_persistent_cache_min_compile_time_secs", 0.2)


def _bucket(n: int) -> int:
    return BUCKETS[0] if n <= BUCKETS[0] else BUCKETS[1]


def _in_buckets(kernel: Callable[..., Any], arguments: Any, bucket: int | None = None) -> Any:
    leaves, tree = jax.tree.flatten(arguments)
    arrays = [np.atleast_1d(np.asarray(leaf, float)) for leaf in leaves]
    n = max(len(array) for array in arrays)
    arrays = [np.broadcast_to(array, (n,)) for array in arrays]
    bucket = bucket or _bucket(n)
    starts = range(0, n, bucket)

    def run(start: int) -> Any:
        piece = [_padded(array[start : start + bucket], bucket) for array in arrays]
        return jax.tree.map(np.asarray, kernel(*jax.tree.unflatten(tree, piece)))

    first = run(0)  # compiles; the others then share the processor's cores (JAX frees the interpreter meanwhile)
    with ThreadPoolExecutor(os.cpu_count()) as workers:
        pieces = [first, *workers.map(run, starts[1:])]
    return jax.tree.map(partial(_joined, n), *pieces)


def _joined(n: int, *pieces: np.ndarray) -> np.ndarray:
    return np.concatenate(pieces)[:n].copy()


def _padded(array: np.ndarray, length: int) -> Real:
    return jnp.asarray(np.pad(array, (0, length - len(array)), mode="edge"))
