"""The conditions that the customer told, as each possible vehicle met them, for the days that plans are judged by.

"Ten minutes in the queue" may have been five or twenty. Whichever it was when a vehicle ran as hot as he told, it is on
the worst day too: drawn anew, every vehicle would fall back to the middle.

Source   common practice, no source: the same hill, the same queue
Range    conditions of the complaint; the weather of a hotter day is drawn anew
"""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING

from toptank.shop.ask.choice.worst_day import told_as

if TYPE_CHECKING:
    from collections.abc import Mapping

    from toptank.shop.job.job import Job
    from toptank.studies.diagnose.ensemble import Ensemble
    from toptank.system.condition_batch import Condition


def as_told(job: Job, possible: Ensemble, drawn: Mapping[str, Condition]) -> dict[str, Condition]:
    """The same conditions of n vehicles; of those that the customer told, theirs.

    Parameters
    ----------
    possible : the n vehicles, with the conditions in which each was told of
    drawn : conditions by name (n,), drawn without regard to the vehicles
    """
    met = {duty.name: possible.conditions[duty.name] for duty in job.duties}
    hotter = {day: _hotter(met[told], drawn[day]) for day, told in told_as(job).items() if day != told}
    return {**drawn, **{name: one for name, one in (met | hotter).items() if name in drawn}}


def _hotter(told: Condition, drawn: Condition) -> Condition:
    duty = dataclasses.replace(told.duty, ambient=drawn.duty.ambient)
    return dataclasses.replace(drawn, duty=duty, timing=told.timing)
