"""After a restart the last answer stands there at once, and is worked out anew meanwhile."""

from collections.abc import Callable
from typing import Any

from playwright.sync_api import Page, expect


def test_after_a_restart_the_causes_are_there_before_they_are_worked_out(
    serve_anew: Callable[..., Any], open_page: Callable[..., Page]
) -> None:
    server = serve_anew()
    page = open_page("/", at=server)
    page.get_by_role("button", name="Open the example").click()
    page.wait_for_url("**/complaint")
    causes = page.url.removeprefix(server.address).replace("/complaint", "/causes")
    page.goto(server.address + causes)
    page.locator("#may-be").wait_for()
    told = page.locator(".answer").first.inner_text()
    page.close()
    server.kill()
    server.start()

    page = open_page(causes, at=server)
    expect(page.get_by_role("progressbar").first).to_be_visible()  # it is being worked out anew
    assert page.locator(".answer").first.inner_text() == told
    expect(page.locator(".stale #may-be")).to_have_count(0)
