"""The cooling loop for a screen no wider than a hand: the same lines and parts, numbered, and their words as a list.

Type that stands in the large drawing would be too small to read there; the list is as readable as the page.
"""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from toptank.interfaces.web.drawing.loop_picture import PLACES, air, pipes, shapes
from toptank.interfaces.web.drawing.loop_words import Figures, notes
from toptank.units.dimension import TEMPERATURE

if TYPE_CHECKING:
    from toptank.shop.door import Loop
    from toptank.units.conversion import System

LEFT, TOP, WIDTH, HEIGHT = 92.0, 84.0, 848.0, 480.0
"""The part of the large drawing that holds lines and parts."""

ROUND, TYPE = 25.0, 32.0
"""Half width and type of a number: to be met by a finger."""

_AT: dict[str, tuple[float, float]] = {
    "condenser": (169, 466),
    "outside": (122, 214),
    "ahead": (190, 396),
    "fan zone": (262, 322),
    "ram zone": (262, 212),
    "cooler": (188, 536),
    "core": (262, 434),
    "top hose": (402, 112),
    "fan": (398, 372),
    "behind": (352, 440),
    "lower hose": (440, 526),
    "thermostat": (446, 196),
    "bypass": (446, 256),
    "engine": (655, 310),
    "pump": (500, 336),
    "heater": (880, 276),
}


def loop_small(loop: Loop, system: System, *, limit: float) -> str:
    """Return the numbered drawing as SVG with the list of its parts as HTML; each line of it can be touched.

    Parameters
    ----------
    loop : figures of one settled vehicle (`jobs.loop.Loop`)
    system : units of the shop
    limit : coolant temperature that the customer wants to stay under [K]
    """
    said = notes(loop, system)
    there = [place for place in PLACES if place in said]
    outlines = shapes(loop)
    body = [*air(loop), *pipes(loop)]
    body += ["".join(outlines.get(place, [])) for place in there]
    body += [_mark(number, place, said[place].part) for number, place in enumerate(there, start=1)]
    drawing = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{LEFT:g} {TOP:g} {WIDTH:g} {HEIGHT:g}" '
        f'class="drawn loop-small" aria-hidden="true">{"".join(body)}</svg>'
    )
    say = Figures(loop, system)
    figures = f"limit {say.said(limit, TEMPERATURE)}, boils {say.degrees('T_boiling')}"
    shown = "it boils" if loop.boils or loop.unbalanced else say.degrees("T_gauge")
    lines = [_line("gauge", "", "gauge", f"{shown}; {figures}")]
    lines += [
        _line(said[place].part, str(number), said[place].name, ", ".join(said[place].figures))
        for number, place in enumerate(there, start=1)
    ]
    return f'{drawing}<ol class="loop-lines">{"".join(lines)}</ol>'


def _mark(number: int, place: str, part: str) -> str:
    x, y = _AT[place]
    return (
        f'<g class="part" data-part="{escape(part)}"><circle cx="{x:g}" cy="{y:g}" r="{ROUND:g}" class="solid"/>'
        f'<text x="{x:g}" y="{y + 0.36 * TYPE:g}" font-size="{TYPE:g}" text-anchor="middle" '
        f'class="type on-taken">{number}</text></g>'
    )


def _line(part: str, number: str, name: str, figures: str) -> str:
    return (
        f'<li><button type="button" class="loop-line" data-part="{escape(part)}"><b class="of">{number}</b>'
        f"<span><b>{escape(name)}</b> {escape(figures)}</span></button></li>"
    )
