"""What is to go in: a remedy, an offer of the job, or what is in now."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import hypot
from types import MappingProxyType

from toptank.catalogue.remedies.core import PLASTIC_TANKS, WELDED
from toptank.catalogue.remedies.remedy import Remedy
from toptank.knowledge.sheet import Fact, Provenance, Sheet, vehicle
from toptank.studies.choose.fit.item import Sum, known, measured
from toptank.studies.choose.fit.measures import FitSheet, Offer

BETWEEN_CORES = 0.002
"""Spread of the depth of cores made to one print [m]; judgement."""

_SAME = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """What is to go in.

    Parameters
    ----------
    name : of a radiator on offer; empty otherwise
    remedies : ids of the remedies that bring it; none for an offer, and for what is in now
    bought : parts of the price book that those take
    noted : of those, what is to be known of the core and the fan: ids of remedies
    parts, price : of an offer, as written
    facts : what it brings, by measure of a radiator; a measure that it lacks is not known
    tanks_stay : the old tanks stay, and with them ports, neck, height and width
    depth : depth of its core
    growth : how much deeper its core is than the one that is in
    passes : times the coolant crosses the face; None if not known
    engine_fan : blades driven by the engine stand behind its core
    electric_fan : it brings electric fans
    """

    name: str = ""
    remedies: tuple[str, ...] = ()
    bought: tuple[str, ...] = ()
    noted: tuple[str, ...] = ()
    parts: str = ""
    price: str = ""
    facts: Mapping[str, Fact]
    tanks_stay: bool
    depth: Sum
    growth: Sum
    passes: float | None
    engine_fan: bool
    electric_fan: bool = False

    def brings(self, key: str) -> Sum:
        """Return a measure of what it brings."""
        return measured(f"offer.{key}", self.facts.get(key))

    def choice(self, key: str) -> float | None:
        """Return the code of a choice, or None if it is not known."""
        fact = self.facts.get(key)
        return fact.value if fact is not None and known(fact) else None


def _printed(value: float, spread: float) -> Fact:
    return Fact(value=value, how=Provenance.PLATE, spread=spread, origin="table of remedies")


REMEDY_MEASURES: Mapping[str, Mapping[str, Fact]] = MappingProxyType(
    {
        "recore_3_row": {"weight": _printed(19.0, 3.0)},
        "recore_4_row": {"weight": _printed(23.0, 3.0)},
        WELDED: {"weight": _printed(14.0, 2.5)},
        PLASTIC_TANKS: {"weight": _printed(10.0, 2.0)},
        "two_electric_fans": {"fan_depth": _printed(0.09, 0.01), "fan_current": _printed(40.0, 5.0)},
        "severe_duty_fan_clutch": {"fan_forward": _printed(0.012, 0.006)},
        "fan_with_more_blades": {"fan_forward": _printed(0.0, 0.006)},
    }
)
"""What remedies bring: weight filled [kg], depth [m] and current [A] of fans, place of blades [m]; from memory."""

FAN_MEASURES = frozenset({"fan_depth", "fan_current", "fan_forward"})
"""Measures of a fan among those that a candidate brings."""

NEW_TANKS = (WELDED, PLASTIC_TANKS)
"""Remedies that bring their own tanks."""


def depth_now(sheet: Sheet, fit: FitSheet) -> Sum:
    """Depth of the core that is in: by tape, or from its rows and tubes where all of those were found."""
    taped = fit.facts["core_depth_now"]
    if known(taped):
        return measured("fit.core_depth_now", taped)
    core, facts = vehicle(sheet).core, sheet.facts
    rows, width, pitch = (facts[f"core.{key}"] for key in ("rows", "tube_width", "row_pitch"))
    between = rows.value - 1.0
    counted = known(rows) and known(width) and (known(pitch) or between == 0.0)
    shares = {"core.tube_width": width.spread, "core.row_pitch": between * pitch.spread}
    return Sum(float(core.depth()), shares, () if counted else ("fit.core_depth_now",))


def as_it_stands(sheet: Sheet, fit: FitSheet) -> Candidate:
    """Return what is in now, to be looked at as if it were to go in."""
    return Candidate(
        facts={},
        tanks_stay=True,
        depth=depth_now(sheet, fit),
        growth=Sum(0.0),
        passes=_passes_now(sheet),
        engine_fan=_engine_fan(sheet),
    )


def of_offer(offer: Offer, sheet: Sheet, fit: FitSheet) -> Candidate:
    """Return a radiator on offer."""
    depth = measured("offer.core_depth", offer.facts.get("core_depth"))
    passes = offer.facts.get("passes")
    fans = offer.facts.get("fan_depth")
    electric = fans is not None and fans.value > 0.0
    return Candidate(
        name=offer.name,
        parts=offer.parts,
        price=offer.price,
        facts=offer.facts,
        tanks_stay=False,
        depth=depth,
        growth=depth - depth_now(sheet, fit),
        passes=passes.value if passes is not None and known(passes) else None,
        engine_fan=_engine_fan(sheet) and not electric,
        electric_fan=electric,
    )


def of_remedy(remedy: Remedy, sheet: Sheet, fit: FitSheet) -> Candidate:
    """Return a remedy: the core and the fan that it leaves in the vehicle."""
    before = vehicle(sheet)
    after = remedy.effect(before, before)
    stands = as_it_stands(sheet, fit)
    brought = REMEDY_MEASURES.get(remedy.id, {})
    depth, growth = stands.depth, stands.growth
    # A recore to the old print keeps the old depth, whatever that is; any other brings its own.
    if abs(float(after.core.depth()) - float(before.core.depth())) > _SAME:
        depth = Sum(float(after.core.depth()), {"offer.core_depth": BETWEEN_CORES})
        growth = depth - depth_now(sheet, fit)
    same_passes = float(after.core.passes) == float(before.core.passes)
    return replace(
        stands,
        remedies=(remedy.id,),
        bought=remedy.parts,
        noted=(remedy.id,),
        facts=brought,
        tanks_stay=remedy.id not in NEW_TANKS,
        depth=depth,
        growth=growth,
        passes=stands.passes if same_passes else float(after.core.passes),
        engine_fan=float(after.fan.drive) < 1.5,
        electric_fan="fan_depth" in brought,
    )


def of_plan(remedies: Sequence[Remedy], sheet: Sheet, fit: FitSheet, *, offer: Offer | None = None) -> Candidate:
    """Return all that a plan leaves in the bay: its core, or the radiator on offer that would be it, and its fan."""
    core = next((remedy for remedy in remedies if remedy.group == "core"), None)
    if offer is not None:
        base = of_offer(offer, sheet, fit)
    else:
        base = as_it_stands(sheet, fit) if core is None else of_remedy(core, sheet, fit)
    for remedy in remedies:
        if remedy is not core and moves_the_fan(remedy):
            base = _with_fan(base, of_remedy(remedy, sheet, fit))
    return base if offer is not None else replace(base, remedies=tuple(remedy.id for remedy in remedies))


def moves_the_fan(remedy: Remedy) -> bool:
    """Whether a remedy brings a fan, or sets the one that is there elsewhere."""
    return bool(FAN_MEASURES & set(REMEDY_MEASURES.get(remedy.id, {})))


def _with_fan(base: Candidate, fan: Candidate) -> Candidate:
    """Put the fan of one candidate behind the core of another; two things that bring the blades forward add up."""
    facts = dict(base.facts)
    for key in FAN_MEASURES & set(fan.facts):
        before, brought = facts.get(key), fan.facts[key]
        adds = key == "fan_forward" and before is not None
        facts[key] = _one_before_the_other(before, brought) if adds and before is not None else brought
    return replace(
        base,
        facts=facts,
        bought=(*base.bought, *fan.bought),
        noted=(*base.noted, *fan.noted),
        engine_fan=base.engine_fan and fan.engine_fan,
        electric_fan=base.electric_fan or fan.electric_fan,
    )


def _one_before_the_other(first: Fact, second: Fact) -> Fact:
    return replace(second, value=first.value + second.value, spread=hypot(first.spread, second.spread))


def on_offer(remedy: Remedy, fit: FitSheet) -> tuple[Offer, ...]:
    """Return the offers that are this remedy: those that say so, or say nothing where it brings its own tanks."""
    silent = remedy.id if remedy.id in NEW_TANKS else ""
    return tuple(offer for offer in fit.offers if (offer.remedy or silent) == remedy.id)


def _passes_now(sheet: Sheet) -> float | None:
    fact = sheet.facts["core.passes"]
    return fact.value if known(fact) else None


def _engine_fan(sheet: Sheet) -> bool:
    return sheet.facts["fan.drive"].value < 1.5
