"""What a choice of remedies says first: what to do, what it costs, what the worst day is as it is and then."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.answers.summaries.summary import ShortAnswer, chances_in_ten, minutes_words
from toptank.shop.answers.summaries.three_plans import recommended_plan, three_plans
from toptank.shop.answers.words.wording import money
from toptank.units.conversion import kelvin
from toptank.units.dimension import TEMPERATURE
from toptank.units.display import show
from toptank.units.sentence import said

if TYPE_CHECKING:
    from toptank.shop.answers.choice import ChoiceAnswer, PlanAnswer
    from toptank.units.conversion import System


def choice_summary(answer: ChoiceAnswer, system: System) -> ShortAnswer:
    """Say which plan to take and what it does to the worst day."""
    best = recommended_plan(answer)
    if best is None:
        first = "Nothing in the price book holds the worst day: ease the load, or look further."
    elif not best.plan:
        first = f"Leave it as it is: {_held(best)} on the worst day."
    else:
        price = f"{money(best.cost, answer.currency)}, {best.minutes / 60.0:.1f} h"
        named = [f"{one.letter}, {_lower(one.called)}" for one in three_plans(answer, system) if one.recommended]
        first = f"Recommended: plan {named[0]} ({price})."
        if answer.check_first is not None:
            first = f"Make sure first: {said(answer.check_first.name, system)}. {first}"
    return ShortAnswer(answer=first, lines=(_worst_day(answer, best, system), *_check_first(answer, system)))


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]


def _worst_day(answer: ChoiceAnswer, best: PlanAnswer | None, system: System) -> str:
    """The worst day as it is and with the plan to take."""
    limit, as_it_is = show(kelvin(answer.limit_degC), TEMPERATURE, system), answer.plans[0]
    told = f"Worst day, limit {limit}: as it is, {_held(as_it_is)} ({_hardest(as_it_is, system)})"
    if best is None or not best.plan:
        return f"{told}."
    return f"{told}; with this plan, {_held(best)} ({_hardest(best, system)})."


def _held(plan: PlanAnswer) -> str:
    return f"{chances_in_ten(plan.holds_pct / 100.0)} to stay under it"


def _hardest(plan: PlanAnswer, system: System) -> str:
    hardest = next(one for one in plan.duties if one.duty == plan.hardest_duty)
    return f"gauge most likely {show(kelvin(hardest.gauge_degC.p50), TEMPERATURE, system)} on {plan.hardest_duty!r}"


def _check_first(answer: ChoiceAnswer, system: System) -> tuple[str, ...]:
    """What the check that stands first decides, where the plan depends on it."""
    asked = answer.check_first
    if asked is None or not asked.branches:
        return ()
    name, saved, took = said(asked.name, system), money(asked.saves, answer.currency), minutes_words(asked.minutes)
    worth = f"{took}, saves about {saved} on average"
    return (f"Before ordering parts, one check decides between plans: {name} ({worth}).",)
