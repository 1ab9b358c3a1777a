"""Sentences as customers of many kinds say and type them, in complaints.toml: what each tells is heard."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from toptank.catalogue.symptoms.symptom import symptoms
from toptank.studies.listen.ticks import ticks

SENTENCES: list[dict[str, Any]] = tomllib.loads(
    (Path(__file__).parent / "complaints.toml").read_text(encoding="utf-8")
)["sentence"]

OTHER_WAYS = {
    "uses_coolant": ("It has to be topped up weekly, every week.", "It drinks a quart of water a week.",
                     "I keep topping it up."),
    "hose_came_off": ("The top hose blew off.", "Its bottom hose split.", "A radiator hose burst."),
    "fan_never_runs": ("The electric fan never comes on.", "The fan doesnt run at all.",
                       "I can't hear the fans come on."),
    "heater_cold": ("The heater blows cold.", "No heat from the heater.", "The heater has gone stone cold."),
    "rust_or_mud": ("The coolant is brown.", "Rusty water came out.", "There is sludge in the radiator."),
    "shroud_absent": ("There's no shroud.", "The shroud is missing.", "The fan cowl has been left off."),
    "swings": ("The needle swings up and down.", "It goes up to red and comes back by itself, again and again.",
               "The temp gauge yo-yos."),
    "fan_spins_freely": ("The fan clutch doesn't lock up.", "You can spin the fan by hand when it's hot.",
                         "The viscous coupling is loose."),
}  # fmt: skip


def _heard(text: str) -> set[str]:
    """Symptoms told, and denied with a sign before them; what a told one covers counts as told."""
    found = ticks(text)
    told = {one.symptom for one in found if not one.denied}
    wider = {covered for symptom in told for covered in symptoms()[symptom].covers}
    return told | wider | {f"-{one.symptom}" for one in found if one.denied}


def test_nearly_all_that_customers_say_is_heard() -> None:
    """Of more than 200 things told or denied in more than 200 sentences, 95 in 100."""
    wanted = [(one["text"], symptom) for one in SENTENCES for symptom in one["tells"]]
    missed = [(text, symptom) for text, symptom in wanted if symptom not in _heard(text)]
    assert len(SENTENCES) >= 200
    assert len(missed) <= 0.05 * len(wanted), missed


def test_nothing_is_heard_the_wrong_way_round() -> None:
    """What a sentence tells is never proposed as denied, and what it denies never as told."""
    turned = [
        (one["text"], symptom)
        for one in SENTENCES
        for symptom in one["tells"]
        if (symptom.removeprefix("-") if symptom.startswith("-") else f"-{symptom}") in _heard(one["text"])
    ]
    assert not turned


@pytest.mark.parametrize("symptom", OTHER_WAYS)
def test_one_thing_said_in_three_ways_is_the_same_symptom(symptom: str) -> None:
    for text in OTHER_WAYS[symptom]:
        assert symptom in _heard(text), text


@pytest.mark.parametrize(
    "text",
    [
        "The fan belt is on the shelf.",
        "1990s four-wheel drive diesel pickup, automatic, towing.",
        "I have had it serviced three times out of warranty.",
        "It is a cool car and I like it.",
        "The core plugs and freeze plugs were painted.",
        "It takes a long time to come down at the farm gate.",
        "An orchard tour minibus that takes visitors up to the farm.",
    ],
)
def test_words_that_only_look_like_a_symptom_are_none(text: str) -> None:
    assert not _heard(text)
