"""The drawing: to scale, every gap written in, nothing outside the paper. Lengths by hand from the invented bay."""

import itertools
import re
from typing import Any
from xml.etree import ElementTree

import pytest

from toptank.studies.choose.fit.drawing import drawing
from toptank.studies.choose.fit.places import gaps, places

SVG = "{http://www.w3.org/2000/svg}"
INCH = 25.4
DIRECT = (
    "front of the core to what stands before it",
    "shroud to core",
    "fan to core",
    "fan to core when the engine comes forward",
    "blade rear edge to engine",
    "pulley nose to core when the engine comes forward",
    "blade tip to shroud",
    "cap to hood",
)
"""Gaps whose arrow is the gap itself; the others show a room or a depth."""


def _boxes(fit: Any, kind: str) -> list[tuple[float, ...]]:
    root = ElementTree.fromstring(drawing(fit, "Invented bay", "us"))
    found = [box for box in root.iter(f"{SVG}rect") if box.get("class") == kind]
    return [tuple(float(box.get(key, "nan")) for key in ("x", "y", "width", "height")) for box in found]


def _words(svg: str) -> list[str]:
    return ["".join(text.itertext()) for text in ElementTree.fromstring(svg).iter(f"{SVG}text")]


@pytest.mark.parametrize("depth", [1.5, 2.0, 3.0, 4.0])
@pytest.mark.parametrize("mount", [0.0, 1.0, 2.0])
@pytest.mark.parametrize("shroud_mount", [0.0, 1.0])
def test_an_arrow_is_as_long_as_the_gap_that_is_judged(
    bench: Any, depth: float, mount: float, shroud_mount: float
) -> None:
    fit = bench.fits({"mount": mount, "shroud_mount": shroud_mount}, {"core_depth": depth})
    drawn = {gap.item: gap.length() for gap in gaps(fit, places(fit))}
    for name in DIRECT:
        assert drawn[name] == pytest.approx(1000.0 * bench.item(fit, name).gap, abs=1e-6), name


def test_the_core_is_drawn_as_deep_as_it_is(bench: Any) -> None:
    fit = bench.fits(offer={"core_depth": 2.5})
    assert _boxes(fit, "core")[0][2] == pytest.approx(2.5 * INCH, abs=0.06)  # written to a tenth of a millimetre
    assert _boxes(fit, "core-now")[0][2] == pytest.approx(2.0 * INCH, abs=0.06)
    assert _boxes(fit, "tank")[0][2] == pytest.approx(2.5 * INCH, abs=0.06)
    assert _boxes(fit, "blades")[0][2] == pytest.approx(2.5 * INCH, abs=0.06)


def test_the_core_stands_in_the_middle_of_its_saddles_three_inches_behind_the_grille(bench: Any) -> None:
    x, _, width, _ = _boxes(bench.fits(), "core")[0]
    assert x + width / 2.0 == pytest.approx(3.0 * INCH, abs=0.1)


def test_the_engine_comes_forward_by_what_was_measured(bench: Any) -> None:
    fit = bench.fits()
    for kind in ("blades", "nose"):
        assert _boxes(fit, kind)[0][0] - _boxes(fit, f"{kind}-forward")[0][0] == pytest.approx(0.5 * INCH, abs=0.1)


@pytest.mark.parametrize(
    ("system", "figure"), [("us", "2 in; clears by 1 1/4 in"), ("metric", "51 mm; clears by 32 mm")]
)
def test_the_gap_is_written_in(bench: Any, system: Any, figure: str) -> None:
    words = _words(drawing(bench.fits(), "Invented bay", system))
    assert words[words.index("fan to core") + 1] == figure


def test_a_gap_that_was_not_measured_has_no_figure_and_is_dashed(bench: Any) -> None:
    svg = drawing(bench.fits({"blade_to_engine": None}), "Invented bay", "us")
    words = _words(svg)
    assert words[words.index("blade rear edge to engine") + 1] == "not known"
    engine = next(path for path in ElementTree.fromstring(svg).iter(f"{SVG}path") if path.get("class") == "engine")
    assert engine.get("stroke-dasharray")
    assert any("not measured: engine" in line for line in words)


@pytest.mark.parametrize("offer", [{}, {"core_depth": 4.0}, {"overall_height": 30.0, "cap_height": 33.0}])
def test_nothing_lies_outside_the_paper_and_no_two_lines_of_the_list_overlap(bench: Any, offer: Any) -> None:
    root = ElementTree.fromstring(drawing(bench.fits(offer=offer), "Invented bay", "us"))
    _, _, width, height = map(float, root.get("viewBox", "").split())
    group = root.find(f"{SVG}g")
    assert group is not None
    left, top = map(float, re.findall(r"-?[\d.]+", group.get("transform", "")))
    # a letter of a sans face is 0.6 of its height wide on the average, bold ones 0.7: from memory
    for text in group.iter(f"{SVG}text"):
        wide = (0.7 if text.get("font-weight") else 0.6) * 11.0 * len("".join(text.itertext()))
        x, y = left + float(text.get("x", "nan")), top + float(text.get("y", "nan"))
        assert 0.0 < y < height, "".join(text.itertext())
        assert x > 0.0
        assert x + (0.0 if text.get("transform") or text.get("text-anchor") == "end" else wide) < width
    for box in group.iter(f"{SVG}rect"):
        assert top + float(box.get("y", "nan")) >= 0.0
        assert top + float(box.get("y", "nan")) + float(box.get("height", "nan")) < height
    listed = sorted(
        float(text.get("y", "nan"))
        for text in group.iter(f"{SVG}text")
        if not text.get("transform") and text.get("text-anchor") == "start"
    )
    assert all(after - before > 11.0 for before, after in itertools.pairwise(listed))


def test_electric_fans_are_drawn_and_blades_are_not(bench: Any) -> None:
    fit = bench.remedy("two_electric_fans")
    assert _boxes(fit, "electric-fans")
    assert not _boxes(fit, "blades")


def test_a_title_that_looks_like_markup_stays_text(bench: Any) -> None:
    svg = drawing(bench.fits(), 'Truck <b> & "co"', "us")
    assert 'Truck <b> & "co"' in _words(svg)
