"""What a complaint says was tried and what it did; sentences of our own, made up before the words but for the last."""

import pytest

from toptank.catalogue.work import WORK
from toptank.studies.listen.changes import PARTS, changes

SAID = {
    "New radiator, new thermostat, new pump, no difference.": "radiator thermostat water_pump",
    "I put in a new thermostat and it still overheats.": "thermostat",
    "Replaced the water pump. Made no difference.": "water_pump",
    "They flushed it and changed the cap, did not help.": "flush cap",
    "A new fan clutch helped a little.": "fan_clutch:helped",
    "I took the thermostat out, to no avail.": "thermostat_removed",
    "In spite of a new radiator cap it still pushes water out.": "cap",
    "Had the radiator rodded out last year and it was a bit better, but not cured.": "radiator_rodded:helped",
    "I've changed the thermostat, the sender and the hoses and it is still the same.": "thermostat sender hoses",
    "The mechanic changed the head gasket; that did not help.": "head_gasket",
    "The new electric fan made it worse.": "electric_fan:worse",
    "Different coolant made no difference.": "coolant",
    "Despite having cleaned the radiator it runs hot.": "radiator_cleaned",
    "I have replaced the radiator hoses. Nothing changed.": "hoses",
    "Since I fitted a new thermostat it runs hot.": "",
    "Should I replace the thermostat?": "",
    "It needs a new radiator.": "",
    "The heater made no difference.": "",
    "Turning the fan on by hand made no difference.": "",
    "The radiator is the original one. Still hot on hills.": "",
    "Fuel pump was replaced and it still overheats.": "",
    "Had the belt off and it still got hot.": "",
}


@pytest.mark.parametrize("text", SAID)
def test_what_was_tried_is_heard_with_what_it_did(text: str) -> None:
    wanted = {part if ":" in part else f"{part}:none" for part in SAID[text].split()}
    assert {f"{one.part}:{one.effect}" for one in changes(text)} == wanted


def test_all_of_it_is_work_that_a_job_file_knows() -> None:
    assert {part for part, _ in PARTS} <= set(WORK)


def test_a_job_of_which_nothing_was_said_tried_nothing() -> None:
    assert changes("") == ()
