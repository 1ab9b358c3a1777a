"""The loop drawing: readable for every vehicle, true to its figures, open to touch, keyboard and screen reader."""

import dataclasses
from collections.abc import Callable
from itertools import combinations
from typing import Any
from xml.etree import ElementTree

import pytest

from toptank.interfaces.web.drawing.loop_picture import STRIPES, loop_picture, step_of, stripes_of, width_of_flow
from toptank.interfaces.web.drawing.loop_small import ROUND, loop_small
from toptank.interfaces.web.drawing.loop_words import notes
from toptank.interfaces.web.drawing.svg import Box, standing_alone
from toptank.knowledge.sheet import duty, sections, vehicle
from toptank.knowledge.typical import typical_names, typical_sheet
from toptank.shop.ask.loop import COOLER_PLACES, FAN_DRIVES, Loop, loop_of
from toptank.shop.ask.service import demo_job
from toptank.shop.ask.what_if import Changes, what_if
from toptank.shop.job.job import Job
from toptank.system.population import solve

LIMIT = 380.4
SVG = "{http://www.w3.org/2000/svg}"
Systems = ("us", "metric")
Crowded = Callable[[str], list[str]]


@pytest.fixture(scope="module")
def job() -> Job:
    return demo_job()


@pytest.fixture(scope="module")
def loop(job: Job) -> Loop:
    return what_if(job, Changes(), duty="ridge climb").loop


def _drawn(loop: Loop, system: Any = "us", link: Callable[[str], str] | None = None) -> str:
    return loop_picture(loop, system, title="a vehicle of a very long name " * 9, limit=LIMIT, invented=True, link=link)


@pytest.mark.parametrize("like", typical_names())
def test_no_words_overlap_for_any_typical_vehicle(like: str, job: Job, crowded: Crowded) -> None:
    central = vehicle(typical_sheet(like))
    for sheet, ambient in ((job.duties[1], 322.0), (job.duties[2], 250.0)):  # a climb in the heat, an idle in the cold
        day = dataclasses.replace(duty(sheet), ambient=ambient)
        loop = loop_of(central, day, solve(central, day))
        for system in Systems:
            assert crowded(_drawn(loop, system)) == []


@pytest.mark.parametrize("system", Systems)
def test_not_even_the_longest_figures_and_names_overlap(system: Any, loop: Loop, crowded: Crowded) -> None:
    large = {
        **{name: 473.15 for name in Loop.__dataclass_fields__ if name.startswith("T_")},
        **dict.fromkeys(("engine_heat", "core_heat", "surface_heat", "heater_heat", "condenser_heat"), 888_888.0),
        **dict.fromkeys(("fan_power", "engine_power"), 888_888.0),
        "core_flow": 0.05,
        "bypass_flow": 0.05,
        "V_fan_zone": 44.4,
        "V_ram_zone": 44.4,
        "fan_zone": 0.5,
        "fan_speed": 148.0,
        "engine_speed": 148.0,
        "transmission_heat": -88_888.0,
        "opening": 1.0,
        "heater_on": True,
        "air_conditioning_on": True,
        "has_condenser": True,
        "passes": 3,
        "crossflow": True,
    }
    for drive in FAN_DRIVES:
        for place in COOLER_PLACES:
            odd = dataclasses.replace(loop, **large, fan_drive=drive, cooler=place, fans=3)
            assert crowded(_drawn(odd, system)) == []


def test_the_check_of_overlaps_finds_one(loop: Loop, crowded: Crowded) -> None:
    drawing = _drawn(loop).replace("</svg>", '<text x="20" y="34" font-size="17" class="type">x</text></svg>')
    assert crowded(drawing) != []
    assert crowded(_drawn(loop).replace(">boils ", ">boils, as far as anybody can tell from here, ")) != []


@pytest.mark.parametrize("system", Systems)
def test_every_figure_is_written_in_the_units_of_the_shop(
    system: Any, loop: Loop, lettering: Callable[[str], list[tuple[str, Box]]]
) -> None:
    said = [words for words, _ in lettering(_drawn(loop, system))]
    fahrenheit = round((loop.T_engine_out - 273.15) * 1.8 + 32.0)
    hot = f"{fahrenheit} °F" if system == "us" else f"{round(loop.T_engine_out - 273.15)} °C"
    flow = loop.core_flow * (15850.323 if system == "us" else 60000.0)
    assert hot in said
    assert any(words.endswith("... (invented example)") for words in said)
    assert f"{flow:.1f} {'gpm' if system == 'us' else 'L/min'}" in said
    # 1 Btu is 1055.056 J: a US shop has no kilowatts of heat
    btu, kilowatt = loop.core_heat * 60.0 / 1055.056, loop.core_heat / 1000.0
    assert (f"gives {btu:,.0f} Btu/min" if system == "us" else f"gives {kilowatt:.1f} kW") in said
    assert not any("°C" in words for words in said if system == "us")


def test_lines_widen_with_flow_and_their_stripes_close_up_towards_boiling() -> None:
    widths = [width_of_flow(flow) for flow in (0.0, 0.0001, 0.001, 0.003, 0.0065)]
    assert widths == sorted(widths)
    assert width_of_flow(0.004) == pytest.approx(2.0 * width_of_flow(0.001))
    boiling = 400.0
    assert stripes_of(boiling - 60.0, boiling) == ""
    assert [stripes_of(boiling - within + 0.1, boiling) for within, _ in STRIPES] == [name for _, name in STRIPES]
    steps = [int(step_of(T, boiling)[1:]) for T in (250.0, 300.0, 340.0, 370.0, 390.0, 420.0)]
    assert steps == sorted(steps)
    assert (steps[0], steps[-1]) == (0, 6)


def test_what_is_not_there_is_not_drawn(loop: Loop) -> None:
    bare = dataclasses.replace(
        loop, has_condenser=False, has_shroud=False, cooler="none", fan_zone=0.99, heater_on=False
    )
    parts = _parts(_drawn(bare))
    assert "condenser" in _parts(_drawn(loop))
    assert not {"condenser", "transmission_cooler"} & set(parts)
    assert "off" in _drawn(bare)
    boils = _drawn(dataclasses.replace(loop, boils=True))
    assert "it boils" in boils


def _parts(drawing: str) -> list[str]:
    return [one.attrib["data-part"] for one in ElementTree.fromstring(drawing).iter() if "data-part" in one.attrib]


def test_each_part_can_be_touched_reached_by_keyboard_and_heard(loop: Loop) -> None:
    root = ElementTree.fromstring(_drawn(loop))
    names = root.attrib["aria-labelledby"].split()
    spoken = {one.attrib["id"]: "".join(one.itertext()) for one in root if "id" in one.attrib}
    assert names == list(spoken)
    assert all(spoken.values())
    assert "the gauge shows" in spoken[names[1]]
    parts = [one for one in root.iter() if "data-part" in one.attrib]
    assert {one.attrib["data-part"] for one in parts} <= set(sections())
    for one in parts:
        assert (one.attrib["role"], one.attrib["tabindex"]) == ("button", "0")
        assert one.attrib["aria-label"]
        (touch,) = (inner for inner in one.iter() if inner.get("class") == "touch")
        assert float(touch.attrib["width"]) >= 44.0
        assert float(touch.attrib["height"]) >= 44.0
    linked = ElementTree.fromstring(_drawn(loop, link=lambda part: f"/jobs/1/sheet?a=1&b=2#{part}"))
    links = list(linked.iter(f"{SVG}a"))
    assert [one.attrib["href"] for one in links] == [
        f"/jobs/1/sheet?a=1&b=2#{one.attrib['data-part']}" for one in links
    ]


@pytest.mark.parametrize("cooler", COOLER_PLACES)
def test_the_small_drawing_numbers_every_part_and_its_list_says_the_same_figures(loop: Loop, cooler: str) -> None:
    odd = dataclasses.replace(loop, cooler=cooler, fan_zone=0.5, has_condenser=True)
    small = ElementTree.fromstring(f"<div>{loop_small(odd, 'us', limit=LIMIT)}</div>")
    said = notes(odd, "us").values()
    marks = small.findall(f".//{SVG}g[@class='part']")
    lines = small.findall(".//button")
    assert [mark.findtext(f"{SVG}text") for mark in marks] == [str(number + 1) for number in range(len(said))]
    told = {"".join(line.itertext()).lstrip("0123456789") for line in lines}
    assert told >= {f"{note.name} {', '.join(note.figures)}" for note in said}
    assert [line.get("data-part") for line in lines][1:] == [mark.get("data-part") for mark in marks]
    rounds = [mark.find(f"{SVG}circle") for mark in marks]
    places = [(float(one.attrib["cx"]), float(one.attrib["cy"])) for one in rounds if one is not None]
    for (x, y), (other_x, other_y) in combinations(places, 2):
        assert (x - other_x) ** 2 + (y - other_y) ** 2 >= (2.0 * ROUND) ** 2


def test_a_title_is_never_markup(loop: Loop) -> None:
    nasty = '<img src=x onerror="alert(1)">'
    drawing = loop_picture(loop, "us", title=nasty, limit=LIMIT, link=lambda part: f'"><script>{part}')
    assert "<img" not in drawing
    assert "<script" not in drawing
    assert ElementTree.fromstring(drawing)[0].text == nasty


def test_a_file_of_its_own_needs_nothing_else(loop: Loop) -> None:
    alone = standing_alone(_drawn(loop))
    ElementTree.fromstring(alone)
    assert "var(" not in alone
    assert "@media" not in alone
    assert "http" not in alone.replace("http://www.w3.org/2000/svg", "")
