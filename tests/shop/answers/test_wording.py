"""Figures as a shop says them: nothing that nobody drives in, hours to a tenth, examples in the units of the page."""

import pytest

from toptank.shop.answers.words.wording import as_typed, reached_outside, time

C_0 = 273.15


@pytest.mark.parametrize(
    ("low", "high", "told"),
    [
        (37.8, 53.3, "There the limit is reached at 100 to 128 °F outside."),
        (-73.0, 86.0, ""),  # -99 to 187 °F: it tells nobody anything
        (38.0, 90.0, "There the limit is reached from 100 °F on outside."),
        (70.0, 90.0, ""),
    ],
)
def test_a_limit_is_reached_in_air_that_somebody_drives_in_or_nothing_is_said(
    low: float, high: float, told: str
) -> None:
    assert reached_outside((low + C_0, high + C_0), "the limit", "us") == told


def test_an_hour_and_more_is_told_in_hours_everywhere_as_the_headline_does() -> None:
    assert time(45.0) == "45 min"
    assert time(90.0) == "1.5 h"
    assert time(150.0) == "2.5 h"


def test_an_example_of_a_temperature_is_one_in_the_units_of_the_page() -> None:
    assert as_typed(212.0, "us") == "212"
    assert as_typed(212.0, "metric") == "100"
    assert as_typed(212.0, "uk") == "100"
