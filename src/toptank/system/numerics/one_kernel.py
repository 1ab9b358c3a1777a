"""A function of one draw as one kernel of a GPU: what is worked out stays in its registers until the answer is there.

XLA makes some dozens of kernels of one turn of a loop, and everything that one hands to the next goes through the
memory. Pallas (Triton) makes one of all turns: a thread a draw. It compiles for NVIDIA and AMD devices; on a processor
it can be interpreted, slowly, which tells whether it is the same answer.
"""

from collections.abc import Callable, Sequence
from typing import Any

from jax.experimental import pallas as _pallas
from jax.experimental.pallas import triton as _triton

from toptank.system.numerics.jax_library import Columns, for_one_kernel, jax, jnp
from toptank.units.arrays import Real

WARP = 32
"""Draws of one program: a thread of one warp each, so that none waits for another warp."""

pallas: Any = _pallas
triton: Any = _triton


def in_one_kernel(
    function: Callable[..., Sequence[Columns]], *matrices: Real, interpreted: bool = False
) -> tuple[Real, ...]:
    """Call a function of one draw for all draws.

    Parameters
    ----------
    function : of as many lists of figures as there are matrices -> lists of figures of the answers
    matrices : a row a figure and a column a draw, all of one kind of number
    interpreted : on whatever JAX works on, slowly

    Returns
    -------
    answers : matrices of the same form
    """
    n = matrices[0].shape[1]
    spare = -n % WARP
    padded = [jnp.pad(one, ((0, 0), (0, spare)), mode="edge") if spare else one for one in matrices]
    kind = matrices[0].dtype
    with for_one_kernel():
        described = jax.eval_shape(function, *([jax.ShapeDtypeStruct((), kind)] * one.shape[0] for one in matrices))
    counts = [len(answer) for answer in described]

    def body(*places: Any) -> None:
        given = [[place[row, :] for row in range(place.shape[0])] for place in places[: len(matrices)]]
        with for_one_kernel():
            answers = jax.vmap(function)(*given)
        for place, answer in zip(places[len(matrices) :], answers, strict=True):
            for row, figure in enumerate(answer):
                place[row, :] = figure

    found = pallas.pallas_call(
        body,
        grid=((n + spare) // WARP,),
        in_specs=[_block(one.shape[0]) for one in matrices],
        out_specs=[_block(count) for count in counts],
        out_shape=[jax.ShapeDtypeStruct((count, n + spare), kind) for count in counts],
        compiler_params=triton.CompilerParams(num_warps=1, num_stages=1),
        interpret=interpreted,
    )(*padded)
    return tuple(one[:, :n] if spare else one for one in found)


def works_on(device: Any) -> bool:
    """Whether one kernel can be made for a device: the compiler knows some and not others."""

    def doubled(column: Columns) -> tuple[list[Real]]:
        return ([2.0 * column[0]],)

    try:
        with jax.default_device(device):
            jax.jit(in_one_kernel, static_argnums=0)(doubled, jnp.ones((1, WARP)))[0].block_until_ready()
    except (RuntimeError, ValueError, NotImplementedError):
        return False
    return True


def _block(rows: int) -> Any:
    def place(number: Any) -> tuple[int, Any]:
        return 0, number

    return pallas.BlockSpec((rows, WARP), place)
