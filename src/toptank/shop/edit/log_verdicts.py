"""What a log that is kept with a job says: of the causes, of a repair; kept with the job in its turn."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from toptank.shop.ask import verify as verify_verbs
from toptank.shop.ask.logs import log as log_verbs
from toptank.shop.cache import answer_cache
from toptank.shop.edit.kept_logs import SentLog, on_disk, typed_air
from toptank.shop.record import job_verbs
from toptank.units.cancellation import CancelCheck, never_cancelled

if TYPE_CHECKING:
    from toptank.shop.answers.log_answers import Logged, Verified
    from toptank.shop.record.store.record import KeptAnswer
    from toptank.units.conversion import System


def verify(
    number: int,
    log: str | SentLog,
    *,
    done: Sequence[str] = (),
    plan: str | None = None,
    columns: Sequence[str] = (),
    decimal: str = "",
    ambient: str = "",
    grade: str = "",
    load: str = "",
    system: System | None = None,
    go_on: CancelCheck = never_cancelled,
) -> tuple[Verified, KeptAnswer]:
    """Hold a log of a check drive beside the forecast of a repair; keep log and verdict with the job.

    Parameters
    ----------
    log : checksum of a kept one, or one that was sent
    done, plan : the work, by its names or as a plan of the choice; the recommended one if none is named
    columns, decimal, ambient, grade : what the log and the job do not say
    load : condition of the job that it was loaded as; the first one where none is named
    system : what bare figures mean; None: as in the job
    go_on : may stop the work between its steps; nothing is kept then
    """
    job = job_verbs.stored_job(number)
    with on_disk(number, log) as path:
        answer = verify_verbs.verify(
            job, path, done=done, plan=plan, chosen=None if done else lambda: answer_cache.chosen(job, go_on),
            columns=columns, decimal=decimal, ambient=typed_air(ambient), grade=grade.strip() or None, load=load,
            system=system, go_on=go_on,
        )  # fmt: skip
        kept = verify_verbs.keep(str(number), path, answer)
    assert kept is not None  # a number names a stored job
    return answer, kept


def evidence(
    number: int,
    log: str | SentLog,
    *,
    columns: Sequence[str] = (),
    decimal: str = "",
    ambient: str = "",
    grade: str = "",
    load: str = "",
    system: System | None = None,
    go_on: CancelCheck = never_cancelled,
) -> tuple[Logged, KeptAnswer]:
    """Let a log of a drive before the work speak of the causes; keep log and answer with the job. As in `verify`."""
    job = job_verbs.stored_job(number)
    with on_disk(number, log) as path:
        answer = log_verbs.log(
            job, path, columns=columns, decimal=decimal, ambient=typed_air(ambient), grade=grade.strip() or None,
            load=load, system=system, go_on=go_on,
        )  # fmt: skip
        kept = log_verbs.keep(number, path, answer)
    return answer, kept
