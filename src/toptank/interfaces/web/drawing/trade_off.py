"""What more money buys: each plan's price against its chance to hold the worst day, and its band of the gauge.

Above, every plan is a number at its price and its chance; below, the numbers have their names, one row each, so that
however many plans there are no label can lie on another.
"""

from __future__ import annotations

import math
from itertools import accumulate, pairwise
from typing import TYPE_CHECKING, NamedTuple

from toptank.interfaces.web.drawing.svg import box, cut_to, figure, heading, line, type_set, width_of, wrapped
from toptank.shop.door import money, plan_marks
from toptank.units.conversion import from_si, kelvin, unit_of
from toptank.units.dimension import TEMPERATURE
from toptank.units.display import show
from toptank.units.sentence import said

if TYPE_CHECKING:
    from collections.abc import Iterator

    from toptank.shop.door import Band, ChoiceAnswer, PlanAnswer, PlanDuty
    from toptank.units.conversion import System

WIDTH, RIGHT = 820.0, 780.0


class Field(NamedTuple):
    """The field of price and chance; no price at all stands at `zero`."""

    width: float
    left: float
    zero: float
    right: float
    top: float
    floor: float

    def at_price(self, cost: float, most: float) -> float:
        """Place of a price."""
        return self.zero + (self.right - self.zero) * cost / most

    def at_chance(self, share: float) -> float:
        """Place of a chance."""
        return self.floor - (self.floor - self.top) * share


WIDE = Field(WIDTH, 66.0, 90.0, RIGHT, 70.0, 330.0)
NARROW = Field(400.0, 58.0, 78.0, 376.0, 44.0, 308.0)

FIRST_ROW = 452.0
PADDING, LEADING, SHORTEST = 36.0, 19.0, 62.0
"""A row: room around its lines, their distance, its least height."""

MARK = 14.0
"""Radius of a plan's number."""

NAME_AT, NAME_ROOM, PRICE_AT, CHANCE_AT, SCALE_FROM, SCALE_TO = 56.0, 322.0, 456.0, 520.0, 548.0, 780.0
NAME, SMALL = 16.0, 14.0
HEAD = 15.0
BEYOND = 25.0
"""The scale of the gauge goes so far beyond the limit at most [K]: hotter is only hotter."""

TICKS, MARKS = 5, 4
"""Steps of the price, marks of the gauge at most."""


class Spot(NamedTuple):
    """Where a plan's number stands, and where it belongs."""

    x: float
    y: float
    true_x: float
    true_y: float


def trade_off(answer: ChoiceAnswer, system: System) -> str:
    """Return the chart of a choice as SVG."""
    plans = answer.plans
    scale = _Scale(answer, system)
    names = [_name(plan, answer, system) for plan in plans]
    heights = [max(PADDING + LEADING * len(lines), SHORTEST) for lines in names]
    tops = [FIRST_ROW, *(FIRST_ROW + total for total in accumulate(heights))]
    height = tops.pop() + 14.0
    body = [
        type_set(16, 30, heading(answer.title, 19, WIDTH - 32.0, invented=answer.invented), 19, "name"),
        *_numbers(WIDE, answer),
        *_heads(scale, height, answer),
        *(
            text
            for number, place in enumerate(zip(tops, names, strict=True))
            for text in _row(number, answer, scale, place)
        ),
    ]
    return figure("trade-off", WIDTH, height, f"What more money buys: {answer.title}", says(answer, system), body)


def _numbers(field: Field, answer: ChoiceAnswer) -> Iterator[str]:
    """Every plan as a number at its price and its chance."""
    plans = answer.plans
    most = round_up(max(max(plan.cost for plan in plans), 1.0))
    spots = _spots(
        field, [(field.at_price(plan.cost, most), field.at_chance(plan.holds_pct / 100.0)) for plan in plans]
    )
    yield from frame(field, most, answer.currency)
    yield line(
        _steps(field, [spot for spot, plan in zip(spots, plans, strict=True) if plan.plan != answer.does_not_go_in]),
        "step",
    )
    for number, (spot, plan) in enumerate(zip(spots, plans, strict=True)):
        yield _mark(number, spot, plan, answer)


def says(answer: ChoiceAnswer, system: System) -> str:
    """Say the chart in sentences."""
    words: list[str] = []
    for number, plan in enumerate(answer.plans):
        gauge = hardest(plan).gauge_degC
        low, high = kelvin(gauge.p10), kelvin(gauge.p90)
        taken = (
            ", recommended"
            if plan.plan == answer.recommended
            else ", won't fit"
            if plan.plan == answer.does_not_go_in
            else ""
        )
        words.append(
            f"Plan {number}{taken}: {said(plan.name, system)}, {money(plan.cost, answer.currency)}, "
            f"holds {_percent(plan.holds_pct / 100.0)}, gauge {show(low, TEMPERATURE, system)} to "
            f"{show(high, TEMPERATURE, system)} at {plan.hardest_duty}."
        )
    return " ".join(words)


def _percent(share: float) -> str:
    if share < 0.01:
        return "<1 %"
    return ">99 %" if share > 0.99 else f"{100.0 * share:.0f} %"


def hardest(plan: PlanAnswer) -> PlanDuty:
    """Return what a plan does at its hardest duty."""
    return next(duty for duty in plan.duties if duty.duty == plan.hardest_duty)


def round_up(most: float) -> float:
    """Return the end of a scale that has five even steps."""
    step = 10.0 ** math.floor(math.log10(most / TICKS))
    return next(TICKS * times * step for times in (1, 2, 2.5, 4, 5, 10) if TICKS * times * step >= most)


def _spots(field: Field, true: list[tuple[float, float]]) -> list[Spot]:
    """Places for the numbers: where they belong, or as near as they can be without lying on another."""
    placed: list[Spot] = []
    for x, y in true:
        for turn in range(400):
            reach, angle = 1.1 * MARK * turn**0.5, 2.4 * turn  # a widening spiral, by the golden angle
            at = Spot(
                min(max(x + reach * math.cos(angle), field.zero), field.right),
                min(max(y - reach * math.sin(angle), field.top), field.floor),
                x,
                y,
            )
            if all(math.hypot(at.x - other.x, at.y - other.y) > 2.3 * MARK for other in placed):
                placed.append(at)
                break
        else:
            placed.append(Spot(x, y, x, y))
    return placed


def frame(field: Field, most: float, currency: str) -> Iterator[str]:
    """The field of price and chance with its rules, without any plan."""
    width, left, zero, right, top, floor = field
    widest = width_of(f"{currency}{most:,.0f}", SMALL)
    every = 1 if widest < (right - zero) / TICKS else 2
    for tick in range(TICKS + 1):
        x = field.at_price(most * tick / TICKS, most)
        yield line(f"M{x:.1f} {top:g} V{floor:g}", "rule")
        if (TICKS - tick) % every == 0:
            x = min(x, width - widest / 2.0)
            yield type_set(x, floor + 22, f"{currency}{most * tick / TICKS:,.0f}", SMALL, "number", anchor="middle")
    for share in (0.0, 0.25, 0.5, 0.75, 1.0):
        y = field.at_chance(share)
        yield line(f"M{left:g} {y:.1f} H{right:g}", "rule")
        yield type_set(left - 10, y + 5, f"{100 * share:.0f} %", SMALL, "number", anchor="end")
    yield line(f"M{left:g} {top:g} V{floor:g} H{right:g}", "outline")
    yield type_set(16, top - MARK - 8, "chance to hold the worst day", HEAD, "quiet")
    yield type_set(right, floor + 44, "price of parts and work", HEAD, "quiet", anchor="end")


def _steps(field: Field, spots: list[Spot]) -> str:
    """Stairs from plan to plan: no money between two plans buys a better chance than the cheaper one gives."""
    path = f"M{spots[0].true_x:.1f} {spots[0].true_y:.1f}"
    for _, after in pairwise(spots):
        path += f" H{after.true_x:.1f} V{after.true_y:.1f}"
    return path + f" H{field.right:g}"


def _mark(number: int, spot: Spot, plan: PlanAnswer, answer: ChoiceAnswer) -> str:
    moved = math.hypot(spot.x - spot.true_x, spot.y - spot.true_y) > 1.0
    lead = line(f"M{spot.x:.1f} {spot.y:.1f} L{spot.true_x:.1f} {spot.true_y:.1f}", "thin") if moved else ""
    dot = f'<circle cx="{spot.true_x:.1f}" cy="{spot.true_y:.1f}" r="3.5" class="solid"/>' if moved else ""
    return lead + dot + _badge(number, spot.x, spot.y, plan, answer)


def _badge(number: int, x: float, y: float, plan: PlanAnswer, answer: ChoiceAnswer) -> str:
    """A plan's number: in a square where nothing is done, on solid ink with a ring where it is the one to take."""
    taken = plan.plan == answer.recommended
    if not plan.remedies:
        shape = box(x - MARK + 1, y - MARK + 1, 2 * MARK - 2, 2 * MARK - 2, "taken" if taken else "hollow")
    else:
        shape = f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{MARK:g}" class="{"taken" if taken else "hollow"}"/>'
    ring = f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{MARK + 4:g}" class="thin"/>' if taken else ""
    return (
        ring
        + shape
        + type_set(x, y + 5.5, plan_marks(answer)[number], 15, "on-taken" if taken else "name", anchor="middle")
    )


class _Scale:
    """The common scale of the gauge in the rows."""

    def __init__(self, answer: ChoiceAnswer, system: System) -> None:
        bands = [hardest(plan).gauge_degC for plan in answer.plans]
        self.system: System = system
        self.limit = kelvin(answer.limit_degC)
        self.most = min(max([self.limit + 4.0, *(kelvin(band.p90) for band in bands)]), self.limit + BEYOND)
        self.least = min([self.limit - 8.0, *(kelvin(band.p10) for band in bands)]) - 1.0

    def at(self, T: float) -> float:
        """Place of a temperature [K]; what is hotter than the scale stands at its end."""
        share = (min(max(T, self.least), self.most) - self.least) / (self.most - self.least)
        return SCALE_FROM + (SCALE_TO - SCALE_FROM) * share

    def ticks(self) -> Iterator[tuple[float, str]]:
        """Round figures along the scale, few enough to stand apart."""
        unit = unit_of(TEMPERATURE, self.system)
        first, last = (float(from_si(T, TEMPERATURE, unit)) for T in (self.least, self.most))
        step = next(step for step in (5, 10, 20, 40, 50, 100) if (last - first) / step <= MARKS)
        value = math.ceil(first / step) * step
        while value <= last:
            share = (value - first) / (last - first)
            yield SCALE_FROM + (SCALE_TO - SCALE_FROM) * share, f"{value:.0f}"
            value += step


def _heads(scale: _Scale, height: float, answer: ChoiceAnswer) -> Iterator[str]:
    y, floor = FIRST_ROW - 52.0, height - 30.0
    for x, words, anchor in ((NAME_AT, "plan", "start"), (PRICE_AT, "price", "end"), (CHANCE_AT, "holds", "end")):
        yield type_set(x, y + 26, words, HEAD, "quiet", anchor=anchor)
    yield type_set(SCALE_FROM, y, f"gauge at its hardest duty, {unit_of(TEMPERATURE, scale.system)}", HEAD, "quiet")
    for x, words in scale.ticks():
        yield line(f"M{x:.1f} {y + 34:g} V{floor:g}", "rule")
        yield type_set(x, y + 26, words, SMALL, "number", anchor="middle")
    x = scale.at(scale.limit)
    yield line(f"M{x:.1f} {y + 34:g} V{floor:g}", "limit")
    words = f"limit {show(scale.limit, TEMPERATURE, scale.system)}"
    yield type_set(min(x, SCALE_TO - 40.0), floor + 20, words, SMALL, "name", anchor="middle")
    yield type_set(16, floor + 20, "bars: likely range, 8 chances in 10", SMALL, "quiet")


def _name(plan: PlanAnswer, answer: ChoiceAnswer, system: System) -> list[str]:
    """A plan's remedies, one below the other, as many lines as they need; what is to be said of it above them."""
    taken = plan.plan == answer.recommended
    lines = ["take this:"] if taken else ["won't fit:"] if plan.plan == answer.does_not_go_in else []
    remedies = [said(one.name, system) for one in plan.remedies] or [said(plan.name, system)]
    for place, remedy in enumerate(remedies):
        lines += wrapped(f"+ {remedy}" if place else remedy, NAME, NAME_ROOM, most=3, bold=taken)
    return lines


def _row(number: int, answer: ChoiceAnswer, scale: _Scale, place: tuple[float, list[str]]) -> Iterator[str]:
    plan, (y, lines) = answer.plans[number], place
    taken = "name" if plan.plan == answer.recommended else ""
    yield line(f"M16 {y - 22:.1f} H{RIGHT:g}", "rule")
    yield _badge(number, 34, y + 4, plan, answer)
    for row, words in enumerate(lines):
        yield type_set(NAME_AT, y + LEADING * row, words, NAME, taken)
    duty = cut_to(f"hardest: {plan.hardest_duty}", SMALL, NAME_ROOM)
    yield type_set(NAME_AT, y + LEADING * len(lines), duty, SMALL, "quiet")
    yield type_set(PRICE_AT, y, money(plan.cost, answer.currency), NAME, "number", anchor="end")
    yield type_set(CHANCE_AT, y, _percent(plan.holds_pct / 100.0), NAME, "number name", anchor="end")
    yield from _bar(y, hardest(plan).gauge_degC, scale)


def _bar(y: float, gauge: Band, scale: _Scale) -> Iterator[str]:
    """The band of the gauge with its middle and its ends in figures."""
    low, middle, high = (kelvin(one) for one in (gauge.p10, gauge.p50, gauge.p90))
    start, end = scale.at(low), scale.at(high)
    yield box(start, y - 12, max(end - start, 4.0), 20, "band over" if middle > scale.limit else "band")
    x = scale.at(middle)
    yield line(f"M{x:.1f} {y - 15:.1f} V{y + 11:.1f}", "middle")
    words = f"{show(low, TEMPERATURE, scale.system).split()[0]} to {show(high, TEMPERATURE, scale.system)}"
    half = width_of(words, SMALL) / 2.0
    x = min(max((start + end) / 2.0, SCALE_FROM + half), SCALE_TO - half)
    yield box(x - half, y + 14, 2.0 * half, 18, "ground")
    yield type_set(x, y + 28, words, SMALL, "number", anchor="middle")
