"""Three plans by a person's name: repair what broke, hold your hill on a hot day, belt and braces."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from toptank.shop.answers import naming
from toptank.shop.answers.wording import chance, money
from toptank.units.dimension import TEMPERATURE
from toptank.units.display import show

if TYPE_CHECKING:
    from toptank.shop.answers.answers import Chosen
    from toptank.studies.choose.worst_day_forecast import WorstDayForecast
    from toptank.units.conversion import System

LETTERS = "ABC"
"""What the three are called where one is picked: `--plan B`."""

REPAIR, HILL, BOTH = "Repair what broke", "Hold your hill on a hot day", "Belt and braces"
KEEPING = "Keep the A/C on"
"""What the third is called where the second asks the customer to go without something and nothing holds better."""

SURE = 0.8
"""Chance to hold from which a plan holds a hill [1]; judgement."""

BETTER = 0.02
"""Chance by which belt and braces must hold better than the plan before it to be worth a name [1]; judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedPlan:
    """A plan with its letter, the name that a person gives it, whether it is the one to take, what it does not do."""

    letter: str
    called: str
    plan: WorstDayForecast
    recommended: bool
    does_not: str


def three_plans(answer: Chosen, system: System) -> tuple[NamedPlan, ...]:
    """Return up to three plans, the plainest first; the recommended one is always among them, and none stands twice."""
    taken: list[tuple[str, str, WorstDayForecast]] = []
    named = ((REPAIR, answer.repair_alone), (HILL, _hill(answer)), _third(answer))
    for letter, (called, plan) in zip(LETTERS, named, strict=True):
        if plan is not None and plan.remedies and all(plan.ids != other.ids for _, _, other in taken):
            taken.append((letter, called, plan))
    best = answer.recommended
    return tuple(
        NamedPlan(
            letter=letter,
            called=called,
            plan=plan,
            recommended=best is not None and plan.ids == best.ids,
            does_not=_does_not(plan, answer, system),
        )
        for letter, called, plan in taken
    )


def plan_line(one: NamedPlan, answer: Chosen, system: System) -> str:
    """Return a plan in one line: name, work, price, hours, chance."""
    price, hours = money(one.plan.cost, answer.book.currency), f"{one.plan.minutes / 60.0:.1f} h"
    mark = " (recommended)" if one.recommended else ""
    held = f"stays cool {chance(one.plan.holds)}"
    return f"{one.letter}. {one.called}{mark}: {naming.plan(one.plan.ids, system)}. {price}, {hours}, {held}."


def _hill(answer: Chosen) -> WorstDayForecast | None:
    """The recommended plan, unless it is the plain repair; then the cheapest that holds surely and asks nothing."""
    best, alone = answer.recommended, answer.repair_alone
    if best is not None and (alone is None or best.ids != alone.ids):
        return best
    sure = [one for one in _plans(answer) if one.holds >= SURE and not one.concession]
    return min(sure, key=lambda one: one.cost, default=best)


def _third(answer: Chosen) -> tuple[str, WorstDayForecast | None]:
    """The plan that holds best, where it is better than the hill's; else the best that asks the customer nothing."""
    plans, hill = _plans(answer), _hill(answer)
    surest = max(plans, key=_holds, default=None)
    if surest is None or hill is None or surest.holds >= hill.holds + BETTER:
        return BOTH, surest
    asking_nothing = [one for one in plans if not one.concession]
    return KEEPING, max(asking_nothing, key=_holds, default=None) if hill.concession else None


def _holds(plan: WorstDayForecast) -> tuple[float, float]:
    return plan.holds, -plan.cost


def _plans(answer: Chosen) -> list[WorstDayForecast]:
    barred = answer.does_not_fit
    return [one for one in answer.outlooks if one.remedies and (barred is None or one.ids != barred.ids)]


def _does_not(plan: WorstDayForecast, answer: Chosen, system: System) -> str:
    """What a plan does not do: hold, keep the customer cool, repair what may be broken."""
    if gone := naming.concession(plan.ids, system):
        return f"Only works if the customer goes without {gone} on that day."
    if plan.holds < SURE:
        hardest = next(one for one in plan.duties if one.duty == plan.hardest)
        hottest = show(hardest.coolant.p50, TEMPERATURE, system)
        return f"Does not hold for sure: on {plan.hardest!r} it most likely reads {hottest}."
    limits = [naming.remedy(id_, system).limits for id_ in plan.ids]
    return limits[0] if limits else ""
