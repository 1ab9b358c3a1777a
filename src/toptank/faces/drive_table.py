"""A drive on the screen: stretch by stretch, where it peaks, what would ease it."""

from typing import Any

from rich import box
from rich.markup import escape
from rich.table import Table

from toptank.faces.diagnose_table import percent
from toptank.faces.forecast_table import band
from toptank.faces.tables import CAUTION, console, show_notes
from toptank.units.conversion import System, unit_of
from toptank.units.dimension import ALTITUDE, DISTANCE, FRACTION, SPEED, TEMPERATURE, TEMPERATURE_RISE
from toptank.units.display import show


def show_drive(answer: Any, system: System) -> None:
    """Print a drive."""
    job, road = answer.job, answer.outlook
    console.print(f"[bold]{escape(job.title)}[/bold]" + ("   (invented example)" if job.invented else ""))
    ends = [show(float(at), TEMPERATURE, system) for at in (road.profile.ambient.min(), road.profile.ambient.max())]
    start = "starts cold" if answer.cold else "comes warm from a level road"
    console.print(
        f"{show(float(road.profile.distance[-1]), DISTANCE, system)} in {road.profile.time[-1] / 60.0:.0f} min, "
        f"{' to '.join(dict.fromkeys(ends))} outside; it {start}. What the drive does not say is that of "
        f"{escape(repr(answer.duty))}. Limit {show(job.limit, TEMPERATURE, system)}."
    )
    table = Table(box=box.SIMPLE_HEAD, padding=(0, 1), show_edge=False)
    for head in ("stretch", "until", "way", "height", f"gauge at its hottest, {unit_of(TEMPERATURE, system)}"):
        table.add_column(head, overflow="fold")
    for one in answer.stretches:
        table.add_row(
            escape(one.name), f"{one.minutes:.0f} min", show(one.distance, DISTANCE, system),
            show(one.altitude, ALTITUDE, system), band(one.hottest, TEMPERATURE, system),
        )  # fmt: skip
    console.print(table)
    console.print(_peak(road, system))
    console.print(_chances(road, answer))
    for line in _eases(road, system):
        console.print(line)
    console.print(
        f"Bands: 8 in 10 of {answer.draws:,} possible vehicles, known by {answer.known_by}; the middle one between.",
        style="dim",
    )
    show_notes(answer.remarks, answer.assumed_units)
    console.print(CAUTION, style="dim")


def _peak(road: Any, system: System) -> str:
    where = f"{road.peak_time / 60.0:.0f} min after the start, at {show(road.peak_distance, DISTANCE, system)}"
    peak = f"[bold]{band(road.peak, TEMPERATURE, system)}[/bold] {unit_of(TEMPERATURE, system)}"
    return f"Peak of the gauge: {peak}, {where}."


def _chances(road: Any, answer: Any) -> str:
    said = (
        f"Over the limit somewhere: [bold]{percent(road.over_limit)}[/bold]. Boils: [bold]{percent(road.boils)}[/bold]"
    )
    if road.boils > 0.0:
        said += f", and then loses some {show(road.lost, FRACTION, 'us', 0)} of its coolant past the cap"
    if road.short_of_power > 0.02:
        said += f". Cannot hold the speed: {percent(road.short_of_power)}"
    return said + "."


def _eases(road: Any, system: System) -> list[str]:
    if not road.eases:
        return ["It holds as it is: nothing need be asked less of it."]
    lines = ["What would ease it:"]
    for one in road.eases:
        asked = [] if one.cooled else ["air conditioning off"]
        if one.share < 1.0:
            fastest = road.climbing_speed
            asked.append(
                f"{show(one.share * fastest, SPEED, system, 0)} instead of {show(fastest, SPEED, system, 0)} "
                f"on the climbs ({one.longer / 60.0:.0f} min longer)"
            )
        lines.append(
            f"  {' and '.join(asked)}: {show(one.cooler, TEMPERATURE_RISE, system, 0)} cooler at the peak, "
            f"over the limit {percent(one.over_limit)}, boils {percent(one.boils)}"
            + (": [bold]holds[/bold]." if one.enough else ".")
        )
    return lines
