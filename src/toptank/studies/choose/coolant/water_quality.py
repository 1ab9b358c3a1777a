"""Water to thin concentrate with: published limits, and what is known of the argument about it. Held in the TOML file.

Source   named beside each limit in water_quality.toml
Range    figures of an analysis in mg/L (the unit of every such paper) and pH
Scatter  limits are agreed, not measured
"""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """A limit: least and most in the unit of an analysis, why, and where it is printed."""

    name: str
    least: float
    most: float
    unit: str
    why: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """A kind of water: good without an analysis (`trusted`), never good (`refused`), or to be analysed."""

    name: str
    trusted: bool
    refused: bool
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One side of the argument: what is said, what is known of it, and from where."""

    claim: str
    known: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """Whether this water may go in, and every reason why not; `missing` names what the analysis does not tell."""

    good: bool
    reasons: tuple[str, ...]
    missing: tuple[str, ...]


@cache
def limits() -> tuple[Limit, ...]:
    """Every limit, in the order of the file."""
    return tuple(
        Limit(
            name=table["name"],
            least=float(table.get("least", 0.0)),
            most=float(table["most"]),
            unit=table["unit"],
            why=table["why"],
            source=table["source"],
        )
        for table in _tables("limit")
    )


@cache
def kinds() -> tuple[Kind, ...]:
    """Every kind of water, in the order of the file."""
    return tuple(
        Kind(
            name=table["name"],
            trusted=bool(table.get("trusted", False)),
            refused=bool(table.get("refused", False)),
            because=table["because"],
        )
        for table in _tables("kind")
    )


@cache
def distilled_water_argument() -> tuple[Side, ...]:
    """Return what is said about distilled water and what is known of it."""
    return tuple(Side(claim=table["claim"], known=table["known"], source=table["source"]) for table in _tables("side"))


def judged(kind: str, analysis: Mapping[str, float]) -> Verdict:
    """Judge water by its kind and by its analysis.

    Parameters
    ----------
    kind : name of a kind of water
    analysis : figure of each limit that is known, by its name, in mg/L; pH

    Returns
    -------
    verdict : good only if trusted without an analysis or if every limit is known and kept
    """
    water = _kind(kind)
    known = {limit.name: limit for limit in limits()}
    for name, value in analysis.items():
        if name not in known:
            fix = did_you_mean(name, known, f"name one of {', '.join(known)}")
            raise Refusal(field="analysis", value=name, limit="is not a figure with a limit", fix=fix)
        if not 0.0 <= value < float("inf"):
            fix = "copy the figure of the analysis"
            raise Refusal(field=name, value=f"{value:g}", limit="must be zero or more", fix=fix)
    broken = [_broken(known[name], value) for name, value in analysis.items() if not _kept(known[name], value)]
    missing = tuple(name for name in known if name not in analysis)
    if water.refused:
        return Verdict(good=False, reasons=(water.because, *broken), missing=missing)
    if broken:
        return Verdict(good=False, reasons=tuple(broken), missing=missing)
    if water.trusted or not missing:
        return Verdict(good=True, reasons=(), missing=missing)
    unknown = f"not known: {', '.join(missing)}"
    return Verdict(good=False, reasons=(f"{unknown}; {water.because}",), missing=missing)


def _kind(name: str) -> Kind:
    for one in kinds():
        if one.name == name:
            return one
    names = [one.name for one in kinds()]
    fix = did_you_mean(name, names, f"name one of {', '.join(names)}")
    raise Refusal(field="water", value=name, limit="is not a kind of water that is known here", fix=fix)


def _kept(limit: Limit, value: float) -> bool:
    return limit.least <= value <= limit.most


def _broken(limit: Limit, value: float) -> str:
    allowed = f"{limit.least:g} to {limit.most:g}" if limit.least > 0.0 else f"at most {limit.most:g}"
    unit = f" {limit.unit}" if limit.unit else ""
    return f"{limit.name} {value:g}, allowed {allowed}{unit}: {limit.why} ({limit.source})"


def _tables(name: str) -> list[dict[str, Any]]:
    text = resources.files("toptank.studies.choose.coolant").joinpath("water_quality.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)[name]
