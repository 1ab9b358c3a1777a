"""A job by whatever names it on the command line: a file, the number of a stored job, or `demo`."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from toptank.jobs.job import Job

DEMO = "demo"


def job_named(word: str) -> Job:
    """Open the job that a word names: `demo`, a number of the store, else a job file.

    Raises
    ------
    Refusal : if there is no such job, or it cannot be read
    """
    from toptank.jobs import service

    if word == DEMO:
        return service.demo_job()
    if word.isdecimal() and not Path(word).exists():
        return _stored(int(word))
    return service.open_job(Path(word))


def _stored(number: int) -> Job:
    import tomllib

    from toptank.jobs.job_file import job_of
    from toptank.jobs.store import jobs_and_revisions as kept
    from toptank.jobs.store.opening import opened

    with opened() as store:
        text = kept.revision(store, number).text
    return job_of(tomllib.loads(text))
