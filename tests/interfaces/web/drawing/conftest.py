"""Geometry of a drawing as a browser would set it, measured in a wide face: the one that is there where ours is not."""

import re
from collections.abc import Callable
from functools import cache
from itertools import combinations, pairwise
from xml.etree import ElementTree

import pytest
from matplotlib.font_manager import FontProperties
from matplotlib.textpath import TextPath

from toptank.interfaces.web.drawing.svg import Box

SVG = "{http://www.w3.org/2000/svg}"
MOVE = re.compile(r"([MHVL])\s*(-?[\d.]+)(?:[ ,](-?[\d.]+))?")


@cache
def _set_width(words: str, size: float, bold: bool) -> float:
    face = FontProperties(family="DejaVu Sans", weight="bold" if bold else "normal")
    return TextPath((0.0, 0.0), words.replace("$", r"\$"), size=size, prop=face).get_extents().x1 if words else 0.0


def texts(drawing: str) -> list[tuple[str, Box]]:
    """Every line of type with its rectangle; none of them may be turned or moved by a group."""
    found: list[tuple[str, Box]] = []
    root = ElementTree.fromstring(drawing)
    assert not root.findall(f".//{SVG}g[@transform]")
    for one in root.iter(f"{SVG}text"):
        assert "transform" not in one.attrib
        words, size = "".join(one.itertext()), float(one.attrib["font-size"])
        look = one.attrib["class"].split()
        width = _set_width(words, size, "name" in look or "bad" in look)
        x, y = float(one.attrib["x"]), float(one.attrib["y"])
        left = x - {"start": 0.0, "middle": width / 2.0, "end": width}[one.get("text-anchor", "start")]
        found.append((words, Box(left, y - 0.74 * size, left + width, y + 0.2 * size)))
    return found


def pipes(drawing: str) -> list[Box]:
    """Every straight piece of a line of coolant, as wide as it is drawn."""
    pieces: list[Box] = []
    for one in ElementTree.fromstring(drawing).iter(f"{SVG}path"):
        if one.get("class") == "casing":
            half, x, y, points = float(one.attrib["stroke-width"]) / 2.0, 0.0, 0.0, list[tuple[float, float]]()
            for letter, first, second in MOVE.findall(one.attrib["d"]):
                x = x if letter == "V" else float(first)
                y = float(first) if letter == "V" else y if letter == "H" else float(second)
                points.append((x, y))
            for (x0, y0), (x1, y1) in pairwise(points):
                ends = (min(x0, x1) - half, min(y0, y1) - half, max(x0, x1) + half, max(y0, y1) + half)
                pieces.append(Box(*ends))
    return pieces


def troubles(drawing: str) -> list[str]:
    """What of the type overlaps, is crossed by a line of coolant, or leaves the drawing."""
    words, lines = texts(drawing), pipes(drawing)
    _, _, width, height = map(float, ElementTree.fromstring(drawing).attrib["viewBox"].split())
    page = Box(0.0, 0.0, width, height)
    said = [f"{a!r} on {b!r}" for (a, one), (b, other) in combinations(words, 2) if one.meets(other)]
    said += [f"{name!r} on a line" for name, one in words for piece in lines if one.meets(piece)]
    said += [
        f"{name!r} leaves the drawing"
        for name, one in words
        if one.left < page.left or one.right > page.right or one.top < page.top or one.bottom > page.bottom
    ]
    return said


@pytest.fixture(scope="session")
def crowded() -> Callable[[str], list[str]]:
    return troubles


@pytest.fixture(scope="session")
def lettering() -> Callable[[str], list[tuple[str, Box]]]:
    return texts
