"""A row of buttons of which one is pressed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.interfaces.web.elements.tags import tag

if TYPE_CHECKING:
    from collections.abc import Callable

    from toptank.interfaces.web.elements.tags import Event, Tag


def one_of(words: list[tuple[str, str]], pick: Callable[[str], None], *, label: str, chosen: str = "") -> None:
    """A row of buttons of which one is pressed; a second touch takes it back."""
    buttons: dict[str, Tag] = {}
    pressed_now = [chosen]

    def touched(key: str) -> None:
        now = "" if pressed_now[0] == key else key
        pressed_now[0] = now
        pick(now)
        for one, button in buttons.items():
            button.put("aria_pressed", "true" if one == now else "false")
            button.update()

    with tag("div", classes="line-up one-of", role="group", aria_label=label):
        tag("span", label, "one-of-name", aria_hidden="true")
        for key, shown in words:
            pressed = "true" if key == chosen else "false"
            buttons[key] = tag(
                "button", shown, "press", type="button", aria_pressed=pressed, aria_label=f"{label}: {shown}"
            )

    def on(key: str) -> Callable[[Event], None]:
        return lambda _: touched(key)

    for key, button in buttons.items():
        button.on("click", on(key))
