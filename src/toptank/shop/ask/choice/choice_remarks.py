"""What is said beside the plans of a choice: what was found, what a plan asks, where it does not go in, how sure."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.catalogue.repairs import mends_of
from toptank.shop.answers.words import naming
from toptank.shop.ask.choice.plan_fit import plan_fit
from toptank.shop.ask.choice.worst_day import worst_day_says
from toptank.studies.choose.worst_day_forecast import short_of_limit
from toptank.units.dimension import TEMPERATURE
from toptank.units.sentence import Quantity, Sentence, Text, sentence

if TYPE_CHECKING:
    from collections.abc import Sequence

    from toptank.shop.job.job import Job
    from toptank.studies.choose.plans import Choice
    from toptank.studies.choose.worst_day_forecast import WorstDayForecast

GOOD = 0.8
"""Chance to hold below which it is said that a plan does not hold surely [1]."""


def remarks_on(job: Job, choice: Choice, outlooks: Sequence[WorstDayForecast], currency: str) -> tuple[Text, ...]:
    """Return all that is said beside the plans; `outlooks` begin with the vehicle as it is."""
    others = [one for one in outlooks if choice.does_not_fit is None or one.ids != choice.does_not_fit.ids]
    return (
        worst_day_says(job),
        *_on_limit(job),
        *_on_confirmed(job, choice.recommended),
        *_on_going_without(choice.recommended, choice.asking_nothing),
        *_on_barred(job, choice.does_not_fit),
        *_on_certainty(job, others, choice.recommended, currency),
        *_on_stops(job, outlooks[0]),
    )


def _on_limit(job: Job) -> list[Text]:
    """Which limit counts, where the complaint is of less than the customer's."""
    if job.judged_by >= job.limit:
        return []
    told = {"judged": Quantity(job.judged_by, TEMPERATURE), "limit": Quantity(job.limit, TEMPERATURE)}
    return [
        sentence("Cured means under {judged}, clearly below where it ran hot, though the limit is {limit}.", told),
    ]


def _on_confirmed(job: Job, recommended: WorstDayForecast | None) -> list[Text]:
    """What was found must be mended, whatever holds the worst day."""
    if job.confirmed is None:
        return []
    planned = set(recommended.ids) if recommended is not None else set[str]()
    found = [cause for cause in CAUSES if cause.id in job.confirmed.causes]
    undone = [cause for cause in found if planned.isdisjoint(mends_of(cause.id))]
    return [
        sentence(
            "Found: {cause}. Do that repair first: {repair}. The plans here come on top of it; none of them stands in "
            "for it.",
            {
                "cause": Sentence(naming.cause, (cause.id,)),
                "repair": Sentence(naming.repair, (cause.repair,)),
            },
        )
        for cause in undone
    ]


def _on_going_without(recommended: WorstDayForecast | None, asking_nothing: WorstDayForecast | None) -> list[Text]:
    """What the same work does where the customer goes without nothing."""
    if recommended is None or asking_nothing is None:
        return []
    return [
        sentence(
            "This plan assumes {gone} is off: with it on, the same work stays cool on the worst day in {with_it} of "
            "100 cases, not {without}. The customer must agree to that.",
            {
                "gone": Sentence(naming.concession, (recommended.ids,)),
                "with_it": f"{100 * asking_nothing.holds:.0f}",
                "without": f"{100 * recommended.holds:.0f}",
            },
        )
    ]


def _on_stops(job: Job, outlook: WorstDayForecast) -> list[Text]:
    """What the coolant may reach at the short stops of the worst day, where there are any."""
    return [
        sentence(
            "{stop} is a short stop: there the coolant may rise to {most} for minutes, as that of sound vehicles does; "
            "the limit of {limit} is that of the road.",
            {
                "stop": repr(duty.duty),
                "most": Quantity(duty.limit, TEMPERATURE),
                "limit": Quantity(job.judged_by, TEMPERATURE),
            },
        )
        for duty in outlook.duties
        if duty.limit > job.judged_by
    ]


def _on_barred(job: Job, plan: WorstDayForecast | None) -> list[Text]:
    """Which plan would be taken, and where it does not go in."""
    found = None if plan is None else plan_fit(job, plan.remedies)
    if plan is None or found is None:
        return []
    where = "; ".join(item.name for item in found.fit.wants_another_part())
    return [
        sentence(
            "{plan} would cost least in the end, but cannot be made to fit: {where}. Chance it stays cool on the worst "
            "day: {holds} %; see the fit.",
            {"plan": Sentence(naming.plan, (plan.ids,)), "where": where, "holds": f"{100 * plan.holds:.0f}"},
        )
    ]


def _none_holds(job: Job, outlooks: Sequence[WorstDayForecast]) -> Sentence:
    """Why nothing on the list holds: how near the nearest comes, and a limit that no cooling can keep."""
    best = max(outlooks, key=lambda one: (round(one.holds, 2), -short_of_limit(one)))
    hardest = next(one for one in best.duties if one.duty == best.hardest)
    opens = job.sheet.facts["thermostat.starts_opening"].value
    shut = sentence(
        " The limit lies below {opens}, where its thermostat starts to open: no cooling brings it under that.",
        {"opens": Quantity(opens, TEMPERATURE)},
    )
    return sentence(
        "Nothing on this list holds the worst day: the nearest, {best}, has a {holds} % chance to stay cool; on "
        "{hardest} it most likely reads {hottest}, the limit is {limit}.{shut} Ease the load: slower, in a lower gear, "
        "with the A/C off, with less weight.",
        {
            "best": Sentence(naming.plan, (best.ids,)),
            "holds": f"{100 * best.holds:.0f}",
            "hardest": repr(best.hardest),
            "hottest": Quantity(hardest.coolant.p50, TEMPERATURE),
            "limit": Quantity(hardest.limit, TEMPERATURE),
            "shut": shut if job.judged_by <= opens else "",
        },
    )


def _on_certainty(
    job: Job, outlooks: Sequence[WorstDayForecast], recommended: WorstDayForecast | None, currency: str
) -> list[Text]:
    best = max(outlooks, key=lambda one: one.holds)
    surest = Sentence(naming.plan, (best.ids,))
    if recommended is None:
        return [_none_holds(job, outlooks)]
    if recommended.holds >= GOOD:
        return []
    if best.holds < GOOD:
        return [sentence("Nothing on this list is sure to hold the worst day; {plan} comes nearest.", {"plan": surest})]
    return [
        sentence(
            "{own} % is not certain. For {more} more, {surest} gets you to {holds} %; the price book counts that as "
            "more than a breakdown is worth.",
            {
                "own": f"{100 * recommended.holds:.0f}",
                "more": f"{currency}{best.cost - recommended.cost:,.0f}",
                "surest": surest,
                "holds": f"{100 * best.holds:.0f}",
            },
        )
    ]
