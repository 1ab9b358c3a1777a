"""The plans that are weighed: single remedies and up to three together; few draws first, all for the good ones."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from toptank.catalogue.remedies.remedy import Remedy
from toptank.studies.choose.decision import (
    Decisive,
    LossModel,
    decisive,
    is_known,
    recommended,
    worth_making,
    worth_showing,
)
from toptank.studies.choose.worst_day_forecast import (
    Cost,
    WorstDayCase,
    WorstDayForecast,
    first_draws,
    fitting,
    forced,
    hottest,
    short_of_limit,
    sound_holds,
    undominated,
    weighed,
)
from toptank.units.cancellation import CancelCheck, never_cancelled

SCREENED = 512
"""Draws with which single remedies are compared first."""

MOST_PLANS = 60
"""Plans that are weighed with few draws, doing nothing included; those that none beats get all draws."""

MOST_WHOLE = 18
"""Plans that get all draws, unless more are beaten by none: they are what takes the time."""

PROMISING, OF_A_GROUP = 9, 3
"""Single remedies that are tried together with others; those of one group, of which a plan has one: the best and the
best for their money. Seven radiators would leave no room for what goes with one."""

SCREENED_TO = 0.04
"""What the few draws leave open in a chance to hold: two standard deviations [1]."""

AT_ONCE = 3
MATTERS = 0.05
"""Cooling on the worst duty below which a remedy does not concern this vehicle [K]."""

LIKELY = 0.2
"""Chance from which a fault's mend is tried in every combination, however little it cools [1]; judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """Plans from the cheapest on, the one to take if nothing more is looked at, and the check that decides between.

    `asking_nothing` is the work of the one to take where that asks the customer to go without something, without that.
    `does_not_fit` is the one that would be taken, if only it went in; it stands among the others.
    """

    outlooks: tuple[WorstDayForecast, ...]
    recommended: WorstDayForecast | None
    decisive: Decisive | None
    asking_nothing: WorstDayForecast | None
    does_not_fit: WorstDayForecast | None


GoesIn = Callable[[Sequence[Remedy]], bool]


def _anything_goes(_: Sequence[Remedy]) -> bool:
    return True


def choose(
    subjects: WorstDayCase,
    cost: Cost,
    stakes: LossModel,
    go_on: CancelCheck = never_cancelled,
    goes_in: GoesIn = _anything_goes,
    plain: Sequence[Remedy] = (),
) -> Choice:
    """Weigh doing nothing, single remedies and combinations of up to three; dominated ones are left out.

    Doing nothing comes first, then the others from the cheapest on. Each further one costs more and holds better, but
    for those that stay because they cost less on the whole, or after what a check shows.

    Parameters
    ----------
    subjects : possible vehicles and their days
    cost : price of some remedies
    stakes : what there is to lose, of the same draws
    go_on : is called between plans, and may stop the work
    goes_in : whether a plan goes into the vehicle, with mends where it must; one that does not is never taken
    plain : the work that repairs what most likely broke and no more; none where nothing did
    """
    go_on()
    few, at_stake = first_draws(subjects, SCREENED), stakes.first(SCREENED)
    tried = _with_plain(_plans(few, cost, at_stake), plain, few)
    rough = weighed(few, tried, cost, go_on)
    sound = sound_holds(subjects)
    able = _able(rough, goes_in)
    nearest = min(able, key=short_of_limit)
    alone = _alone(rough, plain, few)
    would_be = _told(recommended(rough, at_stake, alone, sound), None)
    kept = {one.ids for one in (*_worth_all_draws(able), *_wanted(able, at_stake), *would_be, *_told(alone), nearest)}
    whole = weighed(subjects, [plan for plan, one in zip(tried, rough, strict=True) if one.ids in kept], cost, go_on)
    able, alone = _able(whole, goes_in), _alone(whole, plain, subjects)
    outlooks = undominated(worth_showing(able, stakes, alone))
    go_on()
    taken, first = (recommended(some, stakes, alone, sound) for some in (able, whole))
    check = None if taken is not None and taken is alone and is_known(stakes, alone) else decisive(able, stakes, taken)
    does_not_fit = None if first is None or goes_in(first.remedies) else first
    told = [one for one in whole if taken is None and one.ids == nearest.ids]
    shown = {one.ids for one in (*outlooks, *_told(taken, check), *_told(does_not_fit, None), *told)}
    ordered = sorted(whole[1:], key=_cost)
    return Choice(
        outlooks=(whole[0], *(one for one in ordered if one.ids in shown)),
        recommended=taken,
        decisive=check,
        asking_nothing=_asking_nothing(subjects, taken, whole, cost),
        does_not_fit=does_not_fit,
    )


def _able(plans: Sequence[WorstDayForecast], goes_in: GoesIn) -> list[WorstDayForecast]:
    return [one for one in plans if goes_in(one.remedies)]


def _with_plain(
    plans: list[tuple[Remedy, ...]], plain: Sequence[Remedy], subjects: WorstDayCase
) -> list[tuple[Remedy, ...]]:
    """The plans with the plain repair among them, however little it cools."""
    return _different([*plans, tuple(plain)], subjects) if plain else plans


def _alone(
    plans: Sequence[WorstDayForecast], plain: Sequence[Remedy], subjects: WorstDayCase
) -> WorstDayForecast | None:
    """The plain repair as it was weighed."""
    ids = {remedy.id for remedy in forced(plain, subjects.vehicle)}
    return next((one for one in plans if plain and set(one.ids) == ids), None)


def _asking_nothing(
    subjects: WorstDayCase, taken: WorstDayForecast | None, whole: Sequence[WorstDayForecast], cost: Cost
) -> WorstDayForecast | None:
    """Weigh the same work with nothing asked of the customer."""
    if taken is None or not taken.concession:
        return None
    bare = tuple(remedy for remedy in taken.remedies if not remedy.concession)
    there = next((one for one in whole if set(one.remedies) == set(bare)), None)
    return there or weighed(subjects, [bare], cost)[0]


def _worth_all_draws(rough: Sequence[WorstDayForecast]) -> list[WorstDayForecast]:
    """Plans that none beats, then those that more draws might put there, the surest first."""
    best = list(undominated(rough))
    close = [one for one in undominated(rough, SCREENED_TO) if one not in best]
    return best + sorted(close, key=_holds, reverse=True)[: max(MOST_WHOLE - len(best), 0)]


def _holds(outlook: WorstDayForecast) -> float:
    return outlook.holds


def _wanted(plans: Sequence[WorstDayForecast], stakes: LossModel) -> list[WorstDayForecast]:
    """Plans that are taken, or would be after some check."""
    found = _told(recommended(plans, stakes), None)
    for check in worth_making(plans, stakes):
        found += _told(None, check)
    return found


def _told(taken: WorstDayForecast | None, check: Decisive | None = None) -> list[WorstDayForecast]:
    branches = () if check is None else check.branches
    return [one for one in (taken, *(branch.plan for branch in branches)) if one is not None]


def _cost(outlook: WorstDayForecast) -> float:
    return outlook.cost


def _plans(few: WorstDayCase, cost: Cost, stakes: LossModel) -> list[tuple[Remedy, ...]]:
    """Doing nothing, what cools or mends a likely fault, and combinations of the best of that."""
    able = [remedy for remedy in fitting(few.vehicle) if not remedy.on_request]
    nothing, *after = hottest(few, [(), *((remedy,) for remedy in able)])
    gains = {remedy.id: float(np.mean(nothing - hot)) for remedy, hot in zip(able, after, strict=True)}
    useful = [remedy for remedy in able if gains[remedy.id] >= MATTERS]
    also = [remedy for remedy in able if remedy not in useful and (remedy.group == "cap" or _mends(remedy, stakes))]
    plans: list[tuple[Remedy, ...]] = [(), *((remedy,) for remedy in [*useful, *also])]

    def gain(remedy: Remedy) -> float:
        return gains[remedy.id]

    def gains_of(plan: Sequence[Remedy]) -> float:
        return sum(map(gain, plan))

    def gain_for_money(plan: Sequence[Remedy]) -> float:
        return gains_of(plan) / (1.0 + cost(forced(plan, few.vehicle)))

    order = sorted(useful, key=gain, reverse=True)
    first = _few_of_each_group(order, lambda remedy: gain_for_money((remedy,)))[:PROMISING]
    best = [*first, *(one for one in order if one not in first and _mends(one, stakes)), *also]
    for size in range(2, AT_ONCE + 1):
        groups = [plan for plan in combinations(best, size) if len({remedy.group for remedy in plan}) == size]
        groups = _in_turn(sorted(groups, key=gain_for_money, reverse=True), sorted(groups, key=gains_of, reverse=True))
        plans += _half_of_each(groups, max(MOST_PLANS - len(plans), 0) // (AT_ONCE + 1 - size))
        plans = _different(plans, few)
    return plans[:MOST_PLANS]


def _in_turn(cheap: Sequence[tuple[Remedy, ...]], strong: Sequence[tuple[Remedy, ...]]) -> list[tuple[Remedy, ...]]:
    """The same plans, by turns what gains most for its money and what gains most: cheap work alone may not do."""
    return list(dict.fromkeys(plan for pair in zip(cheap, strong, strict=True) for plan in pair))


def _few_of_each_group(order: Sequence[Remedy], worth: Callable[[Remedy], float]) -> list[Remedy]:
    """Of remedies in their order, the first of every group and those of it that are worth most."""
    kept: set[str] = set()
    for group in {remedy.group for remedy in order}:
        first, *others = (remedy for remedy in order if remedy.group == group)
        kept |= {one.id for one in (first, *sorted(others, key=worth, reverse=True)[: OF_A_GROUP - 1])}
    return [remedy for remedy in order if remedy.id in kept]


def _different(plans: Sequence[tuple[Remedy, ...]], subjects: WorstDayCase) -> list[tuple[Remedy, ...]]:
    """One plan of those that come to the same work: a radiator brings the filling with it, named or not."""
    by_work: dict[frozenset[str], tuple[Remedy, ...]] = {}
    for plan in plans:
        by_work.setdefault(frozenset(remedy.id for remedy in forced(plan, subjects.vehicle)), plan)
    return list(by_work.values())


def _half_of_each(groups: Sequence[tuple[Remedy, ...]], room: int) -> list[tuple[Remedy, ...]]:
    """Take the best that ask nothing of the customer and the best that do; going without costs next to nothing."""
    asking = [plan for plan in groups if any(remedy.concession for remedy in plan)]
    others = [plan for plan in groups if plan not in asking]
    some = min(len(asking), max(room // 2, room - len(others)))
    return [*others[: room - some], *asking[:some]]


def _mends(remedy: Remedy, stakes: LossModel) -> bool:
    """Whether it mends a fault that is likely."""
    return any(remedy.id in fault.mended_by and float(fault.there.mean()) >= LIKELY for fault in stakes.faults)
