"""Verbs that answer for a stored job and keep the answer: forecast, diagnosis, choice, verdict, what a log says."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from toptank.shop.answers.choice import choice_answer
from toptank.shop.answers.diagnosis import diagnosis_answer
from toptank.shop.answers.forecast import forecast_answer
from toptank.shop.ask import diagnose, service
from toptank.shop.ask.choice import choose
from toptank.shop.record import job_verbs
from toptank.shop.record.store import notes_and_answers
from toptank.shop.record.store.opening import opened
from toptank.shop.record.store.rescue_copy import kept_if_it_fails
from toptank.system.balance import EQUATIONS_VERSION

if TYPE_CHECKING:
    from toptank.shop.answers.answers import Chosen, Diagnosed, Forecast
    from toptank.shop.job.job import Job
    from toptank.shop.record.store.record import KeptAnswer, Revision


def keep_forecast(number: int, *, draws: int | None = None, seed: int | None = None) -> tuple[KeptAnswer, Forecast]:
    """Forecast the newest revision of a job and keep the answer; return what was kept, and the answer itself."""
    shown, job = _newest(number)
    answer = service.forecast(job, draws=draws, seed=seed)
    version = answer.duties[0].equations_version
    said = forecast_answer(answer).json_text(job.system)
    keeping = _keep(shown, "forecast", seed=answer.seed, draws=answer.draws, version=version, answer=said)
    return keeping, answer


def keep_diagnosis(number: int, *, seed: int | None = None) -> tuple[KeptAnswer, Diagnosed]:
    """Diagnose the newest revision of a job and keep the answer; return what was kept, and the answer itself."""
    shown, job = _newest(number)
    answer = diagnose.diagnose(job, seed=seed)
    said = diagnosis_answer(answer).json_text(job.system)
    drawn = answer.diagnosis.drawn
    keeping = _keep(shown, "diagnosis", seed=answer.seed, draws=drawn, version=EQUATIONS_VERSION, answer=said)
    return keeping, answer


def keep_choice(
    number: int, *, draws: int | None = None, seed: int | None = None, price_book: Path | None = None
) -> tuple[KeptAnswer, Chosen]:
    """Choose for the newest revision of a job and keep what each plan promises; return what was kept, and the answer.

    What a work order promised can then be held beside the road test after years.
    """
    shown, job = _newest(number)
    answer = choose.choose(job, draws=draws, seed=seed, price_book=price_book)
    said = choice_answer(answer).json_text(job.system)
    keeping = _keep(shown, "choice", seed=answer.seed, draws=answer.draws, version=EQUATIONS_VERSION, answer=said)
    return keeping, answer


def keep_with_log(number: int, kind: str, *, said: str, seed: int, draws: int, log: Path) -> KeptAnswer:
    """Keep the verdict on a check drive, or what a log says, and a copy of the log with a job's newest revision."""
    shown, _ = _newest(number)
    job_verbs.attach(number, log)
    return _keep(shown, kind, seed=seed, draws=draws, version=EQUATIONS_VERSION, answer=said)


def keep_shown(shown: Revision, kind: str, *, seed: int, draws: int, said: str) -> KeptAnswer:
    """Keep an answer that a page has shown, with the revision that it was worked out for."""
    return _keep(shown, kind, seed=seed, draws=draws, version=EQUATIONS_VERSION, answer=said)


def _newest(number: int) -> tuple[Revision, Job]:
    shown = job_verbs.record(number).shown
    return shown, job_verbs.job_of_revision(shown)


def _keep(shown: Revision, kind: str, *, seed: int, draws: int, version: str, answer: str) -> KeptAnswer:
    with kept_if_it_fails(answer, ".json"), opened() as store:
        return notes_and_answers.keep_answer(
            store,
            shown.job,
            shown.number,
            kind=kind,
            seed=seed,
            draws=draws,
            equations_version=version,
            at=job_verbs.now(),
            answer=answer,
        )
