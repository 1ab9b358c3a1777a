"""The project's own text, as the house tests read it."""

import ast
import subprocess
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
CODE = ("src", "tests", "tools", "benchmarks", "examples")
PURE = ("media", "equations", "parts", "system", "knowledge", "catalogue", "studies")


@dataclass(frozen=True)
class Module:
    """One Python file: where it stands, its text, its tree."""

    path: Path
    text: str
    tree: ast.Module

    @property
    def place(self) -> str:
        """Return the path from the project's root."""
        return self.path.relative_to(ROOT).as_posix()

    @property
    def layer(self) -> str:
        """Return the layer, or "" outside the package."""
        parts = self.path.relative_to(ROOT).parts
        return parts[2] if parts[:2] == ("src", "toptank") and len(parts) > 3 else ""

    @property
    def functions(self) -> list[ast.FunctionDef | ast.AsyncFunctionDef]:
        """Return every function, methods and inner ones too."""
        return [node for node in ast.walk(self.tree) if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)]


@pytest.fixture(scope="session")
def modules() -> list[Module]:
    """Every Python file of the project."""
    paths = sorted(path for folder in CODE for path in (ROOT / folder).rglob("*.py"))
    assert paths
    texts = [(path, path.read_text(encoding="utf-8")) for path in paths]
    return [Module(path, text, ast.parse(text, str(path))) for path, text in texts]


@pytest.fixture(scope="session")
def package(modules: list[Module]) -> list[Module]:
    """Every Python file that is shipped."""
    return [module for module in modules if module.place.startswith("src/")]


@pytest.fixture(scope="session")
def pure(package: list[Module]) -> list[Module]:
    """Every Python file in which all is SI: the layers between units and shop."""
    return [module for module in package if module.layer in PURE]


@pytest.fixture(scope="session")
def tracked() -> list[Path]:
    """Every file that is, or is about to be, under version control; without git, every file that is no by-product."""
    listing = ["git", "-C", str(ROOT), "ls-files", "--cached", "--others", "--exclude-standard", "-z"]
    try:
        answer = subprocess.run(listing, capture_output=True, check=True, text=True).stdout
        paths = [ROOT / name for name in answer.split("\0") if name]
    except (OSError, subprocess.CalledProcessError):
        kept = [path for path in ROOT.rglob("*") if not {".venv", ".git", "__pycache__"} & set(path.parts)]
        paths = [path for path in kept if path.name != "uv.lock"]
    return [path for path in paths if path.is_file()]


@pytest.fixture(scope="session")
def refuse() -> Callable[[str, list[str]], None]:
    """Fail with the rule and every place that breaks it, one a line."""

    def fail_on(rule: str, offenders: list[str]) -> None:
        __tracebackhide__ = True
        if offenders:
            pytest.fail("\n  ".join([rule, *offenders]), pytrace=False)

    return fail_on
