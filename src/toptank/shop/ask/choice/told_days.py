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
    own = {duty.name: duty.name for duty in job.duties}
    return {
        name: _as_met(possible.conditions[told], one, hotter=name != told) if told is not None else one
        for name, one in drawn.items()
        for told in [(own | told_as(job)).get(name)]
    }


def _as_met(told: Condition, drawn: Condition, *, hotter: bool) -> Condition:
    duty = dataclasses.replace(told.duty, ambient=drawn.duty.ambient) if hotter else told.duty
    return dataclasses.replace(drawn, duty=duty, timing=told.timing)
