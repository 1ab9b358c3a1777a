"""The verbs of choosing: what each remedy would do on the worst day, and which one to take."""

from __future__ import annotations

import dataclasses
import os
from typing import TYPE_CHECKING

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.knowledge.conditions import draw_conditions
from toptank.knowledge.stop_limit import limit_in
from toptank.shop.answers.answers import Chosen, LeftIn
from toptank.shop.ask.choice.choice_remarks import remarks_on
from toptank.shop.ask.choice.offered_prices import as_offered
from toptank.shop.ask.choice.plan_fit import goes_in
from toptank.shop.ask.choice.possible_vehicles import possible_vehicles
from toptank.shop.ask.choice.repair_remedies import loss_model_of, plain_repair
from toptank.shop.ask.choice.told_days import as_told
from toptank.shop.ask.choice.worst_day import worst_day
from toptank.shop.ask.diagnose import checked_seed, question_of
from toptank.shop.files.toml_file import shortened
from toptank.shop.job.price_book import read_prices
from toptank.shop.record import own_prices
from toptank.studies.choose.fit.candidate import on_offer
from toptank.studies.choose.plans import LIKELY
from toptank.studies.choose.worst_day_forecast import WorstDayCase, forced, limiting_ambient
from toptank.studies.choose.worst_day_forecast import weighed as weigh
from toptank.studies.diagnose.asking.next_check import stands_first, suggest
from toptank.studies.diagnose.posterior import infer_posterior
from toptank.system.condition_batch import in_order
from toptank.units.cancellation import CancelCheck, never_cancelled
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from toptank.catalogue.remedies.plan import Plan
    from toptank.catalogue.remedies.remedy import Remedy
    from toptank.shop.answers.answers import Diagnosed
    from toptank.shop.job.job import Job
    from toptank.shop.job.price_book import PriceBook
    from toptank.studies.choose.decision import LossModel
    from toptank.studies.choose.worst_day_forecast import WorstDayForecast
    from toptank.studies.diagnose.ensemble import Ensemble
    from toptank.studies.diagnose.posterior import PosteriorSample

DRAWS, SETTING = 4000, "TOPTANK_DRAWS"
"""How many simulations a choice rests on where nobody said, and the environment variable that says so for a machine."""

FEWEST, MOST = 200, 50_000


def prices(path: Path | None = None) -> PriceBook:
    """The price book that a file holds; else the one that the shop has set, or the built-in one."""
    return own_prices.read() if path is None else read_prices(path)


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

    seed, draws = checked_seed(seed), _usual_draws() if draws is None else draws
    if not FEWEST <= draws <= MOST:
        limit = f"must lie between {FEWEST} and {MOST:,}"
        raise Refusal(field="draws", value=str(draws), limit=limit, fix=f"{DRAWS:,} is usual")
    book = as_offered(prices(price_book), job.fit)
    weighed = infer_posterior(question_of(job), seed, go_on) if diagnosed is None else diagnosed.weighed
    go_on()
    possible = possible_vehicles(job, weighed, draws, seed)
    subjects = subjects_of(job, possible, draws, seed)
    first = _first_check(job, weighed, diagnosed, seed)
    stakes = loss_model_of(possible, job.sheet, book, first)
    plain = plain_repair(stakes, possible, book)
    choice = plans.choose(subjects, book.cost, stakes, go_on, lambda remedies: goes_in(job, remedies), plain)
    recommended = choice.recommended
    outlooks = _with_offers(job, _with_taken(job.plan_taken, choice.outlooks, subjects, book), subjects, book)
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
        first_check=first,
        decisive=choice.decisive,
        leaves_in=_left_in(recommended, stakes),
        asking_nothing=choice.asking_nothing,
        does_not_fit=choice.does_not_fit,
        repair_alone=_weighed_alone(plain, outlooks, subjects, book),
        remarks=remarks_on(job, choice, outlooks, book.currency),
        book=book,
        draws=draws,
        seed=seed,
    )


def _first_check(job: Job, weighed: PosteriorSample, diagnosed: Diagnosed | None, seed: int) -> str:
    """Return the check (id) that the diagnosis puts first: a choice weighs what that one decides, and no other."""
    if job.confirmed is not None:
        return ""
    if diagnosed is not None:
        first = diagnosed.diagnosis.first_check
    else:
        checks, settled = suggest(question_of(job), weighed, seed)
        first = stands_first(checks, settled=settled)
    return "" if first is None else first.check


def _usual_draws() -> int:
    """How many simulations nobody asked for: a slow machine may be told of fewer."""
    told = os.environ.get(SETTING, "").strip()
    if not told:
        return DRAWS
    if not (told.isascii() and told.isdecimal() and len(told) <= len(str(MOST)) and FEWEST <= int(told) <= MOST):
        limit = f"must be a whole number from {FEWEST} to {MOST:,}, in digits alone"
        raise Refusal(field=SETTING, value=shortened(told), limit=limit, fix=f"set it like {SETTING}={DRAWS}")
    return int(told)


def _with_taken(
    plan: Plan | None, outlooks: tuple[WorstDayForecast, ...], subjects: WorstDayCase, book: PriceBook
) -> tuple[WorstDayForecast, ...]:
    """The plans with the one that was taken, whatever has been found out since: work that is done is still weighed."""
    by_id = {remedy.id: remedy for remedy in REMEDIES}
    if plan is None or not set(plan) <= set(by_id):
        return outlooks
    work = [by_id[remedy] for remedy in plan]
    ids = {one.id for one in forced(work, subjects.vehicle)}
    if any(set(one.ids) == ids for one in outlooks):
        return outlooks
    (taken,) = weigh(subjects, [work], book.cost)
    return (outlooks[0], *sorted((*outlooks[1:], taken), key=_cost))


def _with_offers(
    job: Job, outlooks: tuple[WorstDayForecast, ...], subjects: WorstDayCase, book: PriceBook
) -> tuple[WorstDayForecast, ...]:
    """The plans with each radiator that is on offer in the job, by itself: will this one hold, is asked first."""
    cores = [remedy for remedy in REMEDIES if remedy.group == "core" and on_offer(remedy, job.fit)]
    plans = {tuple(one.id for one in forced((core,), subjects.vehicle)): [core] for core in cores}
    missing = [plan for ids, plan in plans.items() if all(one.ids != ids for one in outlooks)]
    if not missing:
        return outlooks
    return (outlooks[0], *sorted((*outlooks[1:], *weigh(subjects, missing, book.cost)), key=_cost))


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


def subjects_of(job: Job, possible: Ensemble, draws: int, seed: int) -> WorstDayCase:
    """Possible vehicles with the days of the worst day."""
    days = worst_day(job)
    asked = tuple(sheet.name for sheet in days)
    own = [sheet for sheet in job.duties if sheet.name not in asked]  # one of them may come before
    drawn = draw_conditions(job.sheet, [*days, *own], draws, seed)
    met = as_told(job, possible, drawn)
    needed = in_order(drawn, asked)
    return WorstDayCase(
        vehicle=possible.vehicle,
        sound=possible.sound,
        severity=possible.severity,
        days={name: met[name] for name in needed},
        limit=job.judged_by,
        asked=asked,
        boils_within=possible.boils_within,
        limits={name: limit_in(drawn[name], job.judged_by) for name in needed},
    )


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
