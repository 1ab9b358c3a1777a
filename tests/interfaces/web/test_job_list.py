"""The list of jobs follows what is typed, shows how each job stands, and what it was promised for."""

import re
from collections.abc import Callable
from typing import Any

import httpx
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

JOBS = (
    {"title": "White pickup", "complaint": "boils on the pass", "customer": "J. Miller", "registration": "KB 17-21",
     "waiting_for": "parts", "promised": "2020-01-02 noon"},
    {"title": "Green bus", "complaint": "hot at idle", "customer": "A. Ortega", "registration": "KB 90-11",
     "waiting_for": "", "promised": "2099-12-31"},
)  # fmt: skip


@pytest.fixture
def shop(serve_anew: Callable[..., Any]) -> Any:
    """Start a server of a shop with two jobs."""
    server = serve_anew()
    for one in JOBS:
        said = {key: one[key] for key in ("customer", "registration", "promised", "waiting_for") if one[key]}
        told = {"like": "pickup-1970s-v8-air", "title": one["title"], "complaint": one["complaint"]}
        number = httpx.post(f"{server.address}/api/v1/jobs", json=told, timeout=120).json()["number"]
        answer = httpx.post(f"{server.address}/api/v1/jobs/{number}/write-up", json=said, timeout=120)
        assert answer.status_code == 200, answer.text
    return server


def test_the_list_follows_the_typing_and_the_states_and_the_address_says_both(
    shop: Any, open_page: Callable[..., Page]
) -> None:
    page = open_page("/", at=shop)
    rows = page.locator(".jobs li")
    expect(rows).to_have_count(2)
    page.get_by_role("searchbox").press_sequentially("kb9011")
    expect(rows).to_have_count(1)
    expect(rows.first).to_contain_text("Green bus")
    expect(page).to_have_url(re.compile(r"/\?search=kb9011$"))
    page.get_by_role("button", name="Waiting for parts").click()
    expect(page.get_by_text("No job fits")).to_be_visible()
    expect(page).to_have_url(re.compile(r"search=kb9011&state=waiting_for_parts$"))
    expect(page.get_by_role("searchbox")).to_have_value("kb9011")
    page.get_by_role("searchbox").fill("")
    expect(rows).to_have_count(1)
    expect(rows.first).to_contain_text("J. Miller, KB 17-21")
    expect(rows.first).to_contain_text("waiting for parts")
    expect(rows.first).to_contain_text("late: promised 2020-01-02 noon")
    page.get_by_role("searchbox").fill("pass")
    expect(page).to_have_url(re.compile(r"search=pass&state=waiting_for_parts$"))
    page.reload()
    expect(page.get_by_role("searchbox")).to_have_value("pass")
    expect(rows).to_have_count(1)
    expect(page.get_by_role("button", name="Waiting for parts")).to_have_attribute("aria-pressed", "true")


@pytest.mark.parametrize("size", ["tablet", "phone"])
def test_the_list_has_no_fault_that_a_screen_reader_would_meet(
    shop: Any, open_page: Callable[..., Page], size: str
) -> None:
    page = open_page("/?search=kb", size=size, at=shop)
    expect(page.locator(".jobs li")).to_have_count(2)
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
