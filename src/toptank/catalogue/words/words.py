"""What everything in the catalogue is called. Things link by id; words are looked up when they are shown.

us.toml holds every word. The units that are asked for choose the English: degrees Fahrenheit come with a hood, degrees
Celsius with a bonnet. `units/dialect.py` turns single words; uk.toml holds the phrases and figures that differ.
"""

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Any, TypeVar, cast

from toptank.units.conversion import System
from toptank.units.dialect import Dialect, dialect_of, in_british


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A short name: of a repair, a part, work that was done, a group of checks."""

    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CauseWords:
    """A cause: short name, what it does in one sentence, what the customer is told; empty where the name will do."""

    name: str
    sentence: str
    customer: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RemedyWords:
    """A remedy: name as on a work order, what to know of it, when it will not do, what the customer goes without."""

    name: str
    note: str
    limits: str
    concession: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckWords:
    """A check: name, tools (empty: none), how it is made, what it tells, what can fool it, words of its outcomes."""

    name: str
    tools: str = ""
    how: str
    tells: str
    misleads: str = ""
    outcomes: Mapping[str, str] = field(default_factory=dict[str, str])


@dataclass(frozen=True, slots=True, kw_only=True)
class HazardWords:
    """What can hurt, in the imperative."""

    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """Every word of one dialect, by kind and id."""

    cause: Mapping[str, CauseWords]
    repair: Mapping[str, Named]
    remedy: Mapping[str, RemedyWords]
    check: Mapping[str, CheckWords]
    hazard: Mapping[str, HazardWords]
    part: Mapping[str, Named]
    work: Mapping[str, Named]
    group: Mapping[str, Named]
    plan: Mapping[str, Named]


def words(system: System) -> Words:
    """Return what everything is called where these units are used."""
    return words_of(dialect_of(system))


@cache
def words_of(dialect: Dialect) -> Words:
    """Return every word of a dialect.

    Raises
    ------
    TypeError : if an entry of the file has a key that is not known here, or lacks one; the file is ours
    """
    base, own = (_read("us"), {}) if dialect == "us" else (_in_british(_read("us")), _read(dialect))

    def table(kind: str, made: type[_T]) -> Mapping[str, _T]:
        entries = {id_: made(**_merged(entry, own.get(kind, {}).get(id_, {}))) for id_, entry in base[kind].items()}
        return MappingProxyType(entries)

    return Words(
        cause=table("cause", CauseWords),
        repair=table("repair", Named),
        remedy=table("remedy", RemedyWords),
        check=table("check", CheckWords),
        hazard=table("hazard", HazardWords),
        part=table("part", Named),
        work=table("work", Named),
        group=table("group", Named),
        plan=table("plan", Named),
    )


_T = TypeVar("_T", CauseWords, Named, RemedyWords, CheckWords, HazardWords)


def plan_words(plan: Sequence[str], system: System) -> str:
    """Name a plan in one line: its remedies, or that nothing is done."""
    named = words(system)
    return " + ".join(named.remedy[remedy].name for remedy in plan) or named.plan["nothing"].name


def _merged(base: dict[str, Any], own: dict[str, Any]) -> dict[str, Any]:
    """Lay a dialect's own words over those of us.toml, outcome by outcome."""
    merged = {**base, **own}
    if "outcomes" in base:
        merged["outcomes"] = MappingProxyType({**base["outcomes"], **own.get("outcomes", {})})
    return merged


def _in_british(tree: Any) -> Any:
    if isinstance(tree, dict):
        return {key: _in_british(value) for key, value in cast("dict[str, Any]", tree).items()}
    return in_british(str(tree))


@cache
def _read(dialect: Dialect) -> dict[str, Any]:
    text = resources.files("toptank.catalogue.words").joinpath(f"{dialect}.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)
