"""Ten browsers at one server for two minutes: what a page and a save take, and whether anything goes wrong.

    uv run python benchmarks/browsers.py [seconds]

Each has a job of its own, walks through pages, writes into a field and waits until that is in the record; two of them
ask for a diagnosis meanwhile. An error is a page that does not come, a save that does not come, a complaint in a
console, a request to elsewhere or a line in the server's error stream.
"""

import asyncio
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from playwright.async_api import Browser, Error, async_playwright

sys.path.insert(0, str(Path(__file__).parents[1] / "tools"))
from chromium import found_or_installed  # a script, found by its folder

BROWSERS, SECONDS = 10, 120.0
PAGES = ("complaint", "sheet", "fit", "coolant", "record")
PAUSE = 3.0
"""A person looks at a page so long at least [s]."""

PATIENCE = 60_000
"""A page that has not come by then does not come [ms]."""


def seconds_worked(pid: int) -> float:
    """Return what a process has worked so far [s], where the system tells."""
    try:
        fields = Path(f"/proc/{pid}/stat").read_text(encoding="utf-8").rpartition(")")[2].split()
    except OSError:
        return float("nan")
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


async def one(browser: Browser, address: str, number: int, until: float, seen: dict[str, list[Any]]) -> None:
    """Use the app as one person does."""
    context = await browser.new_context(viewport={"width": 820, "height": 1180})
    page = await context.new_page()
    page.set_default_timeout(PATIENCE)
    page.on("console", lambda said: seen["errors"].append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: seen["errors"].append(str(error)))
    own = urlsplit(address).netloc
    page.on("request", lambda asked: seen["elsewhere"].append(asked.url) if urlsplit(asked.url).netloc != own else None)
    try:
        await page.goto(address)
        await page.get_by_role("button", name="Open the example").click()
        await page.wait_for_url("**/complaint")
        job = page.url.split("/")[-2]
        turn = 0
        while time.monotonic() < until:
            for name in (*PAGES, *(("causes",) if number < 2 else ())):
                started = time.monotonic()
                await page.goto(f"{address}job/{job}/{name}")
                await page.wait_for_function("() => window.did_handshake === true")
                seen["pages"].append(time.monotonic() - started)
                if name == "complaint":
                    turn += 1
                    await page.locator("#f-job-complaint").fill(f"words of browser {number}, turn {turn}")
                    started = time.monotonic()
                    await page.locator('.field[data-path="job.complaint"][data-state="saved"]').wait_for()
                    seen["saves"].append(time.monotonic() - started)
                await asyncio.sleep(PAUSE)
    except Error as error:
        seen["errors"].append(f"browser {number}: {error}")
    await context.close()


async def main(seconds: float) -> None:
    with tempfile.TemporaryDirectory() as folder:
        log = Path(folder) / "log"
        with log.open("wb") as errors:
            server = subprocess.Popen(
                [sys.executable, "-m", "toptank.interfaces.cli.main", "serve", "--no-open", "--port", "0"],
                env=os.environ | {"TOPTANK_STORE": folder}, stdout=subprocess.PIPE, stderr=errors, text=True,
            )  # fmt: skip
            assert server.stdout is not None
            address = server.stdout.readline().split(" at ")[1].split()[0]
            seen: dict[str, list[Any]] = {"pages": [], "saves": [], "errors": [], "elsewhere": []}
            async with async_playwright() as playwright:
                browser = await playwright.chromium.launch(
                    executable_path=found_or_installed(), args=["--no-sandbox", "--disable-gpu"]
                )
                until = time.monotonic() + seconds
                await asyncio.gather(*(one(browser, address, number, until, seen) for number in range(BROWSERS)))
                await browser.close()
            worked = seconds_worked(server.pid)
            server.terminate()
            server.wait()
        seen["errors"] += log.read_text(encoding="utf-8").splitlines()
    print(f"{BROWSERS} browsers, {seconds:.0f} s, {os.cpu_count()} processors shared with the browsers")
    for name in ("pages", "saves"):
        values = sorted(seen[name])
        p95 = values[int(0.95 * (len(values) - 1))]
        print(f"{name}: {len(values)}, median {statistics.median(values):.2f} s, 95 % under {p95:.2f} s")
    print(f"server: {worked:.0f} s of one processor, its start included; load now {os.getloadavg()[0]:.1f}")
    print(f"errors: {len(seen['errors'])}, requests elsewhere: {len(seen['elsewhere'])}")
    for error in seen["errors"][:70]:
        print(" ", error[:300])


if __name__ == "__main__":
    asyncio.run(main(float(sys.argv[1]) if len(sys.argv) > 1 else SECONDS))
