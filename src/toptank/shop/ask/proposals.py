"""What a job's own words propose: symptoms to be ticked, and how it began. Nothing counts before it is confirmed."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from toptank.shop.job.job import Job
    from toptank.studies.diagnose.evidence import Evidence
    from toptank.studies.listen.ticks import Tick


def proposals(job: Job) -> tuple[Tick, ...]:
    """Symptoms that the complaint tells or denies and that nobody has confirmed yet, with the words they rest on.

    What only some vehicles have is proposed for those alone; what the vehicle is called is read too.
    """
    from toptank.catalogue.symptoms.symptom import symptoms
    from toptank.shop.ask.fitted import fans_named, fitted
    from toptank.studies.listen.ticks import ticks

    told = {one.symptom for one in job.evidence.symptoms}
    text = f"{job.title}. {job.complaint}"
    has = fitted(job.sheet) | set(fans_named(text, job.sheet))
    found = ticks(text)
    return tuple(one for one in found if one.symptom not in told and symptoms()[one.symptom].only_on in has)


def confirmed_all(job: Job) -> Evidence:
    """The evidence of a job with every proposal confirmed: for trials on told cases, never for a stored job."""
    from toptank.catalogue.symptoms.symptom import symptoms
    from toptank.studies.diagnose.evidence import Told

    found = proposals(job)
    ways = [symptoms()[one.symptom].onset for one in found if symptoms()[one.symptom].onset and not one.denied]
    history = job.evidence.history
    if history.onset is None and len(set(ways)) == 1:
        history = dataclasses.replace(history, onset=ways[0])
    told = tuple(Told(symptom=one.symptom, denied=one.denied) for one in found)
    return dataclasses.replace(job.evidence, symptoms=(*job.evidence.symptoms, *told), history=history)
