"""One resolution: what runs here is what the project says, to the last digit."""

import importlib.metadata
import re
import tomllib
from collections.abc import Callable
from pathlib import Path

from packaging.requirements import Requirement

PROJECT = Path(__file__).parents[2] / "pyproject.toml"


def _plain(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


def _pins() -> list[Requirement]:
    uv = tomllib.loads(PROJECT.read_text(encoding="utf-8"))["tool"]["uv"]
    return [Requirement(pin) for pin in uv["constraint-dependencies"]]


def test_every_pin_is_exact(refuse: Callable[[str, list[str]], None]) -> None:
    offenders = [str(pin) for pin in _pins() if [part.operator for part in pin.specifier] != ["=="]]
    refuse("A pin names one version:", offenders)


def test_every_installed_package_is_pinned_to_its_version(refuse: Callable[[str, list[str]], None]) -> None:
    here = [pin for pin in _pins() if pin.marker is None or pin.marker.evaluate()]
    pinned = {_plain(pin.name): str(pin.specifier).removeprefix("==") for pin in here}
    installed = {_plain(found.name): found.version for found in importlib.metadata.distributions()}
    offenders = [
        f"{name}: {version} is installed, {pinned.get(name, 'nothing')} is pinned"
        for name, version in sorted(installed.items())
        if name not in {"toptank", "pip", "setuptools", "wheel", "uv"} and pinned.get(name) != version
    ]
    refuse("Run `uv sync`; after a change of dependencies first `uv run poe pins`:", offenders)
