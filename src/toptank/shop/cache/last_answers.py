"""The last answers of a job, from its record: shown at once after a restart, while they are worked out anew.

What a page has worked out is kept with the revision that it was worked out for. Whether the job has changed since is
told from what the answer rests on, as for the answers that are at hand.
"""

from __future__ import annotations

from contextlib import suppress
from datetime import datetime
from typing import TYPE_CHECKING, Generic, Literal, NamedTuple, TypeVar

from pydantic import ValidationError

from toptank.shop.answers.choice import ChoiceAnswer
from toptank.shop.answers.diagnosis import DiagnosisAnswer
from toptank.shop.ask import stored_answers
from toptank.shop.cache.answer_cache import rests_on
from toptank.shop.record import job_verbs, own_prices
from toptank.system.balance import EQUATIONS_VERSION
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.shop.job.job import Job
    from toptank.shop.record.store.record import JobRecord, KeptAnswer

T = TypeVar("T", DiagnosisAnswer, ChoiceAnswer)


class Last(NamedTuple, Generic[T]):
    """An answer from the record, and whether it still holds for the job as it is now."""

    answer: T
    holds: bool


def last_diagnosis(record: JobRecord, job: Job) -> Last[DiagnosisAnswer] | None:
    """Return the diagnosis that was worked out last; None where there is none that can be read."""
    return _last(record, job, "diagnosis", DiagnosisAnswer)


def last_choice(record: JobRecord, job: Job) -> Last[ChoiceAnswer] | None:
    """Return the choice that was worked out last; None where there is none that can be read."""
    return _last(record, job, "choice", ChoiceAnswer)


def keep(record: JobRecord, job: Job, answer: DiagnosisAnswer | ChoiceAnswer) -> None:
    """Keep an answer with the revision that it was worked out for; once is enough, and a full disk stops nobody."""
    kind = "diagnosis" if isinstance(answer, DiagnosisAnswer) else "choice"
    said = answer.json_text(job.system)
    if all(one.answer != said for one in record.answers if one.kind == kind):
        with suppress(Refusal):
            stored_answers.keep_shown(record.shown, kind, seed=answer.seed, draws=answer.draws, said=said)


def _last(record: JobRecord, job: Job, kind: Literal["diagnosis", "choice"], of: type[T]) -> Last[T] | None:
    kept = [one for one in record.answers if one.kind == kind]
    if not kept:
        return None
    newest = max(kept, key=_number)
    try:
        answer = of.model_validate_json(newest.answer)
        then = job_verbs.stored_job(record.shown.job, revision=newest.revision)
    except (ValidationError, Refusal):  # of another version, or of a revision that cannot be read any more
        return None
    if then.system != job.system:  # its words are in other units
        return None
    same = newest.equations_version == EQUATIONS_VERSION and rests_on(then, kind) == rests_on(job, kind)
    return Last(answer=answer, holds=same and (kind == "diagnosis" or not _priced_since(newest)))


def _number(one: KeptAnswer) -> int:
    return one.number


def _priced_since(kept: KeptAnswer) -> bool:
    """Whether the shop set its prices after that."""
    place = own_prices.place()
    return place.exists() and place.stat().st_mtime > datetime.fromisoformat(kept.at).timestamp()
