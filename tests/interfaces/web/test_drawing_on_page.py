"""The what-if strip and the drawings as a person meets them: turned, touched, reached by keyboard, read aloud."""

import re
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import httpx
import pytest
from playwright.sync_api import Page, expect

SLOW = 120_000
"""The first answer compiles the model, on a machine that others share [ms]."""

EXAMPLE = Path(__file__).parents[3] / "examples" / "orchard-minibus.toml"
TURN = "(dial, value) => { dial.value = value; dial.dispatchEvent(new Event('input', { bubbles: true })) }"


@pytest.fixture
def number(server: Any) -> int:
    opened = httpx.post(
        f"{server.address}/api/v1/jobs", json={"file": EXAMPLE.read_text(encoding="utf-8")}, timeout=120
    )
    return opened.json()["number"]


def _answer(page: Page) -> Any:
    return page.locator(".what-if .big")


@pytest.mark.parametrize("size", ["tablet", "phone"])
def test_the_strip_answers_while_a_dial_is_turned(
    size: str, open_page: Callable[..., Page], number: int, server: Any
) -> None:
    page = open_page(f"/job/{number}/coolant", size=size)
    expect(_answer(page)).to_contain_text("gauge", timeout=SLOW)
    usual = _answer(page).inner_text()
    _open(page)
    page.get_by_label("Condition", exact=True).select_option("ridge climb")
    expect(_answer(page)).not_to_have_text(usual)
    page.locator("#what-if-ambient").evaluate(TURN, 115)
    expect(page.locator("output[for=what-if-ambient]")).to_have_text("115 °F")
    expect(page.locator("#what-if-ambient")).to_have_attribute("aria-valuetext", "115 °F")
    expect(page.locator(".what-if div.band")).to_contain_text("as in the job")
    over = re.search(r"over your limit in (\d+) of 100|Boils in (\d+) of 100", _settled(page))
    assert over is not None
    asked = {"duty": "ridge climb", "ambient": "115 F"}
    told = httpx.get(f"{server.address}/api/v1/jobs/{number}/what-if", params=asked, timeout=60).json()
    assert int(over[1] or over[2]) == pytest.approx(
        told["over_limit_pct" if over[1] else "chance_to_boil_pct"], abs=0.51
    )
    page.locator("#what-if-speed").focus()
    page.keyboard.press("ArrowRight")
    expect(page.locator("output[for=what-if-speed]")).to_have_text("36 mph")
    page.get_by_role("button", name="As in the job").click()
    expect(page.locator("output[for=what-if-ambient]")).to_have_text("92 °F")
    expect(page.locator(".what-if div.band")).not_to_contain_text("as in the job")
    wide = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert wide <= 0


def _open(page: Page) -> None:
    """Open the line at the foot of the page: its dials are folded away."""
    page.locator(".what-if summary.strip").click()


def _settled(page: Page) -> str:
    """The words of the strip once they no longer change."""
    before = ""
    for _ in range(100):
        now = _answer(page).inner_text()
        if now == before:
            return now
        before = now
        time.sleep(0.4)
    raise AssertionError("the strip never comes to rest")


def test_a_part_of_the_loop_tells_of_itself_and_leads_to_its_fields(
    open_page: Callable[..., Page], number: int
) -> None:
    page = open_page(f"/job/{number}/coolant")
    expect(_answer(page)).to_contain_text("gauge", timeout=SLOW)
    _open(page)
    page.locator(".what-if summary", has_text="The loop at this condition").click()
    part = page.get_by_role("button", name=re.compile("^core, downflow"))
    part.focus()
    page.keyboard.press("Enter")
    card = page.locator(".part-card")
    expect(card.get_by_role("heading", name="core")).to_be_visible()
    card.locator("summary").click()
    expect(card).to_contain_text("effectiveness")  # the equations, by the heads of their modules
    expect(card).to_contain_text("width of the finned face: 25.2 in")
    card.get_by_role("link", name="Its fields on the sheet").click()
    expect(page.locator("#f-core-face-width")).to_be_focused()
    page.get_by_text("The loop as a drawing").click()
    page.get_by_role("button", name=re.compile("^water pump")).get_by_text("water pump").click()
    page.get_by_role("link", name="Its fields on the sheet").click()
    expect(page.locator('[data-path^="water_pump."] :focus')).to_be_visible()


def test_what_another_program_saves_reaches_the_strip(open_page: Callable[..., Page], number: int, server: Any) -> None:
    page = open_page(f"/job/{number}/coolant")
    expect(_answer(page)).to_contain_text("gauge", timeout=SLOW)
    cooler = EXAMPLE.read_text(encoding="utf-8").replace('name = "river road"', 'name = "valley road"')
    assert cooler.count("valley road") == 1
    readings = re.sub(r'\[\[reading\]\]\nduty = "river road".*?(?=\n\[\[)', "", cooler, flags=re.DOTALL)
    sent = {"file": readings, "based_on": 1}
    saved = httpx.put(f"{server.address}/api/v1/jobs/{number}", json=sent, timeout=120)
    assert saved.status_code == 200, saved.text
    expect(page.get_by_label("Condition", exact=True).locator("option", has_text="valley road")).to_have_count(1)


def test_a_diagnosis_made_meanwhile_is_gone_on_with(open_page: Callable[..., Page], number: int, server: Any) -> None:
    changed = EXAMPLE.read_text(encoding="utf-8").replace('face_width = "25 1/4 in"', 'face_width = "25 in"')
    httpx.put(
        f"{server.address}/api/v1/jobs/{number}", json={"file": changed, "based_on": 1}, timeout=120
    ).raise_for_status()
    page = open_page(f"/job/{number}/coolant")
    expect(page.locator(".what-if")).to_contain_text("Rests on the sheet alone", timeout=SLOW)
    httpx.get(f"{server.address}/api/v1/jobs/{number}/diagnosis", timeout=120).raise_for_status()
    expect(page.locator(".what-if")).to_contain_text("Rests on what the diagnosis left")


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_strip_and_loop_are_fit_for_everyone(theme: str, open_page: Callable[..., Page], number: int) -> None:
    from axe_playwright_python.sync_playwright import Axe

    page = open_page(f"/job/{number}/coolant", theme=theme)
    expect(_answer(page)).to_contain_text("gauge", timeout=SLOW)
    _open(page)
    page.locator(".what-if summary", has_text="The loop at this condition").click()
    page.wait_for_selector(".what-if svg.loop")
    found = Axe().run(page, ".what-if")
    assert found.violations_count == 0, found.generate_report()
