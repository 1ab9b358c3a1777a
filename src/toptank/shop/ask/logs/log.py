"""The verb of logs: what was read, what it shows, how it moves the causes.

Imports of the model stay inside the verb.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.catalogue.causes.all_causes import CAUSE_IDS
from toptank.knowledge.drives.stretches import fastest_fall, fastest_rise, opening, settled, swings
from toptank.shop.answers.log import log_answer
from toptank.shop.answers.log_answers import Logged, Moved, Shown
from toptank.shop.ask import stored_answers
from toptank.shop.ask.diagnose import checked_seed, question_of
from toptank.shop.ask.logs.log_drive import logged_drive
from toptank.shop.log.log_file import read_log
from toptank.shop.log.log_mapping import mapping_of, together
from toptank.studies.diagnose.diagnosis import flags
from toptank.studies.diagnose.log_evidence import after_log
from toptank.studies.diagnose.posterior import infer_posterior
from toptank.units.cancellation import CancelCheck, never_cancelled

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from toptank.knowledge.drives.drive_log import DriveLog
    from toptank.knowledge.drives.track import Floats
    from toptank.shop.job.job import Job
    from toptank.shop.log.log_file import LogFile
    from toptank.shop.record.store.record import KeptAnswer
    from toptank.studies.diagnose.posterior import PosteriorSample
    from toptank.units.conversion import System

STEADY = 200.0
"""Draws' worth from which the moved percentages are steady [1]; judgement."""


def read(job: Job, path: Path, *, columns: Sequence[str] = (), decimal: str = "") -> LogFile:
    """Read a log with what the job and the command line say of its columns; the command line goes first."""
    return read_log(path, together(mapping_of(columns, decimal), job.log))


def log(
    job: Job,
    path: Path,
    *,
    columns: Sequence[str] = (),
    decimal: str = "",
    ambient: str | None = None,
    grade: str | None = None,
    load: str = "",
    seed: int | None = None,
    system: System | None = None,
    go_on: CancelCheck = never_cancelled,
) -> Logged:
    """Take a logged drive as evidence.

    Parameters
    ----------
    job : whose log it is
    path : the log
    columns, decimal : what its heads do not say
    ambient, grade : what no column says
    load : condition of the job that it was loaded as; the first one where none is named
    seed : same seed, same answer
    system : what bare figures mean; that of the job if it is left out
    go_on : is called between the steps, and may stop the work
    """
    seed = checked_seed(seed)
    file = read(job, path, columns=columns, decimal=decimal)
    told = logged_drive(file, job, ambient=ambient, grade=grade, load=load, system=system or job.system)
    question = question_of(job)
    first = infer_posterior(question, seed, go_on)
    says = after_log(question, told.drive, seed, go_on)
    go_on()
    return Logged(
        job=job,
        file=file,
        shown=shown_by(file.log),
        drive=told.drive,
        worth=says.worth,
        moved=_moved(first, says.stated),
        unknown=says.weighed.unknown,
        remarks=(
            *file.remarks,
            *told.remarks,
            *_rough(says.weighed.effective_sample_size, says.counted),
        ),
        assumed_units=told.assumed_units,
        drawn=says.weighed.drawn,
        draws_worth=says.weighed.effective_sample_size,
        seed=seed,
    )


def keep(number: int, path: Path, answer: Logged) -> KeptAnswer:
    """Keep what a log says, and the log, with a stored job."""
    said = log_answer(answer).json_text(answer.job.system)
    return stored_answers.keep_with_log(number, "log", said=said, seed=answer.seed, draws=answer.drawn, log=path)


def shown_by(log: DriveLog) -> Shown:
    """What a log shows by itself."""
    return Shown(
        stretches=settled(log),
        rise=fastest_rise(log),
        fall=fastest_fall(log),
        swings=swings(log),
        opening=opening(log),
    )


def _moved(first: PosteriorSample, after: Floats) -> tuple[Moved, ...]:
    """Causes that the vehicle can have, without and with the log; the likeliest in either first."""
    before = first.weight @ flags(first)
    moved = [
        Moved(cause=name, before=float(was), after=float(now))
        for name, was, now, prior in zip(CAUSE_IDS, before, after, first.before, strict=True)
        if prior > 0.0
    ]
    return tuple(sorted(moved, key=_likelier, reverse=True))


def _likelier(moved: Moved) -> float:
    return max(moved.before, moved.after)


def _rough(worth: float, counted: float) -> list[str]:
    if counted < 1.0:
        return [
            f"The log does not match this vehicle well, so it counts only for {100.0 * counted:.0f} %. "
            "Look at its columns and units, then at the readings of the job."
        ]
    if worth < STEADY:
        return ["Few draws go with this log: a percentage may be off by some points."]
    return []
