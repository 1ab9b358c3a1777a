"""What is typed is not lost, what others change is seen, a clash is shown; pages stand on a keyboard alone."""

import re
from collections.abc import Callable
from typing import Any

import httpx
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Error, Page, expect

STEPS = ("complaint", "sheet", "causes", "remedies", "fit", "coolant", "order", "drive", "record")
SHOWN = {
    "causes": "#may-be",
    "remedies": "#beside",
    "order": "#plan",
    "drive": "#seen-0",
    "route": "#goes",
    "sheet": "#first ~ .stack ol",
}
"""What stands there once an answer has come."""

MOST_SHEETS = 6
"""Sheets of paper that a page of the example may take: one for each two screens of a tablet, and the causes' checks."""

NASTY = "<img src=x onerror=\"window.hurt=1\"><script>window.hurt=1</script> {{7*7}} 'quoted' </textarea>"


@pytest.fixture(scope="session")
def example(browser: Browser, server: Any) -> int:
    """Open the example once."""
    page = browser.new_page()
    page.goto(server.address)
    page.get_by_role("button", name="Open the example").click()
    page.wait_for_url(re.compile(r"/job/\d+/complaint"))
    number = int(re.findall(r"/job/(\d+)/", page.url)[0])
    page.close()
    return number


def _new_job(page: Page, title: str, words: str = "") -> int:
    page.get_by_label("What is it most like?").select_option(index=1)
    page.get_by_label("What do you call it?").fill(title)
    page.get_by_label("What does the driver say?").fill(words)
    page.get_by_role("button", name="Open the job").click()
    page.wait_for_url(re.compile(r"/job/\d+/complaint"))
    page.wait_for_function("() => window.did_handshake === true")
    return int(re.findall(r"/job/(\d+)/", page.url)[0])


def _go(page: Page, address: str) -> None:
    """Go to an address of a server that has just come back: the page, which also noticed, may be on its way there."""
    for _ in range(4):
        try:
            page.goto(address)
        except Error as error:
            if "ERR_ABORTED" not in str(error):
                raise
        else:
            return
    page.goto(address)


def _saved(page: Page, name: str) -> Any:
    return page.locator(f'.field[data-path="{name}"][data-state="saved"]')


def test_what_was_typed_two_seconds_ago_survives_a_crash_of_the_server(
    serve_anew: Callable[..., Any], open_page: Callable[..., Page]
) -> None:
    server = serve_anew()
    page = open_page("/", at=server)
    number = _new_job(page, "Crash car")
    words = page.get_by_label("The driver's own words")
    words.press_sequentially("boils on the hill", delay=20)
    page.wait_for_timeout(2000)
    server.kill()
    words.press_sequentially(" and at the gate", delay=20)
    server.start()
    _go(page, f"{server.address}/job/{number}/complaint")
    expect(page.get_by_label("The driver's own words")).to_have_value("boils on the hill and at the gate")
    expect(_saved(page, "job.complaint")).to_be_visible()  # a server that has just started is slow
    fresh = open_page(f"/job/{number}/complaint", at=server)  # another browser: what the record says
    expect(fresh.get_by_label("The driver's own words")).to_have_value("boils on the hill and at the gate")


def test_an_own_save_whose_answer_was_lost_is_no_clash_with_somebody_else(open_page: Callable[..., Page]) -> None:
    page = open_page("/")
    number = _new_job(page, "Answer lost")
    key = f"toptank:{number}:job.complaint"
    kept = {"text": "boils on the hill and at the gate", "from": "", "how": None, "mine": ["boils on the hill"]}
    page.get_by_label("The driver's own words").fill("boils on the hill")
    expect(_saved(page, "job.complaint")).to_be_visible()
    page.evaluate(
        "([key, kept]) => localStorage.setItem(key, JSON.stringify(kept))", [key, kept]
    )  # as a crash leaves it
    page.reload()
    words = page.get_by_label("The driver's own words")
    expect(words).to_have_value("boils on the hill and at the gate")
    expect(_saved(page, "job.complaint")).to_be_visible()
    expect(page.get_by_text("Somebody else wrote")).to_have_count(0)
    kept["mine"] = ["something else"]
    page.evaluate("([key, kept]) => localStorage.setItem(key, JSON.stringify(kept))", [key, {**kept, "text": "mine"}])
    page.reload()
    expect(page.get_by_text("Somebody else wrote")).to_be_visible()


def test_two_tabs_see_each_other_and_a_clash_is_shown(open_page: Callable[..., Page]) -> None:
    one = open_page("/")
    number = _new_job(one, "Two tabs")
    two = open_page(f"/job/{number}/complaint")
    one.get_by_label("The driver's own words").fill("first said this")
    expect(two.get_by_label("The driver's own words")).to_have_value("first said this")

    box = two.get_by_label("The driver's own words")
    two.context.set_offline(True)
    box.fill("second said that")
    one.get_by_label("The driver's own words").fill("first changed his mind")
    expect(_saved(one, "job.complaint")).to_be_visible()
    two.context.set_offline(False)
    clash = two.get_by_role("alert").filter(has_text="Somebody else wrote first changed his mind")
    expect(clash).to_be_visible()
    two.get_by_role("button", name="Keep mine").click()
    expect(one.get_by_label("The driver's own words")).to_have_value("second said that")


def test_a_change_from_the_command_line_is_seen_and_undo_takes_it_back(
    open_page: Callable[..., Page], server: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    from toptank.shop.edit import edit

    page = open_page("/")
    number = _new_job(page, "From elsewhere")
    monkeypatch.setenv("TOPTANK_STORE", str(server.store))
    edit.set_field(number, "job.complaint", "told by telephone")
    expect(page.get_by_label("The driver's own words")).to_have_value("told by telephone")
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_label("The driver's own words")).to_have_value("")


def test_what_cannot_be_used_is_told_where_it_stands_and_not_lost(open_page: Callable[..., Page]) -> None:
    page = open_page("/")
    _new_job(page, "Wrong unit")
    box = page.get_by_label(re.compile("^air temperature outside"))
    box.fill("95 psi")
    box.blur()
    field = page.locator('.field[data-path="duty.0.ambient"]')
    expect(field.get_by_role("alert")).to_contain_text("is not a unit of temperature")
    page.reload()
    expect(box).to_have_value("95 psi")
    box.fill("95")
    box.blur()
    expect(field.get_by_role("alert")).to_have_count(0)
    expect(box).to_have_value("95 °F")


def test_a_note_that_is_not_kept_yet_survives_a_reload_and_the_changes_of_others(
    open_page: Callable[..., Page], server: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    from toptank.shop.record import job_verbs

    page = open_page("/")
    number = _new_job(page, "Notes")
    page.goto(f"{server.address}/job/{number}/record")
    page.get_by_label("Another note").press_sequentially("hums at")
    page.reload()
    expect(page.get_by_label("Another note")).to_have_value("hums at")
    monkeypatch.setenv("TOPTANK_STORE", str(server.store))
    job_verbs.revert(number, 1)
    expect(page.get_by_text("back to revision 1")).to_be_visible()
    expect(page.get_by_label("Another note")).to_have_value("hums at")
    page.get_by_label("Another note").press_sequentially(" idle")
    page.get_by_role("button", name="Keep the note").click()
    expect(page.get_by_text("hums at idle")).to_be_visible()
    expect(page.get_by_label("Another note")).to_have_value("")


def test_work_that_takes_long_can_be_stopped_and_gone_on_with(open_page: Callable[..., Page], server: Any) -> None:
    page = open_page("/")
    number = _new_job(page, "Stopped")
    page.get_by_label("Temperature seen").fill("241")  # of no other job here, so that no answer is at hand
    page.get_by_role("button", name="Write it down: where it runs hot").click()
    expect(page.get_by_label("Temperature read")).to_have_value("241 °F")
    page.goto(f"{server.address}/job/{number}/causes")
    expect(page.get_by_role("progressbar")).to_be_visible()
    page.get_by_role("button", name="Stop").click()
    expect(page.get_by_text("Stopped: trying each fault on this vehicle.")).to_be_visible()
    page.get_by_role("button", name="Go on after all").click()
    expect(page.get_by_role("heading", name="It may be")).to_be_visible(timeout=300_000)


def test_an_address_that_leads_nowhere_has_our_own_page(server: Any) -> None:
    answer = httpx.get(f"{server.address}/nowhere", headers={"accept": "text/html"}, timeout=120)
    assert (answer.status_code, "Nothing is here" in answer.text, "nonce-" in str(answer.headers)) == (404, True, True)


def test_an_address_of_no_job_is_told_in_a_sentence(server: Any) -> None:
    for path in (
        "/job/abc",
        "/job/abc/complaint",
        "/job/abc/order.pdf",
        "/job/1e9/file/0",
        "/job/99999999999999999999",
    ):
        page = httpx.get(server.address + path, headers={"accept": "text/html"}, follow_redirects=True, timeout=120)
        assert page.headers["content-type"].startswith("text/html"), path
        assert "Nothing is here" in page.text or "no such job" in page.text, path
        told = httpx.get(server.address + path.replace("99999999999999999999", "x"), timeout=120)
        assert (told.status_code, told.text.count(".")) == (404, 1), path
    for paper in ("order.pdf", "order.html", "job.toml"):
        told = httpx.get(f"{server.address}/job/99999/{paper}", timeout=120)
        assert (told.status_code, "is not there" in told.text) == (404, True)


def test_names_and_words_are_never_markup(open_page: Callable[..., Page], server: Any) -> None:
    page = open_page("/")
    number = _new_job(page, NASTY[:110], NASTY)
    for path in ("/", "/new", "/settings", *(f"/job/{number}/{step}" for step in ("complaint", "record", "fit"))):
        page.goto(server.address + path)
        page.wait_for_selector("#page")
        expect(page.get_by_text("onerror=").first).to_be_visible() if path == "/" else None
        assert page.evaluate("() => window.hurt === undefined && !document.querySelector('img[src=x]')")
    expect(page.locator(".vehicle b")).to_have_text(NASTY[:110])


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_every_page_can_be_read_by_everybody_at_every_size(
    theme: str, open_page: Callable[..., Page], example: int, server: Any
) -> None:
    page = open_page("/", theme=theme)
    found: list[str] = []
    road = "route?legs=2+miles+up+6+%25+at+35+mph,+then+idle+3+min"
    for path in ("/", *(f"/job/{example}/{step}" for step in (*STEPS, road))):
        page.goto(server.address + path)
        page.wait_for_selector("#page")
        step = path.rpartition("/")[2].partition("?")[0]
        if step in SHOWN:
            page.wait_for_selector(SHOWN[step], timeout=300_000)
        for violation in Axe().run(page).response["violations"]:
            nodes = "; ".join(node["html"][:120] for node in violation["nodes"][:3])
            found.append(f"{path}: {violation['id']}: {nodes}")
        for width, height in ((390, 844), (820, 1180), (1280, 800), (1440, 900)):
            page.set_viewport_size({"width": width, "height": height})
            wide = page.evaluate("() => document.documentElement.scrollWidth - window.innerWidth")
            if wide > 0:
                found.append(f"{path}: {wide} px too wide at {width}")
        page.set_viewport_size({"width": 820, "height": 1180})
    assert found == []


def test_every_page_prints_black_on_white_without_what_only_a_screen_can_use(
    open_page: Callable[..., Page], example: int
) -> None:
    page = open_page(f"/job/{example}/causes", theme="dark")
    for step in STEPS:
        page.goto(re.sub(r"/job/.*", f"/job/{example}/{step}", page.url))
        page.wait_for_selector(SHOWN.get(step, "h1"), timeout=300_000)
        page.emulate_media(media="print")
        colours = page.evaluate(
            "() => ['body', 'h1'].map((one) => getComputedStyle(document.querySelector(one)))"
            ".map((style, at) => at ? style.color : style.backgroundColor)"
        )
        assert colours == ["rgb(255, 255, 255)", "rgb(0, 0, 0)"], step
        expect(page.get_by_role("heading", level=1)).to_be_visible()
        for gone in (
            page.get_by_role("slider"),
            page.get_by_role("link", name=re.compile("^Next")),
            page.locator("nav"),
        ):
            assert not any(one.is_visible() for one in gone.all()), step
        sheets = len(re.findall(rb"/Type\s*/Page\b", page.pdf(format="Letter")))
        assert 1 <= sheets <= MOST_SHEETS, f"{step}: {sheets} sheets"
        if step == "causes":
            assert page.locator(".press.outcome").first.is_visible()  # to be ticked with a pen
        page.emulate_media(media="screen")


def test_a_keyboard_reaches_and_works_a_page(open_page: Callable[..., Page], example: int) -> None:
    page = open_page(f"/job/{example}/complaint")
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.textContent") == "Skip to the page"
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.id") == "f-job-title"
    outline = page.evaluate("() => getComputedStyle(document.activeElement).outlineWidth")
    assert outline == "3px"


def test_what_was_typed_without_a_line_goes_to_its_own_row_or_to_none(
    open_page: Callable[..., Page], server: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    from toptank.shop.edit import complaint_form, edit
    from toptank.shop.record import job_verbs
    from toptank.shop.record.store import document

    monkeypatch.setenv("TOPTANK_STORE", str(server.store))
    number = job_verbs.open_example().job

    def winds() -> dict[str, str]:
        rows = complaint_form.rows_of(document.parsed(job_verbs.record(number).shown.text), "duty")
        return {one["name"]: one.get("head_wind", "") for one in rows}

    first, second, third = winds()
    page = open_page(f"/job/{number}/complaint")
    page.context.set_offline(True)
    page.evaluate("() => document.querySelectorAll('details').forEach((one) => (one.open = true))")
    page.locator('.field[data-path="duty.0.head_wind"] input').fill("9 mph")
    page.locator('.field[data-path="duty.1.head_wind"] input').fill("11 mph")
    edit.remove_row(number, "duty", 0)
    page.context.set_offline(False)
    expect(page.get_by_role("status").filter(has_text='"9 mph" was not saved')).to_be_visible()
    expect(page.locator('.field[data-path="duty.0.head_wind"][data-state="saved"] input')).to_have_value("11 mph")
    assert first not in winds()
    assert winds() == {second: "11 mph", third: ""}
