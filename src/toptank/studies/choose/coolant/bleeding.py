"""Filling and bleeding, step by step, for each layout. Held in bleeding.toml; common practice, no source."""

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal

SOURCE = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bleeding:
    """How to fill one layout and get the air out: steps in order, and cautions."""

    layout: str
    means: str
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    source: str = SOURCE


@cache
def layouts() -> tuple[Bleeding, ...]:
    """Every layout, in the order of the file; what holds for all stands before and after its own steps."""
    text = resources.files("toptank.studies.choose.coolant").joinpath("bleeding.toml").read_text(encoding="utf-8")
    file: dict[str, Any] = tomllib.loads(text)
    always: dict[str, list[str]] = file["always"]
    tables: list[dict[str, Any]] = file["layout"]
    return tuple(
        Bleeding(
            layout=table["name"],
            means=table["means"],
            steps=(*always["before"], *table["steps"], *always["after"]),
            cautions=(*always["cautions"], *table["cautions"]),
        )
        for table in tables
    )


def bleeding(layout: str) -> Bleeding:
    """Steps and cautions of a layout."""
    for one in layouts():
        if one.layout == layout:
            return one
    names = [one.layout for one in layouts()]
    fix = did_you_mean(layout, names, f"name one of {', '.join(names)}")
    raise Refusal(field="layout", value=layout, limit="is not a layout that is known here", fix=fix)
