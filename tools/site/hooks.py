"""What the documentation site holds besides docs/: the pages at the root, what is made from the code, linked files.

MkDocs calls the functions whose names begin with `on_` (mkdocs.yml).
"""

import os
import re
from collections.abc import Iterator
from pathlib import Path, PurePosixPath
from typing import Any

import toptank
from toptank.equations import __path__ as equations

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"
SHIM = Path(__file__).parent / "iframe-worker.js"
"""What searches in a page that was opened from a disk, where browsers run no workers."""
AT_THE_ROOT = {
    "README.md": "index.md",
    "CONTRIBUTING.md": "contributing.md",
    "ARCHITECTURE.md": "architecture.md",
    "CHANGELOG.md": "changelog.md",
}
"""Pages at the root of the repository, and what the site calls them."""

LINK = re.compile(r"(?<=\]\()<?([^)\s>#]+)(#[^)\s>]*)?>?(?=\))")
ELSEWHERE = re.compile(r"^[a-z][a-z0-9+.-]*:")
FENCED = re.compile(r"^(```|~~~).*?^\1", re.MULTILINE | re.DOTALL)


def on_files(files: Any, *, config: Any) -> Any:
    """Add what does not lie under docs/."""
    from mkdocs.structure.files import File

    made = {name: relinked((ROOT / file).read_text("utf-8"), ROOT / file) for file, name in AT_THE_ROOT.items()}
    made |= {"api.md": api_page(), "equations.md": equations_page(), "schema/index.md": listing(DOCS / "schema")}
    for name, text in made.items():
        files.append(File.generated(config, name, content=text))
    for target in sorted(_linked([*DOCS.rglob("*.md"), *(ROOT / file for file in AT_THE_ROOT)])):
        place = _place(target)
        if target.is_dir():
            files.append(File.generated(config, place, content=listing(target)))
            for file in sorted(path for path in target.iterdir() if path.is_file()):
                files.append(File.generated(config, _place(file), abs_src_path=str(file)))
        else:
            files.append(File.generated(config, place, abs_src_path=str(target)))
    files.append(File.generated(config, f"assets/{SHIM.name}", abs_src_path=str(SHIM)))
    return files


def on_page_markdown(markdown: str, *, page: Any, config: Any, files: Any) -> str:
    """Lead links out of docs/ to where the site has what they lead to."""
    place = page.file.src_uri
    source = ROOT / place.removeprefix("files/") if place.startswith("files/") else DOCS / place
    return relinked(markdown, source) if source.exists() else markdown


def relinked(markdown: str, page: Path) -> str:
    """The same text with its relative links as the site needs them."""
    here = PurePosixPath(_place(page)).parent

    def moved(match: re.Match[str]) -> str:
        target = _target(match[1], page)
        if target is None:
            return match[0]
        return os.path.relpath(_place(target), here) + (match[2] or "")

    parts = FENCED.split(markdown)
    if len(parts) == 1:
        return LINK.sub(moved, markdown)
    text, last = [], 0
    for block in FENCED.finditer(markdown):
        text += [LINK.sub(moved, markdown[last : block.start()]), block[0]]
        last = block.end()
    return "".join([*text, LINK.sub(moved, markdown[last:])])


def _target(link: str, page: Path) -> Path | None:
    """What a link leads to in the repository; None for another place."""
    return None if ELSEWHERE.match(link) else Path(os.path.normpath(page.parent / link))


def _linked(pages: list[Path]) -> set[Path]:
    """All that pages link to and that the site would lack, with what those link to that are pages themselves."""
    found: set[Path] = set()
    while pages:
        new = {target for page in pages for target in _outside(page)} - found
        found |= new
        pages = [target for target in new if target.suffix == ".md"]
    return found


def _outside(page: Path) -> Iterator[Path]:
    """Files and folders that a page links to and that the site would lack."""
    text = FENCED.sub("", page.read_text("utf-8"))
    for match in LINK.finditer(text):
        target = _target(match[1], page)
        if target is not None and not target.is_relative_to(DOCS) and _place(target) not in AT_THE_ROOT.values():
            yield target


def _place(target: Path) -> str:
    """Where the site has a file or folder of the repository."""
    if target.is_relative_to(DOCS):
        inside = target.relative_to(DOCS).as_posix()
        return f"{inside}/index.md" if target.is_dir() else inside
    inside = target.relative_to(ROOT).as_posix()
    return AT_THE_ROOT.get(inside, f"files/{inside}/index.md" if target.is_dir() else f"files/{inside}")


def listing(folder: Path) -> str:
    """A page with a link to every file of a folder."""
    files = sorted(path.name for path in folder.iterdir() if path.is_file() and path.suffix != ".md")
    name = folder.relative_to(ROOT).as_posix()
    return "\n".join([f"# {name}", "", *(f"- [{file}]({file})" for file in files), ""])


def api_page() -> str:
    """The questions of the package from their docstrings, in the order of their names."""
    lines = [
        "# Python",
        "",
        "Each is a name of the package: `toptank.forecast(...)`. [From Python](python.md) shows them together.",
        "",
    ]
    for name in toptank.__all__:
        thing = getattr(toptank, name)
        lines += [f"::: {thing.__module__}.{thing.__name__}", ""]
    return "\n".join(lines)


def equations_page() -> str:
    """Every equation from its docstring, module by module."""
    lines = [
        "# Equations",
        "",
        "Each is a pure function; what its source prints is compared in [validation](validation.md). Source, range and",
        "scatter stand at the head of each module.",
        "",
    ]
    for path in sorted(Path(equations[0]).glob("[a-z]*.py")):
        lines += [f"## {path.stem.replace('_', ' ')}", "", f"::: toptank.equations.{path.stem}"]
        lines += ["    options: {show_root_heading: false, heading_level: 3}", ""]
    return "\n".join(lines)
