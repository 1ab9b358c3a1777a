"""Symptoms beside the complaint: what its words tell and nobody has confirmed yet, and what is ticked already."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from toptank.catalogue.symptoms.symptom import symptoms
from toptank.studies.diagnose.evidence import TOLD

if TYPE_CHECKING:
    from collections.abc import Mapping

    from toptank.shop.job.job import Job

SAID, DENIED = TOLD


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard:
    """A symptom that the words of a job tell or deny; it counts once somebody has confirmed it.

    Parameters
    ----------
    symptom : its id
    words : what it is
    denied : the words deny it
    quote : the words it rests on
    """

    symptom: str
    words: str
    denied: bool
    quote: str

    @property
    def told(self) -> str:
        """What was heard, in words."""
        return told_words(self.words, self.denied)

    @property
    def row(self) -> Mapping[str, str]:
        """The row of a job file that confirms it."""
        return symptom_row(self.symptom, yes=not self.denied)

    @property
    def contrary_row(self) -> Mapping[str, str]:
        """The row of a job file that says the contrary."""
        return symptom_row(self.symptom, yes=self.denied)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ticked:
    """A symptom that counts: its place in the list of a job, and what was told, in words."""

    place: int
    told: str


def told_words(words: str, denied: bool) -> str:
    """What was told or denied, in words."""
    return f"not so: {words}" if denied else words


def symptom_row(symptom: str, *, yes: bool) -> Mapping[str, str]:
    """The row of a job file by which a driver says yes or no to a symptom (id)."""
    return {"id": symptom, "told": SAID if yes else DENIED}


def heard(job: Job) -> tuple[Heard, ...]:
    """Return what the words of a job tell and nobody has confirmed or denied yet."""
    from toptank.shop.ask.proposals import proposals

    return tuple(
        Heard(
            symptom=one.symptom,
            words=symptoms()[one.symptom].words,
            denied=one.denied,
            quote=" ".join(one.words.split()),
        )
        for one in proposals(job)
    )


def ticked(job: Job) -> tuple[Ticked, ...]:
    """Return the symptoms that count, in the order of the job."""
    return tuple(
        Ticked(place=place, told=told_words(symptoms()[one.symptom].words, one.denied))
        for place, one in enumerate(job.evidence.symptoms)
    )
