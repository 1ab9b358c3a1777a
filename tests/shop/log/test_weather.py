"""The air outside as it is typed: an even change, or a file whose times count from the start of the drive."""

from pathlib import Path

import numpy as np
import pytest

from toptank.shop.log.weather import read_weather
from toptank.units.conversion import System
from toptank.units.refusal import Refusal

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
    assert any("begins 10 minutes after" in said for said in read_weather(str(day), system="us").said(1800.0))


def test_the_first_time_of_a_clock_is_the_start_and_it_is_said(tmp_path: Path) -> None:
    day = tmp_path / "day.csv"
    day.write_text("clock,ambient (°F)\n13:10,77\n13:40,95\n", encoding="utf-8")
    weather = read_weather(str(day), system="us")
    assert weather.along(HALF_AN_HOUR) - 273.15 == pytest.approx([25.0, 28.333, 31.667, 35.0], abs=1e-3)
    assert any("start of the drive" in said for said in weather.said(1800.0))


def test_hourly_air_is_no_drive_with_pauses_and_a_moment_told_twice_is_a_sudden_change(tmp_path: Path) -> None:
    day = tmp_path / "day.csv"
    day.write_text("time (h),ambient (°C)\n0,20\n6,32\n", encoding="utf-8")
    assert read_weather(str(day), system="us").along(np.array([3 * 3600.0])) - 273.15 == pytest.approx([26.0])
    day.write_text("time (min),ambient (°C)\n0,20\n10,20\n10,30\n30,30\n", encoding="utf-8")
    weather = read_weather(str(day), system="us")
    assert weather.along(np.array([300.0, 599.0, 602.0, 1200.0])) - 273.15 == pytest.approx([20.0, 20.0, 30.0, 30.0])
    assert any("sudden" in said for said in weather.said(1800.0))


def test_a_file_of_one_row_is_told_what_to_do(tmp_path: Path) -> None:
    day = tmp_path / "day.csv"
    day.write_text("time (min),ambient (°C)\n0,20\n", encoding="utf-8")
    with pytest.raises(Refusal, match="one row: is too few") as refused:
        read_weather(str(day), system="us")
    assert "98 F" in refused.value.fix


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        ("time (h),ambient (°C)\n0,20\n12,30\n24,20\n30,25\n", "no more than 24 hours"),
        ("clock,ambient (°C)\n9:00,20\n12:00,30\n3:00,33\n6:00,30\n", "15:00, or 3:00 PM"),
    ],
)
def test_a_file_of_the_air_is_told_its_own_limit_and_mend(rows: str, told: str, tmp_path: Path) -> None:
    file = tmp_path / "air.csv"
    file.write_text(rows, encoding="utf-8")
    with pytest.raises(Refusal) as refused:
        read_weather(str(file), system="us")
    assert told in str(refused.value)
    assert "pause" not in str(refused.value)
    assert "say it itself" not in str(refused.value)
