"""What some vehicles of a fleet come to: the piece of work that a process does by itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.answers.fleet import SURE, FleetLine, left_out, vehicle_line
from toptank.shop.ask.fleet.cheapest_work import cheapest_work
from toptank.shop.ask.fleet.vehicle_of_item import Prepared, prepared
from toptank.studies.fleet.fleet_forecast import fleet_forecast
from toptank.studies.fleet.hours import below_hottest
from toptank.units.cancellation import CancelCheck, never_cancelled
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Sequence

    from toptank.shop.ask.fleet.item import FleetItem, FleetQuestion
    from toptank.studies.fleet.fleet_forecast import VehicleForecast


def lines_of(items: Sequence[FleetItem], asked: FleetQuestion, go_on: CancelCheck = never_cancelled) -> list[FleetLine]:
    """Return what each vehicle comes to, in the same order; one that cannot be used says why."""
    ready: dict[int, Prepared] = {}
    lines: dict[int, FleetLine] = {}
    for place, item in enumerate(items):
        go_on()
        try:
            ready[place] = prepared(item, asked)
        except Refusal as refusal:
            lines[place] = left_out(item, refusal)
    found = fleet_forecast([one.vehicle for one in ready.values()], go_on)
    for (place, one), forecast in zip(ready.items(), found, strict=True):
        go_on()
        lines[place] = _line(items[place], one, forecast, asked)
    return [lines[place] for place in range(len(items))]


def _line(item: FleetItem, one: Prepared, found: VehicleForecast, asked: FleetQuestion) -> FleetLine:
    hours = _hours(one, found, asked)
    wanted = asked.plans and 100.0 * found.holds < SURE
    return vehicle_line(
        item,
        one.job,
        found,
        hours,
        day=asked.day,
        evidence=one.possible is not None,
        work=cheapest_work(one, asked) if wanted else None,
    )


def _hours(one: Prepared, found: VehicleForecast, asked: FleetQuestion) -> list[tuple[int, float, float]]:
    """Each hour of leaving with its hottest air [K] and the chance to hold [1]."""
    first, last = asked.leave
    told: list[tuple[int, float, float]] = []
    for hour in range(first, last + 1):
        colder = below_hottest(float(hour), lasts=one.lasts, day_range=asked.day - asked.coolest)
        told.append((hour, asked.day - colder, found.holds_when_hotter(-colder)))
    return told
