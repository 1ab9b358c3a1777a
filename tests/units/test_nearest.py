"""A suggestion is made only for a word that a slip of the fingers away could have become."""

import pytest

from toptank.units.nearest import did_you_mean, nearest

SECTIONS = ("core", "fill", "cap", "fan", "heater", "gauge", "hoses", "water_pump", "thermostat")


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("cpa", "cap"),  # two letters swapped
        ("cor", "core"),  # one left out
        ("haeter", "heater"),
        ("water-pmup", "water_pump"),
        ("Thermostst", "thermostat"),
    ],
)
def test_a_slip_of_the_fingers_is_understood(written: str, meant: str) -> None:
    assert nearest(written, SECTIONS) == (meant,)


@pytest.mark.parametrize("written", ["weather", "engineer", "x", "", "pump", "horse power of the thing", "\u00e9"])
def test_another_word_is_not_bent_into_a_known_one(written: str) -> None:
    assert nearest(written, SECTIONS) == ()


def test_the_nearest_comes_first_and_no_more_than_asked() -> None:
    assert nearest("cape", ("cap", "core", "cape_"), most=3)[0] in ("cap", "cape_")
    assert len(nearest("fan_speed", ("fan_sped", "fan_speed_", "fun_speed"), most=2)) == 2


def test_a_suggestion_is_a_question_and_its_lack_says_what_else_to_do() -> None:
    assert did_you_mean("cpa", SECTIONS, "look") == "did you mean 'cap'?"
    assert did_you_mean("fan_speeds", ("fan_speed", "fan_speedy"), "look") == (
        "did you mean 'fan_speed' or 'fan_speedy'?"
    )
    assert did_you_mean("weather", SECTIONS, "look") == "look"
