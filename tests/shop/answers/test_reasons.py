"""The reason of a cause is one sentence in words: what it is, what points to it, what away; no ratio."""

import re

import pytest

from toptank.shop.answers.words.reasons import reason
from toptank.studies.diagnose.diagnosis import Voice
from toptank.studies.diagnose.evidence import Changed, Finding, Told

NEVER_ROARS = Voice(evidence=Finding(check="fan_roar_hot", outcome="never_roars"), factor=12.0)
ONLY_SUMMER = Voice(evidence=Told(symptom="only_hot_weather"), factor=1.4)
CLUTCH_CHANGED = Voice(evidence=Changed(part="fan_clutch", effect="none"), factor=0.2)


def test_the_strongest_facts_for_and_the_strongest_against_are_told_with_their_strength() -> None:
    told = reason("fan_clutch_slips", (ONLY_SUMMER, CLUTCH_CHANGED, NEVER_ROARS), 0.2, "us")
    points, away = told.split("points away:")
    assert re.search(r"never roars \(strongly\), .+ \(a little\)", points)
    assert re.search(r"clutch: did nothing \(clearly\)", away)
    assert "turns the fan too slowly" in points


@pytest.mark.parametrize("voices", [(), (ONLY_SUMMER,), (CLUTCH_CHANGED,), (ONLY_SUMMER, CLUTCH_CHANGED, NEVER_ROARS)])
def test_it_says_no_ratio_and_ends_as_a_sentence(voices: tuple[Voice, ...]) -> None:
    told = reason("fan_clutch_slips", voices, 0.2, "us")
    assert not re.search(r"\d|times|factor|odds", told)
    assert told.endswith(".")


def test_where_nothing_speaks_that_is_said() -> None:
    weak = Voice(evidence=Told(symptom="steam"), factor=1.1)
    for voices in ((), (weak,)):
        assert "Nothing that was told points to it or away" in reason("cap_weak", voices, 0.2, "metric")


def test_only_a_fault_that_is_common_is_called_common() -> None:
    assert "because it is common" in reason("cap_weak", (), 0.2, "us")
    assert "It is common; points away" in reason("fan_clutch_slips", (CLUTCH_CHANGED,), 0.2, "us")
    for voices in ((), (CLUTCH_CHANGED,)):
        assert "common" not in reason("fan_clutch_slips", voices, 0.04, "us")


def test_many_small_things_are_not_nothing() -> None:
    three = (Voice(evidence=Told(symptom="steam"), factor=1.2),) * 3  # 1.2^3 = 1.73
    assert "Many small things that were told point to it together" in reason("cap_weak", three, 0.2, "us")
    three = (Voice(evidence=Told(symptom="steam"), factor=0.85),) * 3  # 0.85^3 = 0.61
    assert "Many small things that were told point away from it" in reason("cap_weak", three, 0.2, "us")
