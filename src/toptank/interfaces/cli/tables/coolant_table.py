"""Water, caps, bottles and bleeding on the screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich import box
from rich.markup import escape
from rich.table import Table

from toptank.interfaces.cli.tables.table import CAUTION, console, say, show_notes
from toptank.shop import door
from toptank.units.dimension import ALTITUDE, PRESSURE, TEMPERATURE, TEMPERATURE_RISE
from toptank.units.display import show, show_estimate

if TYPE_CHECKING:
    from collections.abc import Sequence

    from toptank.shop.door import Bleeding, CapAndBottle, WaterJudged
    from toptank.units.conversion import System


def show_water(answer: WaterJudged) -> None:
    """Print whether a water may go in."""
    verdict = answer.verdict
    judged = "fit to mix with antifreeze" if verdict.good else "[bold]not as it is[/bold]"
    console.print(f"[bold]{escape(answer.kind)}[/bold]: {judged}")
    for reason in verdict.reasons or (answer.because,):
        console.print(f"  {escape(reason)}")
    table = Table("limit", "", "why", "source", box=box.SIMPLE_HEAD, show_edge=False, pad_edge=False)
    for one in answer.limits:
        allowed = f"{one.least:g} to {one.most:g}" if one.least else f"at most {one.most:g}"
        table.add_row(escape(one.name), f"{allowed} {one.unit}".strip(), escape(one.why), escape(one.source))
    console.print(table)
    console.print("[bold]The argument about distilled water[/bold]")
    for side in answer.argument:
        console.print(f"“{escape(side.claim)}”")
        console.print(f"  {escape(' '.join(side.known.split()))} ({escape(side.source)})", style="dim")


def show_bleeding(answer: Sequence[Bleeding]) -> None:
    """Print how to fill and bleed."""
    for one in answer:
        console.print(f"\n[bold]{escape(one.layout)}[/bold]: {escape(one.means)}")
        for number, step in enumerate(one.steps, start=1):
            console.print(f"{number}. {escape(step)}")
        for caution in one.cautions:
            console.print(f"Caution: {escape(caution)}", style="dim")
    console.print(
        f"Source: {escape(answer[0].source)}. Where the service manual differs, follow the manual.", style="dim"
    )


def show_cap(answer: CapAndBottle, system: System) -> None:
    """Print cap and bottle."""

    def volume(value: float) -> str:
        return door.shop_volume(value, system)

    job = answer.job
    console.print(f"[bold]{escape(job.title)}[/bold]" + ("   (invented example)" if job.invented else ""))
    worst = show(answer.T_worst, TEMPERATURE, system)
    console.print(f"For coolant at {worst}, up to {show_estimate(answer.altitude, ALTITUDE, system)}.")
    table = Table("cap", "boils at", "margin", "", box=box.SIMPLE_HEAD, show_edge=False, pad_edge=False)
    for row in answer.cap.rows:
        kept = "enough" if row.enough else "too little"
        barred = f"too much for {row.forbidden_by}" if row.forbidden_by else kept
        chosen = "bold" if row is answer.cap.chosen else ""
        cells = (show(row.pressure, PRESSURE, system), show(row.boiling_point, TEMPERATURE, system))
        table.add_row(*cells, show(row.margin, TEMPERATURE_RISE, system), escape(barred), style=chosen)
    console.print(table)
    taken = answer.cap.chosen
    fitted = "No cap" if taken is None else f"Use [bold]{show(taken.pressure, PRESSURE, system)}[/bold]"
    console.print(f"{fitted}: {escape(answer.cap.reason)}.")
    mark = " (not checked: name them with --part)" if answer.assumed_parts else ""
    console.print(f"Parts under pressure: {escape('; '.join(answer.parts))}{mark}.")
    for line in answer.asked:
        console.print(f"  {escape(line)}", style="dim")
    least = answer.bottle
    console.print(
        f"It expands by about {volume(least.expansion)} from cold. Recovery bottle: at least [bold]"
        f"{volume(least.volume)}[/bold], cold mark at {volume(least.cold_mark)}, hot mark at {volume(least.hot_mark)}."
    )
    if answer.marks is not None:
        own = answer.marks
        cold, hot = volume(own.cold_mark), volume(own.hot_mark)
        console.print(f"In the {volume(own.volume)} bottle: cold mark at {cold}, hot mark at {hot}.")
    elif answer.own_bottle is not None:
        console.print(
            say(f"The {volume(answer.own_bottle)} bottle [bold]overflows[/bold]: install a larger one.", system)
        )
    if answer.assumed:
        console.print(f"Not checked, assumed: {escape('; '.join(answer.assumed))}.")
    show_notes(answer.remarks, answer.assumed_units, system)
    console.print(
        "Pressure limits of parts: judgement after common practice; go by the maker's figure where there is one.",
        style="dim",
    )
    console.print(CAUTION, style="dim")
