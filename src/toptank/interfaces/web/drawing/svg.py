"""The few strokes that every drawing here is made of: SVG text whose width is known before it is drawn.

Colours are tokens of the look (`--ink`, `--heat`), set in `drawing.css`, so that one drawing serves light, dark and
paper; a file that stands alone carries the style with the tokens filled in.
"""

import re
from importlib import resources
from typing import NamedTuple
from xml.sax.saxutils import escape, quoteattr

_NARROW, _SMALL, _WIDE = "iljtfrI.,:;'|!()[]- \u2009", "0123456789abcdeghknopqsuvxyz+/=", "mwMW%@&°<>"
_LETTER = {**dict.fromkeys(_NARROW, 0.37), **dict.fromkeys(_SMALL, 0.62), **dict.fromkeys(_WIDE, 0.93)}
"""Width of a letter over the height of the type, of a wide face; a narrower one fits as well [1]."""

_OTHER, _BOLD = 0.76, 1.1
_TOKEN = re.compile(r"var\(--[\w-]+,\s*((?:[^()]|\([^()]*\))*)\)")
_AROUND = "/* around the drawings, on a page */"
"""Begins what of the style is not the drawings' own."""

_SCREEN_ONLY = re.compile(r"@media[^{]*\{(?:[^{}]*\{[^{}]*\})*[^{}]*\}|:root \{[^}]*\}")
_INNERMOST = 3


class Box(NamedTuple):
    """A rectangle in the units of a drawing."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: "Box") -> bool:
        """Whether two rectangles overlap."""
        apart = self.right <= other.left or other.right <= self.left
        return not (apart or self.bottom <= other.top or other.bottom <= self.top)


def width_of(words: str, size: float, *, bold: bool = False) -> float:
    """Width that a line of type takes at most, in the unit of its size."""
    return size * (_BOLD if bold else 1.0) * sum(_LETTER.get(letter, _OTHER) for letter in words)


def cut_to(words: str, size: float, room: float, *, bold: bool = False) -> str:
    """Words that fit into a room; what does not is cut, with three dots."""
    if width_of(words, size, bold=bold) <= room:
        return words
    kept = words
    while kept and width_of(kept + "...", size, bold=bold) > room:
        kept = kept[:-1]
    return kept.rstrip() + "..."


def heading(title: str, size: float, room: float, *, invented: bool) -> str:
    """Heading of a drawing: a long title is cut, but never that it is all invented."""
    made_up = " (invented example)" if invented else ""
    return cut_to(title, size, room - width_of(made_up, size, bold=True), bold=True) + made_up


def wrapped(words: str, size: float, room: float, *, most: int, bold: bool = False) -> list[str]:
    """Words on as many lines as they need, at most so many; the last one is cut if it must be."""
    lines: list[str] = []
    for word in words.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_of(longer, size, bold=bold) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    if len(lines) > most:
        lines[most - 1 :] = [" ".join(lines[most - 1 :])]
    return [cut_to(line, size, room, bold=bold) for line in lines]


def type_set(x: float, y: float, words: str, size: float, look: str = "", *, anchor: str = "start") -> str:
    """Return one line of type; `look` names classes of `drawing.css`."""
    at = "" if anchor == "start" else f' text-anchor="{anchor}"'
    place = f'x="{x:.1f}" y="{y:.1f}" font-size="{size:g}"{at}'
    return f"<text {place} class={quoteattr(f'type {look}'.strip())}>{escape(words)}</text>"


def line(points: str, look: str, more: str = "") -> str:
    """Return an open line along the commands of a path."""
    return f'<path d="{points}" class={quoteattr(look)} fill="none"{f" {more}" if more else ""}/>'


def box(x: float, y: float, width: float, height: float, look: str, more: str = "") -> str:
    """Return a rectangle."""
    size = f'width="{max(width, 0.0):.1f}" height="{max(height, 0.0):.1f}"'
    return f'<rect x="{x:.1f}" y="{y:.1f}" {size} class={quoteattr(look)}{f" {more}" if more else ""}/>'


def figure(kind: str, width: float, height: float, title: str, description: str, body: list[str]) -> str:
    """Return a whole drawing; its title and description speak for it where it cannot be seen."""
    name = f"drawing-{kind}"
    return "\n".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.0f} {height:.0f}" class="drawn {kind}" '
            f'role="group" aria-labelledby="{name}-title {name}-says">',
            f'<title id="{name}-title">{escape(title)}</title>',
            f'<desc id="{name}-says">{escape(description)}</desc>',
            *body,
            "</svg>",
        )
    )


def style() -> str:
    """Return the style sheet of the drawings."""
    return resources.files("toptank.interfaces.web.drawing").joinpath("drawing.css").read_text(encoding="utf-8")


def standing_alone(drawing: str, ground: str = "#fffdf8") -> str:
    """Return a drawing as the text of a file that needs nothing else: style inside, tokens filled in for paper."""
    plain = _SCREEN_ONLY.sub("", style().partition(_AROUND)[0])
    for _ in range(_INNERMOST):
        plain = _TOKEN.sub(r"\1", plain)
    head, _, rest = drawing.partition(">")
    size = re.search(r'viewBox="0 0 (\d+) (\d+)"', head)
    measure = f' width="{size[1]}" height="{size[2]}"' if size else ""
    paper = f'<rect width="100%" height="100%" fill="{ground}"/>'
    return f"{head}{measure}><style>{plain}</style>{paper}{rest}\n"
