"""What to ask the driver first: the symptoms, not told yet, whose yes or no says most of what to repair.

A question costs no minute and no tool; who is asked says of what is so that it is so, not only of what he would tell.
"""

from dataclasses import dataclass

import numpy as np

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.catalogue.symptoms.symptom import symptoms
from toptank.studies.diagnose.asking.next_check import information_of
from toptank.studies.diagnose.asking.open_checks import fitted_on
from toptank.studies.diagnose.cause_sets import Floats
from toptank.studies.diagnose.ensemble import Ensemble
from toptank.studies.diagnose.evidence import Evidence
from toptank.studies.diagnose.symptom_likelihood import already_told, answered_yes

SURE = 0.9
"""Probability of a repair from which its check is made and nothing more is asked [1]; judgement."""

WORTH_ASKING = 0.03
"""Least information of a question that is worth a customer's patience [bit]; judgement."""

ASKED = 3
"""Questions that are named: more of them are an interrogation; judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DriverQuestion:
    """A symptom (id) to ask for: what the answer tells of what to repair [bit], and the chance of a yes [1]."""

    symptom: str
    information: float
    yes: float


def questions_to_ask(evidence: Evidence, possible: Ensemble, needed: Floats) -> tuple[DriverQuestion, ...]:
    """Return the questions worth asking, the best first.

    Parameters
    ----------
    evidence : what is known already; nothing of it is asked again
    possible : draws of equal weight
    needed : which repairs every draw needs, a column a repair [1]
    """
    if float(needed.mean(axis=0).max()) >= SURE:
        return ()
    told = already_told(evidence)
    even = np.full(possible.n, 1.0 / possible.n)
    yes = answered_yes(CAUSES, possible.present)
    found: list[DriverQuestion] = []
    for column, symptom in enumerate(symptoms().values()):
        if symptom.id in told or not fitted_on(symptom.only_on, possible.vehicle):
            continue
        chances = np.stack([yes[:, column], 1.0 - yes[:, column]], axis=1)
        information = information_of(chances, needed, even)
        if information >= WORTH_ASKING:
            found.append(DriverQuestion(symptom=symptom.id, information=information, yes=float(yes[:, column].mean())))
    return tuple(sorted(found, key=_information, reverse=True)[:ASKED])


def _information(one: DriverQuestion) -> float:
    return one.information
