"""What to look at again in the evidence of a job before it is believed."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

from toptank.shop.answers.words import naming
from toptank.units.dimension import TEMPERATURE
from toptank.units.sentence import Quantity, Sentence, Text, sentence

if TYPE_CHECKING:
    from toptank.shop.job.job import Job
    from toptank.studies.diagnose.evidence import Reading
    from toptank.units.conversion import System

COLDER = 3.0
"""How far below the air a hot engine's reading must lie before it is told [K]."""

APART = 20.0
"""Readings of one instrument at one duty further apart than this contradict each other [K]."""

AT_ODDS = ({"fine", "hot"}, {"fine", "boiled"}, {"warm", "boiled"})
"""Words that one duty cannot have earned both."""


def on_evidence(job: Job) -> list[Text]:
    """Readings below the air of their duty, and readings of one duty that contradict each other."""
    air = {duty.name: duty.facts["ambient"].value for duty in job.duties}
    remarks: list[Text] = []
    for reading in job.evidence.readings:
        top = reading.high if reading.high is not None else reading.low
        if top is not None and top < air[reading.duty] - COLDER:
            remarks.append(
                sentence(
                    "the reading at {duty}, {top}, lies below the air there, {air}: check the figure, its unit and the "
                    "gauge",
                    {
                        "duty": repr(reading.duty),
                        "top": Quantity(top, TEMPERATURE),
                        "air": Quantity(air[reading.duty], TEMPERATURE),
                    },
                )
            )
    for one, other in combinations(job.evidence.readings, 2):
        if one.duty == other.duty and one.place == other.place and _contradict(one, other):
            remarks.append(
                f"two readings at {one.duty!r} contradict each other: check which is right, or name two duties"
            )
    made = [finding.check for finding in job.evidence.findings]
    twice = [check for check in dict.fromkeys(made) if made.count(check) > 1]
    remarks += [
        sentence(
            "the check {check} stands here {times} times, and each counts",
            {"check": Sentence(_check, (check,)), "times": str(made.count(check))},
        )
        for check in twice
    ]
    return remarks


def _check(id_: str, system: System) -> str:
    return repr(naming.check(id_, system).name)


def _contradict(one: Reading, other: Reading) -> bool:
    if {one.words, other.words} in AT_ODDS:
        return True
    low = max(-1e9 if reading.low is None else reading.low for reading in (one, other))
    high = min(1e9 if reading.high is None else reading.high for reading in (one, other))
    return low - high > APART
