"""What every page has, of a job or not: its look, the switches of its head, the line at its foot."""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING

from nicegui import ui

from toptank.interfaces.web.access.guard import ASKED
from toptank.interfaces.web.elements.tags import link, tag

if TYPE_CHECKING:
    from collections.abc import Generator

    from nicegui.client import Client

FACES = ("barlow-latin-400-normal.woff2", "barlow-latin-600-normal.woff2", "barlow-condensed-latin-600-normal.woff2")
"""Type that is there before the first line is set: a line set anew in another face would jump."""


def dress(title: str) -> None:
    """Give a page our look and its title."""
    ui.add_head_html(
        "".join(
            f'<link rel="preload" href="/look/fonts/{face}" as="font" type="font/woff2" crossorigin>' for face in FACES
        )
        + '<link rel="stylesheet" href="/look/look.css"><link rel="stylesheet" href="/look/drawing/drawing.css">'
        '<script src="/look/bench.js"></script>'
    )
    ui.page_title(f"{title} · toptank")


@contextmanager
def plain_page(title: str) -> Generator[None]:
    """Frame of a page that belongs to no job."""
    dress(title)
    link("Skip to the page", "#page", "skip")
    with tag("header", classes="top"), tag("div", classes="top-in"):
        link("toptank", "/", "home")
        tag("span")
        with tag("div", classes="switches"):
            link("The shop", "/settings", "press plain")
            light_switch()
            way_out(ui.context.client)
    with tag("div", classes="page", tabindex="-1") as main:
        main.props["id"] = "page"
        yield
    foot()


def light_switch() -> None:
    """The button that turns the page light or dark."""
    with tag(
        "button", classes="press plain", type="button", aria_label="light or dark", title="light or dark"
    ) as button:
        tag("span", "◐", aria_hidden="true")
        tag("span", "Light/dark", "of-the-light")
    button.on("click", js_handler="() => window.toptank.turnLight()")


def way_out(client: Client) -> None:
    """Where a passphrase was asked, a browser that others may use can be signed out."""
    if client.request.scope.get(ASKED):
        with tag("form", method="post", action="/sign-out"):
            tag("button", "Sign out", "press plain", type="submit")


def foot() -> None:
    """The line under every page, and the place where it says what happened."""
    tag(
        "footer",
        "Everything stays on this machine. Forecasts are bands, not promises: measure before parts are bought.",
        "foot",
    )
    tag("div", "", "said", role="status", aria_live="polite")
