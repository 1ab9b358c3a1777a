"""How likely it is that a driver tells, denies or passes over each symptom, for causes that may be there.

Of what is so a driver tells a part; what is not so he tells hardly ever. Several causes bring a symptom each by itself.
Symptoms of one category often say the same thing twice: the more of them are told, the less each counts.
"""

from collections.abc import Sequence
from functools import cache

import numpy as np

from toptank.catalogue.causes.all_causes import NOTHING_BROKEN
from toptank.catalogue.causes.cause import Cause
from toptank.catalogue.symptoms.symptom import Symptom, symptoms
from toptank.studies.diagnose.cause_sets import Flags, Floats
from toptank.studies.diagnose.evidence import Evidence

MISHEARD = 0.012
"""Share of symptoms told that are not so, and of those denied that are [1]; judgement."""

COUNTS = 1.5
"""Power of the likelihood of a symptom told or denied alone in its category [1].

Of a grid over all told cases the best middle (1.3 to 1.6 are alike); read off the cases that it is then counted on, not
left out one by one."""

TOGETHER = 0.5
"""Power of their number by which several of one category count less each [1]; chosen in the same way."""

SILENCE = 0.15
"""Power of the likelihood of all that was not told [1]; chosen in the same way."""

TALKATIVE = 4
"""Symptoms told or denied from which what was passed over counts in full, and in proportion before that [1]; judgement:
who says one thing, "it runs hot since yesterday", has passed over little. Twenty told cases of which nobody had known
while this was built fare better with it, the 86 alike."""

UNMISSABLE, SILENCE_OF_IT = 0.85, 0.8
"""Share of drivers that tell a symptom unasked from which nobody would leave it out, and the power of the likelihood
that it was not told [1]; judgement: a hose that burst is the first thing that a customer says."""

WORK = "work"
"""Category of what was worked on before, which the history tells too."""

MOST_SO = 0.985


def told_lines(evidence: Evidence, causes: Sequence[Cause], present: Flags) -> Floats:
    """Logarithms of the likelihood of every symptom told or denied, then of all that was passed over; a row each.

    A fact counts once: a symptom is silent where the history says the same. What a check saw of the part comes beside
    what the driver heard, and does not undo it: 86 told cases fare alike either way. No rows where nothing was told:
    then nobody was asked either.
    """
    told = evidence.symptoms
    if not told:
        return np.zeros((0, len(present)))
    known = symptoms()
    carried = _carried(evidence)
    rows = [known[one.symptom] for one in told if one.symptom not in carried]
    so = _so(tuple(known.values()), causes, present)
    place = {symptom: column for column, symptom in enumerate(known)}
    in_category = {row.category: sum(one.category == row.category for one in rows) for row in rows}
    lines: list[Floats] = []
    for one in told:
        symptom = known[one.symptom]
        chance = np.ones(len(present))
        weight = 0.0
        if symptom.id not in carried:
            chance = _heard(so[:, place[symptom.id]])
            chance = 1.0 - chance if one.denied else chance
            weight = COUNTS * in_category[symptom.category] ** -TOGETHER
        lines.append(weight * np.log(chance))
    named = {one.symptom for one in told} | carried | _checked(evidence)
    silent = [column for column, symptom in enumerate(known) if symptom not in named]
    told_if_so = _told()[silent]
    power = np.where(told_if_so > UNMISSABLE, SILENCE_OF_IT, SILENCE)
    passed_over = np.log1p(-_heard(so[:, silent]) * told_if_so) @ power * min(len(told) / TALKATIVE, 1.0)
    lines.append(passed_over - passed_over.max())
    return np.array(lines)


def already_told(evidence: Evidence) -> set[str]:
    """Symptoms that were told or denied, or of which another piece of the evidence speaks."""
    beginnings = {one.id for one in symptoms().values() if one.onset and evidence.history.onset is not None}
    not_asked = {one.id for one in symptoms().values() if one.onset}
    carried = _carried(evidence) | _checked(evidence)
    return {one.symptom for one in evidence.symptoms} | (carried - not_asked) | beginnings


def answered_yes(causes: Sequence[Cause], present: Flags) -> Floats:
    """Chance that a driver who is asked for each symptom says that it is so [1], a row a vehicle."""
    return _heard(_so(tuple(symptoms().values()), causes, present))


def _carried(evidence: Evidence) -> set[str]:
    """Symptoms that the history or another symptom tells."""
    worked_on = bool(evidence.history.after_work)
    covered = {wider for one in evidence.symptoms if not one.denied for wider in symptoms()[one.symptom].covers}
    return covered | {one.id for one in symptoms().values() if one.onset or (worked_on and one.category == WORK)}


def _checked(evidence: Evidence) -> set[str]:
    """Symptoms for which a check looked too."""
    made = {finding.check for finding in evidence.findings}
    return {one.id for one in symptoms().values() if made & set(one.asked_by)}


def _heard(so: Floats) -> Floats:
    return MISHEARD + (1.0 - 2.0 * MISHEARD) * so


def _so(known: Sequence[Symptom], causes: Sequence[Cause], present: Flags) -> Floats:
    """Chance that each symptom is so [1], a row a vehicle: every cause adds its own to what is so otherwise."""
    otherwise, effect, sound = _effects(tuple(causes))
    log_not = np.log1p(-otherwise) + present.astype(float) @ effect
    log_not = np.where(present.any(axis=1, keepdims=True), log_not, np.log1p(-sound))
    return np.clip(-np.expm1(log_not), 0.0, MOST_SO)


@cache
def _effects(causes: tuple[Cause, ...]) -> tuple[Floats, Floats, Floats]:
    """What is so otherwise, what each cause does to it, and what is so of a sound vehicle, over the symptoms."""
    known = tuple(symptoms().values())
    otherwise = np.array([one.otherwise for one in known])
    chances = [[one.shows.get(cause.id, one.otherwise) for one in known] for cause in causes]
    effect = np.log1p(-np.array(chances).reshape(len(causes), len(known))) - np.log1p(-otherwise)
    return otherwise, effect, np.array([one.shows.get(NOTHING_BROKEN, one.otherwise) for one in known])


@cache
def _told() -> Floats:
    return np.array([one.told for one in symptoms().values()])
