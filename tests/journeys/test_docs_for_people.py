"""The pages for people are true: every command runs and prints what they show, every link and label is there."""

import os
import re
import shlex
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pytest
import typer

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.catalogue.symptoms.symptom import symptoms
from toptank.interfaces.cli.main import app
from toptank.interfaces.cli.screen import run
from toptank.shop.answers.words import naming

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"
PAGES = (
    "tutorial.md",
    "understanding.md",
    "glossary.md",
    "symptoms-index.md",
    *sorted(f"howto/{one.name}" for one in (DOCS / "howto").glob("*.md")),
)
STARTED = ("serve", "pip")
"""What a test does not start: of these the options alone are looked up."""

COSTLY = ("diagnose", "choose", "order", "log")
"""What takes long: the same line on a second page is not run again."""

_run: set[str] = set()

_BLOCK = re.compile(r"(?:^`(?P<file>[\w.-]+)`:\n\n)?^```(?P<kind>\w+)\n(?P<text>.*?)^```$", re.DOTALL | re.MULTILINE)


class Block(NamedTuple):
    """A block of a page: what kind it is, the file that it is called, its text."""

    kind: str
    file: str
    text: str


def _blocks(page: str) -> list[Block]:
    text = (DOCS / page).read_text(encoding="utf-8")
    return [Block(found["kind"], found["file"] or "", found["text"]) for found in _BLOCK.finditer(text)]


def _commands(block: Block) -> Iterator[tuple[dict[str, str], list[str]]]:
    """Yield each command of a block: the environment that it sets, then its words."""
    for line in block.text.splitlines():
        words = shlex.split(line.partition(" && ")[2] or line, comments=True)
        settings: dict[str, str] = {}
        while words and re.match(r"[A-Z_]+=", words[0]):
            key, _, value = words.pop(0).partition("=")
            settings[key] = value
        yield settings, words[2:] if words[:2] == ["uv", "run"] else words


@pytest.mark.parametrize("page", [page for page in PAGES if any(one.kind == "sh" for one in _blocks(page))])
def test_every_command_of_a_page_runs_and_prints_what_stands_below_it(
    page: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "100")
    monkeypatch.setenv("TOPTANK_BACKUPS", "off")
    printed = ""
    for block in _blocks(page):
        if block.file:
            Path(block.file).write_text(block.text, encoding="utf-8")
        elif block.kind == "text":
            _shown(block.text, printed)
            printed = ""
        elif block.kind == "sh":
            printed = ""
            for settings, words in _commands(block):
                assert words[0] in ("toptank", *STARTED), words
                if words[1] in STARTED:
                    _options_are_known(words[1:])
                    continue
                if shlex.join(words) in _run and set(words[1:3]) & set(COSTLY):
                    continue
                monkeypatch.setenv("TOPTANK_STORE", os.path.abspath(settings.get("TOPTANK_STORE", "store")))
                monkeypatch.setattr(sys, "argv", words)
                capsys.readouterr()
                code = run(app)
                said = capsys.readouterr()
                # what is refused is shown on the page, word for word
                assert code == 0 or said.err.strip() in (DOCS / page).read_text(encoding="utf-8"), (words, said.err)
                _run.add(shlex.join(words))
                printed += said.out + said.err


def _shown(expected: str, printed: str) -> None:
    """Each line of a page stands in what was printed, in order; "…" stands for anything."""
    told, at = " ".join(printed.split()), 0
    for line in expected.splitlines():
        pieces = [re.escape(" ".join(piece.split())) for piece in line.split("…") if piece.strip()]
        found = re.compile(".*?".join(pieces)).search(told, at)
        assert found, (line, printed)
        at = found.end()


def _options_are_known(words: list[str]) -> None:
    command: Any = getattr(typer.main.get_command(app), "commands", {})[words[0]]
    known = {name for one in command.params for name in one.opts}
    assert {word for word in words if word.startswith("--")} <= known, words


def _anchor(heading: str) -> str:
    return re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-")


@pytest.mark.parametrize("page", PAGES)
def test_every_link_of_a_page_leads_somewhere(page: str) -> None:
    here = DOCS / page
    text = here.read_text(encoding="utf-8")
    links = re.findall(r"\]\(([^)\s]+)\)", text)
    assert links, page
    for link in links:
        assert "://" not in link, "nothing of ours lies elsewhere"
        name, _, heading = link.partition("#")
        target = (here.parent / name).resolve() if name else here
        assert target.is_file(), (page, link)
        if heading:
            headings = re.findall(r"^#+ (.+)$", target.read_text(encoding="utf-8"), re.MULTILINE)
            assert heading in {_anchor(one) for one in headings}, (page, link)


@pytest.mark.parametrize("page", [page for page in PAGES if page.startswith(("howto/", "tutorial"))])
def test_every_label_that_is_to_be_pressed_stands_in_the_app(page: str) -> None:
    text = (DOCS / page).read_text(encoding="utf-8").partition("## The same in a terminal")[0]
    pressed = re.findall(r"(?:[Pp]ress(?:ed)?|under|at|on) \*\*(.+?)\*\*", " ".join(text.split()))
    places = (ROOT / "src" / "toptank" / "interfaces").rglob("*.py")
    sources = "\n".join(one.read_text(encoding="utf-8") for one in places)
    for label in pressed:
        bare = re.sub(r"^\d+ ", "", label)
        assert f'"{bare}"' in sources, (page, label)
    assert pressed or page != "tutorial.md"


def test_the_index_names_every_symptom_that_points_somewhere_and_most_faults() -> None:
    page = (DOCS / "symptoms-index.md").read_text(encoding="utf-8")
    for one in symptoms().values():
        if any(chance > one.otherwise for chance in one.shows.values()):
            assert f"| {one.words} | " in page, one.id
    led_to = {cause.id for cause in CAUSES if f"[{naming.cause(cause.id, 'us')}](causes.md#" in page}
    assert len(led_to) >= 0.8 * len(CAUSES)


def test_the_glossary_is_in_order_and_says_each_word_once() -> None:
    words = re.findall(r"^\| \*\*(.+?)\*\* \|", (DOCS / "glossary.md").read_text(encoding="utf-8"), re.MULTILINE)
    assert len(words) >= 45
    assert [one.casefold() for one in words] == sorted({one.casefold() for one in words})


def test_the_four_words_that_are_explained_are_those_that_pages_show() -> None:
    page = (DOCS / "understanding.md").read_text(encoding="utf-8")
    for heading in ("Chance", "Range", "Severity", "Holds"):
        assert f"\n## {heading}\n" in page
    assert "8 times in 10" in page
    assert "stays cool" in page
