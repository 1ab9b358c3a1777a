"""The answers to `checks` and `causes`: the lists of all that is looked for, and by what."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.answers.answer import Amount, Answer, Percent, Text, filled, pct
from toptank.shop.answers.diagnosis import check_words_of
from toptank.shop.answers.words import naming
from toptank.units.sentence import Sentence

if TYPE_CHECKING:
    from collections.abc import Sequence

    from toptank.catalogue.causes.cause import Cause
    from toptank.catalogue.checks.check import Check


class OutcomeRow(Answer):
    """An outcome of a check."""

    id: str
    name: Text


class CheckRow(Answer):
    """A check of the list.

    Parameters
    ----------
    minutes : working time
    outcomes : the last is what a sound vehicle shows; none where a figure is read
    figure : kind of the figure that is read
    shown_by : causes that raise the chance of an outcome
    only_on : what the vehicle must have for it
    """

    id: str
    name: Text
    group: str
    minutes: Amount
    tools: Text
    how: Text
    tells: Text
    misleads: Text
    hazard: Text
    source: str
    outcomes: tuple[OutcomeRow, ...]
    figure: str | None
    shown_by: tuple[str, ...]
    only_on: str | None


class ChecksAnswer(Answer):
    """Every check."""

    checks: tuple[CheckRow, ...]


class CauseRow(Answer):
    """A cause of the list.

    Parameters
    ----------
    share_pct : how often it is the reason, before anything is known
    origin : where the share comes from
    """

    id: str
    name: Text
    does: Text
    repair: str
    share_pct: Percent
    origin: str


class CausesAnswer(Answer):
    """Every cause that is looked for."""

    causes: tuple[CauseRow, ...]


def checks_answer(found: Sequence[Check]) -> ChecksAnswer:
    """Return the list of checks."""
    return ChecksAnswer(checks=tuple(_check(one) for one in found))


def _check(one: Check) -> CheckRow:
    outcomes = (
        OutcomeRow(id=outcome, name=Sentence(naming.seen, (one.id, outcome, None, None, None)))
        for outcome in one.outcomes
    )
    given = {word: check_words_of(one.id, word) for word in ("name", "tools", "how", "tells", "misleads")} | {
        "hazard": Sentence(naming.hazard, (one.id,)),
        "outcomes": tuple(outcomes),
        "figure": one.dimension.name if one.dimension else None,
        "shown_by": tuple(sorted(one.shown_by)),
        "only_on": one.only_on or None,
    }
    return filled(CheckRow, one, given)


def causes_answer(found: Sequence[Cause]) -> CausesAnswer:
    """Return the list of causes."""
    total = sum(one.prior_weight for one in found)
    rows = (
        filled(
            CauseRow,
            one,
            {
                "name": Sentence(naming.cause, (one.id,)),
                "does": Sentence(naming.cause_sentence, (one.id,)),
                "share_pct": pct(one.prior_weight / total),
            },
        )
        for one in found
    )
    return CausesAnswer(causes=tuple(rows))
