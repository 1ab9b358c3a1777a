"""What a diagnosis says first: what it most likely is and why, and the check to make before anything else."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from toptank.shop.answers import naming
from toptank.shop.answers.summaries.summary import ShortAnswer, minutes_words, times_as_likely
from toptank.shop.answers.wording import chance, sentence

if TYPE_CHECKING:
    from toptank.shop.answers.answers import Diagnosed
    from toptank.studies.diagnose.diagnosis import Diagnosis, Suspect
    from toptank.studies.diagnose.next_check import Suggestion
    from toptank.units.conversion import System

BESIDE = 0.4
"""Share of the leading chance from which another cause is named in the same breath [1]; judgement."""

CLOSE = 0.8
"""Share of the leading chance from which two causes are about even [1]; judgement."""

CLEAR = 0.6
"""Chance from which the leading cause is named alone [1]; judgement."""

DOUBTED = 0.5
"""Probability of none of these causes from which that is said before all else [1]."""

DUE = 0.75
"""Probability from which a repair is due beside the first [1]."""

REASONS = 2
"""Pieces of evidence that are told for the leading cause."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NextCheck:
    """The check to make first, in words: what, with what, how, what can hurt, and what each outcome would mean."""

    name: str
    minutes: str
    tools: str
    how: str
    hazard: str
    outcomes: tuple[tuple[str, str], ...]

    @property
    def do_this_first(self) -> str:
        """The check in one line."""
        return f"Do this first: {self.name} ({self.minutes}{f', {self.tools}' if self.tools else ''})."


def diagnosis_summary(answer: Diagnosed, system: System) -> ShortAnswer:
    """Say what it most likely is, and why."""
    found = answer.diagnosis
    if found.unknown >= DOUBTED:
        return ShortAnswer(
            answer=f"None of the usual faults explains this ({chance(found.unknown)}).",
            lines=("Read the figures again, and check the gauge with a second thermometer, before anything else.",),
        )
    lines = [*_settled(found, system), *_why(found.suspects[0], system)]
    return ShortAnswer(answer=_most_likely(found, system), lines=tuple(lines))


def next_check(answer: Diagnosed, system: System) -> NextCheck | None:
    """Return the check to make first; None where none is worth its time."""
    checks = answer.diagnosis.checks
    if not checks:
        return None
    first = checks[0]
    named = naming.check(first.check, system)
    return NextCheck(
        name=named.name,
        minutes=minutes_words(first.minutes),
        tools=named.tools,
        how=named.how,
        hazard=naming.hazard(first.check, system),
        outcomes=tuple(_meaning(first, system)),
    )


def _meaning(check: Suggestion, system: System) -> list[tuple[str, str]]:
    """What is seen, and what is then the likeliest; the likeliest outcome first."""
    ranked = sorted(check.outcomes, key=lambda one: one.chance, reverse=True)
    said: list[tuple[str, str]] = []
    for one in ranked:
        if one.causes:
            cause, share = one.causes[0]
            seen = naming.seen(check.check, one.seen, one.low, one.high, check.dimension, system)
            said.append((seen, f"{naming.cause(cause, system)} {chance(share)}"))
    return said


def _most_likely(found: Diagnosis, system: System) -> str:
    """Name the leading cause, and those that come close to it."""
    first, *others = found.suspects
    named = sentence(naming.cause(first.cause, system))
    close = [one for one in others if one.probability >= BESIDE * first.probability][:2]
    if first.probability >= CLEAR or not close:
        return f"Most likely: {_lower(named)} ({chance(first.probability)})."
    if close[0].probability >= CLOSE * first.probability:
        even = f"{_lower(named)} ({chance(first.probability)}) or {_with_chance(close[0], system)}"
        return f"About even: {even}."
    more = " or ".join(_with_chance(one, system) for one in close)
    return f"Most likely: {_lower(named)} ({chance(first.probability)}), else {more}."


def _with_chance(one: Suspect, system: System) -> str:
    return f"{naming.cause(one.cause, system)} ({chance(one.probability)})"


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]


def _why(first: Suspect, system: System) -> list[str]:
    points = sorted((one for one in first.voices if one.factor > 1.0), key=lambda one: one.factor, reverse=True)
    if not points:
        return []
    told = "; ".join(
        f"{naming.evidence(one.evidence, system)} ({times_as_likely(one.factor)})" for one in points[:REASONS]
    )
    return [f"Why: {told}."]


def _settled(found: Diagnosis, system: System) -> list[str]:
    if not found.settled:
        return []
    due = [repair for repair, needed in found.repairs if needed >= DUE and repair != found.settled]
    also = f" Also due: {'; '.join(naming.repair(one, system) for one in due)}." if due else ""
    return [f"No check would change the first repair: {naming.repair(found.settled, system)}.{also}"]
