"""JAX as the solvers use it: in double precision, and untyped.

Its stubs are half typed; strict checking against them reports JAX's gaps and none of ours, so it is `Any` from here on.
"""

from collections.abc import Callable
from typing import Any

import jax as _jax
import jax.numpy as _jnp

_jax.config.update("jax_enable_x64", True)  # pyright: ignore[reportUnknownMemberType] - before any array exists

jax: Any = _jax
jnp: Any = _jnp
lax: Any = _jax.lax


def once(value: Any) -> Any:
    """Return the value, computed once: the compiler would otherwise work cheap-looking chains out anew for each use."""
    return lax.optimization_barrier(value)


def repeated(times: int, step: Callable[[int, Any], Any], state: Any) -> Any:
    """Return the state after so many steps; the step is compiled once."""
    return lax.fori_loop(0, times, step, state)


def as_arrays(tree: Any) -> Any:
    """Return a tree of numbers as a tree of double precision arrays."""
    return jax.tree.map(_as_array, tree)


def zeros_like(tree: Any) -> Any:
    """Return a tree of zeros with the shapes of a tree of arrays or of their descriptions."""
    return jax.tree.map(_zeros, tree)


def _as_array(leaf: Any) -> Any:
    return jnp.asarray(leaf, float)


def _zeros(leaf: Any) -> Any:
    return jnp.zeros(leaf.shape, leaf.dtype)
