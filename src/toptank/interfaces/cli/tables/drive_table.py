"""A drive on the screen: stretch by stretch, where it peaks, what would ease it."""

from typing import Any

from rich import box
from rich.markup import escape
from rich.table import Table

from toptank.interfaces.cli.tables.forecast_table import band
from toptank.interfaces.cli.tables.table import CAUTION, console, show_notes
from toptank.shop.door import chance_words, ease_words, gear_words, naming, peak_words
from toptank.units.conversion import System, unit_of
from toptank.units.dimension import ALTITUDE, DISTANCE, TEMPERATURE
from toptank.units.display import show
from toptank.units.sentence import said


def show_drive(answer: Any, system: System) -> None:
    """Print a drive."""
    job, road = answer.job, answer.outlook
    console.print(f"[bold]{escape(job.title)}[/bold]" + ("   (invented example)" if job.invented else ""))
    ends = [show(float(at), TEMPERATURE, system) for at in (road.profile.ambient.min(), road.profile.ambient.max())]
    start = "starts cold" if answer.cold else "starts warm"
    console.print(
        f"{show(float(road.profile.distance[-1]), DISTANCE, system)} in {road.profile.time[-1] / 60.0:.0f} min, "
        f"{' to '.join(dict.fromkeys(ends))} outside; {start}. Everything not given (load, A/C ...) is taken from "
        f"{escape(repr(answer.duty))}. Limit {show(job.limit, TEMPERATURE, system)}."
        + (f" With this work done: {escape(naming.remedies(answer.done, system))}." if answer.done else "")
    )
    table = Table(box=box.SIMPLE_HEAD, padding=(0, 1), show_edge=False)
    for head in ("stretch", "time", "distance", "elevation", f"gauge at its hottest, {unit_of(TEMPERATURE, system)}"):
        table.add_column(head, overflow="fold")
    for one in answer.stretches:
        table.add_row(
            escape(said(one.name, system)), f"{one.minutes:.0f} min", show(one.distance, DISTANCE, system),
            show(one.altitude, ALTITUDE, system), band(one.hottest, TEMPERATURE, system),
        )  # fmt: skip
    console.print(table)
    console.print(peak_words(answer, system), style="bold")
    console.print(chance_words(answer))
    if gear := gear_words(answer, system):
        console.print(gear)
    if road.eases:
        console.print("What would help:")
    for line in ease_words(answer, system):
        console.print(f"  {line}" if road.eases else line)
    console.print(
        f"Ranges: 8 chances in 10 ({answer.draws:,} simulations, from {answer.known_by}).",
        style="dim",
    )
    show_notes(answer.remarks, answer.assumed_units, system)
    console.print(CAUTION, style="dim")
