"""What a diagnosis says first: what it most likely is and why, and the check to make before anything else."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from toptank.shop.answers.summaries.summary import ShortAnswer, minutes_words, times_as_likely
from toptank.shop.answers.words import naming
from toptank.shop.answers.words.wording import chance
from toptank.units.sentence import said

if TYPE_CHECKING:
    from toptank.shop.answers.diagnosis import CauseAnswer, DiagnosisAnswer, NextCheck
    from toptank.units.conversion import System

BESIDE = 0.4
"""Share of the leading chance from which another cause is named in the same breath [1]; judgement."""

CLOSE = 0.8
"""Share of the leading chance from which two causes are about even [1]; judgement."""

CLEAR = 60.0
"""Chance from which the leading cause is named alone [%]; judgement."""

DOUBTED = 50.0
"""Chance of none of these causes from which that is said before all else [%]."""

DUE = 75.0
"""Chance from which a repair is due beside the first [%]."""

REASONS = 2
"""Pieces of evidence that are told for the leading cause."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstCheck:
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


def diagnosis_summary(answer: DiagnosisAnswer, system: System) -> ShortAnswer:
    """Say what it most likely is, and why."""
    if answer.none_of_these_pct >= DOUBTED:
        return ShortAnswer(
            answer=f"None of the usual faults explains this ({_chance(answer.none_of_these_pct)}).",
            lines=("Read the figures again, and check the gauge with a second thermometer, before anything else.",),
        )
    lines = (*_settled(answer, system), *_why(answer.causes[0], system))
    return ShortAnswer(answer=_most_likely(answer, system), lines=lines)


def first_check(answer: DiagnosisAnswer, system: System) -> FirstCheck | None:
    """Return the check to make first; None where none is worth its time, or none would change the repair."""
    if not answer.next_checks or answer.settled is not None:
        return None
    first = answer.next_checks[0]
    return FirstCheck(
        name=said(first.name, system),
        minutes=minutes_words(first.minutes),
        tools=said(first.tools, system),
        how=said(first.how, system),
        hazard=said(first.hazard, system),
        outcomes=tuple(_meaning(first, system)),
    )


def _meaning(check: NextCheck, system: System) -> list[tuple[str, str]]:
    """What is seen, and what is then the likeliest; the likeliest outcome first."""
    ranked = sorted(check.outcomes, key=lambda one: one.chance_pct, reverse=True)
    return [
        (
            said(one.seen, system),
            f"{naming.cause(one.causes[0].cause, system)} {_chance(one.causes[0].probability_pct)}",
        )
        for one in ranked
        if one.causes
    ]


def _most_likely(answer: DiagnosisAnswer, system: System) -> str:
    """Name the leading cause, and those that come close to it."""
    first, *others = answer.causes
    close = [one for one in others if one.probability_pct >= BESIDE * first.probability_pct][:2]
    if first.probability_pct >= CLEAR or not close:
        return f"Most likely: {_with_chance(first, system)}."
    if close[0].probability_pct >= CLOSE * first.probability_pct:
        return f"About even: {_with_chance(first, system)} or {_with_chance(close[0], system)}."
    more = " or ".join(_with_chance(one, system) for one in close)
    return f"Most likely: {_with_chance(first, system)}, else {more}."


def _with_chance(one: CauseAnswer, system: System) -> str:
    return f"{said(one.name, system)} ({_chance(one.probability_pct)})"


def _chance(percent: float) -> str:
    return chance(percent / 100.0)


def _why(first: CauseAnswer, system: System) -> tuple[str, ...]:
    points = sorted((one for one in first.says if one.odds_factor > 1.0), key=lambda one: one.odds_factor, reverse=True)
    told = "; ".join(f"{said(one.evidence, system)} ({times_as_likely(one.odds_factor)})" for one in points[:REASONS])
    return (f"Why: {told or 'nothing that was told points to one fault'}.",)


def _settled(answer: DiagnosisAnswer, system: System) -> tuple[str, ...]:
    if answer.settled is None:
        return ()
    due = [one.repair for one in answer.repairs if one.probability_pct >= DUE and one.repair != answer.settled]
    also = f" Also due: {'; '.join(naming.repair(one, system) for one in due)}." if due else ""
    found = f"Everything points to one repair: {naming.repair(answer.settled, system)}.{also}"
    return (f"{found}{make_sure(answer, system)}",)


def make_sure(answer: DiagnosisAnswer, system: System) -> str:
    """What sees the fault itself, where a repair is due whatever else is looked at: no head comes off unseen."""
    if not answer.next_checks:
        return ""
    check = answer.next_checks[0]
    named = f"{said(check.name, system)} ({minutes_words(check.minutes)})"
    return f" Unless somebody has seen the fault itself, make sure of it before parts are bought: {named}."
