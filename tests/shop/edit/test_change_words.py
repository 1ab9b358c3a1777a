"""The record speaks as a person does: no name of a field, no id."""

import re

import pytest

from toptank.catalogue.symptoms.symptom import symptoms
from toptank.shop.edit.change_words import change_words


@pytest.mark.parametrize("how", ["said", "denied"])
@pytest.mark.parametrize("symptom", sorted(symptoms()))
def test_what_the_driver_told_is_told_in_his_words(symptom: str, how: str) -> None:
    told = change_words(f"symptom: {symptom}, {how}", "us")
    assert symptoms()[symptom].words in told
    assert not re.search(r"[a-z]_[a-z]", told)
    assert ("not so: " in told) == (how == "denied")


def test_how_it_began_and_how_far_it_ran_have_names() -> None:
    assert change_words("history.onset: crept up", "us") == "How it began: crept up"
    assert change_words("history.distance: 312000", "us") == "Odometer: 312000"
