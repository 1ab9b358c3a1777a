"""The thermostat: shut, opening, open, stuck, taken out; and its bypass."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from toptank.parts.thermostat import Thermostat

ICE = 273.15
SOUND = {"starts_opening": 355.0, "opening_range": 12.0, "smallest_opening": 0.01, "largest_opening": 1.0}


def _opening(T: Any, **thermostat: Any) -> Any:
    return Thermostat(**SOUND | thermostat).opening(T=T)


def test_it_opens_over_the_stated_range() -> None:
    # half way: 0.01 + 0.99 / 2
    assert _opening(np.array([300.0, 355.0, 361.0, 367.0, 400.0])) == pytest.approx([0.01, 0.01, 0.505, 1.0, 1.0])


def test_hotter_coolant_never_shuts_it() -> None:
    T = np.linspace(300.0, 400.0, 201)
    for smallest, largest in ((0.0, 1.0), (0.3, 1.0), (0.0, 0.0), (0.5, 0.2), (1.0, 1.0)):
        assert np.all(np.diff(_opening(T, smallest_opening=smallest, largest_opening=largest)) >= 0.0)


def test_it_plays_about_its_middle() -> None:
    """Driven cars settle at the stamp or 2 K above; play that only opened late would hold them below it."""
    sound = Thermostat(hysteresis=2.0)
    assert sound.set_temperature(T_wax=360.0, stood=350.0) == pytest.approx(359.0)  # rising: a kelvin late
    assert sound.set_temperature(T_wax=350.0, stood=360.0) == pytest.approx(351.0)  # falling: a kelvin late too
    assert sound.set_temperature(T_wax=360.5, stood=360.0) == pytest.approx(360.0)  # within its play it stands still
    assert 0.5 <= Thermostat().hysteresis <= 2.0


def test_shut_the_typical_one_seeps_a_few_watts_a_kelvin() -> None:
    """Logged winter warm-ups ask for 2 to 3 W/K through a shut thermostat: 0.1 to 0.4 % of its opening."""
    assert 0.001 <= Thermostat().opening(T=300.0) <= 0.004


def test_taken_out_it_is_open_at_any_temperature_and_stuck_shut_at_none() -> None:
    assert _opening(np.array([280.0, 400.0]), smallest_opening=1.0) == pytest.approx(1.0)
    stuck = _opening(np.array([280.0, 400.0]), largest_opening=0.0)
    assert np.all((stuck > 0.0) & (stuck < 0.005))  # what seeps past a shut valve


def test_the_typical_one_opens_as_service_manuals_ask() -> None:
    """Service manuals: started by 80 to 84 °C, fully open by 95 °C; others over 11 to 15 K."""
    typical = Thermostat()
    assert 80.0 < typical.starts_opening - ICE < 84.0
    assert 11.0 <= typical.opening_range <= 15.0
    assert typical.opening(T=95.0 + ICE) == pytest.approx(1.0)
    assert typical.opening(T=93.0 + ICE) < 1.0


def test_only_a_valve_with_a_second_disc_shuts_the_bypass() -> None:
    plain, double = (Thermostat(bypass_area=1e-4, closes_bypass=closes) for closes in (0.0, 1.0))
    opening = np.array([0.0, 0.5, 1.0])
    assert plain.bypass(opening=opening) == pytest.approx(1e-4)
    assert double.bypass(opening=0.0) == pytest.approx(1e-4)
    assert np.all(np.diff(double.bypass(opening=opening)) < 0.0)
    assert 0.0 < double.bypass(opening=1.0) < 0.05e-4  # a disc seeps
    assert Thermostat(bypass_area=0.0).bypass(opening=0.5) > 0.0  # never quite shut: the balance needs a way round


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    columns = {"T": [350.0, 360.0, 390.0], "smallest_opening": [0.01, 1.0, 0.0], "largest_opening": [1.0, 0.5, 0.3]}
    same_one_by_one(_opening, **columns)
    same_one_by_one(
        lambda opening, closes: Thermostat(closes_bypass=closes).bypass(opening=opening),
        opening=[0.0, 0.5, 1.0], closes=[1.0, 0.0, 1.0],
    )  # fmt: skip
