"""What the complaint tells is put before the reader with its words; a press writes it down, another takes it out."""

import re
import tomllib
from collections.abc import Callable
from typing import Any

import httpx
from playwright.sync_api import Page, expect


def _symptoms(address: str, number: int) -> list[dict[str, str]]:
    text = httpx.get(f"{address}/api/v1/jobs/{number}", timeout=120).json()["text"]
    return tomllib.loads(text).get("symptom", [])


def test_a_proposal_counts_when_it_is_pressed_and_no_more_when_it_is_taken_out(
    serve_anew: Callable[..., Any], open_page: Callable[..., Page]
) -> None:
    """The example says "No puddle so far": a denial, proposed with these words, and not counted before."""
    server = serve_anew()
    page = open_page("/", at=server)
    page.get_by_role("button", name="Open the example").click()
    page.wait_for_url(re.compile(r"/job/\d+/complaint"))
    number = int(re.findall(r"/job/(\d+)/", page.url)[0])
    before = _symptoms(server.address, number)
    assert "puddle" not in {one["id"] for one in before}

    said = page.get_by_role("region", name="what the driver says")
    proposal = said.get_by_role("listitem").filter(has_text="puddle").first
    expect(proposal).to_contain_text("No puddle")
    proposal.get_by_role("button", name=re.compile("^Yes")).click()

    out = said.get_by_role("button", name=re.compile("^Take out: not so.*puddle"))
    expect(out).to_be_visible()
    assert {"id": "puddle", "told": "denied"} in _symptoms(server.address, number)
    out.click()
    expect(out).to_have_count(0)
    assert _symptoms(server.address, number) == before
