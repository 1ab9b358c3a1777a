"""The verbs of finding out: what is wrong, which checks and causes there are, how good the answers were.

Imports of the model stay inside the verbs that need it.
"""

from __future__ import annotations

import dataclasses
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from toptank.catalogue.causes.all_causes import CAUSE_IDS, CAUSES
from toptank.catalogue.checks.check import checks as known
from toptank.shop.answers.answers import CaseScore, Diagnosed, Evaluation
from toptank.shop.ask.evidence_remarks import on_evidence
from toptank.shop.ask.proposals import confirmed_all
from toptank.shop.job.job_file import read_job
from toptank.studies.diagnose import diagnosis
from toptank.studies.diagnose.learning import learn
from toptank.studies.diagnose.perturbation import moved
from toptank.studies.diagnose.posterior import Question, infer_posterior, known_shares
from toptank.studies.diagnose.trial.check_policy import USUAL_ORDER, mean_of, policy_cost
from toptank.studies.diagnose.trial.scoring import score, summed_up
from toptank.units.cancellation import CancelCheck, never_cancelled
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Callable

    from toptank.catalogue.causes.cause import Cause
    from toptank.catalogue.checks.check import Check
    from toptank.shop.job.job import Job

SEED = 1
MOST_CASES = 2000


def diagnose(
    job: Job,
    *,
    seed: int | None = None,
    learn_from: Path | None = None,
    go_on: CancelCheck = never_cancelled,
) -> Diagnosed:
    """Rank the causes of a job's trouble and name the next checks; closed jobs of a folder may teach the shares.

    `go_on` is called between rounds, and may stop the work.
    """
    seed = checked_seed(seed)
    shares, jobs, own, left_out = _shares(learn_from)
    question = question_of(job)
    if shares is not None:
        question = dataclasses.replace(question, shares=shares)
    weighed = infer_posterior(question, seed, go_on)
    answer = diagnosis.diagnosis_of(question, weighed, seed, go_on)
    remarks = (*job.remarks, *on_evidence(job), *answer.remarks, *left_out)
    return Diagnosed(
        job=job, diagnosis=answer, weighed=weighed, remarks=remarks, closed_jobs=jobs, own_share=own, seed=seed
    )


def checks() -> tuple[Check, ...]:
    """Every check, in the order of the list."""
    return tuple(known().values())


def causes() -> tuple[Cause, ...]:
    """Every cause that is looked for."""
    return CAUSES


def evaluate(
    folder: Path, *, seed: int | None = None, progress: Callable[[int, int], None] | None = None
) -> Evaluation:
    """Diagnose every closed job of a folder and compare with what it was.

    Each is diagnosed from all that was told, and from the complaint alone: its words, conditions, temperatures and
    history, without checks and without what was tried. What the words propose is taken as confirmed, since nobody is
    there to ask. A told case that the shares of the causes were counted from is left out of them. The search by checks
    starts from all but the checks.
    """
    seed = checked_seed(seed)
    found = _closed_jobs(folder)
    cases: list[CaseScore] = []
    for number, (path, job) in enumerate(found.jobs):
        cases.append(_case(path, job, seed))
        if progress is not None:
            progress(number + 1, len(found.jobs))
    walks = [case.walk for case in cases if case.walk is not None]
    return Evaluation(
        cases=tuple(cases),
        told=summed_up([case.told for case in cases]),
        complaint=summed_up([case.complaint for case in cases]),
        moved=tuple(by for case in cases for by in case.moved),
        walk=mean_of(walks),
        left_out=found.left_out,
        usual_order=USUAL_ORDER,
        seed=seed,
    )


def _case(path: Path, job: Job, seed: int) -> CaseScore:
    confirmed = job.confirmed
    if confirmed is None:
        raise ValueError("a case has a confirmed cause")
    question = dataclasses.replace(
        question_of(job), evidence=confirmed_all(job), shares=known_shares(without=path.stem)
    )
    unchecked = _without(question, "findings")
    alone = _without(unchecked, "changes")
    weighed = infer_posterior(question, seed)
    told = score(question, weighed, confirmed.causes, confirmed.contributing)
    from_unchecked = weighed if unchecked is question else infer_posterior(unchecked, seed)
    from_complaint = from_unchecked if alone is unchecked else infer_posterior(alone, seed)
    return CaseScore(
        name=path.stem,
        title=job.title,
        confirmed=confirmed.causes,
        first=CAUSE_IDS[int(told.stated.argmax())],
        told=told,
        complaint=score(alone, from_complaint, confirmed.causes, confirmed.contributing),
        moved=tuple(one.by for one in moved(alone, from_complaint)),
        walk=policy_cost(unchecked, from_unchecked, confirmed.causes, seed),
    )


def _without(question: Question, part: str) -> Question:
    """A question without a part of its evidence; the same one if it has none of it."""
    if not getattr(question.evidence, part):
        return question
    left = dataclasses.replace(question.evidence, **{part: ()})
    return dataclasses.replace(question, evidence=left)


def question_of(job: Job) -> Question:
    """A job's vehicle, days and evidence, with the declared shares of the causes; never what it turned out to be."""
    return Question(sheet=job.sheet, duties=job.duties, evidence=job.evidence, shares=known_shares())


def _shares(folder: Path | None) -> tuple[object, int, float, tuple[str, ...]]:
    """Shares of the causes, the closed jobs that they were learnt from, how much of them that is, what was left out."""
    if folder is None:
        return None, 0, 0.0, ()

    found = _closed_jobs(folder)
    learnt = learn(job.confirmed.causes for _, job in found.jobs if job.confirmed is not None)
    return learnt.shares, learnt.jobs, learnt.own, found.left_out


class _ClosedJobs(NamedTuple):
    """Closed jobs of a folder, and one sentence for every file that could not be read."""

    jobs: list[tuple[Path, Job]]
    left_out: tuple[str, ...]


def _closed_jobs(folder: Path) -> _ClosedJobs:
    if not folder.is_dir():
        fix = "name a folder of job files"
        raise Refusal(field="folder", value=str(folder), limit="is not a folder that can be read", fix=fix)
    paths = sorted(folder.glob("*.toml"))[: MOST_CASES + 1]
    if len(paths) > MOST_CASES:
        fix = "split it"
        raise Refusal(field="folder", value=str(folder), limit=f"holds more than {MOST_CASES:,} job files", fix=fix)
    closed: list[tuple[Path, Job]] = []
    left_out: list[str] = []
    for path in paths:
        try:
            job = read_job(path)
        except Refusal as refusal:
            left_out.append(f"{path.name} was left out: {refusal}")
        else:
            closed += [(path, job)] if job.confirmed is not None else []
    if not closed:
        limit, fix = "holds no closed job", "a closed job is a job file (.toml) with a section [confirmed]"
        raise Refusal(field="folder", value=str(folder), limit=limit, fix=left_out[0] if left_out else fix)
    return _ClosedJobs(closed, tuple(left_out))


def checked_seed(seed: int | None) -> int:
    """The seed of the draws, or the usual one."""
    seed = SEED if seed is None else seed
    if not 0 <= seed < 2**31:
        raise Refusal(field="seed", value=str(seed), limit="must lie between 0 and 2147483647", fix="use another")
    return seed
