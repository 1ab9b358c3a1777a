"""The verbs of choosing: what each remedy would do on the worst day, and which one to take."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.catalogue.repairs import mends_of
from toptank.knowledge.conditions import draw_conditions
from toptank.knowledge.sheet import Fact, Provenance, duty_sheet
from toptank.shop.answers import naming
from toptank.shop.answers.answers import Chosen, LeftIn
from toptank.shop.ask.diagnose import checked_seed, question_of
from toptank.shop.ask.plan_fit import goes_in, plan_fit
from toptank.shop.ask.repair_remedies import loss_model_of, plain_repair
from toptank.shop.job.price_book import built_in, read_prices
from toptank.studies.choose.plans import LIKELY
from toptank.studies.choose.worst_day_forecast import WorstDayCase, forced, limiting_ambient, short_of_limit
from toptank.studies.choose.worst_day_forecast import weighed as weigh
from toptank.studies.diagnose.posterior import infer_posterior, resampled
from toptank.system.condition_batch import in_order
from toptank.units.cancellation import CancelCheck, never_cancelled
from toptank.units.dimension import STEADY, TEMPERATURE
from toptank.units.refusal import Refusal
from toptank.units.sentence import Quantity, Sentence, Text, sentence

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from toptank.catalogue.remedies.plan import Plan
    from toptank.catalogue.remedies.remedy import Remedy
    from toptank.knowledge.sheet import DutySheet
    from toptank.shop.answers.answers import Diagnosed
    from toptank.shop.job.job import Job
    from toptank.shop.job.price_book import PriceBook
    from toptank.studies.choose.decision import LossModel
    from toptank.studies.choose.worst_day_forecast import WorstDayForecast
    from toptank.studies.diagnose.ensemble import Ensemble
    from toptank.studies.diagnose.posterior import PosteriorSample

DRAWS = 4000
FEWEST, MOST = 200, 50_000
GOOD = 0.8
"""Chance to hold below which it is said that a plan does not hold surely [1]."""

WALKING = 2.5
"""Road speed below which a vehicle works where it stands [m/s]."""

LONG_CLIMB, LONG_STOP = 1500.0, 900.0
"""How long the climb of an offered worst day lasts, and the stop at its top [s]; judgement."""

HOT_DAY = 311.0
"""Ambient of the worst day where the customer names none: 100 degF [K]."""


def prices(path: Path | None = None) -> PriceBook:
    """The shop's price book, or the built-in one."""
    return built_in() if path is None else read_prices(path)


def choose(
    job: Job,
    *,
    seed: int | None = None,
    draws: int | None = None,
    price_book: Path | None = None,
    diagnosed: Diagnosed | None = None,
    go_on: CancelCheck = never_cancelled,
) -> Chosen:
    """Weigh remedies on the customer's worst day, for this vehicle as its trouble has made it known.

    With a diagnosis that is there already its possible vehicles are gone on with. `go_on` is called between
    plans, and may stop the work.
    """
    from toptank.studies.choose import plans

    seed, draws = checked_seed(seed), DRAWS if draws is None else draws
    if not FEWEST <= draws <= MOST:
        limit = f"must lie between {FEWEST} and {MOST:,}"
        raise Refusal(field="draws", value=str(draws), limit=limit, fix=f"{DRAWS:,} is usual")
    book = prices(price_book)
    weighed = infer_posterior(question_of(job), seed, go_on) if diagnosed is None else diagnosed.weighed
    go_on()
    possible = possible_vehicles(job, weighed, draws, seed)
    subjects = subjects_of(job, possible, draws, seed)
    done = {finding.check for finding in job.evidence.findings}
    stakes = loss_model_of(possible, job.sheet, book, done, checks=job.confirmed is None)
    choice = plans.choose(subjects, book.cost, stakes, go_on, lambda remedies: goes_in(job, remedies))
    recommended = choice.recommended
    outlooks = _with_taken(job.plan_taken, choice.outlooks, subjects, book)
    shown = [outlooks[0], max(outlooks, key=_holds), *([recommended] if recommended else [])]
    go_on()
    solved = {one.ids: limiting_ambient(subjects, one) for one in shown}
    outlooks = tuple(
        dataclasses.replace(one, limiting_ambient=solved[one.ids]) if one.ids in solved else one for one in outlooks
    )
    return Chosen(
        job=job,
        weighed=weighed,
        worst_day=worst_day(job),
        outlooks=outlooks,
        recommended=None if recommended is None else next(one for one in outlooks if one.ids == recommended.ids),
        decisive=choice.decisive,
        leaves_in=_left_in(recommended, stakes),
        asking_nothing=choice.asking_nothing,
        does_not_fit=choice.does_not_fit,
        repair_alone=_weighed_alone(plain_repair(stakes, possible, book), outlooks, subjects, book),
        remarks=(
            *_on_confirmed(job, recommended),
            *_on_going_without(recommended, choice.asking_nothing),
            *_on_barred(job, choice.does_not_fit),
            *_remarks(job, _others(outlooks, choice.does_not_fit), recommended, book.currency),
            *_on_stops(job, outlooks[0]),
        ),
        book=book,
        draws=draws,
        seed=seed,
    )


def _with_taken(
    plan: Plan | None, outlooks: tuple[WorstDayForecast, ...], subjects: WorstDayCase, book: PriceBook
) -> tuple[WorstDayForecast, ...]:
    """The plans with the one that was taken, whatever has been found out since: work that is done is still weighed."""
    by_id = {remedy.id: remedy for remedy in REMEDIES}
    if plan is None or any(one.ids == plan for one in outlooks) or not set(plan) <= set(by_id):
        return outlooks
    (taken,) = weigh(subjects, [[by_id[remedy] for remedy in plan]], book.cost)
    return (outlooks[0], *sorted((*outlooks[1:], taken), key=_cost))


def _weighed_alone(
    plan: Sequence[Remedy], outlooks: tuple[WorstDayForecast, ...], subjects: WorstDayCase, book: PriceBook
) -> WorstDayForecast | None:
    """The plan that repairs what broke and no more, though another may beat it: the first that a customer asks for."""
    if not plan:
        return None
    ids = tuple(remedy.id for remedy in forced(plan, subjects.vehicle))
    listed = [one for one in outlooks if one.ids == ids]
    return listed[0] if listed else weigh(subjects, [plan], book.cost)[0]


def _cost(outlook: WorstDayForecast) -> float:
    return outlook.cost


def worst_day(job: Job) -> tuple[DutySheet, ...]:
    """The customer's worst-day duties, or the set that is offered: climb, flat and hot idle at 100 degF."""
    return job.worst_day or offered_worst_day(job)


def offered_worst_day(job: Job) -> tuple[DutySheet, ...]:
    """A long climb, the flat and hot idle after the climb at 100 degF, at the job's greatest height.

    The climb is at least 5 %, and as steep, loaded and windy as the hardest of the job's own duties. No faster than a
    little beyond what those are driven at; of what never moves, its own duties.
    """
    height = max(duty.facts["altitude"].value for duty in job.duties)
    quickest = max(duty.facts["speed"].value for duty in job.duties)
    cooled = max(duty.facts["air_conditioning"].value for duty in job.duties)

    steepest = max(0.05, max(duty.facts["grade"].value for duty in job.duties))
    burden = {
        key: (max(duty.facts[key].value for duty in job.duties), 0.0)
        for key in ("trailer_mass", "trailer_drag_area", "head_wind")
    }

    def made(name: str, speed: float, grade: float, lasts: float, after: str = "") -> DutySheet:
        values = burden | {
            "ambient": (max(HOT_DAY, max(duty.facts["ambient"].value for duty in job.duties)), 1.0),
            "altitude": (height, 30.0),
            "speed": (speed, 0.0),
            "grade": (grade, 0.0),
            "air_conditioning": (cooled, 0.0),
            "for": (lasts, 0.0),
        }
        facts = {
            key: Fact(value=value, how=Provenance.ASSUMED, spread=spread, origin="worst day that is offered")
            for key, (value, spread) in values.items()
        }
        return duty_sheet(name, facts, after)

    if quickest < WALKING:
        return tuple(_hot(duty, f"{duty.name}, hot day") for duty in job.duties)
    climb = f"long climb, {100 * steepest:.0f} %"
    return (
        made(climb, min(20.1, quickest), steepest, LONG_CLIMB),
        made("flat road, fast", min(29.1, 1.15 * quickest), 0.0, STEADY),
        made("hot idle after the climb", 0.0, 0.0, LONG_STOP, climb),
    )


def _hot(duty: DutySheet, name: str) -> DutySheet:
    """The same duty on the hot day."""
    ambient = duty.facts["ambient"]
    hotter = dataclasses.replace(ambient, value=max(ambient.value, HOT_DAY))
    return dataclasses.replace(duty, name=name, facts={**duty.facts, "ambient": hotter})


def possible_vehicles(job: Job, weighed: PosteriorSample, draws: int, seed: int) -> Ensemble:
    """Draws of equal weight from what the evidence leaves; where the cause was found, only vehicles that have it."""
    return resampled(_as_confirmed(job, weighed), draws, seed)


def subjects_of(job: Job, possible: Ensemble, draws: int, seed: int) -> WorstDayCase:
    """Possible vehicles with the days of the worst day."""
    days = worst_day(job)
    asked = tuple(sheet.name for sheet in days)
    own = [sheet for sheet in job.duties if sheet.name not in asked]  # one of them may come before
    drawn = draw_conditions(job.sheet, [*days, *own], draws, seed)
    needed = in_order(drawn, asked)
    return WorstDayCase(
        vehicle=possible.vehicle,
        sound=possible.sound,
        severity=possible.severity,
        days={name: drawn[name] for name in needed},
        limit=job.limit,
        asked=asked,
    )


def _as_confirmed(job: Job, weighed: PosteriorSample) -> PosteriorSample:
    """Only vehicles that have what was found, where there are any."""
    if job.confirmed is None:
        return weighed
    found = [place for place, cause in enumerate(CAUSES) if cause.id in job.confirmed.causes]
    there = weighed.possible.present[:, found].any(axis=1) * weighed.weight
    total = float(there.sum())
    return weighed._replace(weight=there / total) if found and total > 0.0 else weighed


def _holds(outlook: WorstDayForecast) -> float:
    return outlook.holds


def _left_in(plan: WorstDayForecast | None, stakes: LossModel) -> tuple[LeftIn, ...]:
    """Likely faults that a plan leaves as they are, the likeliest first."""
    if plan is None:
        return ()
    left = [
        LeftIn(fault.repair, float(fault.there.mean()), fault.cost) for fault in stakes.faults if fault.left_by(plan)
    ]
    return tuple(sorted((one for one in left if one.needed >= LIKELY), key=_needed, reverse=True))


def _needed(one: LeftIn) -> float:
    return one.needed


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
                "limit": Quantity(job.limit, TEMPERATURE),
            },
        )
        for duty in outlook.duties
        if duty.limit > job.limit
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


def _others(plans: Sequence[WorstDayForecast], barred: WorstDayForecast | None) -> list[WorstDayForecast]:
    return [one for one in plans if barred is None or one.ids != barred.ids]


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
            "shut": shut if job.limit <= opens else "",
        },
    )


def _remarks(
    job: Job, outlooks: Sequence[WorstDayForecast], recommended: WorstDayForecast | None, currency: str
) -> list[Text]:
    best = max(outlooks, key=_holds)
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
