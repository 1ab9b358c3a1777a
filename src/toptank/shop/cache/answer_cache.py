"""Answers that are there already: the last diagnoses and choices, so that nobody waits for them twice.

An answer is known by what it rests on (sheet, duties, evidence, limit ...), not by the revision: a new note or title
leaves it as it is.
"""

from __future__ import annotations

import dataclasses
import hashlib
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

from toptank.shop.answers.choice import choice_answer
from toptank.shop.answers.diagnosis import DiagnosisAnswer, diagnosis_answer
from toptank.shop.answers.drive import DriveAnswer
from toptank.shop.answers.forecast import ForecastAnswer, forecast_answer
from toptank.shop.ask import diagnose, service
from toptank.shop.ask.choice import choose
from toptank.shop.ask.choice.plan_fit import barred
from toptank.shop.cache.kept import KEPT
from toptank.shop.edit import kept_logs
from toptank.shop.order import writing
from toptank.shop.order.check_drive import expected
from toptank.shop.order.checklist import checklist as checklist_of
from toptank.shop.record import own_prices, plan_taken, shop_settings
from toptank.shop.record.plan_taken import key, plan_of
from toptank.units.cancellation import CancelCheck, never_cancelled

if TYPE_CHECKING:
    from toptank.shop.answers.answers import Chosen, Diagnosed
    from toptank.shop.answers.choice import ChoiceAnswer
    from toptank.shop.ask.logs.columns_asked import LogLook
    from toptank.shop.job.job import Job
    from toptank.shop.order.check_drive import CheckDrive
    from toptank.shop.order.checklist import Checklist
    from toptank.shop.order.record import Order
    from toptank.units.conversion import System


def diagnosed(job: Job, go_on: CancelCheck = never_cancelled) -> Diagnosed:
    """Return the diagnosis of a job, worked out if it is not at hand; `go_on` may stop the work."""
    return _of(job, KEPT.found("diagnoses " + _trouble(job), lambda: diagnose.diagnose(job, go_on=go_on), go_on))


def diagnosis(job: Job, go_on: CancelCheck = never_cancelled) -> DiagnosisAnswer:
    """Return the answer to `diagnose`, worked out if it is not at hand."""
    return diagnosis_answer(diagnosed(job, go_on))


def cached_diagnosed(job: Job) -> Diagnosed | None:
    """Return the diagnosis of a job with its possible vehicles if it is at hand."""
    return _of(job, KEPT.there("diagnoses " + _trouble(job)))


def cached_diagnosis(job: Job) -> DiagnosisAnswer | None:
    """Return the answer to `diagnose` if it is at hand."""
    there = cached_diagnosed(job)
    return None if there is None else diagnosis_answer(there)


def chosen(job: Job, go_on: CancelCheck = never_cancelled) -> Chosen:
    """Return what each remedy would do for a job, worked out with its diagnosis if it is not at hand."""

    def work() -> Chosen:
        return choose.choose(job, diagnosed=diagnosed(job, go_on), go_on=go_on)

    return _of(job, KEPT.found("choices " + _choice(job), work, go_on))


def choice(job: Job, go_on: CancelCheck = never_cancelled) -> ChoiceAnswer:
    """Return the answer to `choose`, worked out if it is not at hand."""
    return choice_answer(chosen(job, go_on))


def cached_choice(job: Job) -> ChoiceAnswer | None:
    """Return the answer to `choose` if it is at hand."""
    there = _of(job, KEPT.there("choices " + _choice(job)))
    return None if there is None else choice_answer(there)


def order(job: Job, plan: str | None, go_on: CancelCheck = never_cancelled) -> Order:
    """Return the work order of a job for one plan, else the one that counts; `go_on` may stop the work."""
    job = plan_taken.asked_for(job, plan)

    def write() -> Order:
        return writing.order(job, plan=plan, diagnosed=diagnosed(job, go_on), chosen=chosen(job, go_on))

    return KEPT.found("orders " + _paper(job, plan), write, go_on)


def checklist(job: Job, go_on: CancelCheck = never_cancelled) -> Checklist:
    """Return the checks to do next, from the diagnosis of a job, worked out if it is not at hand."""
    return checklist_of(job, diagnosis(job, go_on), job.system, shop_settings.read())


def cached_order(job: Job, plan: str | None) -> Order | None:
    """Return the work order if it is at hand."""
    return KEPT.there("orders " + _paper(job, plan))


def _paper(job: Job, plan: str | None) -> str:
    """Name what a work order rests on."""
    shop = shop_settings.read()
    said = (job.title, job.complaint, job.fit, job.invented, job.write_up, job.number)
    return _mark(_plans(job), said, shop, key(plan or job.plan_taken))


def check_drive(job: Job, plan: str | None, go_on: CancelCheck = never_cancelled) -> CheckDrive:
    """Return the readings to expect after one plan, else the one that counts; `go_on` may stop the work."""
    job = plan_taken.asked_for(job, plan)
    found = chosen(job, go_on)
    mark = _mark(_plans(job), key(plan or job.plan_taken))
    return KEPT.found("drives " + mark, lambda: expected(found, plan_of(found, plan)), go_on)


def cached_check_drive(job: Job, plan: str | None) -> CheckDrive | None:
    """Return the readings to expect if they are at hand."""
    return KEPT.there("drives " + _mark(_plans(job), key(plan or job.plan_taken)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Road:
    """A drive that is asked about, as it was typed; what is empty is left to the job.

    Parameters
    ----------
    legs, route : typed, or the checksum of a GPX file that is kept with the job; one of the two
    speed, ambient, air_conditioning, duty : as `questions.drive` takes them
    cold : "cold" where it stood overnight
    plan : a plan whose work is taken as done
    system : what bare figures mean; None: as in the job
    """

    legs: str = ""
    route: str = ""
    speed: str = ""
    ambient: str = ""
    air_conditioning: str = ""
    duty: str = ""
    cold: str = ""
    plan: str = ""
    system: System | None = None


def road(number: int, job: Job, asked: Road, go_on: CancelCheck = never_cancelled) -> DriveAnswer:
    """Return how a stored job's vehicle would go along a road, worked out if it is not at hand; `go_on` may stop it."""
    mark = _mark(_plans(job), asked)
    found = KEPT.found("roads " + mark, lambda: _driven(number, job, asked, go_on), go_on)
    return found.model_copy(update={"title": job.title})


def _driven(number: int, job: Job, asked: Road, go_on: CancelCheck) -> DriveAnswer:
    return kept_logs.drive_along(number, job, asked, lambda at: chosen(at, go_on), go_on)


def cached_road(job: Job, asked: Road) -> DriveAnswer | None:
    """Return a drive if it is at hand."""
    there = KEPT.there("roads " + _mark(_plans(job), asked))
    return None if there is None else there.model_copy(update={"title": job.title})


def look(number: int, job: Job, checksum: str, go_on: CancelCheck = never_cancelled) -> LogLook:
    """Return how far a log that is kept with a job is understood, read if it is not at hand; `go_on` may stop that."""
    return KEPT.found(
        "looks " + _log(number, job, checksum), lambda: kept_logs.look(number, checksum, job, go_on), go_on
    )


def cached_look(number: int, job: Job, checksum: str) -> LogLook | None:
    """Return how far a log is understood if that is at hand."""
    return KEPT.there("looks " + _log(number, job, checksum))


def forecast(job: Job) -> ForecastAnswer:
    """Return the forecast of a job, worked out if it is not at hand."""
    return KEPT.found("forecasts " + _plans(job), lambda: forecast_answer(service.forecast(job)))


def cached_forecast(job: Job) -> ForecastAnswer | None:
    """Return the forecast of a job if it is at hand."""
    return KEPT.there("forecasts " + _plans(job))


def rests_on(job: Job, kind: Literal["diagnosis", "choice"]) -> str:
    """Name what an answer to a job rests on: the same name, the same answer."""
    return _trouble(job) if kind == "diagnosis" else _plans(job)


def _of(job: Job, answer: Any) -> Any:
    """Return an answer with the job as it is now: its title or complaint may be another, and move no figure."""
    return None if answer is None else dataclasses.replace(answer, job=job)


def _trouble(job: Job) -> str:
    """Name what a diagnosis rests on."""
    return _mark(job.sheet.like, dict(job.sheet.facts), job.duties, job.evidence, job.system)


def _log(number: int, job: Job, checksum: str) -> str:
    """Name what the look at a log rests on."""
    return _mark(number, checksum, job.log, job.duties, job.system)


def _plans(job: Job) -> str:
    """Name what a choice rests on."""
    return _mark(_trouble(job), job.worst_day, job.limit, job.confirmed, _barred(job), _offered(job), own_prices.mark())


def _choice(job: Job) -> str:
    """Name the choice of a job: where the plan that was taken is none of it any more, one more that holds that plan."""
    plans = _plans(job)
    there = KEPT.there("choices " + plans)
    if job.plan_taken is None or (there is not None and any(one.ids == job.plan_taken for one in there.outlooks)):
        return plans
    return _mark(plans, job.plan_taken)


def _barred(job: Job) -> tuple[str, ...]:
    """Name what the bay bars: a plan is taken anew where that changes, not with every measure of it."""
    return KEPT.found("bars " + _mark(job.sheet.like, dict(job.sheet.facts), job.fit), lambda: barred(job))


def _offered(job: Job) -> tuple[tuple[str, str], ...]:
    """Name what the radiators on offer cost."""
    return tuple((offer.remedy, offer.price) for offer in job.fit.offers if offer.price)


def _mark(*what: object) -> str:
    return hashlib.sha256(repr(what).encode("utf-8")).hexdigest()
