"""Remedies and prices as JSON: plain records whose keys carry their unit."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from toptank.shop.answers.answers import Chosen
from toptank.shop.answers.as_json import keyed, number, pair
from toptank.shop.answers.diagnose_json import percent
from toptank.units.conversion import System
from toptank.units.dimension import TEMPERATURE

if TYPE_CHECKING:
    from toptank.shop.job.job import Job
    from toptank.shop.job.price_book import PriceBook
    from toptank.studies.choose.decision import Decisive
    from toptank.studies.choose.worst_day_forecast import Band, WorstDayDuty, WorstDayForecast


def choose_json(answer: Chosen, system: System) -> dict[str, Any]:
    """Return remedies on the worst day."""
    return {
        "title": answer.job.title,
        "invented": answer.job.invented,
        "units": system,
        "draws": answer.draws,
        "seed": answer.seed,
        "currency": answer.book.currency,
        **pair("limit", answer.job.limit, TEMPERATURE, system),
        "worst_day": [
            {"name": duty.name, **pair("ambient", duty.facts["ambient"].value, TEMPERATURE, system)}
            for duty in answer.worst_day
        ],
        "plans": [_outlook(one, answer.job, system) for one in answer.outlooks],
        "recommended": None if answer.recommended is None else answer.recommended.name,
        "does_not_go_in": None if answer.does_not_fit is None else answer.does_not_fit.name,
        "check_first": None if answer.decisive is None else _check(answer.decisive),
        "holds_if_nothing_is_asked_pct": None
        if answer.asking_nothing is None
        else percent(answer.asking_nothing.holds),
        "leaves_in": [
            {"repair": one.repair, "needed_pct": percent(one.needed), "cost": round(one.cost, 2)}
            for one in answer.leaves_in
        ],
        "remarks": [*answer.job.remarks, *answer.remarks],
        "assumed_units": list(answer.job.assumed_units),
    }


def _check(one: Decisive) -> dict[str, Any]:
    return {
        "check": one.check,
        "how": one.how,
        "hazard": one.hazard,
        "minutes": one.minutes,
        "saves": round(one.saves, 2),
        "branches": [
            {
                "seen": list(branch.seen),
                "chance_pct": percent(branch.chance),
                "plan": None if branch.plan is None else branch.plan.name,
            }
            for branch in one.branches
        ],
    }


def _outlook(one: WorstDayForecast, job: Job, system: System) -> dict[str, Any]:
    from toptank.shop.ask.plan_fit import plan_fit

    fit = plan_fit(job, one.remedies)
    return {
        "plan": one.name,
        "remedies": [
            {"name": remedy.name, "note": remedy.note, "limits": remedy.limits, "parts": list(remedy.parts)}
            for remedy in one.remedies
        ],
        "asks_the_customer": one.concession or None,
        "goes_in": None
        if fit is None
        else {"fit": fit.fit.verdict(), "with_mends": fit.goes_in, "says": fit.says(system)},
        "cost": round(one.cost, 2),
        "minutes": one.minutes,
        "holds_pct": percent(one.holds),
        "hardest_duty": one.hardest,
        keyed("limiting_ambient", TEMPERATURE, system): _band(one.limiting_ambient, system),
        "duties": [_duty(duty, system) for duty in one.duties],
    }


def _duty(duty: WorstDayDuty, system: System) -> dict[str, Any]:
    return {
        "duty": duty.duty,
        keyed("top_tank", TEMPERATURE, system): _band(duty.coolant, system),
        keyed("gauge", TEMPERATURE, system): _band(duty.gauge, system),
        "under_limit_pct": percent(duty.under_limit),
        "under_boiling_pct": percent(duty.under_boiling),
    }


def _band(band: Band | None, system: System) -> dict[str, float] | None:
    if band is None:
        return None
    return {point: number(value, TEMPERATURE, system) for point, value in band._asdict().items()}


def prices_json(book: PriceBook) -> dict[str, Any]:
    """Return a price book."""
    return {
        "currency": book.currency,
        "labour_an_hour": book.labour,
        "lost_day": book.lost_day,
        "gone_without": book.gone_without,
        "parts": dict(book.parts),
    }
