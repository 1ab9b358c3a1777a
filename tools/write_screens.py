"""Photograph every page of the app, in both themes, into docs/screens/: the built-in example on a tablet.

uv run poe screens            into docs/screens
uv run poe screens FOLDER     every page at three sizes too, to look at
"""

import io
import os
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

import httpx
from chromium import found_or_installed
from PIL import Image
from playwright.sync_api import Page, sync_playwright

OUT = Path(__file__).parents[1] / "docs" / "screens"
SIZES = {"tablet": (820, 1180), "phone": (390, 844), "desktop": (1440, 900)}
COLOURS = 48
"""Enough for paper, ink and a few marks; keeps a picture small."""

PAGES = {
    "jobs": "#new-job", "complaint": "#page h2", "sheet": "#first ~ .stack :is(ol, ul)", "causes": "#may-be",
    "remedies": "#beside", "fit": "#bay", "coolant": "#now", "order": "#plan", "drive": "#seen-0",
    "route": "#goes", "record": "#revisions",
}  # fmt: skip
"""Each page, and what stands there once it is whole."""

ASKED = {"route": "?legs=3.5+miles+flat+at+50+mph,+then+6+miles+up+6+%25+at+35+mph,+then+idle+5+min&ambient=98+F"}
"""What the address of a page asks."""

DRIVEN = """clock, gauge, speed, grade, A/C, ambient
14:00, 186 F, 50 mph, 0 %, off, 92 F
14:06, 188 F, 35 mph, 5 %, off, 92 F
14:10, 197 F, 35 mph, 5 %, off, 92 F
14:15, 203 F, 0 mph, 0 %, off, 93 F
14:17, 212 F, 0 mph, 0 %, off, 93 F
14:20, 208 F, 0 mph, 0 %, off, 93 F
"""
"""A check drive of the example, as invented as the rest of it."""


def photograph(page: Page, file: Path) -> None:
    """Write what the page shows as a small PNG."""
    page.wait_for_timeout(600)
    shot = Image.open(io.BytesIO(page.screenshot())).convert("RGB")
    shot.quantize(COLOURS, dither=Image.Dither.NONE).save(file, optimize=True)


def pages(browser: Any, address: str, job: str, folder: Path, sizes: list[str]) -> None:
    """Photograph every page at these sizes, in both themes."""
    for size in sizes:
        width, height = SIZES[size]
        for theme in ("light", "dark"):
            page = browser.new_page(viewport={"width": width, "height": height}, color_scheme=theme)
            for name, whole in PAGES.items():
                page.goto(address if name == "jobs" else f"{address}job/{job}/{name}{ASKED.get(name, '')}")
                page.wait_for_selector(whole, timeout=240_000)
                file = folder / (f"{name}-{theme}.png" if len(sizes) == 1 else f"{size}-{name}-{theme}.png")
                photograph(page, file)
                print(f"{file.name}: {file.stat().st_size / 1000:.0f} kB")
            page.close()


def main() -> None:
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else OUT
    folder.mkdir(parents=True, exist_ok=True)
    command = [sys.executable, "-m", "toptank.interfaces.cli.main", "serve", "--no-open", "--port", "0"]
    with tempfile.TemporaryDirectory() as store, sync_playwright() as playwright:
        environment = os.environ | {"TOPTANK_STORE": store}
        server = subprocess.Popen(command, env=environment, stdout=subprocess.PIPE, text=True)
        assert server.stdout is not None
        address = server.stdout.readline().split(" at ")[1].split()[0]
        browser = playwright.chromium.launch(executable_path=found_or_installed(), args=["--no-sandbox"])
        page = browser.new_page()
        page.goto(address)
        page.get_by_role("button", name="Open the example").click()
        page.wait_for_url("**/complaint")
        job = page.url.split("/")[-2]
        page.close()
        sent = {"text": DRIVEN, "name": "check drive noted.csv"}
        httpx.post(f"{address}api/v1/jobs/{job}/verify", json=sent, timeout=240).raise_for_status()
        pages(browser, address, job, folder, ["tablet"] if folder == OUT else list(SIZES))
        browser.close()
        server.terminate()
        server.wait()


if __name__ == "__main__":
    main()
