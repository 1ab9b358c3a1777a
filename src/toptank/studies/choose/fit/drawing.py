"""The stack along the axis, drawn to scale from the side: SVG whose unit is a millimetre of the vehicle.

Grille at the left, engine at the right. Full lines go in, dashes are in now or were not measured, dots show the engine
come forward. Every gap is led to the list at the right, with its figure and its verdict. No meaning is carried by
colour: ink on paper, hatching and kinds of line.
"""

from collections.abc import Iterator
from xml.sax.saxutils import escape

from toptank.studies.choose.fit.fit import Fit
from toptank.studies.choose.fit.item import Item, Verdict
from toptank.studies.choose.fit.measures import tape
from toptank.studies.choose.fit.places import TANK, Gap, Places, gaps, places
from toptank.studies.choose.fit.words import candidate_name, verdict_words
from toptank.units.conversion import System, unit_of
from toptank.units.dimension import LENGTH

PAPER, INK, PALE = "#f6f3ea", "#22261f", "#6f6c60"
LETTERS = 11.0
"""Height of the letters [mm of the vehicle]."""

LEFT, HEAD, FOOT, LIST = 60.0, 60.0, 70.0, 350.0
"""Paper around the drawing, and for the list at the right [mm of the vehicle]."""

LONGEST = 96
"""Letters of a title that are shown."""

_DASHED, _DOTTED = 'stroke-dasharray="7 4"', 'stroke-dasharray="1.5 3.5"'


def drawing(fit: Fit, title: str, system: System) -> str:
    """Return the drawing as the text of an SVG file."""
    at = places(fit)
    right = max(at.engine, at.nose, at.rear + at.fan_depth) + 50.0
    top = max(
        at.upper_seat + 60.0,
        at.height + 60.0,
        at.cap_top + 20.0,
        at.hood + 20.0,
        at.height / 2.0 + at.ring_radius + 20.0,
    )
    below = max(50.0, at.ring_radius - at.height / 2.0 + 20.0)
    width, height = LEFT + right + LIST, HEAD + top + below + FOOT
    body = "\n".join(
        (
            *_surroundings(at, right, top),
            *_radiator(at),
            *(() if fit.candidate.electric_fan else _shroud(at) if fit.stack.has_shroud() else ()),
            *(_blades(at) if fit.candidate.engine_fan else ()),
            *(_electric_fans(at) if fit.candidate.electric_fan else ()),
            *_engine(at, right, below, top),
            *_led_to_the_list(fit, at, right, system),
        )
    )
    name = candidate_name(fit.candidate, system)
    lines = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.1f} {height:.1f}" width="{1.6 * width:.0f}" '
        f'height="{1.6 * height:.0f}" font-family="DejaVu Sans, sans-serif" font-size="{LETTERS}">',
        f"<title>{escape(title)}</title>",
        '<defs><pattern id="fins" width="5" height="5" patternUnits="userSpaceOnUse">'
        f'<path d="M0 5 L5 0" stroke="{PALE}" stroke-width="0.7"/></pattern></defs>',
        f'<rect width="100%" height="100%" fill="{PAPER}"/>',
        f'<text x="14" y="26" fill="{INK}" font-size="{_size_of(title):.1f}" font-weight="bold">'
        f"{escape(_cut_short(title, LONGEST))}</text>",
        f'<text x="14" y="43" fill="{PALE}">{escape(_cut_short(name))}, from the side</text>',
        f'<g transform="translate({LEFT:.1f} {HEAD + top:.1f})" stroke="{INK}" stroke-width="1.4" fill="none">',
        body,
        "</g>",
        *_foot(at, height, system),
        "</svg>",
    )
    return "\n".join(lines) + "\n"


def _surroundings(at: Places, right: float, top: float) -> Iterator[str]:
    """Grille side, hood, lower and upper seat with their rubbers."""
    dashed = _DASHED if "grille" in at.guessed else ""
    yield f'<path class="grille" d="M0 {-top + 30:.1f} V20 M-6 {-top + 30:.1f} V20" {dashed}/>'
    yield _text(-10.0, -at.height / 2.0, "grille side", turned=True)
    dashed = _DASHED if "hood" in at.guessed else ""
    yield f'<path class="hood" d="M-30 {-at.hood:.1f} H{right:.1f}" stroke-width="2.5" {dashed}/>'
    yield _text(right - 4.0, -at.hood - 5.0, "hood", anchor="end")
    dashed = _DASHED if "saddle" in at.guessed else ""
    half = at.saddle_width / 2.0
    for y, edge in ((0.0, -28.0), (-at.upper_seat, 28.0)):
        inner = y + (3.0 if edge < 0.0 else -3.0)
        yield (
            f'<path class="saddle" d="M{at.seat - half:.1f} {y + edge:.1f} V{inner:.1f} H{at.seat + half:.1f} '
            f'V{y + edge:.1f}" stroke-width="2.5" {dashed}/>'
        )


def _radiator(at: Places) -> Iterator[str]:
    """Core and tanks that go in, standing on their rubber, and the core that is in now."""
    lift, tank = at.rubber, min(TANK, at.height / 4.0)
    tank_x, top = (at.front + at.rear - at.tank_width) / 2.0, -at.height - lift
    dashed = _DASHED if "tank" in at.guessed else ""
    for y in (top, -lift - tank):
        yield _box("tank", tank_x, y, at.tank_width, tank, f'rx="6" fill="{PAPER}" {dashed}')
    core = (top + tank, at.height - 2.0 * tank)
    dashed = _DASHED if "core" in at.guessed else ""
    yield _box("core", at.front, core[0], at.rear - at.front, core[1], f'fill="url(#fins)" {dashed}')
    if at.cap_top > 0.0:
        yield _box("cap", (at.front + at.rear) / 2.0 - 16.0, -at.cap_top, 32.0, at.cap_top + top, f'fill="{PAPER}"')
    if abs(at.rear - at.rear_now) + abs(at.front - at.front_now) > 0.1:
        width = at.rear_now - at.front_now
        yield _box("core-now", at.front_now, core[0] + 6.0, width, core[1] - 12.0, f'stroke-width="1" {_DASHED}')


def _shroud(at: Places) -> Iterator[str]:
    dashed = _DASHED if "shroud" in at.guessed else ""
    wheel = -at.height / 2.0
    ring = max(at.shroud_front, min(at.blade_front, at.shroud_rear) - 8.0)
    for side in (-1.0, 1.0):
        edge = wheel + side * max(at.height / 2.0 - 20.0, at.ring_radius)
        lip = wheel + side * at.ring_radius
        path = f"M{at.shroud_front:.1f} {edge:.1f} L{ring:.1f} {lip:.1f} H{at.shroud_rear:.1f}"
        yield f'<path class="shroud" d="{path}" stroke-width="2.2" {dashed}/>'


def _blades(at: Places) -> Iterator[str]:
    dashed = _DASHED if "fan" in at.guessed else ""
    wheel, hub = -at.height / 2.0, 0.22 * at.fan_radius
    for y in (wheel - at.fan_radius, wheel + hub):
        look = f'fill="{PALE}" fill-opacity="0.55" {dashed}'
        yield _box("blades", at.blade_front, y, at.blade_rear - at.blade_front, at.fan_radius - hub, look)
        if at.forward > 0.0:
            moved = at.blade_front - at.forward
            yield _box("blades-forward", moved, y, at.blade_rear - at.blade_front, at.fan_radius - hub, _DOTTED)


def _electric_fans(at: Places) -> Iterator[str]:
    look = f'fill="{PALE}" fill-opacity="0.35"'
    yield _box("electric-fans", at.rear, -at.height + 50.0, at.fan_depth, at.height - 100.0, look)


def _engine(at: Places, right: float, below: float, top: float) -> Iterator[str]:
    """Front of the engine, its pulley nose, and both come forward."""
    dashed = _DASHED if {"engine", "nose"} & at.guessed else ""
    wheel = -at.height / 2.0
    high = max(-top + 60.0, wheel - 0.8 * at.fan_radius)
    outline = f"M{right:.1f} {high:.1f} H{at.engine:.1f} V{min(below, 30.0):.1f} H{right:.1f}"
    yield f'<path class="engine" d="{outline}" stroke-width="2.5" {dashed}/>'
    yield _text((at.engine + right) / 2.0 + 8.0, wheel + 60.0, "engine", turned=True)
    length = max(at.engine - at.nose, 4.0)
    yield _box("nose", at.nose, wheel - 16.0, length, 32.0, f'fill="{PAPER}" {dashed}')
    if at.forward > 0.0:
        yield _box("nose-forward", at.nose - at.forward, wheel - 16.0, length, 32.0, _DOTTED)


def _led_to_the_list(fit: Fit, at: Places, right: float, system: System) -> Iterator[str]:
    """Arrow across each gap, a thin line to the list, and there its figure and its verdict."""
    items = {item.name: item for item in fit.items}
    step = 2.0 * LETTERS + 8.0
    shown = sorted(gaps(fit, at), key=lambda gap: -gap.highest())
    line = -at.height - 40.0
    for gap in shown:
        item, x, y = items[gap.item], gap.farthest(), -gap.highest()
        line = max(line, y - step / 2.0)
        yield _arrow(gap, item)
        lead = f"M{x:.1f} {y:.1f} H{right:.1f} L{right + 14:.1f} {line + 6:.1f} h6"
        yield f'<path d="{lead}" stroke="{PALE}" stroke-width="0.6"/>'
        figure = f"{tape(gap.length() / 1000.0, system)}; " if item.verdict != Verdict.NOT_KNOWN else ""
        yield _text(right + 24.0, line + 4.0, gap.label)
        yield _text(
            right + 24.0, line + 6.0 + LETTERS, f"{figure}{verdict_words(item, system, beside_the_gap=True)}", bold=True
        )
        line += step


def _arrow(gap: Gap, item: Item) -> str:
    """A line across a gap with a tick at both ends, thick where it rubs."""
    thick = 3.0 if item.verdict == Verdict.RUBS else 1.2
    ticks = "M{x:.1f} {y0:.1f} v10" if gap.along() else "M{x0:.1f} {y:.1f} h10"
    path = f"M{gap.x:.1f} {-gap.y:.1f} L{gap.x_end:.1f} {-gap.y_end:.1f}"
    for x, y in ((gap.x, -gap.y), (gap.x_end, -gap.y_end)):
        path += " " + ticks.format(x=x, y=y, x0=x - 5.0, y0=y - 5.0)
    return f'<path class="gap" d="{path}" stroke-width="{thick}"/>'


def _foot(at: Places, height: float, system: System) -> Iterator[str]:
    """Legend, and a rule to measure with."""
    unit, length = ("4 in", 101.6) if unit_of(LENGTH, system) == "in" else ("100 mm", 100.0)
    y = height - 50.0
    yield f'<path d="M14 {y:.1f} h{length} M14 {y - 4:.1f} v8 M{14 + length:.1f} {y - 4:.1f} v8" stroke="{INK}"/>'
    yield f'<text x="{22 + length:.1f}" y="{y + 4:.1f}" fill="{INK}">{unit}, to scale</text>'
    said = "Full lines: goes in. Dots: the engine come forward. Thick arrows: rubs. Fan and shroud: at mid height."
    yield f'<text x="14" y="{height - 28:.1f}" fill="{PALE}">{said}</text>'
    guessed = f": {', '.join(sorted(at.guessed))}" if at.guessed else ": nothing"
    said = f"Dashes: the old core, and what was not measured{guessed}."
    yield f'<text x="14" y="{height - 12:.1f}" fill="{PALE}">{said}</text>'


def _box(kind: str, x: float, y: float, width: float, height: float, look: str) -> str:
    return f'<rect class="{kind}" x="{x:.1f}" y="{y:.1f}" width="{width:.1f}" height="{height:.1f}" {look}/>'


def _text(x: float, y: float, said: str, *, anchor: str = "start", turned: bool = False, bold: bool = False) -> str:
    turn = f' transform="rotate(-90 {x:.1f} {y:.1f})"' if turned else ""
    weight = ' font-weight="bold"' if bold else ""
    place = f'x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}"'
    return f'<text {place} fill="{INK}" stroke="none"{weight}{turn}>{escape(said)}</text>'


def _size_of(title: str) -> float:
    """Letters of a title, smaller where it is long."""
    return 16.0 * min(1.0, 66.0 / len(_cut_short(title, LONGEST) or " "))


def _cut_short(text: str, most: int = 70) -> str:
    return text if len(text) <= most else text[: most - 3] + "..."
