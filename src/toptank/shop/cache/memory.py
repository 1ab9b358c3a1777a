"""Memory that work has let go of, given back to the machine.

The C library of Linux keeps a heap for every few threads and what was once taken in each: after a choice 400 MB that
nobody uses. Elsewhere nothing is done.
"""

import ctypes
import sys
from functools import cache
from typing import Any

HEAPS = 2
"""As many heaps as long answers are worked out at a time; more only keep more."""

_M_ARENA_MAX = -8
"""The number of this setting in glibc's malloc.h."""


def few_heaps() -> None:
    """Keep to few heaps from here on; to be called before there are threads."""
    library = _c_library()
    if library is not None:
        library.mallopt(_M_ARENA_MAX, HEAPS)


def give_back() -> None:
    """Give what was let go of back; takes some milliseconds."""
    library = _c_library()
    if library is not None:
        library.malloc_trim(0)


@cache
def _c_library() -> Any:
    """The C library where it is glibc, else None."""
    if not sys.platform.startswith("linux"):
        return None
    library = ctypes.CDLL(None)
    return library if hasattr(library, "malloc_trim") and hasattr(library, "mallopt") else None
