"""What JAX made of our functions, kept on disk from one process to the next.

Two things take seconds at a program's start: to follow a function step by step (tracing), and to compile what came of
it. JAX keeps the second; this keeps the first, as a portable program, known by the code that it was traced from. A
process that finds it neither waits for the trace nor holds it in memory.
"""

import contextlib
import dataclasses
import hashlib
import os
import shutil
import tempfile
import typing
from collections.abc import Callable
from functools import cache
from importlib.metadata import version
from pathlib import Path
from typing import Any

from toptank.system.numerics.jax_library import exported, jax, jnp, read_program, written_program
from toptank.units.arrays import Real

NO_CACHE = "TOPTANK_NO_COMPILE_CACHE"
"""Environment variable that turns the cache on disk off."""

TRACED_FROM = ("equations", "media", "parts", "system", "units")
"""The packages that a kernel is made of."""

CODES = 12
"""Of so many states of the code, those used last, traces are kept; some 2 MB each."""


def program_of(function: Callable[..., Any], tree: Any, rows: int, columns: int) -> tuple[Any, Any]:
    """Return a function of draws as a program of one matrix, and the tree of what it answers.

    Parameters
    ----------
    function : of the arguments that `tree` describes, for one draw
    tree : of the arguments
    rows, columns : shape of the matrix: a row a number, a column a draw
    """
    folder = _traces()
    named = f"{function.__module__}.{function.__qualname__} {tree} {rows} {columns} {jax.default_backend()}"
    place = None if folder is None else folder / hashlib.sha256(named.encode()).hexdigest()
    kept = None if place is None else _read(place)
    if kept is None:
        kept = _traced(function, tree, rows, columns)
        if place is not None:
            _write(place, kept)
    return read_program(kept), answer_tree(function)


def _traced(function: Callable[..., Any], tree: Any, rows: int, columns: int) -> bytes:
    said = answer_tree(function)

    def one(column: Real) -> Real:
        leaves, answer = jax.tree.flatten(function(*jax.tree.unflatten(tree, list(column))))
        if answer != said:
            raise TypeError(f"{function.__qualname__} says that it returns {said}, and returns {answer}")
        return jnp.stack([jnp.asarray(leaf, float) for leaf in leaves])

    shape = jax.ShapeDtypeStruct((rows, columns), jnp.float64)
    return written_program(exported(jax.vmap(one, in_axes=1, out_axes=1), shape))


def answer_tree(function: Callable[..., Any]) -> Any:
    """Return the tree of what a function returns, by its annotation: records and tuples down to numbers."""
    return jax.tree.structure(_like(typing.get_type_hints(function)["return"]))


def _like(kind: Any) -> Any:
    if typing.get_origin(kind) is tuple:
        return tuple(_like(one) for one in typing.get_args(kind))
    fields: Any = getattr(kind, "_fields", None)
    if dataclasses.is_dataclass(kind):
        fields = [field.name for field in dataclasses.fields(kind)]
    if fields is None:
        return 0.0
    hints, made = typing.get_type_hints(kind), typing.cast("Callable[..., Any]", kind)
    return made(**{name: _like(hints[name]) for name in fields})


def _read(place: Path) -> bytes | None:
    """What was kept, if it is whole: a checksum stands before it. The folder is closed to others, as JAX's own is."""
    try:
        mark, _, content = place.read_bytes().partition(b"\n")
    except OSError:
        return None
    return content if mark == _mark(content) else None


def _write(place: Path, content: bytes) -> None:
    """Keep it, whole or not at all; a cache is a convenience."""
    with contextlib.suppress(OSError):
        handle, name = tempfile.mkstemp(dir=place.parent)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(_mark(content) + b"\n" + content)
            Path(name).replace(place)
        finally:
            Path(name).unlink(missing_ok=True)


def _mark(content: bytes) -> bytes:
    return hashlib.sha256(content).hexdigest().encode()


@cache
def _traces() -> Path | None:
    """The folder for what was traced from this very code, made if need be; without a place to write there is none."""
    root = _root()
    if root is None:
        return None
    told = hashlib.sha256(f"{version('jax')} {version('jaxlib')} {version('numpy')}".encode())
    package = Path(__file__).parents[2]
    for part in TRACED_FROM:
        for file in sorted((package / part).rglob("*")):
            if file.is_file() and file.suffix != ".pyc":
                told.update(file.relative_to(package).as_posix().encode() + file.read_bytes())
    folder = root / "traced" / told.hexdigest()[:16]
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if _open_to_others(folder):
            return None
        os.utime(folder)
        for other in sorted(folder.parent.iterdir(), key=_used_at)[:-CODES]:
            shutil.rmtree(other, ignore_errors=True)
    except OSError:
        return None
    return folder


def _open_to_others(folder: Path) -> bool:
    """Whether somebody else could put a program there that we would run."""
    told = folder.stat()
    return hasattr(os, "getuid") and (told.st_uid != os.getuid() or bool(told.st_mode & 0o022))


def _used_at(folder: Path) -> float:
    return folder.stat().st_mtime


@cache
def keep_compiled() -> None:
    """Keep compiled kernels in the user's own cache folder, closed to others."""
    root = _root()
    if root is None:
        return
    folder = root / f"compiled-jaxlib-{version('jaxlib')}"
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError:
        return  # a cache is a convenience: without a writable home, compile each time
    jax.config.update("jax_compilation_cache_dir", str(folder))
    jax.config.update("jax_persistent_cache_min_compile_time_secs", 0.2)


def _root() -> Path | None:
    if os.environ.get(NO_CACHE):
        return None
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "toptank"
