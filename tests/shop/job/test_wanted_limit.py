"""The limit that a repair is judged by: the customer's, or clearly below the needle that he complained of."""

import pytest

from toptank.shop.job.wanted_limit import wanted_limit
from toptank.studies.diagnose.evidence import Reading


def kelvin(degF: float) -> float:
    return (degF + 459.67) / 1.8


LIMIT, OPENS = kelvin(225.0), kelvin(180.0)
STOP = {"stop": 15.0 / 1.8}


def _figure(duty: str, degF: float, words: str | None = None) -> Reading:
    return Reading(duty=duty, low=kelvin(degF), high=kelvin(degF), words=words)


@pytest.mark.parametrize(("readings", "degF"), [
    ([], 225.0),
    ([_figure("road", 195.0)], 225.0),
    ([_figure("hill", 218.0, "hot")], 213.0),
    ([_figure("hill", 240.0, "hot")], 225.0),
    ([_figure("stop", 238.0)], 218.0),
    ([_figure("hill", 222.0, "hot"), _figure("stop", 238.0)], 218.0),
    ([_figure("hill", 196.0, "hot")], 199.8),
])  # fmt: skip
def test_the_limit_is_five_degrees_under_what_was_complained_of(readings: list[Reading], degF: float) -> None:
    """Common practice, no source: 5 degF are seen on a needle; at a short stop 15 more are let pass, and are off."""
    assert wanted_limit(LIMIT, readings, OPENS, STOP) == pytest.approx(kelvin(degF), abs=0.05)


def test_hot_without_a_figure_is_where_drivers_say_hot() -> None:
    """36 degF over the start of the thermostat at 180 is 216; five less."""
    assert wanted_limit(LIMIT, [Reading(duty="hill", words="hot")], OPENS, STOP) == pytest.approx(kelvin(211.0))


def test_the_transmission_s_gauge_says_nothing_of_the_coolant() -> None:
    reading = Reading(duty="hill", place="transmission", low=kelvin(260.0), high=kelvin(260.0), words="hot")
    assert wanted_limit(LIMIT, [reading], OPENS, STOP) == LIMIT
