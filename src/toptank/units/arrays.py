"""One text for one equation: the same lines run on floats, NumPy arrays and JAX arrays.

Equations, media and parts never import JAX. They ask here which library their arguments belong to, so that plain
numbers stay quick (no JAX import for a boiling point) and NumPy can serve as the oracle in tests.
"""

import os
import sys
from typing import Any, TypeAlias

# Read by OpenBLAS as NumPy is loaded. Our matrices are small; its threads would wait for each other in loops that take
# the cores from the kernels beside them.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np

Real: TypeAlias = Any
"""A float, or a NumPy or JAX array of draws. `Any`, because no published type spans the three."""


def namespace(*values: Real) -> Any:
    """Return `jax.numpy` if any value is a JAX array or tracer, else `numpy`."""
    jax = sys.modules.get("jax")
    if jax is not None and any(isinstance(value, jax.Array) for value in values):
        return jax.numpy
    return np
