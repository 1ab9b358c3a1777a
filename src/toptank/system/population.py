"""Many vehicles or duties at once, settled: quick steps for all, patient ones for the odd."""

from collections.abc import Sequence
from functools import partial
from typing import Any

import numpy as np

from toptank.system.balance import Balance
from toptank.system.duty import Duty
from toptank.system.margins import boiling_point, limiting_ambient
from toptank.system.numerics.jax_library import jax
from toptank.system.numerics.kernel import kernel
from toptank.system.numerics.where_run import where_run
from toptank.system.steady import HOTTEST, NO_START, QUICK, Start, Steps, advance, steady
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real
from toptank.units.cancellation import CancelCheck, never_cancelled

SETTLED_TO = 1e-8
"""Imbalance over engine heat at which a draw counts as settled [1]."""

ROUGHLY = 1e-4
"""The same where some hundredths of a kelvin do not matter [1]."""

MOST_ROUNDS, FEW_ROUNDS = 6, 2

FOR_MARGINS = Steps(14, 8)
"""Leaves a margin within a hundredth of a kelvin in all but odd draws."""


def solve(vehicles: Vehicle, duties: Duty) -> Balance:
    """Settle every draw; fields are numbers or arrays of one length n, the answer holds NumPy arrays of length n.

    All draws get the quick steps; those that have not settled are taken up again from where they stand, and the odd
    ones that will not settle in a hurry get the patient steps.
    """
    balance = _settled(vehicles, duties, SETTLED_TO, MOST_ROUNDS)
    left = _unsettled(balance, SETTLED_TO)
    if len(left) > 0:
        rest = jax.tree.map(partial(_taken, left), (vehicles, duties))
        jax.tree.map(partial(_put, left), balance, kernel(steady, soon=True)(rest, where_run().lengths[0]))
    return balance


def solve_loose(vehicles: Vehicle, duties: Sequence[Duty]) -> list[Balance]:
    """Settle the same n draws at several duties in one go, for studies of many draws.

    Within some hundredths of a kelvin in all but odd draws, which are left a kelvin or so off where they then stand.
    The statuses do not hold: they ask for a closer balance.
    """
    return solve_ensembles([vehicles], duties)[0]


def solve_ensembles(
    crowds: Sequence[Vehicle], duties: Sequence[Duty], go_on: CancelCheck = never_cancelled
) -> list[list[Balance]]:
    """Settle several crowds of the same n draws, such as one a repair, as roughly: a list a crowd, a balance a duty.

    Many go together, so that few kernels run half empty; `go_on` is called before each lot, and may stop the work.
    """
    if not duties or not crowds:
        return [[] for _ in crowds]
    n = max(np.size(leaf) for leaf in jax.tree.leaves((*crowds, *duties)))
    days = jax.tree.map(partial(_joined, n), *duties)
    at_once = max(1, where_run().at_a_time // (n * len(duties)))
    found: list[list[Balance]] = []
    for start in range(0, len(crowds), at_once):
        go_on()
        some = crowds[start : start + at_once]
        whole = jax.tree.map(partial(_crowded, n, len(duties)), *some)
        balance = _settled(
            whole, jax.tree.map(partial(_repeated, n * len(duties), len(some)), days), ROUGHLY, FEW_ROUNDS
        )
        pieces = [jax.tree.map(partial(_piece, i * n, n), balance) for i in range(len(some) * len(duties))]
        found += [pieces[i : i + len(duties)] for i in range(0, len(pieces), len(duties))]
    return found


def _settled(vehicles: Vehicle, duties: Duty, tolerance: float, rounds: int) -> Balance:
    """Quick steps for all, then again for those whose imbalance is more than `tolerance` times the engine's heat."""
    quick = kernel(_quick)
    balance, start = quick((vehicles, duties, NO_START))
    bucket = where_run().fitting(len(balance.status))
    for _ in range(rounds):
        left = _unsettled(balance, tolerance)
        if len(left) == 0:
            break
        rest = jax.tree.map(partial(_taken, left), (vehicles, duties, start))
        jax.tree.map(partial(_put, left), (balance, start), quick(rest, bucket))
    return balance


def _crowded(n: int, times: int, *leaves: Any) -> np.ndarray:
    return np.concatenate([_repeated(n, times, leaf) for leaf in leaves])


def _repeated(n: int, times: int, leaf: Any) -> np.ndarray:
    return np.tile(np.broadcast_to(np.asarray(leaf, float), (n,)), times)


def _joined(n: int, *leaves: Any) -> np.ndarray:
    return np.concatenate([np.broadcast_to(np.asarray(leaf, float), (n,)) for leaf in leaves])


def _piece(start: int, n: int, leaf: np.ndarray) -> np.ndarray:
    return leaf[start : start + n]


def margins(vehicles: Vehicle, duties: Duty, T_limit: Any) -> tuple[np.ndarray, np.ndarray]:
    """Ambient temperatures [K] at which every draw would boil, and at which it would reach T_limit [K]."""
    limiting = kernel(_ambient, soon=True)
    boiling = boiling_point(vehicles, duties)
    return limiting((vehicles, duties, boiling)), limiting((vehicles, duties, T_limit))


def _quick(vehicle: Vehicle, duty: Duty, start: Start) -> tuple[Balance, Start]:
    return advance(vehicle, duty, start, steps=QUICK)


def _unsettled(balance: Balance, tolerance: float) -> np.ndarray:
    off = np.abs(balance.heat_imbalance) > tolerance * balance.engine_heat
    beyond = (balance.T_engine_out >= HOTTEST) & (balance.heat_imbalance < 0.0)  # no root to go on to
    return np.flatnonzero(off & ~beyond)


def _taken(index: np.ndarray, array: Any) -> np.ndarray:
    return np.asarray(array)[index] if np.ndim(array) else np.asarray(array)


def _put(index: np.ndarray, array: np.ndarray, values: np.ndarray) -> None:
    array[index] = values


def _ambient(vehicle: Vehicle, duty: Duty, T_limit: Real) -> Real:
    return limiting_ambient(vehicle, duty, T_limit, steps=FOR_MARGINS)
