"""What ids are called where they are shown: every answer carries ids, and its words are looked up here."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from toptank.catalogue.checks.check import MEASURED, checks
from toptank.catalogue.symptoms.symptom import symptoms
from toptank.catalogue.words.aliases import id_of, outcome_of, plan_of
from toptank.catalogue.words.words import CheckWords, RemedyWords, plan_words, words
from toptank.knowledge.sheet import declaration_of
from toptank.studies.diagnose.evidence import Changed, Finding, Reading, Told
from toptank.units.dimension import FRACTION, Dimension
from toptank.units.display import show

if TYPE_CHECKING:
    from toptank.shop.answers.similar import SimilarAnswer
    from toptank.studies.choose.decision import Branch, Decisive
    from toptank.studies.diagnose.evidence import Piece
    from toptank.units.conversion import System


EFFECT_WORDS = {"none": "did nothing", "helped": "helped", "cured": "cured it", "worse": "made it worse"}
"""What came of a change, as one says it."""


def cause(id_: str, system: System) -> str:
    """Return the short name of a cause."""
    return words(system).cause[id_].name


def causes(ids: Iterable[str], system: System) -> str:
    """Return the short names of causes in one line."""
    return ", ".join(cause(id_, system) for id_ in ids)


def cause_sentence(id_: str, system: System) -> str:
    """Return what a cause does to the vehicle."""
    return words(system).cause[id_].sentence


def repair(id_: str, system: System) -> str:
    """Return the name of a repair."""
    return words(system).repair[id_].name


def remedy(id_: str, system: System) -> RemedyWords:
    """Return the words of a remedy."""
    return words(system).remedy[id_]


def plan(ids: Sequence[str], system: System) -> str:
    """Return a plan in one line."""
    return plan_words(ids, system)


def written_plan(written: str, system: System) -> str:
    """Return a plan as it stands in an address; what is no plan stays as it is written."""
    ids = plan_of(written) if written else None
    return written if ids is None else plan(ids, system)


def remedies(ids: Iterable[str], system: System) -> str:
    """Return work that is done, in one line."""
    return "; ".join(remedy(id_, system).name for id_ in ids)


def concession(ids: Iterable[str], system: System) -> str:
    """Return what the customer goes without, in one line; empty where it is nothing."""
    return ", ".join(filter(None, (remedy(id_, system).concession for id_ in ids)))


def experience(found: SimilarAnswer, system: System) -> str:
    """Return what closed jobs like one were, in a line; empty where there is none."""
    if not found.jobs:
        return ""
    told = [f"{len(one.jobs)} {cause(one.cause, system)} ({_jobs(one.jobs)})" for one in found.causes]
    count = "One closed job" if len(found.jobs) == 1 else f"{len(found.jobs)} closed jobs"
    return f"{count} like this one: {', '.join(told)}."


def _jobs(numbers: Sequence[int]) -> str:
    return f"job{'s' * (len(numbers) > 1)} {', '.join(map(str, sorted(numbers)))}"


def part(id_: str, system: System) -> str:
    """Return the name of a part of the price book."""
    return words(system).part[id_].name


def work(id_: str, system: System) -> str:
    """Return the name of work that was done."""
    return words(system).work[id_].name


def seen_words(check_id: str, outcome: str, system: System) -> str:
    """Return what an outcome of a check is called."""
    return words(system).check[check_id].outcomes[outcome]


def group(id_: str, system: System) -> str:
    """Return the name of a group of checks."""
    return words(system).group[id_].name


def check(id_: str, system: System) -> CheckWords:
    """Return the words of a check; of one that measures a field, those of its declaration."""
    if not id_.startswith(MEASURED):
        return words(system).check[id_]
    declaration = declaration_of(id_.removeprefix(MEASURED))
    return CheckWords(
        name=f"measure: {declaration.means}",
        tools="tape, caliper or count",
        how=declaration.in_the_bay(),
        tells="It replaces what is only assumed.",
    )


def hazard(check_id: str, system: System) -> str:
    """Return what can hurt at a check; empty where nothing can."""
    ids = ("fact",) if check_id.startswith(MEASURED) else checks()[check_id].hazards
    return " ".join(words(system).hazard[id_].sentence for id_ in ids)


def seen(
    check_id: str, outcome: str, low: float | None, high: float | None, dimension: Dimension | None, system: System
) -> str:
    """Return what a check showed: the words of an outcome, or between which figures the reading lies."""
    if dimension is None:
        return words(system).check[check_id].outcomes[outcome]
    digits = 0 if dimension is FRACTION else None  # nobody reads a tenth of a percent
    below, above = (None if edge is None else show(edge, dimension, system, digits) for edge in (low, high))
    if below is None:
        return f"under {above}" if above is not None else "any figure"
    return f"over {below}" if above is None else f"{below} to {above}"


def finding(check_written: str, outcome_written: str, system: System) -> tuple[str, str]:
    """Return a check and what it showed, as they stand in a job; what is not known there stays as it is written."""
    id_ = id_of("check", check_written)
    if id_ is None:
        return check_written, outcome_written
    named = check(id_, system)
    outcome = outcome_of(id_, outcome_written)
    return named.name, outcome_written if outcome is None else named.outcomes[outcome]


def written_work(written: str, system: System) -> str:
    """Return the name of work that stands in a job; what is not known stays as it is written."""
    id_ = id_of("work", written)
    return written if id_ is None else work(id_, system)


def written_cause(written: str, system: System) -> str:
    """Return the name of a cause as an answer that is kept has it; what is not known stays as it is written."""
    id_ = id_of("cause", written)
    return written if id_ is None else cause(id_, system)


def written_works(written: Iterable[str], system: System) -> str:
    """Return work as an answer that is kept has it, in one line; what is not known stays as it is written."""
    ids = ((one, id_of("remedy", one)) for one in written)
    return "; ".join(one if id_ is None else remedy(id_, system).name for one, id_ in ids)


def branch(asked: Decisive, one: Branch, system: System) -> str:
    """Return what is seen at a check where one branch is taken."""
    return " / ".join(seen(asked.check, *each, asked.dimension, system) for each in one.seen)


def causes_found(ids: Sequence[str], system: System = "us") -> str:
    """Name what a job was closed with; a cause that is known here no more keeps its id."""
    named = words(system).cause
    return ", ".join(named[one].name if one in named else one for one in ids)


def question(symptom: str) -> str:
    """Return the question to the driver by which a symptom is found out."""
    return symptoms()[symptom].ask


def evidence(piece: Piece, system: System) -> str:
    """Return what a piece of evidence is called."""
    if isinstance(piece, Told):
        return f"{'denied' if piece.denied else 'told'}: {symptoms()[piece.symptom].words}"
    if isinstance(piece, Reading):
        return f"{piece.duty}: {_read(piece)}"
    if isinstance(piece, Finding):
        named = words(system).check[piece.check]
        return f"{named.name}: {named.outcomes[piece.outcome] if piece.outcome else 'read'}"
    if isinstance(piece, Changed):
        return f"{work(piece.part, system)}: {EFFECT_WORDS[piece.effect]}"
    worked = ", ".join(work(one, system) for one in piece.after_work)
    told = (piece.onset or "", f"after work on {worked}" if worked else "")
    history = ", ".join(word for word in (*told, "its mileage" if piece.distance is not None else "") if word)
    return f"history: {history}"


def _read(reading: Reading) -> str:
    if reading.low is not None or reading.high is not None:
        return "figure" if reading.words is None else reading.words
    return reading.needle or reading.words or "seen"
