"""The page of twelve complaints in customers' words, with the causes that the tool puts first and its first check.

`python tools/docs_of_complaints.py` writes it: twelve diagnoses, about half a minute. A test holds it.
"""

import dataclasses
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from toptank.shop.answers.words import naming
from toptank.shop.ask.diagnose import SEED, question_of
from toptank.shop.ask.proposals import confirmed_all
from toptank.shop.edit.symptom_form import heard
from toptank.shop.job.job import Job
from toptank.shop.job.job_file import read_job
from toptank.studies.diagnose.diagnosis import Diagnosis, diagnose
from toptank.units.conversion import System

ROOT = Path(__file__).parents[1]
COMPLAINTS = ROOT / "examples" / "complaints"
PAGE = ROOT / "docs" / "twelve-complaints.md"

SYSTEM: System = "us"
FIRST_CAUSES = 3
LEAST = 0.05

HEAD = """\
<!-- Made by tools/docs_of_complaints.py; run it to write the page anew. -->
# Twelve complaints

Complaints of our own invention, in the words of customers, and what toptank makes of them before anybody has looked at
the vehicle: what it hears in the words (all of it confirmed here), the causes it puts first, the question it would ask
the driver and the check it would make first. The job files lie in
[examples/complaints](../examples/complaints). Invented; no real vehicle.
"""


class Answered(NamedTuple):
    """A complaint and its diagnosis."""

    name: str
    job: Job
    found: Diagnosis

    @property
    def causes(self) -> tuple[tuple[str, float], ...]:
        """The first causes (id) with their probability [1]."""
        first = self.found.suspects[:FIRST_CAUSES]
        return tuple((one.cause, one.probability) for one in first if one.probability >= LEAST)

    @property
    def check(self) -> str:
        """The first check (id)."""
        return self.found.checks[0].check


def answers() -> Iterator[Answered]:
    """Diagnose every complaint, with all confirmed that its words tell."""
    for path in sorted(COMPLAINTS.glob("*.toml")):
        job = read_job(path)
        question = dataclasses.replace(question_of(job), evidence=confirmed_all(job))
        yield Answered(path.stem, job, diagnose(question, SEED))


def complaints_page(answered: list[Answered]) -> str:
    """Return the text of the page."""
    return "\n".join([HEAD, *(_section(number, one) for number, one in enumerate(answered, start=1))])


def _section(number: int, one: Answered) -> str:
    told = "; ".join(symptom.told for symptom in heard(one.job)) or "nothing"
    causes = ", ".join(f"{naming.cause(cause, SYSTEM)} ({100.0 * share:.0f} %)" for cause, share in one.causes)
    check = naming.check(one.check, SYSTEM)
    lines = [
        f"## {number}. {one.job.title}",
        "",
        f"> {' '.join(one.job.complaint.split())}",
        "",
        f"- *Heard*: {told}.",
        f"- *First causes*: {causes}.",
    ]
    if one.found.ask_first:
        lines.append(f"- *Ask first*: {naming.question(one.found.ask_first[0].symptom)}")
    lines.append(f"- *First check*: **{check.name}** ({one.found.checks[0].minutes:g} min).")
    return "\n".join([*lines, ""])


if __name__ == "__main__":
    PAGE.write_text(complaints_page(list(answers())), encoding="utf-8")
