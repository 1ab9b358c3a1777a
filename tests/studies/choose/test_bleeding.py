"""Filling and bleeding by layout. Common practice, no source."""

import pytest

from toptank.studies.choose.coolant.bleeding import bleeding, layouts
from toptank.units.refusal import Refusal

LAYOUTS = ("downflow, neck highest", "crossflow", "remote expansion tank", "rear engine", "heater highest")


def test_every_layout_of_the_trade_is_there_once() -> None:
    assert sorted(one.layout for one in layouts()) == sorted(LAYOUTS)


@pytest.mark.parametrize("layout", LAYOUTS)
def test_it_begins_cold_and_ends_with_a_second_look(layout: str) -> None:
    steps = bleeding(layout).steps
    assert "cold" in steps[0]
    assert any("overnight" in step for step in steps[-2:])
    words = " ".join(steps).lower()
    assert "heater" in words
    assert words.index("concentrate first") < words.index("overnight")


@pytest.mark.parametrize("layout", LAYOUTS)
def test_every_layout_warns_of_heat_fan_and_poison(layout: str) -> None:
    words = " ".join(bleeding(layout).cautions).lower()
    assert all(hazard in words for hazard in ("scald", "fan", "poison"))


@pytest.mark.parametrize("layout", ["crossflow", "rear engine", "heater highest"])
def test_whoever_raises_an_end_is_told_how_to_hold_it(layout: str) -> None:
    found = bleeding(layout)
    assert "raise the" in " ".join(found.steps).lower()
    assert "axle stands" in " ".join(found.cautions)


def test_a_layout_that_nobody_knows_is_refused() -> None:
    with pytest.raises(Refusal, match="crossflow"):
        bleeding("cross flow")
