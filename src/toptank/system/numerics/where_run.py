"""Where kernels of draws run: in pieces on the cores of the processor, or in whole lots on a GPU.

Everything runs on the processor unless it is asked otherwise: a question of one vehicle is done before a GPU has got
its draws. A fleet fills one.
"""

from collections.abc import Generator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any, NamedTuple

from toptank.system.numerics.jax_library import jax


class Where(NamedTuple):
    """Where kernels run.

    lengths : the two numbers of draws for which kernels are compiled; longer runs go in pieces of the longer one
    at_a_time : draws that go together, for the memory that they take
    device : what JAX calls it; None: the processor
    """

    lengths: tuple[int, int]
    at_a_time: int
    device: Any = None

    def fitting(self, n: int) -> int:
        """The length for so many draws."""
        return self.lengths[0] if n <= self.lengths[0] else self.lengths[1]


PROCESSOR = Where(lengths=(256, 1024), at_a_time=16_384)
"""Pieces that stay in the caches of a core, and lots of sixteen: four times as many at a time answer the same, no
sooner, and take 270 MB more while plans are weighed."""

GPU_LENGTHS = (8192, 65_536)
"""Draws that fill a GPU; a shorter length for those that are left over, since every length is compiled for half a
minute."""


def has_gpu() -> bool:
    """Whether JAX sees something else than the processor."""
    return jax.default_backend() != "cpu"


def gpu() -> Where:
    """The first device that JAX sees; it must not be the processor."""
    device = jax.devices()[0]
    return Where(GPU_LENGTHS, GPU_LENGTHS[1], device)


_where: ContextVar[Where] = ContextVar("where", default=PROCESSOR)


def where_run() -> Where:
    """Where kernels run now."""
    return _where.get()


@contextmanager
def running(where: Where) -> Generator[None]:
    """Run kernels there meanwhile."""
    before = _where.set(where)
    try:
        yield
    finally:
        _where.reset(before)
