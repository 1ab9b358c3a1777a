"""The one picture of the customer's page: the gauge on the worst day before and after the work, limit and boiling.

Drawn as SVG without colour: what is hatched is now, what is filled is after the work, and every line has its word.
"""

import math

from toptank.shop.order.check_drive import Ends, Expected
from toptank.units.conversion import System, from_si, unit_of
from toptank.units.dimension import TEMPERATURE

FONT = "Barlow"
"""The face of the paper and of the app; a browser without it takes its own."""

WIDTH, HEIGHT = 640.0, 244.0
LEFT, RIGHT = 112.0, 612.0
ROWS = {"as it is now": 46.0, "after the work": 118.0}
ROW = 40.0
FLOOR = 192.0
"""Where the scale lies."""

BEYOND = 8.0
"""How far a band is drawn beyond boiling [K]."""

LETTER = 8.2
"""Width that a letter of a label is given."""


def gauge_picture(hardest: Expected, limit: float, system: System) -> str:
    """Draw the picture of one duty.

    Parameters
    ----------
    hardest : the duty of the worst day that is shown
    limit : what the customer wants to stay under [K]
    system : units of the scale
    """
    unit = unit_of(TEMPERATURE, system)

    def shown(kelvin: float) -> float:
        return float(from_si(kelvin, TEMPERATURE, unit))

    before = _held(hardest.before, hardest.boils_before.p50)
    after = _held(hardest.after, hardest.boils_after.p50)
    points = [*before, *after, hardest.boils_before.p50, hardest.boils_after.p50, limit]
    step = 20.0 if system == "us" else 10.0
    low = step * math.floor(min(map(shown, points)) / step - 0.25)
    high = step * math.ceil(max(map(shown, points)) / step + 0.25)

    def at(kelvin: float) -> float:
        return LEFT + (shown(kelvin) - low) / (high - low) * (RIGHT - LEFT)

    ticks = [low + step * i for i in range(round((high - low) / step) + 1)]
    scale = [_tick(LEFT + (tick - low) / (high - low) * (RIGHT - LEFT), f"{tick:.0f}") for tick in ticks]
    rows = (
        ("as it is now", before, hardest.boils_before, "url(#hatch)"),
        ("after the work", after, hardest.boils_after, "#444"),
    )
    x = at(limit)
    return "\n".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {HEIGHT:g}" role="img" '
            f'font-family="{FONT}, sans-serif" font-size="16" fill="#000">',
            "<defs><pattern id='hatch' width='7' height='7' patternUnits='userSpaceOnUse' "
            "patternTransform='rotate(45)'><rect width='7' height='7' fill='#fff'/>"
            "<rect width='2' height='7' fill='#000'/></pattern></defs>",
            f'<line x1="{LEFT:g}" y1="{FLOOR:g}" x2="{RIGHT:g}" y2="{FLOOR:g}" stroke="#000" stroke-width="1.5"/>',
            *scale,
            f'<text x="{RIGHT:g}" y="{HEIGHT - 8:g}" text-anchor="end">{unit} on the gauge</text>',
            f'<line x1="{x:.1f}" y1="26" x2="{x:.1f}" y2="{FLOOR:g}" stroke="#000" stroke-width="1.5" '
            'stroke-dasharray="7 5"/>',
            _words(x, 18.0, "limit"),
            *(
                _row(name, fill, at(band.p10), at(band.p50), at(band.p90), at(boils.p50))
                for name, band, boils, fill in rows
            ),
            "</svg>",
        )
    )


def _held(band: Ends, boils: float) -> Ends:
    """Cut a band a little beyond boiling: a gauge that rises further tells nothing more."""
    most = boils + BEYOND
    return Ends(*(min(point, most) for point in (min(band.p10, boils), band.p50, band.p90)))


def _tick(x: float, word: str) -> str:
    return (
        f'<line x1="{x:.1f}" y1="{FLOOR:g}" x2="{x:.1f}" y2="{FLOOR + 6:g}" stroke="#000"/>'
        f'<text x="{x:.1f}" y="{FLOOR + 22:g}" text-anchor="middle">{word}</text>'
    )


def _row(name: str, fill: str, start: float, middle: float, end: float, boiling: float) -> str:
    """A band with its middle, and a double line where the coolant boils; all but the first two are places across."""
    y, width = ROWS[name], max(end - start, 4.0)
    lines = "".join(
        f'<line x1="{boiling + shift:.1f}" y1="{y - 5:g}" x2="{boiling + shift:.1f}" y2="{y + ROW + 5:g}" '
        'stroke="#000" stroke-width="2"/>'
        for shift in (-2.5, 2.5)
    )
    lines = (
        f'<rect x="{boiling - 6:.1f}" y="{y - 5:g}" width="12" height="{ROW + 10:g}" fill="#fff"/>'
        f"{lines}{_words(boiling, y + ROW + 20.0, 'boils')}"
    )
    return (
        f'<text x="{LEFT - 10:g}" y="{y + ROW / 2 + 5:g}" text-anchor="end">{name}</text>'
        f'<rect x="{start:.1f}" y="{y:g}" width="{width:.1f}" height="{ROW:g}" fill="{fill}" stroke="#000"/>'
        f'<line x1="{middle:.1f}" y1="{y:g}" x2="{middle:.1f}" y2="{y + ROW:g}" stroke="#fff" stroke-width="6"/>'
        f'<line x1="{middle:.1f}" y1="{y:g}" x2="{middle:.1f}" y2="{y + ROW:g}" stroke="#000" stroke-width="2"/>'
        f"{lines}"
    )


def _words(x: float, y: float, words: str) -> str:
    """A label on white, held within the picture."""
    half = LETTER * len(words) / 2.0
    x = min(max(x, half + 2.0), WIDTH - half - 2.0)
    return (
        f'<rect x="{x - half:.1f}" y="{y - 13:g}" width="{2 * half:.1f}" height="17" fill="#fff"/>'
        f'<text x="{x:.1f}" y="{y:g}" text-anchor="middle">{words}</text>'
    )
