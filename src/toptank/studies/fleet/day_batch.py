"""Vehicles of a fleet through their days, many together: those of like shape share their kernels.

What a draw comes to does not depend on which vehicles go with it, nor on their order.
"""

import dataclasses
from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from toptank.knowledge.model_discrepancy import missed_in, off_along
from toptank.knowledge.stop_limit import limit_in
from toptank.studies.fleet.fleet_vehicle import ConditionDay, FleetVehicle, Floats, RoadDay, Shape
from toptank.system.condition import Passage
from toptank.system.condition_batch import Condition, go_through, in_order
from toptank.system.drive_batch import Unsure, drive_all
from toptank.system.numerics.jax_library import jax
from toptank.system.numerics.where_run import where_run
from toptank.system.trajectory import AT_THE_BOIL
from toptank.units.cancellation import CancelCheck, never_cancelled

BOILED_BY = 2.0
"""What boiling counts as beyond the limit at the least [K]: how far beyond nobody can see."""

POINTS = 240
"""Points of a drive at which its temperatures are kept, at most."""

Flags = NDArray[np.bool_]


class Outcome(NamedTuple):
    """How the draws of one vehicle come through its day; a row a part of it (a condition, or the whole road).

    over : (part, draw) hottest coolant beyond the limit that holds there [K]; below 0 the draw holds
    coolant, gauge : (part, draw) hottest coolant, highest reading [K]
    boils : (part, draw)
    hottest_at : road behind the middle vehicle where it is hottest [m]; not a number without a road
    """

    over: Floats
    coolant: Floats
    gauge: Floats
    boils: Flags
    hottest_at: float

    def held(self) -> Flags:
        """Which draws hold all day (draw,)."""
        return np.asarray(self.over.max(axis=0) < 0.0, np.bool_)


def through_day(
    vehicles: Sequence[FleetVehicle],
    hotter: Sequence[Floats] | None = None,
    *,
    first: int | None = None,
    go_on: CancelCheck = never_cancelled,
) -> list[Outcome]:
    """Take vehicles through their days.

    Parameters
    ----------
    vehicles : of any shapes
    hotter : for each vehicle by how much the day of each draw is hotter (draw,) [K]; left out: not at all
    first : so many of the draws; left out: all
    go_on : is called between lots, and may stop the work

    Returns
    -------
    outcomes : one a vehicle, in the same order
    """
    by_shape: dict[Shape, list[int]] = {}
    for place, one in enumerate(vehicles):
        by_shape.setdefault(one.shape(), []).append(place)
    found: dict[int, Outcome] = {}
    for places in by_shape.values():
        n = vehicles[places[0]].draws if first is None else min(first, vehicles[places[0]].draws)
        at_once = max(where_run().at_a_time // n, 1)
        for start in range(0, len(places), at_once):
            go_on()
            some = places[start : start + at_once]
            asked = [_Asked(vehicles[i], n, np.zeros(n) if hotter is None else hotter[i][:n]) for i in some]
            road = isinstance(vehicles[some[0]].day, RoadDay)
            outcomes = _along_road(asked, go_on) if road else _through_conditions(asked)
            found |= dict(zip(some, outcomes, strict=True))
    return [found[place] for place in range(len(vehicles))]


class _Asked(NamedTuple):
    """The first n draws of one vehicle on a day that is hotter by so much (n,) [K]."""

    one: FleetVehicle
    n: int
    hotter: Floats


def _through_conditions(asked: Sequence[_Asked]) -> list[Outcome]:
    days = [one.one.day for one in asked if isinstance(one.one.day, ConditionDay)]
    orders = [in_order(day.conditions, day.asked) for day in days]
    together = _joined([_first(one.n, one.one.vehicle) for one in asked])
    conditions: dict[str, Condition] = {}
    for place, name in enumerate(orders[0]):
        each = [_hotter(day.conditions[order[place]], ask) for ask, day, order in zip(asked, days, orders, strict=True)]
        after = days[0].conditions[name].after
        joined = {field: _joined([getattr(one, field) for one in each]) for field in ("duty", "timing")}
        conditions[name] = Condition(**joined, after=after)
    passages = go_through(together, conditions, days[0].asked)
    ends = np.cumsum([one.n for one in asked])
    return [
        _of_passages(ask, day, [_piece(int(end) - ask.n, ask.n, passages[name]) for name in days[0].asked])
        for ask, day, end in zip(asked, days, ends, strict=True)
    ]


def _of_passages(asked: _Asked, day: ConditionDay, passages: Sequence[Passage]) -> Outcome:
    over: list[Floats] = []
    coolant: list[Floats] = []
    gauge: list[Floats] = []
    boils: list[Flags] = []
    for name, passage in zip(day.asked, passages, strict=True):
        condition = day.conditions[name]
        margin: Floats = np.asarray(passage.least_margin, np.float64)
        boiled = margin <= AT_THE_BOIL
        off = np.where(boiled, 0.0, missed_in(condition, asked.one.draws)[: asked.n])
        boiled |= margin - off <= AT_THE_BOIL
        T = np.asarray(passage.T_peak, np.float64) + off
        beyond = T - limit_in(condition, asked.one.limit)
        over.append(np.where(boiled, np.maximum(beyond, BOILED_BY), beyond))
        coolant.append(T)
        gauge.append(np.asarray(passage.T_gauge_peak, np.float64) + off)
        boils.append(boiled)
    return Outcome(np.array(over), np.array(coolant), np.array(gauge), np.array(boils), float("nan"))


def _along_road(asked: Sequence[_Asked], go_on: CancelCheck) -> list[Outcome]:
    days = [one.one.day for one in asked if isinstance(one.one.day, RoadDay)]
    together = _joined([_first(one.n, one.one.vehicle) for one in asked])
    unsure = _joined(
        [
            Unsure(
                ambient=_whole(one.n, day.unsure.ambient) + one.hotter, head_wind=_whole(one.n, day.unsure.head_wind)
            )
            for one, day in zip(asked, days, strict=True)
        ]
    )
    profile = days[0].profile
    every = max(-(-len(profile.time) // POINTS), 1)
    drives = drive_all(together, profile, before=days[0].before, unsure=unsure, every=every, go_on=go_on)
    found: list[Outcome] = []
    end = 0
    for one in asked:
        mine = dataclasses.replace(
            drives,
            **{
                field.name: value[end : end + one.n]
                for field in dataclasses.fields(drives)
                if np.ndim(value := getattr(drives, field.name)) > 0
            },
        )
        end += one.n
        # What the model misses is drawn for all draws of a vehicle: the first n of them have to keep theirs.
        mine = off_along(_tiled(mine, one.one.draws), profile)
        boiled = mine.boiled()[: one.n]
        beyond = mine.peak[: one.n] - one.one.limit
        over = np.where(boiled, np.maximum(beyond, BOILED_BY), beyond)
        hottest = int(np.median(mine.gauge[: one.n], axis=0).argmax()) * every
        peak = mine.peak[None, : one.n]
        found.append(Outcome(over[None], peak, peak, boiled[None], float(profile.distance[hottest])))
    return found


def _tiled(drives: Any, n: int) -> Any:
    """Drives of the first draws, repeated to n of them."""
    fields = {field.name: getattr(drives, field.name) for field in dataclasses.fields(drives)}
    return dataclasses.replace(
        drives, **{name: np.resize(value, (n, *value.shape[1:])) for name, value in fields.items() if np.ndim(value)}
    )


def _hotter(condition: Condition, asked: _Asked) -> Condition:
    duty, timing = (_first(asked.n, part) for part in (condition.duty, condition.timing))
    ambient = duty.ambient + asked.hotter
    return dataclasses.replace(condition, duty=dataclasses.replace(duty, ambient=ambient), timing=timing)


def _first(n: int, tree: Any) -> Any:
    def head(leaf: Any) -> Floats:
        return _whole(n, np.asarray(leaf, float)[:n] if np.ndim(leaf) else leaf)

    return jax.tree.map(head, tree)


def _whole(n: int, leaf: Any) -> Floats:
    values = np.asarray(leaf, float)
    return np.asarray(np.broadcast_to(values[:n] if values.ndim else values, (n,)), np.float64)


def _joined(trees: Sequence[Any]) -> Any:
    def end_to_end(*leaves: Floats) -> Floats:
        return np.concatenate(leaves)

    return jax.tree.map(end_to_end, *trees)


def _piece(start: int, n: int, passage: Passage) -> Passage:
    """What is looked at of a passage, for some of the draws."""
    looked = ("T_peak", "T_gauge_peak", "least_margin")
    return passage._replace(**{name: np.asarray(getattr(passage, name))[start : start + n] for name in looked})
