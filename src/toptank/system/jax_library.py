"""JAX as the solvers use it: in double precision, and untyped.

Its stubs are half typed; strict checking against them reports JAX's gaps and none of ours, so it is `Any` from here on.
"""

from collections.abc import Callable
from functools import cache
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


def soon_compiled(function: Callable[..., Any], *, static_argnums: int | None = None) -> Any:
    """`jax.jit`, compiled in two thirds of the usual time; running takes a tenth to two thirds longer.

    XLA's older way of writing fused loops does it, where this version of XLA still has it.
    """
    return jax.jit(function, static_argnums=static_argnums, compiler_options=_older_loops())


@cache
def _older_loops() -> dict[str, bool] | None:
    older = {"xla_cpu_use_fusion_emitters": False}
    try:
        jax.jit(jnp.negative, compiler_options=older)(1.0)
    except jax.errors.JaxRuntimeError:
        return None
    return older


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
