"""The answer to `diagnose`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.catalogue.symptoms.symptom import symptoms
from toptank.shop.answers.answer import (
    Amount,
    Answer,
    Count,
    Headed,
    Percent,
    Remarked,
    Text,
    filled,
    headed,
    pct,
    rounded,
)
from toptank.shop.answers.words import naming
from toptank.shop.answers.words.reasons import REASONED, reason
from toptank.units.conversion import System
from toptank.units.sentence import Sentence

if TYPE_CHECKING:
    from toptank.shop.answers.answers import Diagnosed
    from toptank.studies.diagnose.asking.ask_first import DriverQuestion
    from toptank.studies.diagnose.asking.next_check import Suggestion
    from toptank.studies.diagnose.diagnosis import Suspect


class Severity(Answer):
    """How far gone a cause is if it is there, in percent: 100 is as bad as it gets."""

    p10: Percent
    p50: Percent
    p90: Percent


class EvidenceFactor(Answer):
    """What one piece of evidence says of a cause.

    Parameters
    ----------
    odds_factor : on the odds of the cause [1]; above 1 speaks for it
    """

    evidence: Text
    odds_factor: Amount


class CauseAnswer(Answer):
    """One cause.

    Parameters
    ----------
    cause : its id
    name : in words
    probability_pct : that it is there, all evidence weighed
    before_pct : before any reading, check, change or history
    severity_pct : if it is there
    repair : what cures it, its id
    reason : of the first three, why it stands there, in one sentence; empty otherwise
    says : what speaks for and against it
    """

    cause: str
    name: Text
    reason: Text
    probability_pct: Percent
    before_pct: Percent
    severity_pct: Severity | None
    repair: str
    says: tuple[EvidenceFactor, ...]


class CauseChance(Answer):
    """A cause and its chance."""

    cause: str
    probability_pct: Percent


class PairChance(Answer):
    """Two causes at once."""

    causes: tuple[str, str]
    probability_pct: Percent


class RepairChance(Answer):
    """A repair and the chance that it is needed."""

    repair: str
    probability_pct: Percent


class OutcomeAnswer(Answer):
    """If a check shows this.

    Parameters
    ----------
    outcome : its id; null where a figure is read
    seen : what is seen, or between which figures the reading lies
    causes : what it leaves
    repair : what to repair first then
    """

    outcome: str | None
    seen: Text
    chance_pct: Percent
    causes: tuple[CauseChance, ...]
    repair: str


class NextCheck(Answer):
    """A check worth making.

    Parameters
    ----------
    check : its id
    name : in words
    field : of the sheet, where the check is to measure that
    minutes : working time
    tools : empty where none is needed
    misleads : how it may mislead
    information_bit : expected, about what to repair
    outcomes : what each would mean
    """

    check: str
    name: Text
    field: str | None
    how: Text
    minutes: Amount
    tools: Text
    hazard: Text
    misleads: Text
    information_bit: Amount
    outcomes: tuple[OutcomeAnswer, ...]


class AskFirst(Answer):
    """A question to the driver that is worth asking before anything is done.

    Parameters
    ----------
    symptom : its id
    question : in words
    information_bit : expected, about what to repair
    yes_pct : chance of a yes
    """

    symptom: str
    question: Text
    information_bit: Amount
    yes_pct: Percent


class DiagnosisAnswer(Headed, Remarked):
    """What is wrong with a vehicle, as far as it can be told.

    Parameters
    ----------
    seed : same seed, same answer
    closed_jobs : closed jobs that taught the shares of the causes
    own_share_pct : how much of the shares comes from them
    causes : the likeliest first
    likely : fewest causes of which one is there, 8 in 10
    none_of_these_pct : none of the causes that are looked for
    draws : possible vehicles drawn
    effective_draws : equal draws that would say as much [1]
    ask_first : what to ask the driver, the best first
    next_checks : the best first
    settled : what to repair first, where no check changes it any more
    """

    seed: Count
    closed_jobs: Count
    own_share_pct: Percent
    causes: tuple[CauseAnswer, ...]
    likely: tuple[str, ...]
    pairs: tuple[PairChance, ...]
    repairs: tuple[RepairChance, ...]
    none_of_these_pct: Percent
    draws: Count
    effective_draws: Amount
    ask_first: tuple[AskFirst, ...]
    next_checks: tuple[NextCheck, ...]
    settled: str | None


def diagnosis_answer(found: Diagnosed) -> DiagnosisAnswer:
    """Return the answer of a diagnosis."""
    said = found.diagnosis
    return filled(
        DiagnosisAnswer,
        found,
        headed(found.job)
        | {
            "causes": tuple(_cause(one, reasoned=place < REASONED) for place, one in enumerate(said.suspects)),
            "likely": said.likely,
            "pairs": tuple(PairChance(causes=(one, two), probability_pct=pct(share)) for one, two, share in said.pairs),
            "repairs": tuple(RepairChance(repair=name, probability_pct=pct(share)) for name, share in said.repairs),
            "none_of_these_pct": pct(said.unknown),
            "draws": said.drawn,
            "effective_draws": round(said.effective_sample_size, 1),
            "assumed_units": found.job.assumed_units,
            "ask_first": tuple(_ask_first(one) for one in said.ask_first),
            "next_checks": tuple(_next(one) for one in said.checks),
            "settled": said.settled or None,
        },
    )


def _ask_first(one: DriverQuestion) -> AskFirst:
    told = {"question": symptoms()[one.symptom].ask, "information_bit": round(one.information, 4)}
    return filled(AskFirst, one, told)


def _cause(one: Suspect, *, reasoned: bool) -> CauseAnswer:
    severity = None if one.severity is None else dict(zip(("p10", "p50", "p90"), map(pct, one.severity), strict=True))
    given = {
        "name": Sentence(naming.cause, (one.cause,)),
        "reason": Sentence(reason, (one.cause, one.voices, one.before)) if reasoned else "",
        "severity_pct": severity,
        "says": tuple(
            EvidenceFactor(evidence=Sentence(naming.evidence, (voice.evidence,)), odds_factor=rounded(voice.factor))
            for voice in one.voices
        ),
    }
    return filled(CauseAnswer, one, given)


def _next(one: Suggestion) -> NextCheck:
    given = {word: check_words_of(one.check, word) for word in ("name", "how", "tools", "misleads")} | {
        "field": one.field or None,
        "hazard": Sentence(naming.hazard, (one.check,)),
        "information_bit": round(one.information, 4),
        "outcomes": tuple(
            OutcomeAnswer(
                outcome=outcome.seen or None,
                seen=Sentence(naming.seen, (one.check, outcome.seen, outcome.low, outcome.high, one.dimension)),
                chance_pct=pct(outcome.chance),
                causes=tuple(CauseChance(cause=cause, probability_pct=pct(share)) for cause, share in outcome.causes),
                repair=outcome.repair,
            )
            for outcome in one.outcomes
        ),
    }
    return filled(NextCheck, one, given)


def check_words_of(check: str, what: str) -> Sentence:
    """Return what the catalogue says of a check under a heading (name, how, tools, ...), worded when it is shown."""
    return Sentence(_check_words, (check, what))


def _check_words(check: str, what: str, system: System) -> str:
    return getattr(naming.check(check, system), what)
