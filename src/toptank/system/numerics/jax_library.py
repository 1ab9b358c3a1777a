"""JAX as the solvers use it: in double precision, and untyped.

Its stubs are half typed; strict checking against them reports JAX's gaps and none of ours, so it is `Any` from here on.
"""

import os
from collections.abc import Callable, Generator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache
from importlib.util import find_spec
from typing import Any

import jax as _jax
import jax.export as _jax_export
import jax.numpy as _jnp

from toptank.units.arrays import Real

# The drive of one vehicle is a loop over few bytes: run piece by piece, handing over takes most of its time. XLA reads
# this before it compiles anything; up to so many bytes it makes a loop one piece. An XLA without the option ignores it.
ONE_PIECE = 400_000
if "xla_backend_extra_options" not in (flags := os.environ.get("XLA_FLAGS", "")):
    _option = f"--xla_backend_extra_options=xla_cpu_small_while_loop_byte_threshold={ONE_PIECE}"
    os.environ["XLA_FLAGS"] = f"{flags} {_option}".strip()

# Whoever has a GPU uses it for other things too; the memory that a fleet needs is taken when it is needed.
os.environ.setdefault("XLA_PYTHON_CLIENT_PREALLOCATE", "false")

jax: Any = _jax
_export: Any = _jax_export
jnp: Any = _jnp
lax: Any = _jax.lax

jax.config.update("jax_enable_x64", True)  # before any array exists
# Kernels that are handed over to be run later wait for one another where their loops are one piece; run at once, each
# in the thread that calls it, they share the cores.
jax.config.update("jax_cpu_enable_async_dispatch", False)

if find_spec("jax_plugins") is not None:  # JAX could see a GPU: only what is handed over to it runs there (`where_run`)
    jax.config.update("jax_default_device", "cpu")


def barrier(value: Any) -> Any:
    """Return the value, computed once: the compiler would otherwise work cheap-looking chains out anew for each use."""
    return lax.optimization_barrier(value)


def exported(function: Callable[..., Any], *shapes: Any) -> Any:
    """Trace a function for arguments of given shapes into a portable program for processors."""
    return _export.export(jax.jit(function), platforms=("cpu",))(*shapes)


def written_program(program: Any) -> bytes:
    """Return a portable program as bytes."""
    return bytes(program.serialize())


def read_program(content: bytes) -> Any:
    """Return a portable program from its bytes."""
    return _export.deserialize(bytearray(content))


def compiled(program: Any, *shapes: Any, soon: bool) -> Any:
    """Compile a portable program for arguments of given shapes; `soon`: as `jit_quick_compile` does."""
    options = _older_loops() if soon else None
    return jax.jit(program.call, compiler_options=options).lower(*shapes).compile()


def jit_quick_compile(function: Callable[..., Any], *, static_argnums: int | None = None) -> Any:
    """`jax.jit`, compiled in half of the usual time; running takes a tenth to two thirds longer.

    XLA's older way of writing fused loops does it, where this version of XLA still has it, and code in two parts
    instead of 32, each of which begins with the same.
    """
    return jax.jit(function, static_argnums=static_argnums, compiler_options=_older_loops())


@cache
def _older_loops() -> dict[str, int] | None:
    older = {"xla_cpu_use_fusion_emitters": False, "xla_cpu_parallel_codegen_split_count": 2}
    try:
        jax.jit(jnp.negative, compiler_options=older)(1.0)
    except jax.errors.JaxRuntimeError:
        return None
    return older


def fori(times: int | Real, step: Callable[[int, Any], Any], state: Any) -> Any:
    """Return the state after so many steps; the step is compiled once, but for short loops written out for a device."""
    short = isinstance(times, int) and times <= _written_out.get()
    return lax.fori_loop(0, times, step, state, unroll=short)


def at_both(function: Callable[[Real], Any], low: Real, high: Real) -> tuple[Any, Any]:
    """What a function answers at two places: worked out side by side."""
    answers = jax.vmap(function)(jnp.stack([low, high]))
    return jax.tree.map(_first, answers), jax.tree.map(_second, answers)


_written_out: ContextVar[int] = ContextVar("written_out", default=0)


@contextmanager
def loops_written_out(times: int) -> Generator[None]:
    """While a function is traced, write loops of so few steps out one step after the other.

    A processor gains nothing and compiles longer; a device keeps in its registers what each turn of a loop would put
    into its memory.
    """
    before = _written_out.set(times)
    try:
        yield
    finally:
        _written_out.reset(before)


def in_single(function: Callable[..., Any], *arguments: Any) -> Any:
    """Call a compiled function in single precision throughout; its arrays are single already."""
    with jax.enable_x64(False):
        return function(*arguments)


def as_arrays(tree: Any) -> Any:
    """Return a tree of numbers as a tree of double precision arrays; where that is off, of single ones."""
    return jax.tree.map(_as_array, tree)


def zeros_like(tree: Any) -> Any:
    """Return a tree of zeros with the shapes of a tree of arrays or of their descriptions."""
    return jax.tree.map(_zeros, tree)


def _first(leaf: Any) -> Any:
    return leaf[0]


def _second(leaf: Any) -> Any:
    return leaf[1]


def _as_array(leaf: Any) -> Any:
    return jnp.asarray(leaf, float)


def _zeros(leaf: Any) -> Any:
    return jnp.zeros(leaf.shape, leaf.dtype)
