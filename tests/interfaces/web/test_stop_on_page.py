"""Stop ends the work itself, not only the waiting for it: soon, and nothing runs on behind the page."""

import contextlib
import re
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import httpx
from playwright.sync_api import Page, expect

AT_MOST = 10.0
"""Work of the processor until nothing runs any more [s]: what is stopped would mostly take a minute of it.

Its time is counted, not the clock's: beside other work the clock says nothing of how much was still done.
"""

LOOKS, BETWEEN = 20, 0.05
"""How often, and how far apart [s], no thread may be seen to want a processor before nothing is said to run."""

LARGE_LOG = "time (s),coolant (°C),speed (km/h),grade (%),ambient (°C),engine speed (rpm)\n" + "".join(
    f"{0.1 * row:.1f},{90 + row % 7}.5,{60 + row % 3}.25,2.0,33.0,{2000 + row % 90}\n" for row in range(700_000)
)
"""Ten readings a second for 20 h, 22 MB."""


def _runs(server: Any) -> bool:
    """Whether a thread of the server has or wants a processor."""
    for thread in Path(f"/proc/{server.process.pid}/task").iterdir():
        with contextlib.suppress(FileNotFoundError, ProcessLookupError):  # a thread that has ended meanwhile
            if (thread / "stat").read_text(encoding="ascii").rpartition(")")[2].split()[0] == "R":
                return True
    return False


def _stopped(page: Page, doing: str) -> None:
    bar = page.get_by_role("status").filter(has_text=doing)
    expect(bar).to_be_visible()
    bar.get_by_role("button", name="Stop").click()
    expect(page.get_by_text(f"Stopped: {doing[:1].lower()}{doing[1:]}.")).to_be_visible()


def _nothing_runs(server: Any) -> None:
    begun, still = server.worked(), 0
    while still < LOOKS:
        still = 0 if _runs(server) else still + 1
        assert server.worked() - begun < AT_MOST
        time.sleep(BETWEEN)


def test_stop_ends_the_work_of_a_road_and_of_a_log(
    serve_anew: Callable[..., Any], open_page: Callable[..., Page]
) -> None:
    server = serve_anew()
    page = open_page("/", at=server)
    page.get_by_role("button", name="Open the example").click()
    page.wait_for_url(re.compile(r"/job/\d+/complaint"))
    number = int(re.findall(r"/job/(\d+)/", page.url)[0])
    log = httpx.post(
        f"{server.address}/api/v1/jobs/{number}/attachments", params={"name": "long.csv"}, content=LARGE_LOG, timeout=60
    )
    place = f"{server.address}/job/{number}"
    page.goto(f"{place}/route?legs=200 miles flat at 60 mph, 8 miles up 6 %25 at 45 mph")
    _stopped(page, "Driving the road")
    _nothing_runs(server)
    page.goto(f"{place}/causes?log={log.json()['checksum']}")
    _stopped(page, "Reading the log")
    _stopped(page, "Trying each fault on this vehicle")
    _nothing_runs(server)
    page.get_by_text("Stopped: reading the log").locator("..").get_by_role("button", name="Go on after all").click()
    page.get_by_role("button", name="Let it speak of the causes").click(timeout=20_000)
    _stopped(page, "Driving the log")
    _nothing_runs(server)
    assert (
        httpx.get(f"{server.address}/api/v1/jobs/{number}", timeout=120).json()["answers"] == []
    )  # nothing half done is kept
