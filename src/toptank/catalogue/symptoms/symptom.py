"""A symptom: something a driver says of a vehicle that runs hot, how it is said, and for what it speaks.

Declared in symptoms.toml.
"""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Any

LEVELS: Mapping[str, float] = MappingProxyType(
    {"almost_always": 0.90, "often": 0.60, "sometimes": 0.30, "rarely": 0.10, "hardly": 0.03, "never": 0.005}
)
"""How often something is so, or is told, in the words of symptoms.toml [1]; the figures are judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Symptom:
    """Something a driver says.

    Parameters
    ----------
    id : for files and links
    words, ask : a short name for it, and the question to the driver
    category : symptoms of one category often come together
    told : how often a driver tells it unasked where it is so [1]
    otherwise : how often it is so where none of the causes listed is there [1]
    shows : key of a cause -> how often it is so where that cause alone is there [1]
    phrases, denials : how it is said and how it is denied, patterns of symptoms.toml
    unless : phrases that make the others of their sentence void
    only_on : what the vehicle must have for it, in the words of checks, or empty
    onset : the way of beginning that it is another word for, or empty
    asked_by : names of checks that find out the same; where one was made, it speaks and not the symptom
    covers : ids of wider symptoms that say less of the same; where this one is told they count no more
    overruled_by : ids of symptoms that contradict it; where a text tells one of them, it is not proposed
    source : where the shares come from
    """

    id: str
    words: str
    ask: str
    category: str
    told: float
    otherwise: float
    shows: Mapping[str, float]
    phrases: tuple[str, ...]
    denials: tuple[str, ...]
    unless: tuple[str, ...] = ()
    only_on: str = ""
    onset: str = ""
    asked_by: tuple[str, ...] = ()
    covers: tuple[str, ...] = ()
    overruled_by: tuple[str, ...] = ()
    source: str = "judgement"


@cache
def symptoms() -> Mapping[str, Symptom]:
    """Every symptom by its id, in the order of the file."""
    tables: list[dict[str, Any]] = _file()["symptom"]
    groups: dict[str, list[str]] = _file()["groups"]
    return MappingProxyType({table["id"]: _symptom(table, groups) for table in tables})


@cache
def word_classes() -> Mapping[str, tuple[str, ...]]:
    """Words that stand for each other in phrases, by the name of their class."""
    return MappingProxyType({name: tuple(words) for name, words in _file()["words"].items()})


@cache
def _file() -> dict[str, Any]:
    return tomllib.loads(
        resources.files("toptank.catalogue.symptoms").joinpath("symptoms.toml").read_text(encoding="utf-8")
    )


def _symptom(table: dict[str, Any], groups: Mapping[str, list[str]]) -> Symptom:
    shows: dict[str, float] = {}
    for named in (False, True):  # a cause named by itself counts before its group
        for level, chance in LEVELS.items():
            for key in table.get(level, []):
                if key.startswith("@") is not named:
                    shows |= dict.fromkeys(groups[key[1:]] if key.startswith("@") else [key], chance)
    return Symptom(
        **{key: table[key] for key in ("id", "words", "ask", "category")},
        **{key: table[key] for key in ("only_on", "onset", "source") if key in table},
        told=LEVELS[table["told"]],
        otherwise=LEVELS[table["otherwise"]],
        shows=MappingProxyType(shows),
        phrases=tuple(table["phrases"]),
        denials=tuple(table["denials"]),
        unless=tuple(table.get("unless", ())),
        asked_by=tuple(table.get("asked_by", ())),
        covers=tuple(table.get("covers", ())),
        overruled_by=tuple(table.get("overruled_by", ())),
    )
