"""Pictures of left-out forecasts: small SVGs that are the same to the byte when drawn again."""

from html import escape
from pathlib import Path
from typing import Any

import numpy as np

WIDE, HIGH, LEFT, TOP, FOOT = 720, 300, 46, 30, 46
"""Size and margins [px]."""

MOST = 60
"""Figures in one picture: of more, every second, third ... is drawn."""

NEVER = 1e5
"""A band that ends beyond this has no end: some of the vehicles never get there. It has no place in a picture."""

LOOK = (
    "text{font:11px sans-serif;fill:#555}.band{stroke:#7a9cc6;stroke-width:5}.mid{stroke:#1f3f6b;stroke-width:2}"
    ".in{fill:#1d7a3a}.out{fill:#c0392b}.grid{stroke:#ddd}"
)


def left_out_picture(rows: list[dict[str, Any]], place: Path) -> None:
    """Draw the temperatures of one source: band, middle and what was measured, in the order of the questions."""
    kelvin = [row for row in rows if not row["share"] and row["high"] < NEVER]
    shown = kelvin[:: -(-len(kelvin) // MOST)] if kelvin else []
    low = min(min(row["low"], row["value"]) for row in shown)
    high = max(max(row["high"], row["value"]) for row in shown)
    low, high = 10.0 * np.floor(low / 10.0), 10.0 * np.ceil(high / 10.0)

    def y(value: float) -> float:
        return TOP + (high - value) / (high - low) * (HIGH - TOP - FOOT)

    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE} {HIGH}" width="{WIDE}" height="{HIGH}">',
        f"<style>{LOOK}</style>",
        f'<text x="{LEFT}" y="16">{escape(rows[0]["source"].split("/")[0])}, left out: degrees C or kelvin</text>',
    ]
    step = 10.0 if high - low <= 80.0 else 20.0
    for grid in np.arange(low, high + 1.0, step):
        parts.append(f'<line class="grid" x1="{LEFT}" x2="{WIDE - 8}" y1="{y(grid):.1f}" y2="{y(grid):.1f}"/>')
        parts.append(f'<text x="8" y="{y(grid) + 4:.1f}">{grid:.0f}</text>')
    width = (WIDE - LEFT - 16) / max(len(shown), 1)
    before = ""
    for number, row in enumerate(shown):
        x = LEFT + 8 + (number + 0.5) * width
        inside = "in" if row["low"] <= row["value"] <= row["high"] else "out"
        middle = y(row["middle"])
        parts += [
            f'<line class="band" x1="{x:.1f}" x2="{x:.1f}" y1="{y(row["low"]):.1f}" y2="{y(row["high"]):.1f}"/>',
            f'<line class="mid" x1="{x - 4:.1f}" x2="{x + 4:.1f}" y1="{middle:.1f}" y2="{middle:.1f}"/>',
            f'<circle class="{inside}" cx="{x:.1f}" cy="{y(row["value"]):.1f}" r="3"/>',
        ]
        if row["regime"] != before:
            parts.append(f'<text x="{x - 4:.1f}" y="{HIGH - 14}">{escape(row["regime"])}</text>')
            before = row["regime"]
    place.write_text("\n".join([*parts, "</svg>"]) + "\n", encoding="utf-8")
