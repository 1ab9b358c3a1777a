"""What a choice of remedies says first: what to do, what it costs, what the worst day is as it is and then."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.answers import naming
from toptank.shop.answers.summaries.summary import ShortAnswer, chances_in_ten, minutes_words
from toptank.shop.answers.summaries.three_plans import three_plans
from toptank.shop.answers.wording import money
from toptank.units.dimension import TEMPERATURE
from toptank.units.display import show

if TYPE_CHECKING:
    from toptank.shop.answers.answers import Chosen
    from toptank.studies.choose.worst_day_forecast import WorstDayForecast
    from toptank.units.conversion import System


def choice_summary(answer: Chosen, system: System) -> ShortAnswer:
    """Say which plan to take and what it does to the worst day."""
    best = answer.recommended
    if best is None:
        first = "Nothing in the price book holds the worst day: ease the load, or look further."
    elif not best.remedies:
        first = f"Leave it as it is: {_held(best)} on the worst day."
    else:
        price = f"{money(best.cost, answer.book.currency)}, {best.minutes / 60.0:.1f} h"
        named = [f"{one.letter}, {_lower(one.called)}" for one in three_plans(answer, system) if one.recommended]
        first = f"Recommended: plan {named[0]} ({price})."
    return ShortAnswer(answer=first, lines=(_worst_day(answer, system), *_check_first(answer, system)))


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]


def _worst_day(answer: Chosen, system: System) -> str:
    """The worst day as it is and with the plan to take."""
    limit = show(answer.job.limit, TEMPERATURE, system)
    as_it_is = answer.outlooks[0]
    said = f"Worst day, limit {limit}: as it is {_held(as_it_is)} ({_hardest(as_it_is, system)})"
    best = answer.recommended
    if best is None or not best.remedies:
        return f"{said}."
    return f"{said}; with this plan {_held(best)} ({_hardest(best, system)})."


def _held(plan: WorstDayForecast) -> str:
    return f"{chances_in_ten(plan.holds)} to stay under it"


def _hardest(plan: WorstDayForecast, system: System) -> str:
    hardest = next(one for one in plan.duties if one.duty == plan.hardest)
    return f"most likely {show(hardest.coolant.p50, TEMPERATURE, system)} on {plan.hardest!r}"


def _check_first(answer: Chosen, system: System) -> list[str]:
    """The check that decides the job, where there is one."""
    asked = answer.decisive
    if asked is None:
        return []
    name, saved = naming.check(asked.check, system).name, money(asked.saves, answer.book.currency)
    took = minutes_words(asked.minutes)
    return [f"Before ordering parts, one check decides between plans: {name} ({took}, saves about {saved} on average)."]
