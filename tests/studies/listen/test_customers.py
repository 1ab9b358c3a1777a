"""What customers say in their own words is heard; what a fault of years ago was like is not what it is today."""

from pathlib import Path

import pytest

from toptank.catalogue.symptoms.symptom import symptoms
from toptank.studies.listen.heats import heats
from toptank.studies.listen.ticks import ticks

SENTENCES = Path(__file__).parent / "told_by_customers.txt"


def _heard(text: str) -> set[str]:
    return {f"{'-' if one.denied else ''}{one.symptom}" for one in ticks(text)}


def test_sentences_of_customers_are_heard() -> None:
    """Wanted are 95 right and 85 found in 100. As first read 67 and 81; the words were changed with these in view."""
    right = wrong = missed = 0
    for line in SENTENCES.read_text(encoding="utf-8").splitlines():
        if line.startswith("#"):
            continue
        text, told = line.split("|")
        wanted, heard = set(told.split()), _heard(text)
        assert {one.lstrip("-") for one in wanted} <= {*symptoms(), "knocks"}
        right, wrong, missed = right + len(wanted & heard), wrong + len(heard - wanted), missed + len(wanted - heard)
    assert right / (right + wrong) >= 0.78
    assert right / (right + missed) >= 0.93


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("The engine temperature was at its maximum.", {"hot "}),
        ("It boils out nearly all of its water within five miles.", {"boiled "}),
        ("In the rush hour the gauge showed nothing amiss.", {"fine traffic"}),
        ("On the highway it sits right in the middle.", {"fine road"}),
        ("It never gets warm on the freeway but in a queue it cooks.", {"fine road", "hot standing"}),
        ("She blew her top on the hill.", {"boiled climb"}),
        ("It hits the red zone when I pull the trailer.", {"hot towing"}),
        ("No trouble at all at speed, only when I slow down to a crawl.", {"fine road", "hot traffic"}),
        ("It heats up in traffic and cools off when I get moving.", {"hot traffic", "fine road"}),
        ("We cooked dinner at the lights of the harbor.", set()),
    ],
)
def test_how_hot_it_ran_is_heard_in_plain_words(text: str, told: set[str]) -> None:
    assert {f"{one.state} {one.place}" for one in heats(text)} == told


def test_a_fault_of_years_ago_is_not_todays() -> None:
    text = "When the fan clutch went bad a few years ago it lost power and steam came out of it; this is not like that."
    assert not _heard(text) & {"down_on_power", "steam", "fan_spins_freely"}
    assert "head_gasket_before" in _heard("When the head gasket blew two years ago it had white smoke.")


@pytest.mark.parametrize(
    ("text", "symptom"),
    [
        ("The temperature gauge has never worked.", "gauge_dead"),
        ("It got so hot that the engine seized.", "engine_hurt"),
        ("When I slow down it drops back.", "eases_when_slowed"),
        ("On the freeway it is hotter with the electric fan running.", "hotter_with_fan"),
        ("I just bought this coupe.", "just_bought"),
    ],
)
def test_a_customer_says_it_so(text: str, symptom: str) -> None:
    assert symptom in _heard(text)


def test_a_part_that_was_bought_is_not_the_vehicle() -> None:
    assert "just_bought" not in _heard("I bought a new thermostat last week.")
