"""Whoever writes on a page writes on: a save, his own or another's, moves nothing from under his fingers."""

import re
import tomllib
from collections.abc import Callable
from typing import Any

import httpx
import pytest
from playwright.sync_api import Page

KEY = 220.0
"""From one key to the next [ms]: a careful typist."""


@pytest.fixture
def opened(serve_anew: Callable[..., Any], open_page: Callable[..., Page]) -> tuple[Page, str, int]:
    server = serve_anew()
    page = open_page("/", at=server)
    page.get_by_role("button", name="Open the example").click()
    page.wait_for_url(re.compile(r"/job/\d+/complaint"))
    return page, server.address, int(re.findall(r"/job/(\d+)/", page.url)[0])


def _kept(address: str, number: int) -> dict[str, Any]:
    return tomllib.loads(httpx.get(f"{address}/api/v1/jobs/{number}", timeout=120).json()["text"])


def _typed(page: Page, first: str, second: str, figures: tuple[str, str]) -> None:
    for field, figure in zip((first, second), figures, strict=True):
        page.locator(f'[id="{field}"]').click()
        page.keyboard.press("Control+A")
        page.keyboard.type(figure, delay=KEY)
    page.wait_for_timeout(3500)


@pytest.mark.parametrize(
    ("step", "first", "second"),
    [("coolant", "cap.pressure", "cap.holds"), ("fit", "fit.support_depth", "fit.saddle_width")],
)
def test_a_figure_stays_in_its_field_while_the_one_before_is_saved(
    opened: tuple[Page, str, int], step: str, first: str, second: str
) -> None:
    page, address, number = opened
    page.goto(f"{address}/job/{number}/{step}")
    ids = [f"f-{path.replace('.', '-').replace('_', '-')}" for path in (first, second)]
    page.locator(f'[id="{ids[1]}"]').wait_for(state="attached")
    for path in ids:  # what is folded away is opened
        page.evaluate(
            "(id) => { const d = document.getElementById(id).closest('details'); if (d) d.open = true; }", path
        )
    page.wait_for_timeout(1000)
    figures = ("13", "95 %") if step == "coolant" else ("2 1/4", "3 1/8")
    _typed(page, ids[0], ids[1], figures)
    kept = _kept(address, number)
    for path, figure in zip((first, second), figures, strict=True):
        table, key = path.split(".")
        value = kept[table][key]
        stands = str(value["value"] if isinstance(value, dict) else value)
        assert stands.startswith(figure), path
    assert page.evaluate("document.activeElement.id") == ids[1]


def test_a_save_by_somebody_else_waits_for_who_writes_and_gives_the_place_back(
    opened: tuple[Page, str, int],
) -> None:
    page, address, number = opened
    page.goto(f"{address}/job/{number}/record")
    box = page.locator("textarea").first
    box.click()
    page.wait_for_timeout(500)
    for piece in ("the clutch ", "was stiff ", "this morning"):
        page.keyboard.type(piece, delay=60)
        reading = {"duty": "farm gate", "gauge": f"{205 + len(piece)} F"}
        saved = httpx.post(f"{address}/api/v1/jobs/{number}/readings", json=reading, timeout=120)
        assert saved.status_code < 300, saved.text
    page.wait_for_timeout(5000)
    assert box.input_value() == "the clutch was stiff this morning"
    page.keyboard.type(", cold")
    assert box.input_value() == "the clutch was stiff this morning, cold"
