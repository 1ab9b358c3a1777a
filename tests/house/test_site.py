"""The documentation site: builds without a warning, asks nothing of a network, every link leads on, search finds."""

import json
import os
import re
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest
from chromium import found_or_installed  # a script, found by its folder
from playwright.sync_api import sync_playwright

import toptank

ROOT = Path(__file__).parents[2]
FETCHED = {("script", "src"), ("link", "href"), ("img", "src"), ("iframe", "src"), ("source", "src")}


class Page(HTMLParser):
    """What a page fetches, where it leads, and the places in it that can be led to."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.fetched: set[str] = set()
        self.led: set[str] = set()
        self.places: set[str] = set()
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = dict(attrs)
        self.places |= {name for key in ("id", "name") if (name := told.get(key))}
        for key in ("src", "href"):
            if (link := told.get(key)) is not None:
                (self.fetched if (tag, key) in FETCHED else self.led).add(link)


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("site")
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--quiet", "--site-dir", str(folder)]
    done = subprocess.run(
        command, cwd=ROOT, env=os.environ | {"NO_MKDOCS_2_WARNING": "1"}, capture_output=True, text=True
    )
    assert (done.returncode, done.stdout + done.stderr) == (0, "")
    return folder


@pytest.fixture(scope="module")
def pages(site: Path) -> dict[Path, Page]:
    return {path: Page(path.read_text(encoding="utf-8")) for path in site.rglob("*.html")}


def test_no_page_fetches_anything_from_a_network(site: Path, pages: dict[Path, Page]) -> None:
    fetched = {link for page in pages.values() for link in page.fetched}
    assert [link for link in sorted(fetched) if urlsplit(link).netloc] == []
    styles = "".join(path.read_text(encoding="utf-8") for path in site.rglob("*.css"))
    assert re.findall(r"(?:url\(|@import\s)[\"']?(?:https?:)?//[^)\"']*", styles) == []


def test_every_link_of_the_site_leads_to_a_place_that_is_there(site: Path, pages: dict[Path, Page]) -> None:
    lost: list[str] = []
    for path, page in pages.items():
        for link in page.led | page.fetched:
            told = urlsplit(link)
            if told.scheme or told.netloc or path.name == "404.html":
                continue
            target = (path.parent / unquote(told.path)).resolve() if told.path else path
            if not target.is_file():
                lost.append(f"{path.relative_to(site)}: {link}")
            elif told.fragment and target in pages and unquote(told.fragment) not in pages[target].places:
                lost.append(f"{path.relative_to(site)}: {link}, no such place")
    assert lost == []


def test_every_page_and_every_question_of_the_package_can_be_found(site: Path) -> None:
    entries = json.loads((site / "search" / "search_index.json").read_text(encoding="utf-8"))["docs"]
    found = {entry["location"].partition("#")[0] for entry in entries}
    docs = ROOT / "docs"
    written = {path.relative_to(docs).with_suffix(".html").as_posix() for path in docs.rglob("*.md")}
    assert {name.replace("README", "index") for name in written} <= found
    places = {entry["location"].rpartition(".")[2] for entry in entries if entry["location"].startswith("api.html#")}
    assert set(toptank.__all__) <= places


def test_a_page_opened_from_the_disk_finds_the_thermostat(site: Path) -> None:
    """With no server and no network: whoever has the folder can look things up."""
    place = found_or_installed()
    assert place is not None, "there is no Chromium: `uv run python tools/chromium.py`"
    with sync_playwright() as player:
        browser = player.chromium.launch(executable_path=place, args=["--no-sandbox"])
        page = browser.new_page(offline=True)
        page.goto((site / "index.html").as_uri())
        page.keyboard.press("/")
        page.keyboard.type("thermostat")
        first = page.locator(".md-search-result__item a").first
        first.wait_for(timeout=30_000)
        assert "thermostat" in page.locator(".md-search-result__list").inner_text().lower()
        browser.close()
