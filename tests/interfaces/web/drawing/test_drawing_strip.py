"""The strip of a drive: to scale, readable whatever the drive, the peak where the drive has it."""

import dataclasses
import itertools
from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree

import numpy as np
import pytest

from toptank.interfaces.web.drawing.strip_chart import FLOOR, LEFT, RIGHT, ROAD_FLOOR, TOP, Strip, says, strip_chart
from toptank.interfaces.web.drawing.svg import Box

SVG = "{http://www.w3.org/2000/svg}"
Crowded = Callable[[str], list[str]]
Lettering = Callable[[str], list[tuple[str, Box]]]


def _drive(*, minutes: float = 50.0, hottest: float = 390.0, points: int = 900, climb: float = 500.0) -> Strip:
    """Drive for two thirds of the time uphill, then stand; it is hottest a little after the stop. All invented."""
    time = np.linspace(0.0, 60.0 * minutes, points)
    stop = 40.0 * minutes
    distance = 15.0 * np.minimum(time, stop)
    middle = 355.0 + (hottest - 355.0) * np.exp(-(((time - 1.2 * stop) / (0.8 * stop)) ** 2))
    return Strip(
        title="invented drive",
        time=time.tolist(),
        distance=distance.tolist(),
        low=(middle - 5.0).tolist(),
        middle=middle.tolist(),
        high=(middle + 8.0).tolist(),
        boiling=(399.0 - climb / 300.0 * np.minimum(time / stop, 1.0)).tolist(),
        limit=380.4,
        altitude=(200.0 + climb * np.minimum(time / stop, 1.0)).tolist(),
    )


@pytest.mark.parametrize("system", ["us", "metric"])
@pytest.mark.parametrize("along", ["time", "distance"])
def test_nothing_overlaps_on_short_long_cold_and_boiling_drives(system: Any, along: Any, crowded: Crowded) -> None:
    for minutes, hottest, climb in itertools.product((2.0, 50.0, 700.0), (356.0, 380.0, 399.0, 473.0), (0.0, 3800.0)):
        drive = _drive(minutes=minutes, hottest=hottest, climb=climb)
        noted = dataclasses.replace(drive, seen_at=[drive.time[-1]], seen=[drive.limit])
        for one in (drive, noted):
            assert crowded(strip_chart(one, system, along=along)) == []


def test_the_peak_is_marked_where_the_drive_has_it(lettering: Lettering) -> None:
    drive = _drive()
    place = int(np.argmax(drive.middle))
    drawing = strip_chart(drive, "us")
    ring = next(one for one in ElementTree.fromstring(drawing).iter(f"{SVG}circle"))
    assert float(ring.attrib["cx"]) == pytest.approx(
        LEFT + (RIGHT - LEFT) * drive.time[place] / drive.time[-1], abs=0.1
    )
    hot = round((drive.middle[place] - 273.15) * 1.8 + 32.0)
    minute, miles = round(drive.time[place] / 60.0), drive.distance[place] / 1609.344
    (words,) = [words for words, _ in lettering(drawing) if words.startswith("peak")]
    assert words == f"peak {hot} °F at {minute} min, {miles:.3g} mi"
    by_distance = strip_chart(drive, "us", along="distance")
    ring = next(one for one in ElementTree.fromstring(by_distance).iter(f"{SVG}circle"))
    assert float(ring.attrib["cx"]) == pytest.approx(RIGHT)  # the stop is at the end of the road


def test_hotter_is_higher_and_the_limit_lies_between_its_neighbours() -> None:
    drive = _drive()
    root = ElementTree.fromstring(strip_chart(drive, "us"))
    heights = {
        one.attrib["class"]: float(one.attrib["d"].removeprefix("M").split()[1])
        for one in root.iter(f"{SVG}path")
        if one.get("class") in ("middle", "boil", "limit")
    }
    assert TOP < heights["boil"] < heights["limit"] < heights["middle"] < FLOOR < ROAD_FLOOR


def test_the_time_of_standing_is_shaded_in_its_place() -> None:
    drive = _drive()
    shades = ElementTree.fromstring(strip_chart(drive, "us")).iter(f"{SVG}rect")
    shade = next(one for one in shades if one.get("class") == "shade")
    assert float(shade.attrib["x"]) == pytest.approx(LEFT + (RIGHT - LEFT) * 2.0 / 3.0, abs=2.0)
    assert float(shade.attrib["x"]) + float(shade.attrib["width"]) == pytest.approx(RIGHT, abs=0.2)
    assert "standing" not in strip_chart(drive, "us", along="distance")


def test_a_log_of_three_hours_at_ten_a_second_stays_a_small_drawing(crowded: Crowded) -> None:
    drive = _drive(minutes=180.0, points=20_000)
    seen = dataclasses.replace(drive, seen_at=np.linspace(0, 10_800, 108_000).tolist(), seen=[370.0] * 108_000)
    drawing = strip_chart(seen, "metric")
    assert len(drawing) < 120_000
    assert crowded(drawing) == []
    assert "seen" in says(seen, "metric")


def test_a_long_title_never_hides_that_it_is_invented(lettering: Lettering, crowded: Crowded) -> None:
    drawing = strip_chart(dataclasses.replace(_drive(), title="a very long name " * 20, invented=True), "us")
    assert lettering(drawing)[0][0].endswith("... (invented example)")
    assert crowded(drawing) == []


def test_a_title_is_never_markup() -> None:
    nasty = "<script>alert(1)</script>"
    drawing = strip_chart(dataclasses.replace(_drive(), title=nasty), "us")
    assert "<script" not in drawing
    assert ElementTree.fromstring(drawing)[0].text == nasty
