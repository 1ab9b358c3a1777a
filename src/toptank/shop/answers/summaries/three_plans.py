"""Three plans by a person's name: repair what broke, hold the worst day, belt and braces."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from toptank.shop.answers.words.wording import chance, money
from toptank.units.conversion import kelvin
from toptank.units.dimension import TEMPERATURE
from toptank.units.display import show
from toptank.units.sentence import said

if TYPE_CHECKING:
    from toptank.shop.answers.choice import ChoiceAnswer, PlanAnswer
    from toptank.units.conversion import System

LETTERS = "ABC"
"""What the three are called where one is picked: `--plan B`."""

REPAIR, HILL, BOTH = "Repair what broke", "Hold the worst day", "Belt and braces"
KEEPING = "Keep the A/C on"
"""What the third is called where the second asks the customer to go without it and nothing holds better."""

SURE = 80.0
"""Chance to hold from which a plan holds a hill [%]; judgement."""

BETTER = 2.0
"""Chance by which belt and braces must hold better than the plan before it to be worth a name [%]; judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedPlan:
    """A plan with its letter, the name that a person gives it, whether it is the one to take, what it does not do."""

    letter: str
    called: str
    plan: PlanAnswer
    recommended: bool
    does_not: str


def three_plans(answer: ChoiceAnswer, system: System) -> tuple[NamedPlan, ...]:
    """Return up to three plans, the plainest first; the recommended one is always among them, and none stands twice."""
    taken: list[tuple[str, PlanAnswer]] = []
    named = ((REPAIR, answer.repair_alone), (HILL, _hill(answer)), _third(answer))
    for called, plan in named:
        if plan is not None and plan.plan and all(plan.plan != other.plan for _, other in taken):
            taken.append((called, plan))
    return tuple(
        NamedPlan(
            letter=letter,
            called=called,
            plan=plan,
            recommended=plan.plan == answer.recommended,
            does_not=_does_not(plan, system),
        )
        for letter, (called, plan) in zip(LETTERS, taken, strict=False)
    )


def plan_marks(answer: ChoiceAnswer) -> tuple[str, ...]:
    """Return what each plan of the list is called in drawings and tables: its letter, else its place in the list."""
    letters = {one.plan.plan: one.letter for one in three_plans(answer, "us")}
    return tuple(letters.get(plan.plan, str(place)) for place, plan in enumerate(answer.plans))


def plan_line(one: NamedPlan, answer: ChoiceAnswer, system: System) -> str:
    """Return a plan in one line: letter, name, work, price, hours, chance."""
    price, hours = money(one.plan.cost, answer.currency), f"{one.plan.minutes / 60.0:.1f} h"
    mark = " (recommended)" if one.recommended else ""
    held = f"stays cool {chance(one.plan.holds_pct / 100.0)}"
    return f"{one.letter}. {one.called}{mark}: {said(one.plan.name, system)}. {price}, {hours}, {held}."


def recommended_plan(answer: ChoiceAnswer) -> PlanAnswer | None:
    """Return the plan to take; None where none holds."""
    return next((one for one in answer.plans if one.plan == answer.recommended), None)


def _hill(answer: ChoiceAnswer) -> PlanAnswer | None:
    """The recommended plan, unless it is the plain repair; then the cheapest that holds surely and asks nothing."""
    best, alone = recommended_plan(answer), answer.repair_alone
    if best is not None and (alone is None or best.plan != alone.plan):
        return best
    sure = [one for one in _plans(answer) if one.holds_pct >= SURE and one.asks_the_customer is None]
    return min(sure, key=lambda one: one.cost, default=best)


def _third(answer: ChoiceAnswer) -> tuple[str, PlanAnswer | None]:
    """The plan that holds best, where it is better than the hill's; else the best that asks the customer nothing."""
    plans, hill = _plans(answer), _hill(answer)
    surest = max(plans, key=_holds, default=None)
    if surest is None or hill is None or surest.holds_pct >= hill.holds_pct + BETTER:
        return BOTH, surest
    asking_nothing = [one for one in plans if one.asks_the_customer is None]
    return KEEPING, max(asking_nothing, key=_holds, default=None) if hill.asks_the_customer is not None else None


def _holds(plan: PlanAnswer) -> tuple[float, float]:
    return plan.holds_pct, -plan.cost


def _plans(answer: ChoiceAnswer) -> list[PlanAnswer]:
    return [one for one in answer.plans if one.plan and one.plan != answer.does_not_go_in]


def _does_not(plan: PlanAnswer, system: System) -> str:
    """What a plan does not do: hold, keep the customer cool, repair what may be broken."""
    if plan.asks_the_customer is not None:
        return f"Only works if the customer goes without {said(plan.asks_the_customer, system)} on that day."
    if plan.holds_pct < SURE:
        hardest = next(one for one in plan.duties if one.duty == plan.hardest_duty)
        hottest = show(kelvin(hardest.gauge_degC.p50), TEMPERATURE, system)
        return f"Does not hold for sure: on {plan.hardest_duty!r} the gauge most likely reads {hottest}."
    return next((limits for one in plan.remedies if (limits := said(one.limits, system))), "")
