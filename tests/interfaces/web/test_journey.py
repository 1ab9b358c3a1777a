"""From an empty folder to a printed order, as somebody does who has never seen the app."""

import re
from collections.abc import Callable
from typing import Any

import httpx
import pytest
from playwright.sync_api import Page, expect

SLOW = 300_000
"""A diagnosis and a choice, on a machine that others share [ms]."""


def _field(page: Page, label: str) -> Any:
    return page.get_by_label(re.compile(rf"^{re.escape(label)}"), exact=False).first


def _write(page: Page, label: str, text: str) -> None:
    """Type into a field and wait until it is in the record."""
    box = _field(page, label)
    box.fill(text)
    box.blur()
    expect(page.locator('.field[data-state="saved"]', has=page.locator(f"#{box.get_attribute('id')}"))).to_be_visible()


@pytest.mark.parametrize("size", ["tablet", "desktop"])
def test_a_new_vehicle_goes_from_its_complaint_to_a_printed_order(
    size: str, open_page: Callable[..., Page], server: Any
) -> None:
    page = open_page("/", size=size)
    page.get_by_label("What is it most like?").select_option(
        label="1970s half-ton pickup, 5.0 L V8, automatic, air conditioning"
    )
    page.get_by_label("What do you call it?").fill("Green pickup, hauls hay")
    page.get_by_label("What does the driver say?").fill("Climbs to three quarters on the long grade, fine on the flat.")
    page.get_by_role("button", name="Open the job").click()
    page.wait_for_url(re.compile(r"/job/\d+/complaint"))
    number = int(re.findall(r"/job/(\d+)/", page.url)[0])

    for label, text in (("air temperature outside", "95"), ("road speed", "45 mph"), ("grade of the road", "6 %")):
        _write(page, label, text)
    page.get_by_label("Temperature seen").fill("235")
    page.get_by_role("button", name="Write it down: where it runs hot").click()
    expect(page.get_by_label("Temperature read")).to_have_value("235 °F")
    expect(_field(page, "air temperature outside")).to_have_value("95 °F")

    page.get_by_role("link", name=re.compile("Next: Sheet")).click()
    _write(page, "rows of tubes", "2")
    _write(page, "width of the finned face", "24 5/8")
    expect(page.get_by_text("= 24.6 in")).to_be_visible()

    page.get_by_role("link", name=re.compile("Next: Causes")).click()
    card = page.get_by_role("region", name=re.compile("^check: ")).first
    card.wait_for(timeout=SLOW)
    name = (card.get_attribute("aria-label") or "").removeprefix("check: ")
    _record_an_outcome(page, card)
    made = page.get_by_role("region", name="checks made")
    expect(made.get_by_text(f"{name}: ")).to_be_visible(timeout=SLOW)

    page.get_by_role("link", name="4 Remedies").click()
    page.get_by_role("button", name="Write the order").click(timeout=SLOW)
    page.frame_locator("iframe.paper-preview").get_by_text("Green pickup, hauls hay").first.wait_for(timeout=SLOW)
    address = page.get_by_role("link", name="PDF for the printer").get_attribute("href")
    paper = httpx.get(f"{server.address}{address}", timeout=60)
    assert (paper.status_code, paper.headers["content-type"], paper.content[:5]) == (200, "application/pdf", b"%PDF-")

    _tick(open_page, page)
    _say_more(page, number, f"{server.address}/job/{number}/order.html")
    page.get_by_role("link", name="8 Road test").click()
    _note_what_was_seen(page)
    page.get_by_role("link", name="9 Record").click()
    page.get_by_label("Cause that was found").select_option(index=1)
    page.get_by_role("button", name="Close the job").click()
    expect(page.locator(".vehicle")).to_contain_text(f"Job {number} · closed")


def _record_an_outcome(page: Page, card: Any) -> None:
    if card.get_by_role("textbox").count():
        card.get_by_role("textbox").fill("10")
        card.get_by_role("button", name=re.compile("^Write it down")).click()
    else:
        card.get_by_role("listitem").last.get_by_role("button").click()


def _say_more(page: Page, number: int, paper: str) -> None:
    """What the driver adds stands on the paper, though no figure has moved and nothing is reckoned anew."""
    order = page.url
    page.goto(page.url.partition(f"/job/{number}")[0] + f"/job/{number}/complaint")
    _write(page, "The driver's own words", "Climbs to three quarters, and hums on the grade.")
    page.goto(order)
    assert "hums on the grade" in httpx.get(paper, timeout=60).text


def _tick(open_page: Callable[..., Page], page: Page) -> None:
    """A step that is ticked here is ticked on the other tablet, and stays so."""
    other = open_page("/" + page.url.split("/", 3)[3])
    step = other.get_by_role("region", name="At the bench").get_by_role("checkbox").first
    expect(step).not_to_be_checked(timeout=SLOW)
    page.get_by_role("region", name="At the bench").get_by_role("checkbox").first.check()
    expect(step).to_be_checked()
    page.reload()
    expect(page.get_by_role("region", name="At the bench").get_by_role("checkbox").first).to_be_checked(timeout=SLOW)


def _note_what_was_seen(page: Page) -> None:
    box = page.get_by_label("The gauge showed").first
    box.wait_for(timeout=SLOW)
    box.fill("12 psi")
    page.get_by_role("button", name=re.compile("^Write it down")).first.click()
    expect(page.get_by_role("alert").filter(has_text="is not a unit of temperature")).to_be_visible()
    box.fill("350")
    page.get_by_role("button", name=re.compile("^Write it down")).first.click()
    expect(page.get_by_role("alert").filter(has_text="must lie between")).to_be_visible()
    box.fill("205")
    page.get_by_role("button", name=re.compile("^Write it down")).first.click()
    expect(page.get_by_role("status").filter(has_text="conditions that were driven")).to_be_visible(timeout=SLOW)


def test_the_first_page_takes_less_than_two_seconds_of_work_once_the_server_is_announced(
    serve_anew: Callable[..., Any], open_page: Callable[..., Page]
) -> None:
    server = serve_anew()
    answer = httpx.get(server.address, timeout=120)
    assert server.worked() - server.announced < 2.0  # in a browser: benchmarks/browsers.py
    assert "New job" in answer.text
    page = open_page("/", at=server)
    expect(page.get_by_role("button", name="Open the example")).to_be_visible()
