"""Very many balances at once on a device: a GPU where JAX sees one, else the processor, with the same answer.

All draws lie on the device as rows of figures and stay there. They get the quick steps; those that have not settled
are gathered close together, taken up again from where they stand, and put back; the odd ones get the patient steps.
Only their number comes back in between.

In the mixed way the quick steps are taken in single precision, and the double precision begins where they end: within
a few steps of the root. What does not settle so goes on as everything else does, so that the answer is as close.
"""

import math
from collections.abc import Callable
from functools import cache, partial
from typing import Any, NamedTuple

import numpy as np

from toptank.system.balance import Balance
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import in_single, jax, jnp, loops_written_out
from toptank.system.numerics.kept_programs import keep_compiled
from toptank.system.numerics.where_run import has_gpu
from toptank.system.steady import HOTTEST, NO_START, PATIENT, QUICK, Steps, advance
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real

SETTLED_TO = 1e-6
"""Imbalance over engine heat at which a draw counts as settled [1]."""

AFTER_SINGLE = Steps(5, 4)
"""Steps in double precision that begin where single precision ended."""

NEAR = 0.02
"""How far the root may be from where single precision found it [K]; what is further off is found all the same."""

ODD_SHARES = (256, 32, 4)
"""One draw in so many is taken up again in one go: the least length that holds all that are left, else the longest."""

MOST_ROUNDS, PATIENT_ROUNDS = 6, 8
"""Times that draws are taken up again, with quick and with patient steps."""

WRITTEN_OUT = 5
"""Loops of so few steps are written out on a GPU: a tenth quicker; longer ones only compile longer (docs/speed.md)."""


class Made(NamedTuple):
    """How the steps are compiled.

    written_out : loops of so few steps are written out
    quick, after_single : steps of the first pass, and in double precision where single precision ended
    """

    written_out: int = 0
    quick: Steps = QUICK
    after_single: Steps = AFTER_SINGLE


class OnDevice(NamedTuple):
    """Draws on the device: a row a figure and a column a draw; `tree` says which figure is which."""

    rows: Real
    tree: Any

    @property
    def n(self) -> int:
        """How many draws."""
        return int(self.rows.shape[1])


class Settled(NamedTuple):
    """What came of it, on the device.

    rows : a row a figure of the balance and a column a draw
    tree : says which figure is which
    left : draws that have not settled
    rounds : how often draws were taken up again
    """

    rows: Real
    tree: Any
    left: int
    rounds: int

    def balance(self) -> Balance:
        """The balance with NumPy arrays (draw,)."""
        figures: Any = np.asarray(self.rows)
        return jax.tree.unflatten(self.tree, list(figures))


class Ways(NamedTuple):
    """The compiled steps of one kind of draws."""

    single: Callable[..., Any]
    quick: Callable[..., Any]
    mixed: Callable[..., Any]
    again: Callable[..., Any]
    patient: Callable[..., Any]


def suits() -> Made:
    """How the steps are compiled for what JAX works on."""
    return Made(written_out=WRITTEN_OUT if has_gpu() else 0)


def on_device(vehicles: Vehicle, duties: Duty) -> OnDevice:
    """Put draws on the device; fields are numbers or arrays of one length."""
    leaves, tree = jax.tree.flatten((vehicles, duties))
    n = max(int(np.size(leaf)) for leaf in leaves)
    rows = np.empty((len(leaves), n), np.float64)
    for row, leaf in zip(rows, leaves, strict=True):
        row[:] = leaf
    return OnDevice(jax.device_put(rows, jax.devices()[0]), tree)


def settle(draws: OnDevice, *, mixed: bool = False, made: Made | None = None) -> Settled:
    """Settle every draw.

    Parameters
    ----------
    draws : on the device
    mixed : take the first steps in single precision
    made : how the steps are compiled; left out: what suits the device
    """
    keep_compiled()
    with jax.default_device(draws.rows.device):
        return _settled(draws, mixed, ways_of(draws.tree, made or suits()))


def _settled(draws: OnDevice, mixed: bool, ways: Ways) -> Settled:
    rows, state, left = (ways.mixed if mixed else ways.quick)(draws.rows)
    rounds = 0
    sizes = [max(math.ceil(draws.n / share), 1) for share in ODD_SHARES]
    for way, most in ((ways.again, MOST_ROUNDS), (ways.patient, PATIENT_ROUNDS)):
        for _ in range(most):
            if int(left) == 0:
                break
            enough = [size for size in sizes if size >= int(left)]
            rows, state, left = way(enough[0] if enough else sizes[-1], draws.rows, rows, state)
            rounds += 1
    return Settled(rows, _balance_tree(draws.tree), int(left), rounds)


def single_precision(draws: OnDevice, made: Made | None = None) -> Real:
    """Temperatures at which the quick steps end in single precision (draw,) [K]."""
    with jax.default_device(draws.rows.device):
        return in_single(ways_of(draws.tree, made or suits()).single, draws.rows.astype(jnp.float32))[0]


def first_steps(draws: OnDevice, made: Made | None = None) -> Real:
    """Temperatures at which the quick steps end in double precision (draw,) [K]: what the first pass of all costs."""
    with jax.default_device(draws.rows.device):
        return ways_of(draws.tree, made or suits()).quick(draws.rows)[1][0]


@cache
def ways_of(tree: Any, made: Made) -> Ways:
    """The compiled steps of draws of this form."""

    def stepped(rows: Real, state: Real | None, steps: Steps) -> tuple[Real, Real]:
        return _stepped(tree, rows, state, steps, made)

    def quick(rows: Real) -> Any:
        return counted(*stepped(rows, None, made.quick))

    @jax.jit
    def single(rows: Real) -> Real:
        return stepped(rows, None, made.quick)[1]

    @jax.jit
    def double(rows: Real, found: Real) -> Any:
        state = found.astype(jnp.float64)
        state = state.at[1].set(jnp.where(jnp.isfinite(state[0]), NEAR, 0.0))  # a hole (NaN) begins afresh
        return counted(*stepped(rows, state, made.after_single))

    def mixed(rows: Real) -> Any:
        return double(rows, in_single(single, rows.astype(jnp.float32)))

    def again(steps: Steps, size: int, rows: Real, out: Real, state: Real) -> Any:
        odd = jnp.nonzero(_unsettled(out, tree), size=size, fill_value=rows.shape[1])[0]
        begin = state.at[:, odd].get(mode="clip") if steps is not PATIENT else None
        found, stands = stepped(rows.at[:, odd].get(mode="clip"), begin, steps)
        return counted(out.at[:, odd].set(found, mode="drop"), state.at[:, odd].set(stands, mode="drop"))

    def counted(out: Real, state: Real) -> tuple[Real, Real, Real]:
        return out, state, jnp.sum(_unsettled(out, tree))

    # What is written over need not be kept; a processor cannot take over the place.
    given_over: dict[str, Any] = {"donate_argnums": (2, 3)} if has_gpu() else {}
    donated = partial(jax.jit, static_argnums=0, **given_over)
    return Ways(single, jax.jit(quick), mixed, donated(partial(again, QUICK)), donated(partial(again, PATIENT)))


def _stepped(tree: Any, rows: Real, state: Real | None, steps: Steps, made: Made) -> tuple[Real, Real]:
    """Every draw a few steps on: figures of its balance, and where it stands, a column a draw."""

    def one(column: Real, begin: Real | None) -> tuple[Real, Real]:
        vehicle, duty = jax.tree.unflatten(tree, list(column))
        start = NO_START if begin is None else jax.tree.unflatten(_START_TREE, list(begin))
        balance, stands = advance(vehicle, duty, start, steps=steps)
        return _stacked(balance), _stacked(stands)

    with loops_written_out(made.written_out if steps is not PATIENT else 0):
        return jax.vmap(one, in_axes=(1, None if state is None else 1), out_axes=1)(rows, state)


_START_TREE = jax.tree.structure(NO_START)


def _stacked(tree: Any) -> Real:
    return jnp.stack([jnp.asarray(leaf, float) for leaf in jax.tree.leaves(tree)])


@cache
def _balance_tree(tree: Any) -> Any:
    column = jax.ShapeDtypeStruct((tree.num_leaves,), jnp.float64)

    def one(figures: Real) -> Any:
        vehicle, duty = jax.tree.unflatten(tree, list(figures))
        return advance(vehicle, duty, NO_START, steps=QUICK)[0]

    return jax.tree.structure(jax.eval_shape(one, column))


def _unsettled(out: Real, tree: Any) -> Real:
    """Which draws have not settled: a number that is none has not either."""
    balance: Balance = jax.tree.unflatten(_balance_tree(tree), list(out))
    close = jnp.abs(balance.heat_imbalance) <= SETTLED_TO * balance.engine_heat
    beyond = (balance.T_engine_out >= HOTTEST) & (balance.heat_imbalance < 0.0)  # no root to go on to
    return ~(close | beyond)
