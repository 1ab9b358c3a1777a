"""The customer's page to send: as a file, and as a square code for another phone or tablet of the shop's network."""

from __future__ import annotations

from ipaddress import ip_address
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import segno
from nicegui import ui

from toptank.interfaces.web.elements.tags import link, tag

if TYPE_CHECKING:
    from toptank.interfaces.web.frame import JobPage

SCALE, EDGE = 5, 4
"""Size of a square of the code [px], and white squares round it: ISO/IEC 18004 asks for four."""


def to_send(page: JobPage, plan: str) -> None:
    """Put the ways to send the customer's page here."""
    address = f"/job/{page.number}/customer.pdf{plan}"
    with tag("details", classes="sheet folded"):
        tag("summary", "Send the customer's page")
        with tag("div", classes="line-up"):
            link("Customer's page, PDF", address, "press", download=True)
            link("As a web page", f"/job/{page.number}/customer.html{plan}", "press plain", download=True)
        request = page.client.request
        if reached_by_others(str(request.base_url)):
            code = qr_code(str(request.base_url).rstrip("/") + address)
            tag("p", "On a phone or tablet of the shop's network, which asks for the passphrase:")
            ui.html(code, sanitize=False).classes("qr-code").props("role=img aria-label='code of the page'")
        else:
            told = "A code for a phone appears here once this page is opened by the address for others: "
            tag("p", f"{told}toptank serve --lan tells it.", "small quiet")


def reached_by_others(base: str) -> bool:
    """Whether an address leads here from other machines too, and not from this one alone."""
    host = urlsplit(base).hostname or ""
    try:
        return not ip_address(host).is_loopback
    except ValueError:
        return host not in ("", "localhost") and not host.endswith(".localhost")


def qr_code(address: str) -> str:
    """Return the code of an address as SVG, black on white in any light: a camera wants it so."""
    return segno.make_qr(address, error="m").svg_inline(scale=SCALE, border=EDGE, dark="#000", light="#fff")
