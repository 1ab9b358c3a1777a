"""The catalogue of symptoms speaks of causes and checks that there are, and every cause is told of by something."""

import re

import pytest

from toptank.catalogue.causes.all_causes import CAUSE_IDS, CAUSES, NOTHING_BROKEN
from toptank.catalogue.causes.cause import ONSETS, Cause
from toptank.catalogue.causes.told_cases import prior_weights, told_cases
from toptank.catalogue.causes.worst import worst
from toptank.catalogue.checks.check import checks
from toptank.catalogue.symptoms.symptom import Symptom, symptoms
from toptank.studies.listen.phrase import pattern
from toptank.studies.listen.ticks import ticks

KEYS = set(CAUSE_IDS)
each_symptom = pytest.mark.parametrize("symptom", symptoms().values(), ids=lambda one: one.id)


def test_there_are_about_eighty_symptoms_or_more() -> None:
    assert len(symptoms()) >= 80


@each_symptom
def test_a_symptom_names_causes_checks_and_symptoms_that_there_are(symptom: Symptom) -> None:
    assert set(symptom.shows) <= KEYS
    assert set(symptom.asked_by) <= set(checks())
    assert set(symptom.covers) <= set(symptoms()) - {symptom.id}
    assert symptom.onset in (*ONSETS, "")


@each_symptom
def test_a_symptom_is_said_in_phrases_that_can_be_matched(symptom: Symptom) -> None:
    assert len(symptom.phrases) >= 1
    assert re.fullmatch(r"[a-z]+(_[a-z]+)*", symptom.id)
    for phrase in (*symptom.phrases, *symptom.denials, *symptom.unless):
        assert pattern(phrase).pattern


LACKS = re.compile(r"\b(no|not|never|nothing|nobody|missing|without|still|soft|plugged|freely|cool)\b")
"""Words of a thing that is not there or does not move."""


@each_symptom
def test_yes_to_the_question_is_the_symptom_and_not_its_contrary(symptom: Symptom) -> None:
    """Asked "does the electric fan run?", a driver's no denied that it stands still: the dead fan was acquitted."""
    read = ticks(symptom.ask.replace("?", "."))
    assert not [one for one in read if one.symptom == symptom.id and one.denied]
    if LACKS.search(symptom.words):
        assert LACKS.search(symptom.ask)


@each_symptom
def test_a_symptom_speaks_for_something(symptom: Symptom) -> None:
    """Some cause brings it at least twice as often as it is so otherwise."""
    assert max(symptom.shows.values()) >= 2.0 * symptom.otherwise


@pytest.mark.parametrize("cause", CAUSES, ids=lambda one: one.id)
def test_a_driver_can_tell_something_of_every_cause(cause: Cause) -> None:
    key = cause.id
    assert any(one.shows.get(key, 0.0) >= 2.0 * one.otherwise for one in symptoms().values()), key


def test_the_worst_of_every_cause_is_told() -> None:
    assert set(worst()) == KEYS - {NOTHING_BROKEN}
    for key, one in worst().items():
        for low, high in (one.idle, one.road, one.fast, one.hill):
            assert low <= high, key


def test_a_told_case_that_is_left_out_counts_for_its_causes_no_more() -> None:
    name = next(name for name, causes in told_cases().items() if causes == ("belt_slips",))
    place = [cause.id for cause in CAUSES].index("belt_slips")
    assert prior_weights(name)[place] < prior_weights()[place]
    assert sum(prior_weights()) == pytest.approx(1.0)
