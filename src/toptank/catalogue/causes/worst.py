"""What the trade carries in its head: how much hotter each cause at its worst makes a sound vehicle, and where."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Any

DEGREES_F = 1.8
"""Fahrenheit degrees in a kelvin [1]."""

Range = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Worst:
    """Least and most rise over a sound vehicle [K] of a cause of severity 1, by place.

    only_cooled, not_cooled : it heats with the air conditioning on only, with it off only
    """

    idle: Range
    road: Range
    fast: Range
    hill: Range
    only_cooled: bool = False
    not_cooled: bool = False


@cache
def worst() -> Mapping[str, Worst]:
    """Every cause's rises by its key, in the order of the file."""
    declared = resources.files("toptank.catalogue.causes").joinpath("worst.toml").read_text(encoding="utf-8")
    tables: dict[str, dict[str, Any]] = tomllib.loads(declared)
    return MappingProxyType({key: _worst(table) for key, table in tables.items()})


def _worst(table: Mapping[str, Any]) -> Worst:
    def kelvin(place: str) -> Range:
        least, most = table[place]
        return least / DEGREES_F, most / DEGREES_F

    return Worst(
        idle=kelvin("idle"),
        road=kelvin("road"),
        fast=kelvin("fast" if "fast" in table else "road"),
        hill=kelvin("hill"),
        only_cooled=bool(table.get("only_cooled", False)),
        not_cooled=bool(table.get("not_cooled", False)),
    )
