"""The answer to `fit`: whether something goes into the bay."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.answers.answer import Answer, FitVerdict, Headed, Remarked, Text, filled, headed
from toptank.studies.choose.fit.words import (
    answer_words,
    candidate_name,
    candidate_note,
    candidate_parts,
    fix_words,
    how_to_measure,
    note_words,
)
from toptank.units.dimension import CURRENT, LENGTH, MASS
from toptank.units.sentence import Sentence

if TYPE_CHECKING:
    from toptank.shop.ask.fit import Fitted
    from toptank.studies.choose.fit.fit import Fit
    from toptank.studies.choose.fit.item import Item


class Clearance(Answer):
    """A length that must be there.

    Parameters
    ----------
    gap_mm : what is there; null while it was not measured
    least_mm : what must be there; of two lengths that must be alike, the most that they may differ
    margin_mm : how much more is there than must be
    spread_mm : one standard deviation of the margin
    """

    gap_mm: float | None
    least_mm: float | None
    margin_mm: float | None
    spread_mm: float | None


class Weight(Answer):
    """A weight that must be borne; as a clearance."""

    gap_kg: float | None
    least_kg: float | None
    margin_kg: float | None
    spread_kg: float | None


class ElectricLoad(Answer):
    """A current that must be there; as a clearance."""

    gap_A: float | None
    least_A: float | None
    margin_A: float | None
    spread_A: float | None


class FitItem(Answer):
    """One question of fit.

    Parameters
    ----------
    verdict : clears, tight, rubs or not known
    length, weight, current : its figures; null where it has none of that kind
    fix : what to do where it rubs
    measure : sections and keys of the job file, to be measured
    source : where the limit comes from
    """

    item: str
    verdict: FitVerdict
    says: Text
    length: Clearance | None
    weight: Weight | None
    current: ElectricLoad | None
    fix: Text | None
    note: Text | None
    measure: tuple[str, ...]
    source: str


class TriedFit(Answer):
    """One thing that was tried: a remedy, a plan, a radiator on offer, or what is in now.

    Parameters
    ----------
    remedies : ids of what it would be
    parts : what is bought
    price : as written
    measure_next : what to measure next and how
    """

    remedies: tuple[str, ...]
    name: Text
    parts: Text
    price: str
    note: Text
    verdict: FitVerdict
    items: tuple[FitItem, ...]
    measure_next: tuple[str, ...]


class FitAnswer(Headed, Remarked):
    """Whether something goes into the bay."""

    fits: tuple[TriedFit, ...]


def fit_answer(found: Fitted) -> FitAnswer:
    """Return the answer of a fit."""
    return filled(FitAnswer, found, headed(found.job) | {"fits": tuple(_tried(one) for one in found.fits)})


def _tried(fit: Fit) -> TriedFit:
    candidate = fit.candidate
    given = {
        "remedies": tuple(candidate.remedies),
        "name": Sentence(candidate_name, (candidate,)),
        "parts": Sentence(candidate_parts, (candidate,)),
        "note": Sentence(candidate_note, (candidate,)),
        "verdict": fit.verdict().value,
        "items": tuple(_item(item) for item in fit.items),
        "measure_next": tuple(how_to_measure(path) for path in fit.to_measure()),
    }
    return filled(TriedFit, candidate, given)


def _item(item: Item) -> FitItem:
    given = {
        "item": item.name,
        "verdict": item.verdict.value,
        "says": Sentence(answer_words, (item,)),
        "length": filled(Clearance, item) if item.dimension == LENGTH else None,
        "weight": filled(Weight, item) if item.dimension == MASS else None,
        "current": filled(ElectricLoad, item) if item.dimension == CURRENT else None,
        "fix": Sentence(fix_words, (item,)) if item.fix else None,
        "note": Sentence(note_words, (item,)) if item.note else None,
    }
    return filled(FitItem, item, given)
