"""`explain`: which equations a figure rests on, with their sources, and what is assumed."""

import difflib
import importlib
import re
import tomllib
from functools import cache
from importlib import resources
from typing import Any

from toptank.jobs.answers import Explanation
from toptank.units.refusal import Refusal

_KEY = re.compile(r"[a-z][a-z_]*\d{4}[a-z]?|sae_j\d+|us_std_1976|iapws\w*")


@cache
def explained() -> dict[str, Any]:
    """The table of explanations by figure."""
    return tomllib.loads(resources.files("toptank.jobs").joinpath("explanations.toml").read_text(encoding="utf-8"))


def explanation(quantity: str) -> Explanation:
    """Explain a figure; hyphens, capitals and a unit at the end of a key do not matter."""
    name = re.sub(r"_deg[fc]$", "", quantity.strip().lower().replace("-", "_").replace(" ", "_"))
    if name not in explained():
        near = difflib.get_close_matches(name, explained(), n=1, cutoff=0.5)
        fix = f"did you mean {near[0]!r}?" if near else "known: " + ", ".join(explained())
        raise Refusal(field="quantity", value=quantity[:60], limit="has no explanation here", fix=fix)
    entry = explained()[name]
    modules = [f"equations.{module}" for module in entry["equations"]]
    modules += [f"media.{module}" for module in entry.get("media", [])]
    heads = [(module, importlib.import_module(f"toptank.{module}").__doc__ or "") for module in modules]
    keys = [key for _, head in heads for key in _KEY.findall(_source_lines(head))]
    return Explanation(
        name=name,
        means=entry["means"],
        equations=tuple(f"{module}: {head.splitlines()[0].rstrip('.')}" for module, head in heads),
        sources=tuple(_cited(key) for key in dict.fromkeys(keys) if key in _sources()),
        assumptions=tuple(entry["assumptions"]),
        files=tuple(entry["files"]),
    )


@cache
def _sources() -> dict[str, Any]:
    found: dict[str, Any] = {}
    for layer in ("equations", "media"):
        file = resources.files(f"toptank.{layer}").joinpath("sources.toml")
        if file.is_file():
            found |= tomllib.loads(file.read_text(encoding="utf-8"))
    return found


def _source_lines(head: str) -> str:
    match = re.search(r"^Source (.*?)(?=^Range |\Z)", head, re.MULTILINE | re.DOTALL)
    return match[1] if match else ""


def _cited(key: str) -> str:
    source = _sources()[key]
    read = "" if source.get("read") else " (not read at the source)"
    return f"{source['authors']} ({source['year']}), {source['title']}, {source['where']}{read}"
