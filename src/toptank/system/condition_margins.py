"""The ambient at which a condition that lasts so long would boil, or reach a limit, found by trying days.

What is steady is asked of its own balance (`margins`); any other condition is gone through on hotter and colder days.
"""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from toptank.system.condition_batch import Condition, Conditions, go_through, in_order
from toptank.system.margins import COLDEST
from toptank.system.numerics.jax_library import jax
from toptank.system.population import margins
from toptank.system.trajectory import AT_THE_BOIL
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real

HOTTEST = 360.0
"""Hottest air that is tried [K]."""

TRIED = 9
"""Days that are tried."""

SLOPES = (0.25, 2.0)
"""Least and most by which the coolant is taken to follow a hotter day [1]."""

INSIDE = 0.03
"""How far from the ends of the range that is left a day is tried, over its width [1]."""

BOILED_BY = 2.0
"""What boiling counts as beyond the boiling point [K]: how far beyond nobody can see."""

STRIDE = 6.0
"""How much colder the second day is at the least, where it boils on the first [K]; twice that the next time, and on."""

AT_THE_END = 2.0
"""How near to the coldest air a day has been tried that is still too hot for there to be none cold enough [K]."""

Floats = NDArray[np.float64]


def limiting_ambients(vehicles: Vehicle, conditions: Conditions, name: str, T_limit: Real | None = None) -> Floats:
    """Ambient [K] at which the coolant would reach a limit [K] somewhere in a condition; without one, where it boils.

    The days of what came before get hotter with it. Where the coolant boils below the limit, that is where it passes.
    Where no air is cold enough the answer is `COLDEST`.
    """
    condition = conditions[name]
    if condition.settled():
        boil, at_limit = margins(vehicles, condition.duty, 0.0 if T_limit is None else T_limit)
        return boil if T_limit is None else at_limit
    n = max(np.size(leaf) for leaf in jax.tree.leaves((vehicles, condition.duty)))
    asked = np.array(np.broadcast_to(np.asarray(condition.duty.ambient, float), (n,)))
    chain = {one: conditions[one] for one in in_order(conditions, [name])}

    def over(ambient: Floats) -> Floats:
        days = {key: _hotter(one, ambient - asked) for key, one in chain.items()}
        passage = go_through(vehicles, days, [name])[name]
        margin = np.asarray(passage.least_margin, float)
        beyond = -margin if T_limit is None else np.asarray(passage.T_peak, float) - np.asarray(T_limit, float)
        return np.where(margin <= AT_THE_BOIL, np.maximum(beyond, BOILED_BY), beyond)

    low, high, at = np.full(n, COLDEST), np.full(n, HOTTEST), asked
    slope, last, last_over = np.ones(n), asked, np.zeros(n)
    for number in range(TRIED):
        now = over(at)
        low, high = np.where(now < 0.0, at, low), np.where(now < 0.0, high, at)
        if number > 0:
            apart = np.where(at == last, 1.0, at - last)
            slope = np.clip((now - last_over) / apart, *SLOPES)
        last, last_over = at, now
        edge = INSIDE * (high - low)
        still = (now > 0.0) & (low == COLDEST)
        back = np.where(still, np.maximum(now / slope, STRIDE * 2.0**number), now / slope)
        at = np.clip(at - back, low + edge, high - edge)
    return np.where((low == COLDEST) & (high < COLDEST + AT_THE_END), COLDEST, at)


def _hotter(condition: Condition, by: Floats) -> Condition:
    duty = condition.duty
    return replace(condition, duty=replace(duty, ambient=np.asarray(duty.ambient, float) + by))
