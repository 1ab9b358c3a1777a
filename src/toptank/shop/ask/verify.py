"""The verb of the check drive: whether the repair did what was forecast.

Imports of the model stay inside the verb.
"""

from __future__ import annotations

import dataclasses
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING, Any

import numpy as np

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.catalogue.words.aliases import id_of, meant
from toptank.knowledge.drives.drive_log import DriveLog
from toptank.knowledge.drives.logged import LoggedDrive, doubts_of_the_day, gone_along, shown_at
from toptank.knowledge.model_discrepancy import drawn_misfit
from toptank.knowledge.sheet import duty, vehicle
from toptank.shop.answers.log_answers import Verified
from toptank.shop.answers.verdict import verdict_answer
from toptank.shop.ask import stored_answers
from toptank.shop.ask.choice.choose import choose, subjects_of
from toptank.shop.ask.choice.possible_vehicles import possible_vehicles
from toptank.shop.ask.diagnose import checked_seed, question_of
from toptank.shop.ask.drive import ASKS_LESS
from toptank.shop.ask.logs.log_drive import logged_drive
from toptank.shop.files.read_bytes import shortened
from toptank.shop.log.leg_profile import profile_of
from toptank.shop.log.legs import read_legs
from toptank.shop.order.check_drive import cuts_cooling
from toptank.shop.record.plan_taken import asked_for, plan_of
from toptank.studies.choose.worst_day_forecast import cured_by, forced, repaired
from toptank.studies.diagnose.likelihood import NEW_BUT_BAD, USUALLY_BAD
from toptank.studies.diagnose.posterior import infer_posterior
from toptank.studies.verify.verdict import Repair, verdict
from toptank.system.drive_batch import compile_cold
from toptank.units.cancellation import CancelCheck, never_cancelled
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from concurrent.futures import Future
    from pathlib import Path

    from toptank.catalogue.remedies.remedy import Remedy
    from toptank.shop.answers.answers import Chosen
    from toptank.shop.job.job import Job
    from toptank.shop.record.store.record import KeptAnswer
    from toptank.units.conversion import System

DRAWS = 512
PLAYED = "3.5 miles flat at 50 mph, then 6 miles up 6 % at 35 mph, then idle 5 min"
"""Check drive that is simulated: a road like that of the built-in example, a little steeper."""

DRAWS_PLAYED, PLAYER, READ_EVERY = 128, 3, 15
"""Possible vehicles of a simulated check drive, the one that plays the real one, seconds between its readings."""


def verify(
    job: Job,
    path: Path,
    *,
    done: Sequence[str] = (),
    plan: str | None = None,
    chosen: Callable[[], Chosen] | None = None,
    columns: Sequence[str] = (),
    decimal: str = "",
    ambient: str | None = None,
    grade: str | None = None,
    load: str = "",
    seed: int | None = None,
    system: System | None = None,
    go_on: CancelCheck = never_cancelled,
) -> Verified:
    """Hold a logged check drive beside the forecast of the repair.

    Parameters
    ----------
    job : whose repair it is
    path : the log of the check drive
    done : work that was done, by its id or in the words of `toptank choose`; if nothing is named, that of the plan
    plan : a plan of the choice by its name, such as the one that was ordered; if none is named, the one that was taken
        or the recommended one
    chosen : gives the choice, where it may be there already; asked once the log could be read
    columns, decimal : what the heads of the log do not say
    ambient, grade : what no column says
    load : condition of the job that it was loaded as; the first one where none is named
    seed : same seed, same answer; that of the forecast made before
    system : what bare figures mean; that of the job if it is left out
    go_on : is called between the steps, and may stop the work

    Raises
    ------
    Refusal : if the log cannot be used, or nobody has said what was done and no plan is recommended
    """
    from toptank.shop.ask.logs.log import read

    seed = checked_seed(seed)
    job = asked_for(job, plan)
    file = read(job, path, columns=columns, decimal=decimal)
    told = logged_drive(file, job, ambient=ambient, grade=grade, load=load, system=system or job.system)
    go_on()
    work, repair = _repair(job, done, plan, chosen, seed, go_on)
    answer = verdict(told.drive, repair, seed, go_on=go_on)
    go_on()
    return Verified(
        job=job,
        done=tuple(remedy.id for remedy in work),
        file=file,
        drive=told.drive,
        verdict=answer,
        cooled=job.sheet.facts["condenser.present"].value > 0.5,
        invented=job.invented,
        remarks=(*file.remarks, *told.remarks),
        assumed_units=told.assumed_units,
        draws=DRAWS,
        seed=seed,
    )


def compiled_meanwhile(job: Job) -> Future[None]:
    """Begin to compile what `simulated` takes, on a thread of its own; wait for it before you call that."""

    worker = ThreadPoolExecutor(1)
    begun = worker.submit(compile_cold, vehicle(job.sheet), duty(job.duties[-1]))
    worker.shutdown(wait=False)
    return begun


def simulated(chosen: Chosen, *, seed: int) -> Verified:
    """A check drive of the recommended work that nobody has driven: one possible vehicle plays the real one.

    Invented through and through: it shows what `verify` answers. What the model may miss is drawn too.
    """

    job, plan = chosen.job, plan_of(chosen, None)
    base = dataclasses.replace(duty(job.duties[-1]), speed=0.0, grade=0.0)
    if cuts_cooling(plan):
        base = dataclasses.replace(base, air_conditioning=0.0)
    profile = profile_of(read_legs(PLAYED, "us", []), duty=base, ambient=lambda time: 0.0 * time + base.ambient)
    time = np.asarray(profile.time, float)
    # It begins cold, which spares the demo the compiling of a settled start.
    cold = DriveLog(time=time, driven={}, read={"gauge": np.full(len(time), float(base.ambient))}, by_hand=False)
    repair = repair_of(job, chosen.weighed, plan.remedies, seed=seed, draws=DRAWS_PLAYED, ordered=plan.holds)
    played = LoggedDrive.of(cold, profile)
    drives = gone_along(played, repair.after, doubts_of_the_day(DRAWS_PLAYED, seed))
    moments = time[::READ_EVERY]
    read = np.full(len(time), np.nan)
    read[::READ_EVERY] = shown_at(played, drives, moments)[PLAYER] + drawn_misfit(moments, seed)
    drive = LoggedDrive.of(dataclasses.replace(cold, read={"gauge": read}), profile)
    return Verified(
        job=job,
        done=tuple(remedy.id for remedy in plan.remedies),
        file=None,
        drive=drive,
        verdict=verdict(drive, repair, seed, propose=False),
        cooled=job.sheet.facts["condenser.present"].value > 0.5,
        invented=True,
        remarks=(),
        assumed_units=(),
        draws=DRAWS_PLAYED,
        seed=seed,
    )


def keep(word: str, path: Path, answer: Verified) -> KeptAnswer | None:
    """Keep a verdict and its log with the stored job that a word names; None where it names none."""
    if not (word.isascii() and word.isdecimal()):
        return None
    said = verdict_answer(answer).json_text(answer.job.system)
    return stored_answers.keep_with_log(int(word), "verdict", said=said, seed=answer.seed, draws=answer.draws, log=path)


def _repair(
    job: Job, done: Sequence[str], name: str | None, chosen: Callable[[], Chosen] | None, seed: int, go_on: CancelCheck
) -> tuple[tuple[Remedy, ...], Repair]:
    """The work, and possible vehicles before and after it."""
    if done:
        choice = None if chosen is None else chosen()
        weighed = infer_posterior(question_of(job), seed, go_on) if choice is None else choice.weighed
        plan = forced(tuple(_remedy(one) for one in done), weighed.possible.vehicle)
        ids = {remedy.id for remedy in plan}
        same = [one.holds for one in (() if choice is None else choice.outlooks) if set(one.ids) == ids]
        return plan, repair_of(job, weighed, plan, seed=seed, draws=DRAWS, ordered=same[0] if same else None)
    choice = choose(job, seed=seed, go_on=go_on) if chosen is None else chosen()
    taken = plan_of(choice, name)
    if all(remedy.group == ASKS_LESS for remedy in taken.remedies):
        fix = 'say it with --done, such as --done "replace the fan clutch"'
        limit = "is missing, and the plan of this job repairs nothing"
        raise Refusal(field="done", value="(missing)", limit=limit, fix=fix)
    repair = repair_of(job, choice.weighed, taken.remedies, seed=seed, draws=DRAWS, ordered=taken.holds)
    return taken.remedies, repair


def _remedy(name: str) -> Remedy:
    wanted = id_of("remedy", name)
    for remedy in REMEDIES:
        if remedy.id == wanted:
            return remedy
    fix = meant("remedy", name, "docs/remedies.md lists them")
    raise Refusal(field="done", value=shortened(name), limit="is no work that is known here", fix=fix)


def repair_of(
    job: Job, weighed: Any, plan: Sequence[Remedy], *, seed: int, draws: int, ordered: float | None = None
) -> Repair:
    """The simulations before and after some work; `ordered` is the chance that the choice gave for it."""
    possible = possible_vehicles(job, weighed, draws, seed)
    subjects = subjects_of(job, possible, draws, seed)
    work = [remedy for remedy in plan if remedy.group != ASKS_LESS]
    less = [remedy for remedy in plan if remedy.group == ASKS_LESS]
    after = repaired(subjects, work)
    taken_away = cured_by(forced(work, possible.vehicle))
    parts = [part for remedy in work for part in remedy.parts]
    return Repair(
        before=possible.vehicle,
        after=after,
        before_then=repaired(subjects, less),
        after_then=repaired(subjects, plan),
        present=possible.present,
        mended=np.array([cause.id in taken_away for cause in CAUSES]),
        names=tuple(cause.id for cause in CAUSES),
        fails=max((NEW_BUT_BAD.get(part, USUALLY_BAD) for part in parts), default=USUALLY_BAD),
        days=subjects.days,
        limit=job.judged_by,
        limits=subjects.limits,
        boils_within=possible.boils_within,
        asked=subjects.asked,
        ordered=ordered,
    )
