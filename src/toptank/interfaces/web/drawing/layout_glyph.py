"""A vehicle in a few strokes, front at the left: where core, fan and engine sit, so that a kind is picked by sight."""

from typing import Literal

Layout = Literal["front", "transverse", "rear, core ahead", "rear, core behind", "standing"]


def layout_of(title: str) -> Layout:
    """Return the layout that the title of a typical vehicle tells."""
    if "core in the rear" in title:
        return "rear, core behind"
    if "in the rear" in title:
        return "rear, core ahead"
    if "transverse" in title:
        return "transverse"
    return "standing" if "stationary" in title or "tractor" in title else "front"


def glyph(layout: Layout) -> str:
    """Draw one layout as SVG: body, core as a hatched bar, fan as a cross, engine as a block."""
    core, fan, engine = {
        "front": (14, 24, (34, 30)),
        "transverse": (14, 24, (32, 18)),
        "rear, core ahead": (14, 24, (84, 24)),
        "rear, core behind": (106, 96, (66, 24)),
        "standing": (14, 24, (34, 44)),
    }[layout]
    body = "M6 40 V24 H30 L44 10 H88 L104 24 H116 V40 Z" if layout != "standing" else "M8 40 V14 H112 V40 Z"
    wheels = "" if layout == "standing" else '<circle cx="28" cy="41" r="7"/><circle cx="94" cy="41" r="7"/>'
    return (
        '<svg viewBox="0 0 122 50" width="122" height="50" aria-hidden="true" fill="none" stroke="currentColor" '
        f'stroke-width="2"><path d="{body}"/>{wheels}'
        f'<path d="M{core} 20 V38" stroke-width="5"/><path d="M{fan} 22 V36 M{fan - 3} 29 H{fan + 3}"/>'
        f'<rect x="{engine[0]}" y="22" width="{engine[1]}" height="14" fill="currentColor" fill-opacity="0.25"/></svg>'
    )
