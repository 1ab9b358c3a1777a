"""A drawn gauge to touch: where the needle of a gauge without figures stood, in one of the four parts of its face."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from nicegui import ui

from toptank.interfaces.web.elements.tags import tag

if TYPE_CHECKING:
    from collections.abc import Callable

    from toptank.interfaces.web.elements.tags import Event, Tag

PLACES = {"low": 157.5, "half": 112.5, "three quarters": 67.5, "red": 22.5}
"""What can be said of a needle, and where on the face that is [deg], counted from the right."""

WIDTH, HEIGHT, MIDDLE, REACH = 220.0, 128.0, (110.0, 112.0), 92.0


def needle_gauge(label: str, pick: Callable[[str], None], *, chosen: str = "") -> None:
    """Put the gauge here; a touch moves its needle, a second one on the same part takes it back.

    Parameters
    ----------
    label : what is read off it
    pick : is handed what was touched, empty where it was taken back
    chosen : where the needle stands
    """
    stands = [chosen]
    buttons: dict[str, Tag] = {}
    with tag("div", classes="needle-gauge", role="group", aria_label=label):
        face = ui.html(needle_face(chosen), sanitize=False)
        for number, place in enumerate(PLACES):
            buttons[place] = tag(
                "button", place, f"needle-at at-{number}", type="button", aria_label=f"{label}: {place}",
                aria_pressed="true" if place == chosen else "false",
            )  # fmt: skip

    def on(place: str) -> Callable[[Event], None]:
        def touched(_: Event) -> None:
            stands[0] = "" if stands[0] == place else place
            pick(stands[0])
            face.set_content(needle_face(stands[0]))
            for one, button in buttons.items():
                button.put("aria_pressed", "true" if one == stands[0] else "false")
                button.update()

        return touched

    for place, button in buttons.items():
        button.on("click", on(place))


def needle_face(chosen: str) -> str:
    """Return the face as SVG, its needle on one of the places; without one it has none."""
    marks = "".join(_tick(degrees, 14.0 if degrees % 45.0 == 0.0 else 8.0) for degrees in _marks())
    needle = ""
    if chosen:
        x, y = _at(PLACES[chosen], REACH - 16.0)
        hub = f'<circle cx="{MIDDLE[0]:g}" cy="{MIDDLE[1]:g}" r="8" class="hub"/>'
        needle = f'<path class="needle" d="M{MIDDLE[0]:g} {MIDDLE[1]:g} L{x:.1f} {y:.1f}"/>{hub}'
    return (
        f'<svg viewBox="0 0 {WIDTH:g} {HEIGHT:g}" aria-hidden="true">'
        f"{_arc(180.0, 45.0, 'scale')}{_arc(45.0, 0.0, 'scale red')}{marks}{needle}</svg>"
    )


def _marks() -> list[float]:
    return [22.5 * step for step in range(9)]


def _at(degrees: float, reach: float) -> tuple[float, float]:
    angle = math.radians(degrees)
    return MIDDLE[0] + reach * math.cos(angle), MIDDLE[1] - reach * math.sin(angle)


def _arc(begin: float, end: float, look: str) -> str:
    (x, y), (x_end, y_end) = _at(begin, REACH), _at(end, REACH)
    return f'<path class="{look}" d="M{x:.1f} {y:.1f} A{REACH:g} {REACH:g} 0 0 1 {x_end:.1f} {y_end:.1f}"/>'


def _tick(degrees: float, long: float) -> str:
    (x, y), (x_end, y_end) = _at(degrees, REACH), _at(degrees, REACH - long)
    return f'<path class="tick" d="M{x:.1f} {y:.1f} L{x_end:.1f} {y_end:.1f}"/>'
