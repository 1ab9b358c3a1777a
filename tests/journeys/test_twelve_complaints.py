"""Twelve complaints in customers' words: the page says what the tool says, and a mechanic would begin the same way."""

from importlib import import_module
from pathlib import Path
from typing import Any

import pytest

from toptank.shop.answers.words import naming
from toptank.units.conversion import System

ROOT = Path(__file__).parents[2]
SYSTEM: System = "us"

WOULD_DO_FIRST = {
    "01-fan-clutch": {"spin_fan", "fan_roar_hot", "fan_speed_ratio_hot"},
    "02-electric-fan": {"electric_fan_hot", "fan_control", "paper_test"},
    "03-lost-its-water": {"coolant_loss", "level_cold", "pressure_test"},
    "04-drinks-water": {"level_cold", "combustion_leak_test", "pressure_test"},
    "05-needle-jumps": {"second_thermometer", "sender_wire_off", "gauge_at_key_on", "gauge_against_fuel_gauge"},
    "06-creeps-on-grades": {"look_in_neck", "infrared_along_core", "level_cold", "look_of_coolant"},
    "07-since-the-drain": {"level_cold"},
    "08-squeals": {"turn_pulley_by_hand"},
    "09-hot-in-minutes": {"feel_hoses", "thermostat_in_pan", "turn_pulley_by_hand", "second_thermometer"},
    "10-hay": {"lamp_through_core", "between_condenser_and_core", "dark_face"},
    "11-air-conditioning": {"spin_fan", "paper_test", "condenser_fan", "between_condenser_and_core"},
    "12-after-tuning": {"timing_light"},
}
"""First checks that an experienced mechanic would make, written from the complaints and not the answers; judgement."""


@pytest.fixture(scope="module")
def answered() -> list[Any]:
    return list(docs_of_complaints().answers())


def docs_of_complaints() -> Any:
    """The tool that writes the page; tools are no package."""
    with pytest.MonkeyPatch.context() as patch:
        patch.syspath_prepend(str(ROOT / "tools"))
        return import_module("docs_of_complaints")


def test_the_page_says_what_the_tool_says(answered: list[Any]) -> None:
    """Names and their order where they are clear; figures may move by rounding between versions of JAX."""
    sections = (ROOT / "docs" / "twelve-complaints.md").read_text(encoding="utf-8").split("\n## ")[1:]
    assert len(sections) == len(answered) == 12
    for section, one in zip(sections, answered, strict=True):
        assert " ".join(one.job.complaint.split()) in section
        assert f"*First causes*: {naming.cause(one.causes[0][0], 'us')}" in section, one.name
        assert f"*First check*: **{naming.check(one.check, 'us').name}**" in section, one.name


def test_the_first_check_is_one_that_a_mechanic_would_make_first(answered: list[Any]) -> None:
    odd = {one.name: one.check for one in answered if one.check not in WOULD_DO_FIRST[one.name]}
    assert odd == {}
