"""What held up somebody who had never seen the app: each stays mended."""

import re
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

RIGHT = "four words in a row"
SLOW = 300_000
"""A diagnosis and a choice, on a machine that others share [ms]."""


def test_a_condition_is_renamed_and_its_reading_written_down_in_one_go(open_page: Callable[..., Page]) -> None:
    page = open_page("/")
    page.get_by_role("button", name="Open the job").click()
    expect(page.get_by_role("alert").filter(has_text="Choose first what it is most like")).to_be_visible()
    page.get_by_label("What is it most like?").select_option(index=1)
    page.get_by_role("button", name="Open the job").click()
    page.wait_for_url(re.compile(r"/job/\d+/complaint"))
    page.wait_for_function("() => window.did_handshake === true")
    page.get_by_label("Temperature seen").fill("228")
    page.get_by_label("What is it doing?").fill("up the pass")
    page.get_by_role(
        "button", name=re.compile("^Write it down")
    ).click()  # the field is left, and saved, by this very press
    expect(page.get_by_label("Temperature read")).to_have_value("228 °F")
    expect(page.get_by_role("heading", name="up the pass")).to_be_visible()


def test_where_no_plan_holds_the_order_offers_them_and_keeps_the_one_taken(
    open_page: Callable[..., Page], server: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    from toptank.shop.edit import edit
    from toptank.shop.record import job_verbs

    monkeypatch.setenv("TOPTANK_STORE", str(server.store))
    number = job_verbs.open_example().job
    edit.set_field(number, "job.limit", "186 F")  # a thermostat of 180 °F is not yet wide open there: no plan holds it
    page = open_page(f"/job/{number}/order")
    expect(page.get_by_text("No plan on the list holds the worst day")).to_be_visible(timeout=SLOW)
    offered = page.get_by_role("button", name=re.compile("^Order this"))
    plan = (offered.first.get_attribute("aria-label") or "").removeprefix("Order this: ")
    offered.first.click()
    taken = page.locator("#plan option:checked")  # its value are ids, its text is the name
    expect(taken).to_have_text(re.compile(f"^{re.escape(plan)}$", re.IGNORECASE), timeout=SLOW)
    page.goto(f"{server.address}/job/{number}/order")
    expect(taken).to_have_text(re.compile(f"^{re.escape(plan)}$", re.IGNORECASE), timeout=SLOW)

    page.goto(f"{server.address}/job/{number}/remedies")
    page.get_by_text("Which plans, 4 at most").click()
    beside = page.get_by_role("region", name="Side by side")
    boxes = beside.get_by_role("checkbox")
    for place in range(boxes.count()):
        if boxes.nth(place).is_checked():
            boxes.nth(place).uncheck()
    expect(beside.get_by_text("None is picked.")).to_be_visible()
    boxes.last.check()
    expect(beside.get_by_role("columnheader")).to_have_count(1)


def test_another_tab_of_a_browser_that_signed_out_says_so_and_keeps_what_is_typed(
    serve_anew: Callable[..., Any], browser: Browser, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TOPTANK_PASSPHRASE", RIGHT)
    server = serve_anew("--lan", "--no-tls")
    context = browser.new_context()
    context.set_default_timeout(15_000)

    def signed_in() -> Page:
        page = context.new_page()
        page.goto(f"{server.address}/sign-in")
        page.get_by_label("Passphrase").fill(RIGHT)
        page.get_by_role("button", name="Come in").click()
        page.get_by_role("heading", name="Jobs").wait_for()
        return page

    one = signed_in()
    one.get_by_label("What is it most like?").select_option(index=1)
    one.get_by_role("button", name="Open the job").click()
    one.wait_for_url(re.compile(r"/job/1/complaint"))
    one.wait_for_function("() => window.did_handshake === true")
    other = context.new_page()
    other.goto(server.address)
    other.get_by_role("button", name="Sign out").click()
    other.get_by_role("heading", name="Who is there?").wait_for()

    one.get_by_label("The driver's own words").fill("boils at the gate")
    expect(one.get_by_role("alert").filter(has_text="This browser is signed out")).to_be_visible()
    expect(one.get_by_text("kept here, not saved: signed out")).to_be_visible()
    signed_in()
    saved = one.locator('.field[data-path="job.complaint"][data-state="saved"]')
    expect(saved.get_by_role("textbox")).to_have_value("boils at the gate")
    expect(one.get_by_role("alert").filter(has_text="This browser is signed out")).to_have_count(0)
    context.close()


def test_where_nothing_needs_to_be_done_the_list_of_plans_says_so(
    open_page: Callable[..., Page], server: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    from toptank.shop.edit import edit
    from toptank.shop.record import job_verbs

    monkeypatch.setenv("TOPTANK_STORE", str(server.store))
    # nobody complained, and the worst day is a mild one: no work is worth what it adds to the chance to hold
    number = job_verbs.open_told("coupe-1960s-v8-air", title="Sound", complaint="", system="us").job
    edit.set_worst_day(number, [{"name": "Sunday in spring", "ambient": "55 F", "speed": "40 mph"}])
    page = open_page(f"/job/{number}/order")
    expect(page.locator("#plan")).to_have_value("nothing", timeout=SLOW)
    expect(page.frame_locator("iframe").get_by_text("eave it as it is").first).to_be_visible()
