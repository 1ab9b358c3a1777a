"""Which plan to take, and whether a check is worth making before: both by what is to be expected in money.

Source   expected loss and the value of information, definitions of decision theory; the price of a lost day: the shop
Range    plans that were weighed with the same possible vehicles
Scatter  none beside that of the draws; a check is valued on other draws than those that chose by it

A plan costs its price; what the customer goes without; where it does not hold, the day that is lost; and what it leaves
broken, the mend of that later.
All three rise and fall smoothly with the chances, so that no plan is taken or left for one vehicle in a hundred.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from toptank.studies.choose.worst_day_forecast import WorstDayForecast
from toptank.units.dimension import Dimension

HOPELESS = 0.5
"""Chance to hold below which no plan holds: it fails more often than not [1]."""

SELDOM = 0.03
"""Outcomes of a check, and vehicles of a kind, rarer than this decide nothing [1]."""

WORTH_A_CHECK = 0.005
"""Share of the price of a lost day that a check must save beyond its own time [1]; judgement."""

OVERHEAD = 1.0
"""Minutes that go with every check, however short [min]."""

SURE = 0.8
"""Chance to hold from which a plan holds [1]; judgement."""

AS_GOOD = 0.1
"""By how much a repaired vehicle may hold worse than a sound one and still be as good [1]: the other faults that it may
have; judgement."""

CLEARLY = 0.1
"""Chance by which a dearer plan must hold better than a plain repair that holds [1]; judgement."""

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]


class Fault(NamedTuple):
    """What may be broken: its repair (id), on which draws it is, remedies (ids) that mend it, the cheapest's cost."""

    repair: str
    there: Flags
    mended_by: frozenset[str]
    cost: float

    def left_by(self, plan: WorstDayForecast) -> bool:
        """Whether a plan leaves it as it is."""
        return self.mended_by.isdisjoint(plan.ids)


class Seen(NamedTuple):
    """What a check may show: an outcome (id), or a figure between two edges in SI; None where a side is open."""

    outcome: str = ""
    low: float | None = None
    high: float | None = None


class CheckModel(NamedTuple):
    """A check (id) that can be made: minutes, what can be seen, and the chance of that on every draw, a row a draw.

    `dimension` is set where a figure is read.
    """

    check: str
    minutes: float
    dimension: Dimension | None
    seen: tuple[Seen, ...]
    chances: Floats


class LossModel(NamedTuple):
    """What there is to lose.

    cost_of_failure : price of a worst day that is not held, in the shop's money
    cost_of_concession : price of what a plan asks the customer to go without, in the shop's money
    labour : price of a minute, in the shop's money
    faults, checks : what may be broken, what can be looked at
    """

    cost_of_failure: float
    cost_of_concession: float = 0.0
    labour: float = 0.0
    faults: tuple[Fault, ...] = ()
    checks: tuple[CheckModel, ...] = ()

    def first(self, n: int) -> "LossModel":
        """The same of the first n draws."""
        faults = tuple(one._replace(there=one.there[:n]) for one in self.faults)
        return self._replace(faults=faults, checks=tuple(one._replace(chances=one.chances[:n]) for one in self.checks))


@dataclass(frozen=True, slots=True, kw_only=True)
class Branch:
    """What is done where one of these things is seen: their chance together, and the plan; None where none holds."""

    seen: tuple[Seen, ...]
    chance: float
    plan: WorstDayForecast | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Decisive:
    """A check on which the plan depends: what it saves on average, its own time paid [money]; what is done then."""

    check: str
    minutes: float
    dimension: Dimension | None
    saves: float
    branches: tuple[Branch, ...]


def losses(plans: Sequence[WorstDayForecast], stakes: LossModel) -> Floats:
    """What each draw is to be expected to cost under each plan, a row a draw and a column a plan."""
    lost = np.array([_price(plan, stakes) + stakes.cost_of_failure * ~plan.held for plan in plans], float)
    for row, plan in zip(lost, plans, strict=True):
        for fault in stakes.faults:
            if fault.left_by(plan):
                row += fault.cost * fault.there
    return lost.T


def _price(plan: WorstDayForecast, stakes: LossModel) -> float:
    return plan.cost + (stakes.cost_of_concession if plan.concession else 0.0)


def best(plans: Sequence[WorstDayForecast], lost: Floats, weight: Floats) -> int | None:
    """Place of the plan with the least loss among those that hold more often than not; None where none does.

    Parameters
    ----------
    plans, lost : the plans and their `losses`
    weight : of every draw [1]
    """
    total = max(float(weight.sum()), 1e-12)
    holding = [place for place, plan in enumerate(plans) if float(weight @ plan.held) >= HOPELESS * total]
    return min(holding, key=(weight @ lost).item) if holding else None


def recommended(
    plans: Sequence[WorstDayForecast], stakes: LossModel, plain: WorstDayForecast | None = None, sound: float = 1.0
) -> WorstDayForecast | None:
    """The plan to take if nothing more is looked at.

    Where repairing what most likely broke brings back what a sound vehicle does, that is the plan: whether it is what
    broke is for a check to say, not for a bigger radiator. Where it does not, the plan that costs least in the end,
    among those that repair it if any holds. A vehicle that holds as it stands needs no repair of what is hardly broken.

    Parameters
    ----------
    plans, stakes : what can be done, doing nothing first; what there is to lose
    plain : repairs what most likely broke and no more; None where nothing did
    sound : chance that the vehicle held this day when nothing was broken [1]
    """
    leading = leading_fault(stakes, plain)
    if leading is not None and plans[0].holds >= SURE and _likely(leading) < HOPELESS:
        leading = None
    others = [fault for fault in stakes.faults if plain is not None and fault.left_by(plain)]
    if plain is not None and leading is not None and brings_back(plain, leading, sound, others):
        return plain
    mending = plans if leading is None else [one for one in plans if not leading.left_by(one)]
    for some in (mending, plans):
        lost = losses(some, stakes)
        place = best(some, lost, np.ones(len(lost))) if some else None
        if place is not None:
            return some[place]
    return None


def leading_fault(stakes: LossModel, plain: WorstDayForecast | None) -> Fault | None:
    """The likeliest fault that the plain repair cures; None where there is none."""
    cured = [] if plain is None else [fault for fault in stakes.faults if not fault.left_by(plain)]
    return max(cured, key=_likely, default=None)


def is_known(stakes: LossModel, plain: WorstDayForecast | None) -> bool:
    """Whether it is known well enough what broke: then no check stands before its repair, the road test follows it."""
    leading = leading_fault(stakes, plain)
    return leading is not None and _likely(leading) >= SURE


def brings_back(plain: WorstDayForecast, fault: Fault, sound: float, others: Sequence[Fault] = ()) -> bool:
    """Whether the vehicles that have a fault hold after its repair about as well as sound ones do.

    Those that have nothing else broken; what else may be is for the road test to show, not for parts bought blind. All
    that have the fault hold more often than not.
    """
    alone = fault.there & ~np.any([other.there for other in others], axis=0) if others else fault.there
    alone = alone if float(alone.mean()) >= SELDOM else fault.there
    enough = max(min(sound, SURE) - AS_GOOD, HOPELESS)
    holds = [float(plain.held[which].mean()) if which.any() else 0.0 for which in (alone, fault.there)]
    return holds[0] >= enough and holds[1] >= HOPELESS


def worth_showing(
    plans: Sequence[WorstDayForecast], stakes: LossModel, plain: WorstDayForecast | None
) -> list[WorstDayForecast]:
    """Doing nothing, and the plans that a mechanic would offer.

    A plan that leaves what is more likely broken than not is none; and where the plain repair holds, whatever costs
    more has to hold clearly better.
    """
    leading = leading_fault(stakes, plain)
    if plain is None or leading is None:
        return list(plans)
    nothing, *others = plans
    if _likely(leading) >= HOPELESS:
        others = [one for one in others if not leading.left_by(one)]
    if plain.holds >= SURE:
        others = [one for one in others if one.cost <= plain.cost or one.holds >= plain.holds + CLEARLY]
    return [nothing, *others]


def _likely(fault: Fault) -> float:
    return float(fault.there.mean())


def decisive(
    plans: Sequence[WorstDayForecast], stakes: LossModel, taken: WorstDayForecast | None = None
) -> Decisive | None:
    """The check that saves most for every minute, where one saves more than it costs and the plan depends on it.

    Where a plan is `taken` unless a check says otherwise, some outcome must lead to it: a check of which every outcome
    asks for another plan weighs plans by another rule than they are recommended by.
    """
    found = worth_making(plans, stakes)
    if taken is not None:
        found = [one for one in found if any(branch.plan is taken for branch in one.branches)]
    return max(found, key=_rate, default=None)


def worth_making(plans: Sequence[WorstDayForecast], stakes: LossModel) -> list[Decisive]:
    """Every check that saves more than it costs and on which the plan depends."""
    lost = losses(plans, stakes)
    found: list[Decisive] = []
    for split in stakes.checks:
        saves = expected_value_of_sample_information(lost, split.chances) - stakes.labour * split.minutes
        if saves < WORTH_A_CHECK * stakes.cost_of_failure:
            continue
        branches = _branches(plans, lost, split)
        if len(branches) > 1:
            found.append(
                Decisive(
                    check=split.check,
                    minutes=split.minutes,
                    dimension=split.dimension,
                    saves=saves,
                    branches=branches,
                )
            )
    return found


def expected_value_of_sample_information(lost: Floats, chances: Floats) -> float:
    """What a check saves on average, its own time not counted.

    Half of the draws choose and the others say what the choice is worth, then the other way round: draws that do both
    would find a use for any check.
    """
    halves = (np.arange(len(lost)) % 2 == 0, np.arange(len(lost)) % 2 == 1)
    saved = 0.0
    for choosing, valuing in (halves, halves[::-1]):
        without = int(lost[choosing].sum(axis=0).argmin())
        chosen = (chances[choosing].T @ lost[choosing]).argmin(axis=1)
        there = chances[valuing].T @ lost[valuing]
        with_check = float(there[np.arange(len(chosen)), chosen].sum())
        saved += (float(lost[valuing, without].sum()) - with_check) / len(lost)
    return saved


def _branches(plans: Sequence[WorstDayForecast], lost: Floats, split: CheckModel) -> tuple[Branch, ...]:
    """Outcomes that ask for one plan, together; the most frequent branch first."""
    chance = split.chances.mean(axis=0)
    told: dict[int | None, list[int]] = {}
    for outcome in np.flatnonzero(chance >= SELDOM).tolist():
        told.setdefault(best(plans, lost, split.chances[:, outcome]), []).append(outcome)
    branches = [
        Branch(
            seen=tuple(split.seen[outcome] for outcome in outcomes),
            chance=float(chance[outcomes].sum()),
            plan=None if place is None else plans[place],
        )
        for place, outcomes in told.items()
    ]
    return tuple(sorted(branches, key=_chance, reverse=True))


def _rate(one: Decisive) -> float:
    return one.saves / (one.minutes + OVERHEAD)


def _chance(branch: Branch) -> float:
    return branch.chance
