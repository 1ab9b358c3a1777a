"""The air outside as it is typed: an even change, or a file whose times count from the start of the drive."""

from pathlib import Path

import numpy as np
import pytest

from toptank.jobs.weather import read_weather
from toptank.units.conversion import System

HALF_AN_HOUR = np.array([0.0, 600.0, 1200.0, 1800.0])


@pytest.mark.parametrize(
    ("text", "celsius"),
    [("20 C to -5", (20.0, -5.0)), ("20 to -5 C", (20.0, -5.0)), ("20 C to 23 F", (20.0, -5.0))],
)
def test_an_end_without_a_unit_has_that_of_the_other(text: str, celsius: tuple[float, float]) -> None:
    for system in ("us", "metric"):
        used: System = system
        assert np.array(read_weather(text, system=used).ambient) - 273.15 == pytest.approx(celsius)


def test_a_file_that_begins_late_holds_its_first_figure_until_then(tmp_path: Path) -> None:
    day = tmp_path / "day.csv"
    day.write_text("time (min),ambient (°F)\n10,77\n30,95\n", encoding="utf-8")
    along = read_weather(str(day), system="us").along(HALF_AN_HOUR) - 273.15
    assert along == pytest.approx([25.0, 25.0, 30.0, 35.0])


def test_the_first_time_of_a_clock_is_the_start_and_it_is_said(tmp_path: Path) -> None:
    day = tmp_path / "day.csv"
    day.write_text("clock,ambient (°F)\n13:10,77\n13:40,95\n", encoding="utf-8")
    weather = read_weather(str(day), system="us")
    assert weather.along(HALF_AN_HOUR) - 273.15 == pytest.approx([25.0, 28.333, 31.667, 35.0], abs=1e-3)
    assert any("start of the drive" in said for said in weather.said(1800.0))
