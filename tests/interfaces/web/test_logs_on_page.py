"""A drive that was logged or noted, on the pages: asked about in the place, told in words, kept, and shown again."""

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import httpx
from axe_playwright_python.sync_playwright import Axe
from jsonschema import Draft202012Validator
from playwright.sync_api import Locator, Page, expect

from toptank.shop.answers.schemas import schemas

EXAMPLES = Path(__file__).parents[3] / "examples"
SLOW = 300_000
"""A diagnosis and a choice, on a machine that others share [ms]."""

NOTED = (
    ("14:00", "195", "50", "flat"), ("14:06", "196", "35", "5"), ("14:10", "228", "", ""),
    ("14:15", "244", "0", "flat"), ("14:20", "255", "", ""),
)  # fmt: skip
"""Much hotter than any vehicle that was mended."""

MANY = 45
"""Columns before the one that counts: more than a page shows at once."""

UNNAMED = f"T<b>1</b>;W1;{''.join(f'X{place};' for place in range(MANY))}V;Boost\n" + "".join(
    f"{10 * i};{90 + 0.2 * i:.1f};{'7;' * MANY}{0 if i > 45 else 80};1\n" for i in range(60)
)


def _example(page: Page) -> int:
    page.get_by_role("button", name="Open the example").click()
    page.wait_for_url(re.compile(r"/job/\d+/complaint"))
    page.wait_for_function("() => window.did_handshake === true")
    return int(re.findall(r"/job/(\d+)/", page.url)[0])


def _words(of: Locator) -> str:
    """What stands there; a figure and its sign do not part at the end of a line, which is no matter here."""
    return of.inner_text().replace("\u00a0", " ")


def _sent(server: Any, page: Page, verb: str, **told: Any) -> dict[str, Any]:
    """Ask over REST what the page was asked, of the same log; return what fits the schema of the command line."""
    number, checksum = re.findall(r"/job/(\d+)/\w+\?log=(\w+)", page.url)[0]
    told = {"log": checksum, "ambient": "92", **told}
    answer = httpx.post(f"{server.address}/api/v1/jobs/{number}/{verb}", json=told, timeout=120)
    assert answer.status_code == 201, answer.text
    Draft202012Validator(schemas()[f"answer-{verb}"]).validate(answer.json())
    return answer.json()


def _answers(server: Any, number: int) -> list[str]:
    return [one["kind"] for one in httpx.get(f"{server.address}/api/v1/jobs/{number}", timeout=120).json()["answers"]]


def _readable(page: Page) -> None:
    """The page can be read by everybody, and nothing of it is wider than the screen."""
    found = [f"{one['id']}: {one['nodes'][0]['html'][:120]}" for one in Axe().run(page).response["violations"]]
    assert found == []
    assert page.evaluate("() => document.documentElement.scrollWidth <= window.innerWidth")


def test_a_drive_noted_line_by_line_gets_its_verdict_and_keeps_it(open_page: Callable[..., Page], server: Any) -> None:
    page = open_page("/", size="phone")
    number = _example(page)
    page.goto(f"{server.address}/job/{number}/drive")
    page.wait_for_function("() => window.did_handshake === true")
    for line, cells in enumerate(NOTED, start=1):
        for key, text in zip(("at", "gauge", "speed", "grade"), cells, strict=True):
            page.locator(f"#line-{line}-{key}").fill(text)
    page.locator("#line-2-gauge").fill("196 psi")
    page.get_by_role("button", name="Keep these lines").click()
    expect(page.get_by_role("alert").filter(has_text="line 2, gauge")).to_be_visible()
    page.reload()  # nothing of it is lost
    expect(page.locator("#line-5-gauge")).to_have_value("255")
    page.locator("#line-2-gauge").fill("196")
    page.get_by_role("button", name="Keep these lines").click()
    page.wait_for_url(re.compile("log="), timeout=SLOW)
    press = page.get_by_role("button", name="Hold it beside the forecast")
    press.click()  # nobody has said how warm the air was
    expect(page.get_by_role("alert").filter(has_text="does not say how warm the air was")).to_be_visible()
    page.locator("#log-ambient").fill("92")
    press.click()
    expect(page.get_by_role("heading", name="Worse than forecast")).to_be_visible(timeout=SLOW)
    shown = page.get_by_role("region", name="Worse than forecast")
    for words in ("boils 26", "seen", "holds the worst day now", "come back up", "repair did not work"):
        expect(shown).to_contain_text(words)
    assert _answers(server, number) == ["verdict"]
    _readable(page)
    words = _words(page.get_by_role("region", name="Worse than forecast"))
    again = _sent(server, page, "verify", units="us")
    assert f"{again['worst_day']['holds_now_pct']:.0f} %" in words  # the same verbs, the same answer
    assert _answers(server, number) == ["verdict", "verdict"]
    page.goto(f"{server.address}/job/{number}/drive")
    expect(page.get_by_role("heading", name="Worse than forecast")).to_be_visible()
    assert _answers(server, number) == ["verdict", "verdict"]  # it was shown, not reckoned again


def test_columns_are_asked_for_and_a_log_before_the_work_moves_the_causes(
    open_page: Callable[..., Page], server: Any, tmp_path: Path
) -> None:
    page = open_page("/")
    number = _example(page)
    page.goto(f"{server.address}/job/{number}/drive")
    page.wait_for_function("() => window.did_handshake === true")
    file = tmp_path / "logger <i>7.csv"
    file.write_text(UNNAMED.replace(".", ","), encoding="utf-8")
    page.set_input_files("#upload", file)
    page.wait_for_url(re.compile("log="), timeout=SLOW)
    expect(page.get_by_role("alert").filter(has_text="It cannot be used yet")).to_be_visible()
    expect(page.get_by_text("T<b>1</b>", exact=True)).to_be_visible()  # a head is text, never markup
    expect(page.get_by_label("what V is", exact=True)).to_have_count(0)
    page.get_by_label("further columns are left out").select_option(label="V: 80, 80, 80")
    for head, means, unit in (("T<b>1</b>", "time", "s"), ("W1", "gauge", "°C"), ("V", "speed", "km/h")):
        page.get_by_label(f"what {head} is", exact=True).select_option(means)
        box = page.get_by_label(f"unit of {head}", exact=True)
        expect(box.locator("option", has_text=re.compile(f"^{re.escape(unit)}$"))).to_be_attached()
        box.select_option(unit)
    _readable(page)
    page.get_by_role("button", name="Read it like this").click()
    expect(page.get_by_text("60 rows, 10 minutes")).to_be_visible()
    told = httpx.get(f"{server.address}/api/v1/jobs/{number}/file", timeout=120).text
    assert '"V = speed km/h"' in told

    page.get_by_role("link", name="It was driven before the work").click()
    page.wait_for_url(re.compile("causes"), timeout=SLOW)
    page.wait_for_function("() => window.did_handshake === true")
    page.locator("#log-ambient").fill("92 F")
    page.locator("#log-grade").fill("0")
    page.get_by_role("button", name="Let it speak of the causes").click()
    moved = page.get_by_role("region", name=re.compile("^table: causes with ")).first
    expect(moved.get_by_role("row")).not_to_have_count(0, timeout=SLOW)
    assert _answers(server, number) == ["log"]
    again = _sent(server, page, "log", grade="0 %", columns=["Boost = ignore"])
    assert f"None of these: {again['none_of_these_pct']:.0f} %." in _words(page.locator("#page"))
    page.reload()
    expect(moved).to_be_visible()


def test_a_road_is_driven_from_its_address_by_legs_and_by_file(open_page: Callable[..., Page], server: Any) -> None:
    page = open_page("/")
    number = _example(page)
    page.goto(f"{server.address}/job/{number}/route")
    page.wait_for_function("() => window.did_handshake === true")
    page.get_by_label("Leg by leg").fill("6 miles up 6 %")
    page.get_by_role("button", name="Drive it").click()
    expect(page.get_by_role("alert").filter(has_text="does not say how fast")).to_be_visible(timeout=SLOW)
    expect(page.get_by_label("Leg by leg")).to_have_value("6 miles up 6 %")
    page.get_by_role("link", name="The demo climb").click()
    peak = page.get_by_role("heading", name=re.compile("^Hottest "))
    expect(peak).to_be_visible(timeout=SLOW)
    by_legs = _words(peak)
    page.reload()
    expect(peak).to_have_text(by_legs)  # at hand, not reckoned again
    page.get_by_role("link", name="Another road").or_(page.get_by_label("Leg by leg")).first.wait_for()
    page.set_input_files("#upload", EXAMPLES / "demo-climb.gpx")
    page.wait_for_url(re.compile("route="), timeout=SLOW)
    expect(peak).to_be_visible(timeout=SLOW)
    expect(page.get_by_text("Along demo-climb.gpx")).to_be_visible()
    low, high = (int(figure) for figure in re.findall(r"(\d+) to (\d+) °F", by_legs)[0])
    other = [int(figure) for figure in re.findall(r"(\d+) to (\d+) °F", _words(peak))[0]]
    assert abs(other[0] - low) < 6
    assert abs(other[1] - high) < 6  # the file tells of the road of the legs, with heights that scatter [°F]
