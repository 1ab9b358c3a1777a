"""One question of fit, answered: a gap that adds up from measures, or two things that must match.

Spreads are combined as the root of the sum of their squares; a measure that comes in twice counts with its sum. A gap
clears if it does so on the 95 % side, rubs if it does so on the 95 % side, and is tight between.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from math import hypot

from toptank.knowledge.sheet import DECLARED, Fact, Provenance
from toptank.units.dimension import CHOICE, LENGTH, Dimension

ONE_SIDED = 1.645
"""Standard deviations that leave 5 % on one side of a normal spread."""

PRACTICE = "common practice, no source"
JUDGEMENT = "judgement"
GEOMETRY = "must not touch"


class Verdict(StrEnum):
    """Answer to one question of fit."""

    CLEARS = "clears"
    TIGHT = "tight"
    RUBS = "rubs"
    NOT_KNOWN = "not known"


@dataclass(frozen=True, slots=True)
class Sum:
    """A sum of measures.

    Parameters
    ----------
    value : the sum, in SI
    shares : measure -> its spread within the sum, with the sign it comes in with
    missing : measures that nobody has taken yet
    """

    value: float
    shares: Mapping[str, float] = field(default_factory=dict[str, float])
    missing: tuple[str, ...] = ()

    def __add__(self, other: "Sum | float") -> "Sum":
        if not isinstance(other, Sum):
            return replace(self, value=self.value + other)
        names = dict.fromkeys((*self.shares, *other.shares))
        shares = {name: self.shares.get(name, 0.0) + other.shares.get(name, 0.0) for name in names}
        return Sum(self.value + other.value, shares, tuple(dict.fromkeys((*self.missing, *other.missing))))

    def __sub__(self, other: "Sum | float") -> "Sum":
        return self + (other.times(-1.0) if isinstance(other, Sum) else -other)

    def times(self, factor: float) -> "Sum":
        """Return so many times the sum; nought times what is missing is known."""
        if factor == 0.0:
            return Sum(0.0)
        shares = {name: factor * share for name, share in self.shares.items()}
        return Sum(factor * self.value, shares, self.missing)

    def spread(self) -> float:
        """Return one standard deviation, in SI."""
        return hypot(*self.shares.values())

    def widest(self) -> str:
        """Name the measure that widens the sum most; empty if none does."""
        return max(self.shares, key=lambda name: abs(self.shares[name])) if self.spread() > 0.0 else ""


def known(fact: Fact) -> bool:
    """Whether somebody found the value, or owns up to a guess of his own in the job; a typical value is neither."""
    return fact.how != Provenance.ASSUMED or fact.origin == "job file"


def measured(path: str, fact: Fact | None, *, relative: bool = False) -> Sum:
    """Return a measure as the start of a sum."""
    if fact is None:
        return Sum(0.0, missing=(path,))
    spread = fact.spread * abs(fact.value) if relative else fact.spread
    return Sum(fact.value, {path: spread}, () if known(fact) and fact.origin != DECLARED else (path,))


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One question of fit and its answer, all in SI.

    Parameters
    ----------
    name : what must clear what
    verdict : clears, tight, rubs or not known
    dimension : of the figures; a choice has none
    gap : what is there
    least : what must be there
    margin : how much more is there than must be
    spread : one standard deviation of the margin
    fix : what to do where it rubs; "{amount}" stands for a length of `amount`
    amount : what that must gain to clear on the 95 % side
    measure : measures to take, or to take again
    note : what else there is to say; "{wanted}" stands for a length of `wanted`, "{short}" for what is short of it
    wanted : what the trade would like to have there
    source : where the limit comes from
    pair : the gap is what two lengths differ by that must be alike, and `least` the most that they may
    another_part : it rubs, and nothing cures that but another part, or setting elsewhere what carries it
    """

    name: str
    verdict: Verdict
    dimension: Dimension = CHOICE
    gap: float | None = None
    least: float | None = None
    margin: float | None = None
    spread: float | None = None
    fix: str = ""
    amount: float = 0.0
    measure: tuple[str, ...] = ()
    note: str = ""
    wanted: float | None = None
    source: str = PRACTICE
    pair: bool = False
    another_part: bool = False


def clearance(
    name: str,
    gap: Sum,
    *,
    least: float = 0.0,
    wanted: float | None = None,
    fix: str = "",
    note: str = "",
    source: str = PRACTICE,
    dimension: Dimension = LENGTH,
    another_part: bool = False,
) -> Item:
    """Judge a gap that must not be smaller than some least one; `wanted` is what the trade would rather see.

    `another_part` says that it cannot be made good on what is there.
    """
    if gap.missing:
        return Item(
            name=name, verdict=Verdict.NOT_KNOWN, dimension=dimension, least=least, measure=gap.missing, source=source
        )
    margin, spread = gap.value - least, gap.spread()
    doubt = ONE_SIDED * spread
    clears, rubs = margin >= doubt, margin < -doubt
    tight = not clears and not rubs
    verdict = Verdict.CLEARS if clears else Verdict.RUBS if rubs else Verdict.TIGHT
    if not rubs and wanted is not None and gap.value < wanted:
        note = " ".join(filter(None, (note, "{short} short of the {wanted} wanted.")))
    return Item(
        name=name,
        verdict=verdict,
        dimension=dimension,
        gap=gap.value,
        least=least,
        margin=margin,
        spread=spread,
        fix=fix if rubs else "",
        amount=doubt - margin if rubs else 0.0,
        measure=(gap.widest(),) if tight else (),
        note=note,
        wanted=wanted,
        source=source,
        another_part=rubs and another_part,
    )


def alike(name: str, first: Sum, second: Sum, *, within: float, fix: str, source: str = PRACTICE) -> Item:
    """Judge two lengths that must be alike within a tolerance."""
    apart = first - second
    apart = apart.times(-1.0) if apart.value < 0.0 else apart
    item = clearance(name, apart.times(-1.0) + within, fix=fix, source=source)
    if item.gap is None:
        return replace(item, least=None, pair=True)
    return replace(item, gap=apart.value, least=within, amount=apart.value if item.fix else 0.0, pair=True)


def matches(name: str, paths: tuple[str, ...], right: bool | None, *, fix: str, note: str = "") -> Item:
    """Judge two things that must match; None while one of them is not known."""
    if right is None:
        return Item(name=name, verdict=Verdict.NOT_KNOWN, measure=paths)
    verdict = Verdict.CLEARS if right else Verdict.RUBS
    return Item(name=name, verdict=verdict, fix="" if right else fix, note=note)
