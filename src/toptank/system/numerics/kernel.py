"""Compiled functions of draws: one matrix in, one matrix out, for every caller the same.

Every new array length would cost a compilation, so draws are padded to one of two lengths and longer runs go in pieces
(`where_run`).
"""

import os
import threading
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from functools import cache
from typing import Any, NamedTuple

import numpy as np

from toptank.system.numerics.jax_library import compiled, jax, jnp
from toptank.system.numerics.kept_programs import answer_tree, keep_compiled, program_of
from toptank.system.numerics.where_run import Where, where_run
from toptank.units.arrays import Real

THREADS = "TOPTANK_THREADS"
"""Environment variable that says how many cores a process takes; left out: all of them."""


class _Ready(NamedTuple):
    """A compiled program and the tree of its answer."""

    run: Callable[[np.ndarray], Real]
    tree: Any


class Kernel:
    """A compiled function of draws: one matrix in, one matrix out, a row a number and a column a draw.

    A record of 140 arrays would be handed over array by array, which takes longer than settling it.
    """

    def __init__(self, function: Callable[..., Any], *, soon: bool) -> None:
        keep_compiled()
        self._function = function
        self._soon = soon
        self._ready: dict[tuple[Where, Any, int], _Ready] = {}
        self._lock = threading.Lock()

    @property
    def compilations(self) -> int:
        """How many lengths and trees it has been compiled for."""
        return len(self._ready)

    def __call__(self, arguments: Any, bucket: int | None = None) -> Any:
        """Run on arguments whose leaves are numbers or arrays of one length; the answer holds arrays of that length."""
        where = where_run()
        leaves, tree = jax.tree.flatten(arguments)
        n = max(np.size(leaf) for leaf in leaves)
        bucket = bucket or where.fitting(n)
        rows = np.empty((len(leaves), -(-n // bucket) * bucket))
        for row, leaf in zip(rows, leaves, strict=True):
            row[:n] = leaf
            row[n:] = row[n - 1]
        ready = self._compiled(where, tree, len(leaves), bucket)

        def run(start: int) -> np.ndarray:
            return np.asarray(ready.run(rows[:, start : start + bucket]))

        # The pieces share the processor's cores: JAX frees the interpreter meanwhile.
        with ThreadPoolExecutor(threads()) as workers:
            pieces = list(workers.map(run, range(0, n, bucket)))
        answer = np.concatenate(pieces, axis=1)[:, :n]
        return jax.tree.unflatten(ready.tree, list(answer))

    def _compiled(self, where: Where, tree: Any, rows: int, bucket: int) -> _Ready:
        with self._lock:
            known = self._ready.get((where, tree, bucket))
            if known is None:
                if where.device is None:
                    program, answer = program_of(self._function, tree, rows, bucket)
                    matrix = jax.ShapeDtypeStruct((rows, bucket), jnp.float64)
                    known = _Ready(compiled(program, matrix, soon=self._soon), answer)
                else:
                    known = _Ready(self._for_device(where, tree, rows, bucket), answer_tree(self._function))
                self._ready[where, tree, bucket] = known
            return known

    def _for_device(self, where: Where, tree: Any, rows: int, bucket: int) -> Callable[[np.ndarray], Real]:
        """Compile it for a device: what is handed over goes there first."""

        def one(column: Real) -> Real:
            answer = self._function(*jax.tree.unflatten(tree, list(column)))
            return jnp.stack([jnp.asarray(leaf, float) for leaf in jax.tree.leaves(answer)])

        there = jax.sharding.SingleDeviceSharding(where.device)
        matrix = jax.ShapeDtypeStruct((rows, bucket), jnp.float64, sharding=there)
        with jax.default_device(where.device):
            program = jax.jit(jax.vmap(one, in_axes=1, out_axes=1)).lower(matrix).compile()

        def run(piece: np.ndarray) -> Real:
            return program(jax.device_put(piece, there))

        return run


@cache
def kernel(function: Callable[..., Any], *, soon: bool = False) -> Kernel:
    """The kernel of a function; `soon` where it runs so little that its compilation takes longer."""
    return Kernel(function, soon=soon)


@cache
def threads() -> int:
    """How many pieces a process works on at a time."""
    told = os.environ.get(THREADS, "")
    return max(int(told), 1) if told.isdecimal() else os.cpu_count() or 1
