"""A fleet on the screen: what it comes to, the vehicles that need a decision, what was left out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich import box
from rich.markup import escape
from rich.table import Table

from toptank.interfaces.cli.tables.table import console
from toptank.shop import door
from toptank.units.conversion import kelvin
from toptank.units.dimension import TEMPERATURE
from toptank.units.display import show
from toptank.units.sentence import said, said_each

if TYPE_CHECKING:
    from collections.abc import Sequence

    from toptank.shop.door import FleetAnswer, FleetVehicleAnswer
    from toptank.units.conversion import System

ROWS, LEFT_OUT = 24, 5
"""Vehicles, and rows that could not be used, that are told on one screen."""

NO_AIR = -30.0
"""Air [degC] below which it is not told which one a vehicle bears: it does not hold on any day."""


def show_fleet(answer: FleetAnswer, system: System, *, full: bool) -> None:
    """Print the total, the ranked vehicles (a screen of them, or all), and what was left out."""
    day = show(kelvin(answer.day_degC), TEMPERATURE, system)
    n = len(answer.vehicles)
    road = f" on {answer.road}" if answer.road else ""
    console.print(
        f"[bold]{n:,} vehicles at {day}{escape(road)}: {answer.hold:,} hold, {answer.doubtful:,} are doubtful, "
        f"{answer.do_not_hold:,} do not hold.[/bold]"
    )
    console.print(
        f"{answer.hold_at_some_hour:,} hold at some hour of leaving. Expect {answer.expected_to_hold:,.0f} of {n:,} to "
        "come through at the hottest hour."
    )
    if answer.work_cost > 0.0:
        console.print(f"Repairs named below: {door.money(answer.work_cost, answer.currency)} in all.")
    shown = answer.vehicles if full else _a_screen(answer.vehicles)
    console.print(_table(shown, answer, system))
    if len(shown) < n:
        console.print(f"{n - len(shown):,} more vehicles: --full, or --out fleet.csv.", style="dim")
    for one in answer.left_out if full else answer.left_out[:LEFT_OUT]:
        where = f"{one.file}, line {one.line}" if one.line else one.file
        why = f"{one.field} = {one.value}: {one.limit}; {one.fix}."
        console.print(escape(f"Left out: {where} ({one.id}): {why}"))
    if not full and len(answer.left_out) > LEFT_OUT:
        console.print(f"{len(answer.left_out) - LEFT_OUT:,} more were left out: --full.")
    for remark in said_each(answer.remarks, system):
        console.print(f"Note: {escape(remark)}")


def _a_screen(vehicles: Sequence[FleetVehicleAnswer]) -> Sequence[FleetVehicleAnswer]:
    """The surest and the least sure: those between stand in the file."""
    return vehicles if len(vehicles) <= ROWS else (*vehicles[: ROWS // 2], *vehicles[-(ROWS // 2) :])


def _table(shown: Sequence[FleetVehicleAnswer], answer: FleetAnswer, system: System) -> Table:
    table = Table(box=box.SIMPLE_HEAD, padding=(0, 1), show_edge=False)
    works = any(one.work is not None for one in answer.vehicles)
    heads = ["vehicle", "holds", "hottest at", "gauge there", "bears", "what would ease it"]
    for head in (*heads, *(["cheapest repair that holds"] if works else [])):
        table.add_column(head, overflow="fold", no_wrap=head in ("vehicle", "holds", "gauge there", "bears"))
    for one in shown:
        gauge = one.gauge_degC.p50
        bears = one.bears_degC.p10
        cells = [
            one.id,
            door.chance(0.01 * one.holds_pct),
            said(one.hottest_place, system),
            show(kelvin(gauge), TEMPERATURE, system),
            "no hot day" if bears < NO_AIR else show(kelvin(bears), TEMPERATURE, system),
            door.eased_words(one),
        ]
        if works:
            work = one.work
            cells.append("" if work is None else f"{door.money(work.cost, work.currency)}: {said(work.work, system)}")
        table.add_row(*map(escape, cells))
    return table
