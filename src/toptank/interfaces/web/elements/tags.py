"""Plain HTML elements with our own classes. Every text goes through the framework as text, never as markup."""

import json
import re
from collections.abc import Awaitable, Callable, Generator, Sequence
from contextlib import contextmanager
from typing import TypeAlias

from nicegui import ui
from nicegui.elements.mixins.text_element import TextElement
from nicegui.events import GenericEventArguments, Handler

Event: TypeAlias = GenericEventArguments
Attribute: TypeAlias = "str | float | bool | None"
"""Of an element; None takes it away, True is one without a value."""

Renew: TypeAlias = Callable[[], Awaitable[None]]
"""What brings a page up to date after a change, where it is not built anew."""

_PARTS = re.compile(r"(?<=\d) (?=[%°])")
"""Where a figure would part from its sign at the end of a line."""


class Tag(TextElement):
    """An HTML element: a tag, its text, its classes, its attributes."""

    def __init__(self, tag: str, /, text: str = "", classes: str = "", **attributes: Attribute) -> None:
        """Make it; an underscore in the name of an attribute is a hyphen, one at its end is dropped."""
        written = tag == "textarea"  # words of a person stay as they are
        super().__init__(tag=tag, text=text if written else _PARTS.sub("\u00a0", text))
        if classes:
            self.classes(classes)
        for name, value in attributes.items():
            self.put(name, value)

    def put(self, name: str, value: Attribute) -> "Tag":
        """Set an attribute; None takes it away."""
        key = name.rstrip("_").replace("_", "-")
        if value is None:
            self.props.pop(key, None)
        else:
            self.props[key] = value
        return self


def tag(kind: str, /, text: str = "", classes: str = "", **attributes: Attribute) -> Tag:
    """Put an element here."""
    return Tag(kind, text, classes, **attributes)


def press(text: str, on_press: Handler[Event], classes: str = "", **attributes: Attribute) -> Tag:
    """Put a button here."""
    button = Tag("button", text, f"press {classes}", type="button", **attributes)
    button.on("click", on_press)
    return button


def link(text: str, address: str, classes: str = "", **attributes: Attribute) -> Tag:
    """Put a link here."""
    return Tag("a", text, classes, href=address, **attributes)


def heard(box: Tag, keep: Callable[[str], object]) -> Tag:
    """Hand on what is typed into a box or chosen in it, keystroke by keystroke."""
    happens = "change" if box.tag == "select" else "input"
    box.on(happens, lambda event: keep(str(event.args or "")), js_handler="(e) => emit(e.target.value)")
    return box


def stands_first(box: Tag, text: str) -> Tag:
    """Let a text stand in a box at first, whatever is typed over it.

    As an attribute: as a property each change of the page would put it back over what is being typed.
    """
    box.props["^value"] = text
    return box


@contextmanager
def table(label: str, heads: Sequence[str]) -> Generator[None]:
    """Put a table here that scrolls by itself where it is too wide; the rows are put inside."""
    with (
        tag("div", classes="scroll", tabindex="0", role="region", aria_label=f"table: {label}"),
        tag("table", classes="roll"),
    ):
        with tag("thead"), tag("tr"):
            for head in heads:
                if head:
                    tag("th", head, scope="col")
                else:
                    tag("td")
        with tag("tbody"):
            yield


def drawn(svg: str, title: str, classes: str = "picture") -> Tag:
    """Put a picture of our own here. What people typed in it was escaped where it was drawn."""
    figure = Tag("figure", "", classes, role="img", aria_label=title, tabindex="0")
    with figure:
        ui.html(svg, sanitize=False)
    return figure


def drop_draft(name: str) -> None:
    """Empty an input of that id, and forget what this tab kept of it: it is written down."""
    ui.run_javascript(f"window.toptank.drop({json.dumps(name)})")


def say(words: str) -> None:
    """Tell something in passing, on the screen and to a screen reader."""
    ui.run_javascript(f"window.toptank.say({json.dumps(words)})")
