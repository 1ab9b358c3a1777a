"""Ten browsers and twenty programs at one server for two minutes: what a page and a save take, and what goes wrong.

    uv run python benchmarks/browsers.py [seconds] [--half-open 300]

Programs write notes by REST and ask for what takes a moment; each note that was acknowledged must be there at the end.
With --half-open so many connections begin a request and never finish it, all the while: run it with and without, on
the same machine, and compare. Each browser has a job of its own, walks through pages, writes into a field and waits
until that is in the record; two of them ask for a diagnosis meanwhile. An error is a page that does not come, a save
that does not come, a note that is lost, a complaint in a console, a request to elsewhere or a line in the server's
error stream.
"""

import argparse
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

import httpx
from playwright.async_api import Browser, Error, async_playwright

sys.path.insert(0, str(Path(__file__).parents[1] / "tools"))
from chromium import found_or_installed  # a script, found by its folder

BROWSERS, PROGRAMS, SECONDS = 10, 20, 120.0
PAGES = ("complaint", "sheet", "fit", "coolant", "record")
LIKE = "pickup-1970s-v8-air"
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


async def program(address: str, job: int, number: int, until: float, seen: dict[str, list[Any]]) -> None:
    """Use REST as a logger or another program does; at the end look for every note that was acknowledged."""
    told: list[str] = []
    async with httpx.AsyncClient(base_url=f"{address}api/v1/jobs/{job}", timeout=PATIENCE / 1000) as client:
        try:
            while time.monotonic() < until:
                note = f"program {number}, note {len(told)}"
                started = time.monotonic()
                answer = await client.post("/notes", json={"text": note})
                seen["notes"].append(time.monotonic() - started)
                told += [note] if answer.status_code == 201 else []
                asked = await client.get(("/history", "/fit", "/what-if", "/file")[len(told) % 4])
                if (answer.status_code, asked.status_code) != (201, 200):
                    seen["errors"].append(
                        f"program {number}: {answer.status_code} {asked.status_code} {asked.text[:200]}"
                    )
                await asyncio.sleep(PAUSE)
            there = {one["text"] for one in (await client.get(f"{address}api/v1/jobs/{job}")).json()["notes"]}
            seen["errors"] += [f"lost: {one}" for one in told if one not in there]
        except httpx.HTTPError as error:
            seen["errors"].append(f"program {number}: {error!r}")


async def half_open(address: str, until: float) -> None:
    """Begin a request and never finish it, again and again: the server closes it after a while."""
    parts = urlsplit(address)
    while time.monotonic() < until:
        try:
            reader, writer = await asyncio.open_connection(parts.hostname, parts.port)
            writer.write(b"GET / HTTP/1.1\r\nHost: ")
            await asyncio.wait_for(reader.read(), until - time.monotonic())
            writer.close()
        except (OSError, TimeoutError):
            await asyncio.sleep(1.0)


async def main(seconds: float, half_opened: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        log = Path(folder) / "log"
        with log.open("wb") as errors:
            server = subprocess.Popen(
                [sys.executable, "-m", "toptank.interfaces.cli.main", "serve", "--no-open", "--port", "0"],
                env=os.environ | {"TOPTANK_STORE": folder}, stdout=subprocess.PIPE, stderr=errors, text=True,
            )  # fmt: skip
            assert server.stdout is not None
            address = server.stdout.readline().split(" at ")[1].split()[0]
            seen: dict[str, list[Any]] = {"pages": [], "saves": [], "notes": [], "errors": [], "elsewhere": []}
            jobs = [
                httpx.post(f"{address}api/v1/jobs", json={"like": LIKE}, timeout=60).json()["number"]
                for _ in range(PROGRAMS)
            ]
            async with async_playwright() as playwright:
                browser = await playwright.chromium.launch(
                    executable_path=found_or_installed(), args=["--no-sandbox", "--disable-gpu"]
                )
                until = time.monotonic() + seconds
                await asyncio.gather(
                    *(one(browser, address, number, until, seen) for number in range(BROWSERS)),
                    *(program(address, job, number, until, seen) for number, job in enumerate(jobs)),
                    *(half_open(address, until) for _ in range(half_opened)),
                )
                await browser.close()
            worked = seconds_worked(server.pid)
            server.terminate()
            server.wait()
        seen["errors"] += log.read_text(encoding="utf-8").splitlines()
    print(
        f"{BROWSERS} browsers, {PROGRAMS} programs, {half_opened} half-open connections, {seconds:.0f} s, "
        f"{os.cpu_count()} processors shared with the browsers"
    )
    for name in ("pages", "saves", "notes"):
        values = sorted(seen[name])
        p95 = values[int(0.95 * (len(values) - 1))]
        print(f"{name}: {len(values)}, median {statistics.median(values):.2f} s, 95 % under {p95:.2f} s")
    print(f"server: {worked:.0f} s of one processor, its start included; load now {os.getloadavg()[0]:.1f}")
    print(f"errors: {len(seen['errors'])}, requests elsewhere: {len(seen['elsewhere'])}")
    for error in seen["errors"][:70]:
        print(" ", error[:300])


if __name__ == "__main__":
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("seconds", nargs="?", type=float, default=SECONDS)
    asked.add_argument("--half-open", type=int, default=0)
    given = asked.parse_args()
    asyncio.run(main(given.seconds, given.half_open))
