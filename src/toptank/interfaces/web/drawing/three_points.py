"""What more money buys, at a glance: a point for each plan that no other beats, and only the three named lettered."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from toptank.interfaces.web.drawing.svg import figure, line, type_set, width_of
from toptank.interfaces.web.drawing.trade_off import NARROW, WIDE, frame, round_up
from toptank.shop.door import money
from toptank.units.sentence import said

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from toptank.interfaces.web.drawing.trade_off import Field
    from toptank.shop.door import ChoiceAnswer, NamedPlan, PlanAnswer
    from toptank.units.conversion import System

DOT, MARK, LETTER = 5.0, 15.0, 17.0
"""Radius of a plan without a letter and of one with it; size of the letter."""

NAME, BESIDE = 15.0, MARK + 10.0
"""Size of a plan's name, and how far from its point it begins."""


class _Place(NamedTuple):
    x: float
    y: float


class _Box(NamedTuple):
    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: _Box) -> bool:
        """Whether the two lie on one another."""
        across = self.left < other.right and other.left < self.right
        return across and self.top < other.bottom and other.top < self.bottom


def three_points(answer: ChoiceAnswer, named: Sequence[NamedPlan], system: System, *, narrow: bool = False) -> str:
    """Return the picture as SVG: price to the right, chance to hold upwards."""
    field = NARROW if narrow else WIDE
    shown = unbeaten(answer, named)
    most = round_up(max(max(plan.cost for plan in shown), 1.0))
    lettered = {one.plan.plan: one for one in named}
    body = [*frame(field, most, answer.currency)]
    places = {plan.plan: _at(field, plan, most) for plan in shown}
    body += [_dot(places[plan.plan], plan) for plan in shown if plan.plan not in lettered]
    marks = _apart(places, named)
    body += [_letter(marks[one.letter], places[one.plan.plan], one) for one in named]
    if field.width >= WIDE.width:
        body += _names(marks, named, field, [place for ids, place in places.items() if ids not in lettered])
    title = f"What more money buys: {answer.title}"
    told = "three-points-small" if narrow else "three-points"
    return figure(told, field.width, field.floor + 56.0, title, says(answer, shown, lettered, system), body)


def unbeaten(answer: ChoiceAnswer, named: Sequence[NamedPlan]) -> list[PlanAnswer]:
    """Return leaving it, the named plans, and every plan that no cheaper or equal one holds as well as."""
    letters = {one.plan.plan for one in named}
    plans = [one for one in answer.plans if one.plan != answer.does_not_go_in]
    kept: list[PlanAnswer] = []
    for one in plans:
        beaten = any(
            other.cost <= one.cost and other.holds_pct >= one.holds_pct and other is not one
            and (other.cost, other.holds_pct) != (one.cost, one.holds_pct)
            for other in plans
        )  # fmt: skip
        if one.plan in letters or not one.plan or not beaten:
            kept.append(one)
    return kept + [one.plan for one in named if all(one.plan.plan != other.plan for other in kept)]


def says(
    answer: ChoiceAnswer, shown: Sequence[PlanAnswer], lettered: dict[tuple[str, ...], NamedPlan], system: System
) -> str:
    """Say the picture in sentences."""
    words: list[str] = []
    for plan in shown:
        one = lettered.get(plan.plan)
        name = f"{one.letter}, {one.called}" if one is not None else said(plan.name, system)
        words.append(f"{name}: {money(plan.cost, answer.currency)}, holds {plan.holds_pct:.0f} %.")
    return " ".join(words)


def _at(field: Field, plan: PlanAnswer, most: float) -> _Place:
    return _Place(field.at_price(plan.cost, most), field.at_chance(plan.holds_pct / 100.0))


def goes_without(plan: PlanAnswer) -> bool:
    """Whether the customer gives something up in a plan."""
    return plan.asks_the_customer is not None


def _dot(place: _Place, plan: PlanAnswer) -> str:
    if not plan.plan:
        return (
            f'<rect x="{place.x - DOT:.1f}" y="{place.y - DOT:.1f}" width="{2 * DOT:g}" height="{2 * DOT:g}" '
            'class="hollow"/>'
        )
    ring = f'<circle cx="{place.x:.1f}" cy="{place.y:.1f}" r="{DOT:g}" class="hollow"/>'
    bar = f"M{place.x - 2 * DOT:.1f} {place.y:.1f} h{4 * DOT:g}"
    return ring + (line(bar, "thin") if goes_without(plan) else "")


def _apart(places: dict[tuple[str, ...], _Place], named: Sequence[NamedPlan]) -> dict[str, _Place]:
    """Where the letter of each plan stands: on its point, or pushed down where an earlier letter stands there."""
    marks: dict[str, _Place] = {}
    for one in named:
        place = places[one.plan.plan]
        while any(math.hypot(place.x - other.x, place.y - other.y) < 2.2 * MARK for other in marks.values()):
            place = _Place(place.x, place.y + 4.0)
        marks[one.letter] = place
    return marks


def _letter(place: _Place, true: _Place, one: NamedPlan) -> str:
    look = "taken" if one.recommended else "hollow"
    ring = f'<circle cx="{place.x:.1f}" cy="{place.y:.1f}" r="{MARK + 4:g}" class="thin"/>' if one.recommended else ""
    lead = line(f"M{place.x:.1f} {place.y:.1f} L{true.x:.1f} {true.y:.1f}", "thin") if place != true else ""
    mark = f'<circle cx="{place.x:.1f}" cy="{place.y:.1f}" r="{MARK:g}" class="{look}"/>'
    letter = type_set(
        place.x, place.y + 6.0, one.letter, LETTER, "on-taken" if one.recommended else "name", anchor="middle"
    )
    return lead + ring + mark + letter


def _names(marks: dict[str, _Place], named: Sequence[NamedPlan], field: Field, dots: Sequence[_Place]) -> Iterator[str]:
    """The names, each beside its letter where neither a letter, a point nor a name before it lies in the way.

    One that has room on neither side is left out: it stands on the plan's card above.
    """
    taken = [_Box(at.x - MARK, at.y - MARK, at.x + MARK, at.y + MARK) for at in marks.values()]
    taken += [_Box(at.x - DOT, at.y - DOT, at.x + DOT, at.y + DOT) for at in dots]
    for one in named:
        place, wide = marks[one.letter], width_of(one.called, NAME)
        for x, anchor in ((place.x + BESIDE, "start"), (place.x - BESIDE, "end")):
            left = x if anchor == "start" else x - wide
            box = _Box(left, place.y - 0.6 * NAME, left + wide, place.y + 0.6 * NAME)
            if field.left < box.left and box.right < field.right and not any(box.meets(other) for other in taken):
                taken.append(box)
                yield type_set(x, place.y + 5.0, one.called, NAME, "quiet", anchor=anchor)
                break
