"""What somebody wrote or chose -> id: an id itself, a word of today in any dialect, or a wording of former times.

Files, records and commands of people are read through here and nowhere else; what is written again carries ids.
"""

import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Any, Literal, get_args

from toptank.catalogue.remedies.plan import Plan
from toptank.catalogue.words.words import words_of
from toptank.units.dialect import Dialect
from toptank.units.nearest import meant_one_of, nearest

MOST_NEAR = 9
"""Nearest spellings of which each thing is told once."""

MOST_TOLD = 3

Kind = Literal["cause", "repair", "remedy", "check", "part", "work"]


def id_of(kind: Kind, written: str) -> str | None:
    """Return the id that is meant by what was written, or None; capitals and spaces do not matter."""
    return _ids(kind).get(_plain(written))


def outcome_of(check: str, written: str) -> str | None:
    """Return the id of the outcome of a check that is meant by what was written, or None."""
    return _outcomes(check).get(_plain(written))


def plan_of(written: str) -> Plan | None:
    """Return the ids of the remedies of a plan as somebody wrote it, or None where a part of it is no remedy.

    Remedies stand with commas between their ids, or with " + " between whatever they are called; "nothing" is none.
    """
    if _plain(written) in _NOTHING:
        return ()
    alone = id_of("remedy", written)
    parts = [alone] if alone else [id_of("remedy", part) for part in written.split("+" if "+" in written else ",")]
    return None if None in parts else tuple(part for part in parts if part is not None)


def written_plan(plan: Iterable[str]) -> str:
    """Write a plan so that `plan_of` reads it: its ids with commas between them."""
    return ",".join(plan) or "nothing"


_NOTHING = ("nothing", "do nothing", "leave it as it is")


def meant(kind: Kind, written: str, otherwise: str) -> str:
    """Return the end of a refusal: what was nearly written, by its name of today and once each, or what else to do."""
    ids, named = _ids(kind), getattr(words_of("us"), kind)
    near = dict.fromkeys(ids[one] for one in nearest(written, ids, most=MOST_NEAR))
    return meant_one_of((named[id_].name for id_ in list(near)[:MOST_TOLD]), otherwise)


def _plain(written: str) -> str:
    return " ".join(written.split()).lower()


@cache
def _ids(kind: Kind) -> Mapping[str, str]:
    known = getattr(words_of("us"), kind)
    names = {getattr(words_of(dialect), kind)[id_].name: id_ for dialect in get_args(Dialect) for id_ in known}
    return _table(known, names, _former()[kind])


@cache
def _outcomes(check: str) -> Mapping[str, str]:
    known = words_of("us").check[check].outcomes
    names = {words_of(dialect).check[check].outcomes[id_]: id_ for dialect in get_args(Dialect) for id_ in known}
    return _table(known, names, _former_outcomes().get(check, {}))


def _table(ids: Iterable[str], names: Mapping[str, str], former: Mapping[str, str]) -> Mapping[str, str]:
    """An id wins over a former wording, and that over a word of today: what was stored never changes its meaning."""
    spoken = {_plain(name): id_ for name, id_ in names.items()}
    spoken |= {_plain(wording): id_ for wording, id_ in former.items()}
    return MappingProxyType(spoken | {id_: id_ for id_ in ids})


@cache
def _former() -> dict[str, Any]:
    text = resources.files("toptank.catalogue.words").joinpath("aliases.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def _former_outcomes() -> dict[str, dict[str, str]]:
    return _former()["outcome"]
