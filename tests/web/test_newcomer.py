"""What held up somebody who had never seen the app: each stays mended."""

import re
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

SLOW = 120_000
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
    from toptank.jobs import edit_verbs, job_verbs

    monkeypatch.setenv("TOPTANK_STORE", str(server.store))
    number = job_verbs.open_example().job
    edit_verbs.set_field(number, "job.limit", "195 F")  # what no plan holds surely enough to be worth its price
    page = open_page(f"/job/{number}/order")
    expect(page.get_by_text("No plan on the list holds the worst day")).to_be_visible(timeout=SLOW)
    offered = page.get_by_role("button", name=re.compile("^Order this"))
    plan = (offered.first.get_attribute("aria-label") or "").removeprefix("Order this: ")
    offered.first.click()
    expect(page.locator("#plan")).to_have_value(re.compile(re.escape(plan), re.IGNORECASE), timeout=SLOW)
    page.goto(f"{server.address}/job/{number}/order")
    expect(page.locator("#plan")).to_have_value(re.compile(re.escape(plan), re.IGNORECASE), timeout=SLOW)

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
