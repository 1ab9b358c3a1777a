"""Many vehicles through conditions that follow one another: one compiled kernel, each beginning shared."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

import numpy as np
from numpy.typing import NDArray

from toptank.system.balance import Balance, Status
from toptank.system.condition import GROWTH, Passage, Timing, pass_through
from toptank.system.drive import State, cold_start, settled_start
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jax
from toptank.system.numerics.kernel import kernel
from toptank.system.numerics.where_run import where_run
from toptank.system.population import solve, solve_loose
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real
from toptank.units.cancellation import CancelCheck, never_cancelled
from toptank.units.dimension import STEADY

COLD = "cold"
"""What a condition comes after where the vehicle has stood overnight."""

CYCLE_REACH, REACH, LOOSE_REACH = 150.0, 300.0, 900.0
"""Time that one run of the kernel covers [s]; what lasts longer goes on in further ones. Where a fan cycles, since its
switch is seen once a step; closely; for studies of many draws."""

LONGEST = 3600.0
"""Time after which a condition no longer changes [s]: the slowest mass has followed twice over."""

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """A condition of n draws: numbers, or arrays (n,).

    after : name of the condition before it, or `COLD`; empty: it has lasted from ever on
    """

    duty: Duty
    timing: Timing
    after: str = ""

    def settled(self) -> bool:
        """Whether it is steady: it has lasted so long that nothing changes any more."""
        return not self.after or bool(np.all(np.asarray(self.timing.duration) >= STEADY) and not self.halting())

    def halting(self) -> bool:
        """Whether it is stop and go."""
        return bool(np.all((np.asarray(self.timing.moving) > 0.0) & (np.asarray(self.timing.standing) > 0.0)))

    @classmethod
    def steady(cls, duty: Duty) -> "Condition":
        """A duty at which everything has settled."""
        return cls(duty=duty, timing=Timing(duration=STEADY))


Conditions = Mapping[str, Condition]
Passages = Mapping[str, Passage]


def go_through(
    vehicles: Vehicle,
    conditions: Conditions,
    names: Iterable[str] | None = None,
    *,
    known: Passages | None = None,
    closely: bool = False,
) -> dict[str, Passage]:
    """Take n vehicles through conditions, each after the one that it follows.

    Parameters
    ----------
    vehicles : fields are numbers or arrays of one length n
    conditions : all that may follow one another, by name
    names : those asked for; left out: all of them
    known : passages that are there already, of the same vehicles
    closely : settle what is steady to rounding and go in shorter steps; otherwise within some tenths of a kelvin, where
        a fan cycles or a part has play a few

    Returns
    -------
    passages : the known ones, those asked for, and those that they follow
    """
    found = dict(known or {})
    for name in in_order(conditions, conditions if names is None else names):
        if name not in found:
            found[name] = _one(vehicles, conditions, name, found, closely=closely)
    return found


def go_through_ensembles(
    ensembles: Sequence[Vehicle], conditions: Conditions, go_on: CancelCheck = never_cancelled
) -> list[dict[str, Passage]]:
    """Take several ensembles of the same n draws, such as one a repair, through all conditions; many go together."""
    n = max(np.size(leaf) for leaf in jax.tree.leaves((*ensembles, *(one.duty for one in conditions.values()))))
    at_once = max(1, where_run().at_a_time // n)
    found: list[dict[str, Passage]] = []
    for start in range(0, len(ensembles), at_once):
        go_on()
        some = ensembles[start : start + at_once]
        together = jax.tree.map(partial(_end_to_end, n), *some)
        passages = go_through(together, jax.tree.map(partial(_tiled, n, len(some)), dict(conditions)))
        found += [jax.tree.map(partial(_piece, i * n, n), passages) for i in range(len(some))]
    return found


def in_order(conditions: Conditions, names: Iterable[str]) -> list[str]:
    """The conditions asked for and all that they follow, each after the one before it.

    Raises
    ------
    ValueError : where they follow one another in a circle
    """
    order: list[str] = []
    for name in names:
        chain = [name]
        while (before := conditions[chain[-1]].after) and before != COLD and before not in order:
            if before in chain:
                raise ValueError(f"conditions follow one another in a circle: {', '.join(chain)}")
            chain.append(before)
        order += [one for one in reversed(chain) if one not in order]
    return order


def _one(vehicles: Vehicle, conditions: Conditions, name: str, found: Passages, *, closely: bool) -> Passage:
    condition = conditions[name]
    if condition.settled():
        balance = solve(vehicles, condition.duty) if closely else solve_loose(vehicles, [condition.duty])[0]
        return _of_balance(vehicles, condition.duty, balance)
    if condition.after == COLD:
        start = kernel(cold_start, soon=True)((vehicles, condition.duty))
    else:
        start = found[condition.after].state
    reach = np.where(np.asarray(vehicles.fan.electric()), CYCLE_REACH, REACH if closely else LOOSE_REACH)
    return _passed(vehicles, condition, start, reach)


def _of_balance(vehicles: Vehicle, duty: Duty, balance: Balance) -> Passage:
    margin = np.asarray(balance.margin_to_boiling(), float)
    return Passage(
        end=balance,
        state=kernel(_settled, soon=True)((vehicles, duty, balance)),
        T_peak=balance.T_engine_out,
        T_gauge_peak=balance.T_gauge,
        least_margin=margin,
        boils_after=np.where(margin < 0.0, np.nan, np.inf),
    )


def _passed(vehicles: Vehicle, condition: Condition, start: State, reach: Floats) -> Passage:
    """Through a condition in runs of the kernel, with those draws whose time is not up; each reaches so far in one."""
    n = np.size(start.T.coolant)
    reach = _whole(n, reach)
    given = jax.tree.map(partial(_whole, n), (vehicles, condition.duty, condition.timing))
    left = np.minimum(_whole(n, condition.timing.duration), LONGEST)
    passage = _run((*given, start, np.minimum(left, reach), np.full(n, GROWTH)))
    done = np.minimum(left, reach)
    while len(on := np.flatnonzero(left > done)) > 0:
        rest = jax.tree.map(partial(_taken, on), (*given, passage.state))
        seconds = np.minimum(left - done, reach)[on]
        later = _run((*rest, seconds, np.ones(len(on))))
        passage = _joined(passage, later, on, done[on])
        done[on] += seconds
    return passage


def _run(given: Any) -> Passage:
    # Always the long piece: a second compiled length takes 90 MB, which some milliseconds for few draws are not worth.
    return kernel(pass_through)(given, where_run().lengths[1])


def _joined(first: Passage, later: Passage, on: NDArray[np.intp], before: Floats) -> Passage:
    """What became of all draws where some have gone on, from a time on [s]."""

    def put(leaf: Floats, value: Floats) -> Floats:
        leaf = np.array(leaf, float)
        leaf[on] = value
        return leaf

    both = Passage(
        end=later.end,
        state=later.state,
        T_peak=np.maximum(first.T_peak[on], later.T_peak),
        T_gauge_peak=np.maximum(first.T_gauge_peak[on], later.T_gauge_peak),
        least_margin=np.minimum(first.least_margin[on], later.least_margin),
        boils_after=np.minimum(first.boils_after[on], before + later.boils_after),
    )
    boiled = np.isfinite(both.boils_after)
    both.end.status[boiled] = Status.BOILS
    return jax.tree.map(put, first, both)


def _settled(vehicle: Vehicle, duty: Duty, balance: Balance) -> State:
    return settled_start(vehicle, duty, balance)


def _whole(n: int, leaf: Real) -> Floats:
    return np.broadcast_to(np.asarray(leaf, float), (n,))


def _taken(index: NDArray[np.intp], leaf: Floats) -> Floats:
    return np.asarray(leaf)[index]


def _tiled(n: int, times: int, leaf: Real) -> Floats:
    return np.tile(_whole(n, leaf), times)


def _end_to_end(n: int, *leaves: Real) -> Floats:
    return np.concatenate([_whole(n, leaf) for leaf in leaves])


def _piece(start: int, n: int, leaf: Floats) -> Floats:
    return np.asarray(leaf)[start : start + n]


jax.tree_util.register_dataclass(Condition, data_fields=["duty", "timing"], meta_fields=["after"])
