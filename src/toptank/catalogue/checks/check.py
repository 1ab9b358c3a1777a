"""A check: something a mechanic does to find out, and what it would show for every cause. Declared in checks.toml."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Any

from toptank.catalogue.checks.measure import MEASURES
from toptank.knowledge.sheet import declaration_of
from toptank.units.dimension import TEMPERATURE, TEMPERATURE_RISE, Dimension
from toptank.units.quantity import parse

MEASURED = "measure."
"""How the id of a check begins that measures a field of the sheet which is only assumed; its path follows."""

GROUPS = ("ask", "look_and_feel", "engine_running", "instruments", "on_the_road", "taken_apart")


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """Something to do. It has either outcomes, or a field of the sheet or a measure of the model and a figure.

    Parameters
    ----------
    id : never changes; its words and those of its outcomes stand under it in `catalogue/words`
    group : one of `GROUPS`
    minutes : working time [min]
    bare_hands : it needs no tools
    hazards : ids of what can hurt
    source : where the doing and its traps come from
    rates : where minutes, chances or the error come from
    outcomes : ids of what may be seen; the last is what a sound vehicle shows. Empty where a figure is read.
    false_alarm : chance of each abnormal outcome where nothing shows it [1]
    shown_by : cause -> chance of each abnormal outcome where it is present and severe [1]
    field : field of the sheet that is measured, or empty
    measure : name of the measure of the model, or empty
    dimension : kind of the figure, or None
    error : standard deviation of the figure, in SI, or as a share of it where `relative`
    only_on : what the vehicle must have for it, or empty
    """

    id: str
    group: str
    minutes: float
    bare_hands: bool = False
    hazards: tuple[str, ...] = ()
    source: str
    rates: str = "judgement"
    outcomes: tuple[str, ...] = ()
    false_alarm: tuple[float, ...] = ()
    shown_by: Mapping[str, tuple[float, ...]]
    field: str = ""
    measure: str = ""
    dimension: Dimension | None = None
    error: float = 0.0
    relative: bool = False
    only_on: str = ""

    @property
    def abnormal(self) -> tuple[str, ...]:
        """Outcomes but the sound one."""
        return self.outcomes[:-1]


@cache
def checks() -> Mapping[str, Check]:
    """Every check by its id, in the order of the file."""
    text = resources.files("toptank.catalogue.checks").joinpath("checks.toml").read_text(encoding="utf-8")
    tables: list[dict[str, Any]] = tomllib.loads(text)["check"]
    return MappingProxyType({table["id"]: _check(table) for table in tables})


def _check(table: dict[str, Any]) -> Check:
    outcomes = tuple(table.get("outcomes", ()))
    abnormal = outcomes[:-1]
    rates = {cause: _rates(chances, abnormal) for cause, chances in table.get("shown_by", {}).items()}
    dimension, relative = _dimension(table), bool(table.get("relative", False))
    error = 0.0
    if dimension is not None:
        kind = TEMPERATURE_RISE if dimension is TEMPERATURE else dimension
        error = _share(table["error"]) if relative else parse(table["error"], kind, system="us", field="error").value
    return Check(
        id=table["id"],
        group=table["group"],
        source=table["source"],
        rates=table["rates"],
        bare_hands=bool(table.get("bare_hands", False)),
        hazards=tuple(table.get("hazards", ())),
        minutes=float(table["minutes"]),
        outcomes=outcomes,
        false_alarm=_rates(table.get("false_alarm", {}), abnormal),
        shown_by=MappingProxyType(rates),
        field=table.get("field", ""),
        measure=table.get("balance", ""),
        dimension=dimension,
        error=error,
        relative=relative,
        only_on=table.get("only_on", ""),
    )


def _rates(chances: Mapping[str, float], outcomes: tuple[str, ...]) -> tuple[float, ...]:
    return tuple(float(chances.get(outcome, 0.0)) for outcome in outcomes)


def _dimension(table: dict[str, Any]) -> Dimension | None:
    if "field" in table:
        return declaration_of(table["field"]).dimension
    return MEASURES[table["balance"]].dimension if "balance" in table else None


def _share(text: str) -> float:
    return float(text.removesuffix("%")) / 100.0
