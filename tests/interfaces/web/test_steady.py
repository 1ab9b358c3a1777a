"""Nothing on a page jumps when an answer, a drawing or the strip of dials comes after the first lines."""

from typing import Any

import pytest
from playwright.sync_api import Browser, Page

WATCHED = """() => {
  window.jumped = { much: 0, what: [] };
  new PerformanceObserver((list) => {
    for (const one of list.getEntries()) {
      if (one.hadRecentInput) continue;
      window.jumped.much += one.value;
      window.jumped.what.push(one.sources.slice(0, 2).map((of) => (of.node?.outerHTML || "").slice(0, 90)).join(" | "));
    }
  }).observe({ type: "layout-shift", buffered: true });
}"""

MOST = 0.1
"""Cumulative layout shift that is good (web.dev/articles/cls, from memory: the 75th percentile under 0.1)."""

PAGES = {
    "complaint": "#page h2", "sheet": "#first ~ .stack ol", "causes": "#may-be", "remedies": "#beside",
    "order": "#plan", "drive": "#seen-0", "route": "#road", "fit": "#bay", "coolant": "#now", "record": "#revisions",
}  # fmt: skip
"""Pages in the order of the job, and what stands there once the answer has come."""

ORDER_FIRST = {"order": PAGES["order"], **PAGES}
"""The longest wait of all: the page that needs every answer is opened before any of them was given."""


@pytest.mark.parametrize(("size", "read", "pages"), [((390, 844), "219 F", PAGES), ((1440, 900), "221 F", ORDER_FIRST)])
def test_nothing_jumps_when_an_answer_comes_that_was_never_given_before(
    size: tuple[int, int],
    read: str,
    pages: dict[str, str],
    browser: Browser,
    server: Any,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    from toptank.shop.edit import edit
    from toptank.shop.record import job_verbs

    monkeypatch.setenv("TOPTANK_STORE", str(server.store))
    number = job_verbs.open_example().job
    edit.set_field(number, "reading.1.gauge", read)  # of no other job here, so that no answer is at hand
    context = browser.new_context(viewport={"width": size[0], "height": size[1]})
    context.add_init_script(f"({WATCHED})()")
    found: list[str] = []
    for step, whole in {"": "#new-job", **pages}.items():
        page: Page = context.new_page()
        page.set_default_timeout(300_000)
        page.goto(f"{server.address}/job/{number}/{step}" if step else server.address)
        page.wait_for_selector(whole, timeout=300_000)
        if step in ("causes", "remedies"):
            page.wait_for_function("() => /gauge|boils/i.test(document.querySelector('.what-if .big').innerText)")
        page.wait_for_timeout(150)
        jumped = page.evaluate("() => window.jumped")
        if jumped["much"] >= MOST:
            found.append(f"{step or 'jobs'}: {jumped['much']:.2f}: {' '.join(jumped['what'])}")
        page.close()
    context.close()
    assert found == []
