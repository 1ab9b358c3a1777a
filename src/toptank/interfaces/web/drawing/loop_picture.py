"""The cooling loop from the side, the front of the vehicle at the left: air from left to right, coolant round about.

Lines are as wide as what flows in them, coloured by temperature and striped the closer the nearer it is to boiling;
every figure is written. Each part can be touched: `data-part` names the section of the sheet that it belongs to.
"""

from __future__ import annotations

from collections.abc import Callable
from html import escape
from typing import TYPE_CHECKING

from toptank.interfaces.web.drawing.loop_words import Figures, notes, summary
from toptank.interfaces.web.drawing.svg import box, figure, heading, line, type_set, width_of
from toptank.units.dimension import FLOW, TEMPERATURE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from toptank.interfaces.web.drawing.loop_words import Note
    from toptank.shop.door import Loop
    from toptank.units.conversion import System

WIDTH, HEIGHT = 960.0, 664.0
NAME, FIGURE, SMALL, LARGE = 17.0, 18.0, 15.0, 40.0
"""Heights of type."""

LEADING = 22.0
WIDEST, WIDEST_FLOW, NARROWEST = 22.0, 0.0065, 2.5
"""A line is at most so wide, for that flow or more [m3/s]; at least so wide, however little flows."""

COLDEST = 288.15
"""Temperature from which colour begins [K]."""

STRIPES = ((5.0, "boiling"), (15.0, "hot"), (30.0, "warm"))
"""Within so many kelvin of boiling the stripes lie so close."""

STEPS = 6
Link = Callable[[str], str]

# place of a note: left end or middle of its lines, first line, anchor
PLACES: dict[str, tuple[float, float, str]] = {
    "condenser": (16, 34, "start"),
    "outside": (16, 152, "start"),
    "ahead": (16, 216, "start"),
    "fan zone": (16, 280, "start"),
    "ram zone": (16, 368, "start"),
    "cooler": (16, 540, "start"),
    "core": (262, 574, "start"),
    "top hose": (396, 44, "middle"),
    "fan": (398, 156, "middle"),
    "behind": (398, 474, "middle"),
    "lower hose": (528, 536, "start"),
    "thermostat": (546, 136, "start"),
    "bypass": (676, 136, "start"),
    "engine": (564, 222, "start"),
    "pump": (548, 476, "start"),
    "heater": (880, 366, "middle"),
}


def loop_picture(
    loop: Loop, system: System, *, title: str, limit: float, invented: bool = False, link: Link | None = None
) -> str:
    """Return the drawing as SVG.

    Parameters
    ----------
    loop : figures of one settled vehicle (`jobs.loop.Loop`)
    system : units of the shop
    title : what is drawn, e.g. vehicle and duty
    limit : coolant temperature that the customer wants to stay under [K]
    invented : the figures of the vehicle are made up
    link : address that a part leads to; without it a part is a button for whoever listens
    """
    said = notes(loop, system)
    outlines = shapes(loop)
    body = [*air(loop), *pipes(loop)]
    body += [_part(said[place], outlines.get(place, []), PLACES[place], link) for place in PLACES if place in said]
    body.append(_gauge(loop, system, limit, link))
    body += _legend(loop, system)
    body.append(type_set(16, 628, heading(title, SMALL, 510.0, invented=invented), SMALL, "name"))
    return figure("loop", WIDTH, HEIGHT, title, summary(loop, system), body)


def step_of(T: float, boiling: float) -> str:
    """Class of the colour of a temperature [K]: from `s0`, a cool day, to `s6`, boiling."""
    share = (T - COLDEST) / max(boiling - COLDEST, 1.0)
    return f"s{round(STEPS * min(max(share, 0.0), 1.0))}"


def stripes_of(T: float, boiling: float) -> str:
    """Class of the stripes of a temperature [K]; none far from boiling."""
    return next((name for within, name in STRIPES if boiling - T < within), "")


def width_of_flow(flow: float) -> float:
    """Width of a line for a flow [m3/s]: its area goes with the flow."""
    return max(WIDEST * min(flow / WIDEST_FLOW, 1.0) ** 0.5, NARROWEST)


def pipes(loop: Loop) -> Iterator[str]:
    """Lines of coolant, as wide as what flows in them."""
    boiling, hot, cold = loop.T_boiling, loop.T_engine_out, loop.T_bottom_hose
    yield from _pipe("M500 186 V112 H262 V152", loop.core_flow, hot, boiling, [(330, 112, "left")])
    yield from _pipe("M262 492 V526 H500 V366", loop.core_flow, cold, boiling, [(390, 526, "right"), (500, 446, "up")])
    yield from _pipe("M500 206 V304", loop.bypass_flow, hot, boiling, [(500, 256, "down")])
    if loop.heater_on:
        yield from _pipe("M760 246 H836", 0.0004, hot, boiling, [(800, 246, "right")])
        yield from _pipe("M836 306 H760", 0.0004, hot, boiling, [(800, 306, "left")])
    else:
        yield line("M760 246 H836", "absent")
        yield line("M836 306 H760", "absent")


def _pipe(points: str, flow: float, T: float, boiling: float, arrows: list[tuple[float, float, str]]) -> Iterator[str]:
    width = width_of_flow(flow)
    yield line(points, "casing", f'stroke-width="{width + 3.5:.1f}"')
    yield line(points, f"pipe {step_of(T, boiling)}", f'stroke-width="{width:.1f}"')
    near = stripes_of(T, boiling)
    if near and width > 2.0 * NARROWEST:
        yield line(points, f"stripes {near}", f'stroke-width="{width:.1f}"')
    for x, y, way in arrows:
        yield _arrow(x, y, way, max(0.62 * width, 7.0))


def _arrow(x: float, y: float, way: str, size: float, look: str = "hollow") -> str:
    dx, dy = {"right": (1, 0), "left": (-1, 0), "up": (0, -1), "down": (0, 1)}[way]
    tip = (x + dx * size, y + dy * size)
    ends = [(x - dx * size * 0.7 + side * dy * size, y - dy * size * 0.7 + side * dx * size) for side in (-1, 1)]
    points = " ".join(f"{px:.1f},{py:.1f}" for px, py in (tip, *ends))
    return f'<polygon points="{points}" class="{look}"/>'


def air(loop: Loop) -> Iterator[str]:
    """Arrows of air: longer where it is faster."""
    half = 140.0 * min(loop.fan_zone, 1.0)
    for y in (254.0, 344.0, 438.0):
        beside = abs(y - 322.0) > half
        speed = loop.V_ram_zone if beside else loop.V_fan_zone
        length = 14.0 + 20.0 * min(speed / 8.0, 1.0)
        for end in (206.0, 152.0):
            if end == 152.0 and not loop.has_condenser:
                continue
            yield line(f"M{end - length:.1f} {y:g} H{end - 8:.1f}", "air")
            yield _arrow(end - 8.0, y, "right", 6.0, "air-head")


def shapes(loop: Loop) -> dict[str, list[str]]:
    """Outlines of the parts, by the place of their note."""
    return {
        "core": list(_core(loop)),
        "fan": list(_fan(loop)),
        "engine": [box(550, 190, 210, 240, "body", 'rx="8"')],
        "pump": [
            _disc(500, 336, 30, "body"),
            line("M486 322 L514 350 M514 322 L486 350", "thin"),
            line("M522 357 L540 372 V466", "thin"),
        ],
        "thermostat": [
            box(480, 184, 40, 24, "body", 'rx="4"'),
            line(f"M488 202 L512 {202 - 14 * loop.opening:.1f}", "thin"),
        ],
        "heater": [
            box(836, 226, 88, 100, "body", 'rx="4"'),
            *(line(f"M{x} 238 V314", "thin") for x in (856, 880, 904)),
        ],
        "condenser": [box(162, 176, 14, 292, "body"), *(line(f"M162 {y} H176", "thin") for y in range(196, 460, 20))],
        "cooler": list(_cooler(loop)),
        "fan zone": list(_shroud(loop)),
    }


def _core(loop: Loop) -> Iterator[str]:
    left, right, top, bottom = 216.0, 308.0, 182.0, 462.0
    if not loop.crossflow:
        yield box(left - 6, 152, right - left + 12, 30, "body", 'rx="6"')
        yield box(left - 6, bottom, right - left + 12, 30, "body", 'rx="6"')
    yield box(left, top, right - left, bottom - top, "body")
    half = (bottom - top) / 2.0 * min(loop.fan_zone, 1.0)
    middle = (top + bottom) / 2.0
    tone = step_of(loop.T_core_air_out, loop.T_boiling)
    if loop.crossflow:
        tubes = [line(f"M{left:g} {y:g} H{right:g}", f"thin {tone}") for y in range(192, 460, 14)]
    else:
        tubes = [line(f"M{x:g} {top:g} V{bottom:g}", f"thin {tone}") for x in range(226, 308, 12)]
    yield from tubes
    if loop.crossflow:  # seen from the side the near tank stands upright before the core, from hose to hose
        yield box(240, 152, 44, 340, "body tank-beside", 'rx="10"')
    if loop.fan_zone < 0.985:
        for y in (middle - half, middle + half):
            yield line(f"M{left:g} {y:.1f} H{right:g}", "outline dashed")


def _shroud(loop: Loop) -> Iterator[str]:
    """The duct from the core to the blades; without one, nothing."""
    if loop.has_shroud:
        for edge, lip in ((186, 226), (458, 418)):
            yield line(f"M308 {edge} L380 {lip} H412", "outline")


def _fan(loop: Loop) -> Iterator[str]:
    electric = loop.fan_drive == "electric"
    centres = (322.0,) if loop.fans < 2 or not electric else (278.0, 366.0)
    reach = 92.0 if len(centres) == 1 else 42.0
    for y in centres:
        for way in (-1, 1):
            yield _blade(398.0, y, way * reach)
        yield box(390, y - 14, 20, 28, "body", 'rx="4"')
        if electric:
            yield box(410, y - 11, 30, 22, "body", 'rx="4"')
    if not electric:
        yield line("M410 322 H470", "outline", 'stroke-width="5"')
        if loop.fan_drive == "viscous clutch":
            yield box(412, 300, 20, 44, "body", 'rx="5"')
            yield line("M418 304 V340 M426 304 V340", "thin")


def _blade(x: float, y: float, reach: float) -> str:
    """One blade from the hub up or down."""
    front = f"C{x - 14:g} {y + 0.4 * reach:.1f} {x - 12:g} {y + 0.8 * reach:.1f} {x - 4:g} {y + reach:.1f}"
    back = f"C{x + 14:g} {y + 0.7 * reach:.1f} {x + 12:g} {y + 0.3 * reach:.1f} {x:g} {y:g}"
    return f'<path d="M{x:g} {y:g} {front} H{x + 6:g} {back} Z" class="body"/>'


def _cooler(loop: Loop) -> Iterator[str]:
    if loop.cooler == "in the tank":
        yield line("M222 477 H300 M222 484 H300 M222 477 V484", "thin")
        yield line("M216 480 H188 V524", "thin")
    elif loop.cooler == "ahead of the core":
        yield box(188, 356, 10, 96, "body", 'rx="3"')
        yield line("M193 452 V524", "thin")
    else:
        yield box(176, 512, 28, 12, "body", 'rx="3"')


def _disc(x: float, y: float, radius: float, look: str) -> str:
    return f'<circle cx="{x:g}" cy="{y:g}" r="{radius:g}" class="{look}"/>'


def _part(note: Note, shapes: list[str], place: tuple[float, float, str], link: Link | None) -> str:
    """A part with its shape and its words, as one thing to touch."""
    x, y, anchor = place
    lines = [
        type_set(x, y, note.name, NAME, "name", anchor=anchor),
        *(
            type_set(x, y + LEADING * (row + 1), words, FIGURE, "number", anchor=anchor)
            for row, words in enumerate(note.figures)
        ),
    ]
    room = max(width_of(note.name, NAME, bold=True), *(width_of(words, FIGURE) for words in note.figures))
    left = {"start": x, "middle": x - room / 2.0}[anchor]
    touch = box(left - 5, y - 18, min(room, WIDTH - left) + 8, LEADING * (len(note.figures) + 1) + 3, "touch", 'rx="4"')
    return _touched(note.part, f"{note.name}: {', '.join(note.figures)}", [*shapes, touch, *lines], link)


def _touched(part: str, label: str, body: list[str], link: Link | None) -> str:
    words, inside = escape(label), "".join(body)
    if link is None:
        return f'<g class="part" data-part="{part}" role="button" tabindex="0" aria-label="{words}">{inside}</g>'
    return f'<a class="part" data-part="{part}" href="{escape(link(part))}" aria-label="{words}">{inside}</a>'


def _gauge(loop: Loop, system: System, limit: float, link: Link | None) -> str:
    """What it is all about: the gauge, with the limit and boiling beside it."""
    say = Figures(loop, system)
    shown = "it boils" if loop.boils or loop.unbalanced else say.degrees("T_gauge")
    hot = loop.boils or loop.unbalanced or loop.T_engine_out > limit
    over = "over the limit" if hot and not (loop.boils or loop.unbalanced) else ""
    lines = [
        type_set(944, 34, "gauge", NAME, "name", anchor="end"),
        type_set(944, 74, shown, LARGE, "number bad" if hot else "number", anchor="end"),
        type_set(944, 100, f"limit {say.said(limit, TEMPERATURE)}", FIGURE, "number", anchor="end"),
        type_set(944, 122, f"boils {say.degrees('T_boiling')}", FIGURE, "number", anchor="end"),
    ]
    if over:
        lines.append(type_set(944, 146, over, FIGURE, "bad", anchor="end"))
    touch = box(772, 16, 180, 138, "touch", 'rx="4"')
    return _touched("gauge", f"gauge: {shown}, {over}".rstrip(", "), [touch, *lines], link)


def _legend(loop: Loop, system: System) -> Iterator[str]:
    """What width, colour and stripes say."""
    say, left, y = Figures(loop, system), 548.0, 636.0
    yield type_set(left, y - 26, "stripes: how near to boiling", SMALL, "quiet")
    widths = (("", "far"), ("warm", "30"), ("hot", "15"), ("boiling", "5"))
    for place, (near, _) in enumerate(widths):
        x = left + 98.0 * place
        tone = f"s{2 + place + (place > 1)}"
        yield line(f"M{x:g} {y - 12:g} H{x + 84:g}", f"pipe {tone}", 'stroke-width="10"')
        if near:
            yield line(f"M{x:g} {y - 12:g} H{x + 84:g}", f"stripes {near}", 'stroke-width="10"')
        within = next((kelvin for kelvin, name in STRIPES if name == near), None)
        words = "cooler" if within is None else f"{say.said(loop.T_boiling - within, TEMPERATURE)} up"
        yield type_set(x, y + 10, words, SMALL, "quiet number")
    yield type_set(
        16, HEIGHT - 14, f"line width: coolant flow; widest {say.said(WIDEST_FLOW, FLOW, 0)}", SMALL, "quiet"
    )
