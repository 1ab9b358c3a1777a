"""Along the axis: whether the core goes between what stands in front of it and what turns behind it.

A deeper core grows towards the engine, towards the grille, or both ways, by what holds it; the shroud goes with the
radiator or stays with the support, by what it is bolted to.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from toptank.knowledge.sheet import Sheet
from toptank.studies.choose.fit.candidate import Candidate
from toptank.studies.choose.fit.item import (
    GEOMETRY,
    JUDGEMENT,
    ONE_SIDED,
    PRACTICE,
    Item,
    Sum,
    Verdict,
    alike,
    clearance,
    known,
    measured,
)
from toptank.studies.choose.fit.measures import FitSheet

_INCH = 0.0254
FAN_TO_CORE_LEAST, FAN_TO_CORE_WANTED = 0.75 * _INCH, 1.0 * _INCH
"""Gap from an engine-driven fan to the core [m]; common practice, no source."""

BLADE_TO_ENGINE = 0.375 * _INCH
"""Least gap from the blades' rear edge to the engine [m]; common practice, no source."""

TIP_LEAST, TIP_WANTED = 0.5 * _INCH, 1.0 * _INCH
"""Gap from blade tips to the shroud [m]: the least, and what engines that rock want; common practice, no source."""

LEAST_IN_SHROUD, MOST_IN_SHROUD = 1.0 / 3.0, 2.0 / 3.0
"""Share of the blades' depth inside the shroud [1]: half is practice, two thirds is told; the least is judgement."""

AGREES = 0.375 * _INCH
"""What two ways of measuring one place may differ by, fins and edges being no straight lines [m]; judgement."""

LOOSE = 0.5 * _INCH
"""Play in a saddle that wants wider rubber [m]; judgement."""

ROUNDING = _INCH / 16.0
"""What is to be gained may be rounded up by [m]: a tape's finest line."""

_MOUNT = "fit.mount"
_REARWARD = (0.5, 1.0, 0.0)
"""Share of a core's depth behind its seat, by the code of `mount`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack:
    """Where things stand along the axis once the candidate is in: gaps, each the sum of its measures."""

    sheet: Sheet
    fit: FitSheet
    candidate: Candidate

    def bay(self, key: str) -> Sum:
        """Return a measure of the bay."""
        return measured(f"fit.{key}", self.fit.facts[key])

    def by_mount(self, length: Sum, *, behind: bool) -> Sum:
        """Part of a length of core that lies behind the seat, or in front of it."""
        mount = self.fit.facts["mount"]
        if length == Sum(0.0):
            return length
        share = _REARWARD[round(mount.value)]
        part = length.times(share if behind else 1.0 - share)
        return part + Sum(0.0, missing=() if known(mount) else (_MOUNT,))

    def rear_growth(self) -> Sum:
        """How far the core's rear face comes nearer to the engine."""
        return self.by_mount(self.candidate.growth, behind=True)

    def fan_forward(self) -> Sum:
        """How far the blades come nearer to the core."""
        return self.candidate.brings("fan_forward") if "fan_forward" in self.candidate.facts else Sum(0.0)

    def shroud_goes_along(self) -> bool:
        """Whether the shroud is bolted to the radiator."""
        return self.fit.facts["shroud_mount"].value < 0.5

    def shroud_moves(self) -> Sum:
        """How far the shroud goes towards the engine with the core."""
        growth = self.rear_growth()
        if growth == Sum(0.0):
            return growth
        moved = growth if self.shroud_goes_along() else Sum(0.0)
        return moved + Sum(0.0, missing=() if known(self.fit.facts["shroud_mount"]) else ("fit.shroud_mount",))

    def shroud_to_core(self) -> Sum:
        """Gap from the shroud's front edge to the core; as it was where both move together."""
        now, mount = self.bay("shroud_to_core"), self.fit.facts["shroud_mount"]
        if known(mount) and self.shroud_goes_along():
            return now
        return now - self.rear_growth() + self.shroud_moves()

    def fan_to_core(self) -> Sum:
        """Gap from the blades to the core."""
        now = measured("shroud.fan_to_core", self.sheet.facts["shroud.fan_to_core"])
        return now - self.rear_growth() - self.fan_forward()

    def blade_to_engine(self) -> Sum:
        """Gap from the blades to the engine."""
        return self.bay("blade_to_engine") + self.fan_forward()

    def blade_in_shroud(self) -> Sum:
        """Part of the blades' depth that is inside the shroud."""
        return self.bay("blade_in_shroud") + self.fan_forward() + self.shroud_moves()

    def tip_clearance(self) -> Sum:
        """Gap from the blade tips to the shroud."""
        return measured("shroud.tip_clearance", self.sheet.facts["shroud.tip_clearance"])

    def has_shroud(self) -> bool:
        """Whether the old shroud stands behind the core."""
        return self.sheet.facts["shroud.present"].value > 0.5 and not self.candidate.electric_fan


def along_the_axis(stack: Stack) -> Iterator[Item]:
    """Answer every question along the axis, from the grille to the engine."""
    depth = stack.candidate.depth
    yield clearance(
        "front of the core to what stands before it",
        stack.bay("support_depth") - stack.by_mount(depth, behind=False),
        fix="move what stands in front (condenser, cooler) {amount} forward, or the seat back",
        source=GEOMETRY,
    )
    yield from _saddles(stack)
    if stack.has_shroud():
        yield clearance(
            "shroud to core",
            stack.shroud_to_core(),
            fix="trim {amount} off the front lip of the shroud, all round",
        )
    if stack.candidate.engine_fan:
        yield from _fan(stack)
    yield _nose(stack)
    yield from _agreement(stack)


def _saddles(stack: Stack) -> Iterator[Item]:
    mount = stack.fit.facts["mount"]
    if known(mount) and mount.value > 0.5:
        return
    room = stack.bay("saddle_width") - stack.bay("saddle_rubber").times(2.0)
    room = room + Sum(0.0, missing=() if known(mount) else (_MOUNT,))
    fix = "a saddle {amount} wider, or thinner saddle rubber"
    yield clearance("core in the saddle", room - stack.candidate.depth, fix=fix, source=GEOMETRY)
    if stack.candidate.tanks_stay:
        return
    item = clearance("tank in the saddle", room - stack.candidate.brings("tank_width"), fix=fix, source=GEOMETRY)
    if item.verdict == Verdict.CLEARS and (item.gap or 0.0) > LOOSE:
        item = replace(item, note="More than {wanted} of play: wider saddle rubber takes it up.", wanted=LOOSE)
    yield item


def _fan(stack: Stack) -> Iterator[Item]:
    """Blades between core, shroud and engine."""
    ahead, behind = stack.fan_to_core(), stack.blade_to_engine()
    fix, another = _give_or_take(
        ahead, FAN_TO_CORE_LEAST, behind, BLADE_TO_ENGINE,
        "a spacer shorter by {amount} behind the fan gives it", "blade rear edge to engine",
        "a thinner core, a shallower fan, or electric fans on the core",
    )  # fmt: skip
    yield clearance(
        "fan to core",
        ahead,
        least=FAN_TO_CORE_LEAST,
        wanted=FAN_TO_CORE_WANTED,
        fix=fix,
        another_part=another,
    )
    yield clearance(
        "fan to core when the engine comes forward",
        ahead - stack.bay("engine_fore_aft"),
        fix="new engine mounts, or {amount} more between fan and core",
        source=GEOMETRY,
    )
    fix, another = _give_or_take(
        behind, BLADE_TO_ENGINE, ahead, FAN_TO_CORE_LEAST,
        "a spacer of {amount} behind the fan gives it", "fan to core", "a fan of less depth, by {amount}",
    )  # fmt: skip
    yield clearance("blade rear edge to engine", behind, least=BLADE_TO_ENGINE, fix=fix, another_part=another)
    if not stack.has_shroud():
        return
    inside, depth = stack.blade_in_shroud(), stack.bay("blade_depth")
    yield clearance(
        "blades far enough in the shroud",
        inside - depth.times(LEAST_IN_SHROUD),
        fix="a spacer of {amount} behind the fan, if fan to core allows, or a shroud deeper by {amount}: half in, "
        "half out is practice",
        source=JUDGEMENT,
    )
    yield clearance(
        "blades far enough out of the shroud",
        depth.times(MOST_IN_SHROUD) - inside,
        fix="trim {amount} off the rear lip of the shroud: half in, half out is practice",
    )
    yield clearance(
        "blade tip to shroud",
        stack.tip_clearance(),
        least=TIP_LEAST,
        wanted=TIP_WANTED,
        fix="trim {amount} off the lip that is nearest, most often the lower one, or centre the shroud",
    )
    yield clearance(
        "blade tip to shroud when the engine rocks",
        stack.tip_clearance() - stack.bay("engine_up_down"),
        fix="new engine mounts, or trim {amount} off the lower lip and the upper one",
        source=GEOMETRY,
    )


def _give_or_take(
    short: Sum, least: float, other: Sum, least_of_other: float, moves: str, other_name: str, otherwise: str
) -> tuple[str, bool]:
    """What to do where one side of the fan is short, and whether that takes another part.

    The fan is moved if the other side has the room, else `otherwise`. Short of what practice wants is a warning; only
    what surely touches takes another part.
    """
    if other.missing:
        return f"{moves}, if {other_name} allows: measure that", False
    needed = least - short.value + ONE_SIDED * short.spread() + ROUNDING
    room = other.value - least_of_other - ONE_SIDED * other.spread()
    touches = short.value + ONE_SIDED * short.spread() < 0.0
    return (f"{moves}; {other_name} allows it", False) if room >= needed else (otherwise, touches)


def _nose(stack: Stack) -> Item:
    gap = stack.bay("pulley_nose_to_core") - stack.rear_growth() - stack.bay("engine_fore_aft")
    if not stack.candidate.electric_fan:
        fix = "a thinner core, or a shorter hub or spacer: {amount} are wanting"
        name = "pulley nose to core when the engine comes forward"
        return clearance(name, gap, fix=fix, source=GEOMETRY)
    fix = "thinner fans, by {amount}, or fans set beside the nose"
    gap = gap - stack.candidate.brings("fan_depth")
    return clearance("electric fans to pulley nose", gap, least=BLADE_TO_ENGINE, fix=fix, source=PRACTICE)


AGREE = "measures of shroud and fan agree"
"""Question that no part answers: where the two do not agree, the tape has slipped."""


def _agreement(stack: Stack) -> Iterator[Item]:
    """The shroud's rear edge is found twice, past the shroud and past the blades: a slip of the tape shows."""
    past_shroud = stack.bay("shroud_to_core") + stack.bay("shroud_depth")
    now = measured("shroud.fan_to_core", stack.sheet.facts["shroud.fan_to_core"])
    past_blades = now + stack.bay("blade_in_shroud")
    if stack.has_shroud() and not past_shroud.missing and not past_blades.missing:
        fix = "measure shroud and fan to core once more: two ways to the shroud's rear edge differ by {amount}"
        item = alike(AGREE, past_shroud, past_blades, within=AGREES, fix=fix, source=JUDGEMENT)
        # Nothing touches where two measures contradict each other: which of them is right is not known.
        yield replace(item, verdict=Verdict.NOT_KNOWN) if item.verdict == Verdict.RUBS else item
