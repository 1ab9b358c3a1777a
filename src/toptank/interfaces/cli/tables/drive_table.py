"""A drive on the screen: stretch by stretch, where it peaks, what would ease it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich import box
from rich.markup import escape
from rich.table import Table

from toptank.interfaces.cli.tables.forecast_table import band
from toptank.interfaces.cli.tables.table import CAUTION, console, show_notes
from toptank.shop.door import naming
from toptank.units.conversion import kelvin, unit_of
from toptank.units.dimension import ALTITUDE, DISTANCE, TEMPERATURE
from toptank.units.display import show, show_estimate
from toptank.units.sentence import said, said_each

if TYPE_CHECKING:
    from toptank.shop.door import Band, DriveAnswer
    from toptank.units.conversion import System


def show_drive(answer: DriveAnswer, system: System) -> None:
    """Print a drive."""
    console.print(f"[bold]{escape(answer.title)}[/bold]" + ("   (invented example)" if answer.invented else ""))
    ends = [show(kelvin(at), TEMPERATURE, system) for at in (answer.ambient_from_degC, answer.ambient_to_degC)]
    start = "starts cold" if answer.starts_cold else "starts warm"
    console.print(
        f"{show(1000.0 * answer.distance_km, DISTANCE, system)} in {answer.minutes:.0f} min, "
        f"{' to '.join(dict.fromkeys(ends))} outside; {start}. Everything not given (load, A/C ...) is taken from "
        f"{escape(repr(answer.duty))}. Limit {show(kelvin(answer.limit_degC), TEMPERATURE, system)}."
        + (f" With this work done: {escape(naming.remedies(answer.done, system))}." if answer.done else "")
    )
    table = Table(box=box.SIMPLE_HEAD, padding=(0, 1), show_edge=False)
    for head in ("stretch", "time", "distance", "elevation", f"hottest, {unit_of(TEMPERATURE, system)}"):
        table.add_column(head, overflow="fold")
    for one in answer.stretches:
        table.add_row(
            escape(said(one.name, system)), f"{one.until_minutes:.0f} min",
            show(1000.0 * one.until_km, DISTANCE, system), show_estimate(one.altitude_m, ALTITUDE, system),
            band(_ends(one.gauge_at_its_hottest_degC), TEMPERATURE, system),
        )  # fmt: skip
    console.print(table)
    console.print(said(answer.peak_says, system), style="bold")
    console.print(said(answer.chances_says, system))
    if answer.gear_says is not None:
        console.print(said(answer.gear_says, system))
    if answer.what_would_ease_it:
        console.print("What would help:")
    for line in said_each(answer.ease_says, system):
        console.print(f"  {line}" if answer.what_would_ease_it else line)
    console.print(
        f"Ranges: 8 chances in 10 ({answer.draws:,} simulations, from the {answer.known_by}).",
        style="dim",
    )
    show_notes(answer.remarks, answer.assumed_units, system)
    console.print(CAUTION, style="dim")


def _ends(band: Band) -> tuple[float, float, float]:
    return kelvin(band.p10), kelvin(band.p50), kelvin(band.p90)
