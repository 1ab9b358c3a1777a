"""A drive as a strip: the band of the gauge against its limit and boiling, the road below it, the peak marked.

What a drive forecasts and what a logger saw fit into the same record, so that one can be laid over the other.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Literal

from toptank.interfaces.web.drawing.svg import box, figure, heading, line, type_set, width_of
from toptank.units.conversion import from_si, kelvin, unit_of
from toptank.units.dimension import ALTITUDE, DISTANCE, TEMPERATURE
from toptank.units.display import show, show_estimate

if TYPE_CHECKING:
    from collections.abc import Iterator

    from toptank.shop.door import DriveAnswer
    from toptank.units.conversion import System
    from toptank.units.dimension import Dimension

Along = Literal["time", "distance"]
Numbers = Sequence[float]

WIDTH, HEIGHT = 960.0, 480.0
LEFT, RIGHT, TOP, FLOOR = 64.0, 820.0, 62.0, 320.0
"""The field of the gauge; names of its lines stand at the right of it."""

ROAD_TOP, ROAD_FLOOR = 352.0, 424.0
SMALL, NAME = 15.0, 18.0
APART = 20.0
"""Names at the right stand at least so far apart."""

MOST_POINTS = 480
"""Points of a line: about one for each two dots of a wide screen."""

STEPS_OF = {
    "time": (1, 2, 5, 10, 15, 20, 30, 60, 120, 240, 480, 960),
    "distance": (0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 25, 50, 100, 200, 500, 1000),
}
STEPS_OF_DEGREES = (5, 10, 20, 25, 50, 100, 200)


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """What is drawn, point by point in SI.

    Parameters
    ----------
    title : of the chart
    time, distance : since the start [s], [m]
    low, middle, high : band of the gauge [K]
    boiling : where the coolant boils on the way [K]
    limit : the customer's limit [K]
    invented : its figures are made up
    altitude : of the road [m]; empty where it is not known
    seen_at, seen : when [s] and what [K] a logger or a person saw; empty where nobody did
    """

    title: str
    time: Numbers
    distance: Numbers
    low: Numbers
    middle: Numbers
    high: Numbers
    boiling: Numbers
    limit: float
    invented: bool = False
    altitude: Numbers = ()
    seen_at: Numbers = ()
    seen: Numbers = ()


class _Scales:
    """From time or distance and from temperature to places on the paper."""

    def __init__(self, strip: Strip, system: System, along: Along) -> None:
        self.strip = strip
        self.system: System = system
        self.along: Along = along
        self.way = [float(value) for value in (strip.time if along == "time" else strip.distance)]
        self.end = max(self.way[-1], 1e-9)
        told = [*strip.low, *strip.high, *strip.seen, strip.limit]
        self.most = max(max(told), min(strip.boiling)) + 4.0
        self.least = min(told) - 4.0

    def x(self, way: float) -> float:
        return LEFT + (RIGHT - LEFT) * min(max(way / self.end, 0.0), 1.0)

    def y(self, T: float) -> float:
        share = (min(max(T, self.least), self.most) - self.least) / (self.most - self.least)
        return FLOOR - (FLOOR - TOP) * share

    def way_at(self, time: float) -> float:
        """Time or distance at a time [s]."""
        if self.along == "time":
            return time
        before = max((i for i, one in enumerate(self.strip.time) if one <= time), default=0)
        return self.way[before]


def strip_chart(strip: Strip, system: System, *, along: Along = "time") -> str:
    """Return the chart as SVG; along the distance a stop is an upright line."""
    at = _Scales(strip, system, along)
    kept = _kept(strip)
    body = [
        type_set(16, 28, heading(strip.title, NAME, WIDTH - 32.0, invented=strip.invented), NAME, "name"),
        *_standing(at),
        *_degrees(at),
        *_lines(at, kept),
        *_road(at, kept),
        *_way(at),
        *_peak(at),
    ]
    return figure("strip", WIDTH, HEIGHT, strip.title, says(strip, system), body)


def says(strip: Strip, system: System) -> str:
    """Say the chart in a few sentences."""
    place = _hottest(strip)
    peak = " to ".join(show(values[place], TEMPERATURE, system) for values in (strip.low, strip.high))
    when = f"{strip.time[place] / 60.0:.0f} min, {show(strip.distance[place], DISTANCE, system)} from the start"
    words = (
        f"The gauge peaks at {peak}, {when}. Limit {show(strip.limit, TEMPERATURE, system)}, boiling from "
        f"{show(min(strip.boiling), TEMPERATURE, system)}."
    )
    if strip.seen:
        words += f" The hottest that was seen is {show(max(strip.seen), TEMPERATURE, system)}."
    return words


def _hottest(strip: Strip) -> int:
    return max(range(len(strip.middle)), key=lambda i: strip.middle[i])


def _kept(strip: Strip) -> list[int]:
    """Points that are drawn: every so many, the hottest and the last ones always."""
    stride = max(1, math.ceil(len(strip.time) / MOST_POINTS))
    return sorted({*range(0, len(strip.time), stride), _hottest(strip), len(strip.time) - 1})


def _path(points: Sequence[tuple[float, float]]) -> str:
    return "M" + " L".join(f"{x:.1f} {y:.1f}" for x, y in points)


def _lines(at: _Scales, kept: list[int]) -> Iterator[str]:
    strip = at.strip

    def drawn(values: Numbers) -> list[tuple[float, float]]:
        return [(at.x(at.way[i]), at.y(float(values[i]))) for i in kept]

    yield f'<path d="{_path([*drawn(strip.high), *reversed(drawn(strip.low))])} Z" class="band"/>'
    yield line(_path(drawn(strip.middle)), "middle")
    yield line(_path(drawn(strip.boiling)), "boil")
    yield line(f"M{LEFT:g} {at.y(strip.limit):.1f} H{RIGHT:g}", "limit")
    names = [
        (at.y(float(strip.boiling[-1])), f"boils {show(strip.boiling[-1], TEMPERATURE, at.system)}", "bad"),
        (at.y(strip.limit), f"limit {show(strip.limit, TEMPERATURE, at.system)}", "name"),
        (at.y(float(strip.middle[-1])), f"ends {show(strip.middle[-1], TEMPERATURE, at.system)}", ""),
    ]
    if strip.seen:
        places = [(at.x(at.way_at(when)), at.y(T)) for when, T in zip(strip.seen_at, strip.seen, strict=True)]
        stride = max(1, math.ceil(len(places) / MOST_POINTS))
        places = [*places[::stride], places[-1]]
        if len(places) > 24:
            yield line(_path(places), "outline dotted")
        else:
            yield from (f'<circle cx="{x:.1f}" cy="{y:.1f}" r="5" class="solid"/>' for x, y in places)
        names.append((places[-1][1], "seen", "name"))
    heights = _apart([y for y, _, _ in names])
    for y, (_, words, look) in zip(heights, names, strict=True):
        yield type_set(RIGHT + 10, y + 5, words, SMALL, look)


def _apart(wanted: list[float]) -> list[float]:
    """Heights as near to those wanted as leaves each its room."""
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    found = list(wanted)
    for before, after in pairwise(order):
        found[after] = max(found[after], found[before] + APART)
    over = max(found[order[-1]] - (FLOOR + 6.0), 0.0)
    for place in reversed(order):
        found[place] = min(found[place], FLOOR + 6.0) if over else found[place]
    for after, before in pairwise(reversed(order)):
        found[before] = min(found[before], found[after] - APART)
    return found


def _degrees(at: _Scales) -> Iterator[str]:
    unit = unit_of(TEMPERATURE, at.system)
    for value, T in _ticks(at.least, at.most, TEMPERATURE, at.system, STEPS_OF_DEGREES, 7):
        yield line(f"M{LEFT:g} {at.y(T):.1f} H{RIGHT:g}", "rule")
        yield type_set(LEFT - 8, at.y(T) + 5, value, SMALL, "number", anchor="end")
    yield type_set(16, TOP - 14, f"gauge, {unit}", SMALL, "quiet")


def _ticks(
    least: float, most: float, dimension: Dimension, system: System, steps: Sequence[float], number: int
) -> Iterator[tuple[str, float]]:
    """Round figures of the shop's unit between two values in SI, and where they are."""
    unit = unit_of(dimension, system)
    low, high = (float(from_si(value, dimension, unit)) for value in (least, most))
    step = next((step for step in steps if (high - low) / step <= number), steps[-1])
    tick = math.ceil(low / step) * step
    while tick <= high + 1e-9:
        share = (tick - low) / max(high - low, 1e-12)
        yield f"{tick:g}", least + share * (most - least)
        tick += step


def _way(at: _Scales) -> Iterator[str]:
    """The scale along the foot."""
    yield line(f"M{LEFT:g} {ROAD_FLOOR:g} H{RIGHT:g}", "outline")
    if at.along == "time":
        minutes = at.end / 60.0
        step = next((step for step in STEPS_OF["time"] if minutes / step <= 8), 1920)
        marks = [(f"{step * i}", 60.0 * step * i) for i in range(int(minutes / step) + 1)]
        unit = "min"
    else:
        marks = list(_ticks(0.0, at.end, DISTANCE, at.system, STEPS_OF["distance"], 8))
        unit = unit_of(DISTANCE, at.system)
    for words, way in marks:
        x = at.x(way)
        yield line(f"M{x:.1f} {ROAD_FLOOR:g} v6", "outline")
        yield type_set(x, ROAD_FLOOR + 24, words, SMALL, "number", anchor="middle")
    yield type_set(RIGHT, HEIGHT - 12, f"{unit} from the start", SMALL, "quiet", anchor="end")
    if at.along == "time" and any(_stands(at)):
        yield box(LEFT, HEIGHT - 26, 22, 14, "shade")
        yield type_set(LEFT + 30, HEIGHT - 14, "shaded: standing", SMALL, "quiet")


def _road(at: _Scales, kept: list[int]) -> Iterator[str]:
    """The height of the road under the gauge."""
    heights = at.strip.altitude
    if not heights:
        return
    least, most = float(min(heights)), float(max(heights))
    room = max(most - least, 20.0)

    def y(height: float) -> float:
        return ROAD_FLOOR - 8.0 - (ROAD_FLOOR - ROAD_TOP - 8.0) * (height - least) / room

    points = [(at.x(at.way[i]), y(float(heights[i]))) for i in kept]
    path = _path([(points[0][0], ROAD_FLOOR), *points, (points[-1][0], ROAD_FLOOR)])
    yield f'<path d="{path} Z" class="land"/>'
    for height in dict.fromkeys((least, most)):
        words = show_estimate(height, ALTITUDE, at.system)
        yield type_set(RIGHT + 10, y(height) + 5, words, SMALL, "number")


def _stands(at: _Scales) -> list[bool]:
    return [float(after) <= float(before) for before, after in pairwise(at.strip.distance)]


def _standing(at: _Scales) -> Iterator[str]:
    """Shade the time in which it stands; along the distance that has no width."""
    if at.along == "distance":
        return
    begins: float | None = None
    for place, stands in enumerate([*_stands(at), False]):
        if stands and begins is None:
            begins = at.x(at.way[place])
        if not stands and begins is not None:
            yield box(begins, TOP, at.x(at.way[place]) - begins, ROAD_FLOOR - TOP, "shade")
            begins = None


def _peak(at: _Scales) -> Iterator[str]:
    """A ring at the hottest, with its figure, its minute and its place."""
    strip, place = at.strip, _hottest(at.strip)
    x, y = at.x(at.way[place]), at.y(float(strip.middle[place]))
    where = show(strip.distance[place], DISTANCE, at.system)
    words = f"peak {show(strip.middle[place], TEMPERATURE, at.system)} at {strip.time[place] / 60.0:.0f} min, {where}"
    half = width_of(words, SMALL, bold=True) / 2.0
    middle = min(max(x, LEFT + half), RIGHT - half)
    yield line(f"M{x:.1f} {y:.1f} V{FLOOR + 4:g} M{x:.1f} {ROAD_TOP - 2:g} V{ROAD_FLOOR:g}", "thin dotted")
    yield f'<circle cx="{x:.1f}" cy="{y:.1f}" r="8" class="hollow"/>'
    yield type_set(middle, FLOOR + 19, words, SMALL, "name", anchor="middle")


def strip_of(drive: DriveAnswer) -> Strip:
    """The strip of a drive's forecast."""
    along = drive.along
    return Strip(
        title=drive.title,
        invented=drive.invented,
        time=[60.0 * one for one in along.minutes],
        distance=[1000.0 * one for one in along.distance_km],
        low=[kelvin(one) for one in along.gauge_p10_degC],
        middle=[kelvin(one) for one in along.gauge_p50_degC],
        high=[kelvin(one) for one in along.gauge_p90_degC],
        boiling=[kelvin(one) for one in along.boiling_point_degC],
        limit=kelvin(drive.limit_degC),
        altitude=along.altitude_m,
    )
