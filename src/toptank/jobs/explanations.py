"""`explain`: which equations a figure rests on, with their sources, and what is assumed."""

import importlib
import re
import tomllib
from functools import cache
from importlib import resources
from typing import Any

from toptank.jobs.answers import Explanation
from toptank.jobs.toml_file import shortened
from toptank.units import dimension
from toptank.units.conversion import System
from toptank.units.display import key_suffix
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal

_KEY = re.compile(r"[a-z][a-z_]*\d{4}[a-z]?|sae_j\d+|us_std_1976|iapws\w*")

_SUCH_AS = ("top_tank", "air_to_boil", "boiling_point")


@cache
def explained() -> dict[str, Any]:
    """The table of explanations by figure."""
    return tomllib.loads(resources.files("toptank.jobs").joinpath("explanations.toml").read_text(encoding="utf-8"))


def explanation(quantity: str) -> Explanation:
    """Explain a figure; hyphens, capitals and a unit at the end of a key do not matter."""
    name = _name(quantity)
    if name not in explained():
        sharing = [one for one in explained() if set(name.split("_")) & set(one.split("_"))][:4]
        otherwise = f"name a figure of an answer, such as {', '.join(sharing or _SUCH_AS)}"
        fix = did_you_mean(name, explained(), otherwise)
        raise Refusal(field="quantity", value=shortened(quantity), limit="has no explanation here", fix=fix)
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


def _name(quantity: str) -> str:
    """Name of a figure from its key: less the unit at its end."""
    name = "_".join(quantity.strip().lower().replace("-", "_").split())
    while name not in explained():
        # The longest unit that the key ends in: "ft_per_min" ends in "min" too.
        unit = next((unit for unit in _units() if name.endswith(f"_{unit}")), None)
        if unit is None:
            break
        name = name.removesuffix(f"_{unit}")
    return name


@cache
def _units() -> tuple[str, ...]:
    """Every unit that ends a key of an answer, the longest first."""
    kinds = [kind for kind in vars(dimension).values() if isinstance(kind, dimension.Dimension)]
    systems: tuple[System, ...] = ("us", "metric")
    units = {key_suffix(kind, system).lower() for kind in kinds for system in systems} - {""}
    rises = {f"{rise}_per_{pressure}" for rise in ("degf", "degc") for pressure in ("psi", "kpa")}
    return tuple(sorted(units | rises, key=lambda unit: (-len(unit), unit)))


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
