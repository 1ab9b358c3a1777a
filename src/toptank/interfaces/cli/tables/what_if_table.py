"""A condition with a thing changed, on the screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.markup import escape

from toptank.interfaces.cli.tables.forecast_table import band
from toptank.interfaces.cli.tables.table import CAUTION, console, say, show_notes
from toptank.units.conversion import unit_of
from toptank.units.dimension import DURATION, FLOW, GRADE, HEAT, SPEED, TEMPERATURE
from toptank.units.display import show

if TYPE_CHECKING:
    from toptank.shop.door import WhatIf
    from toptank.units.conversion import System


def show_what_if(answer: WhatIf, system: System) -> None:
    """Print where the gauge would settle then, and the loop."""
    facts, loop, unit = answer.duty.facts, answer.loop, unit_of(TEMPERATURE, system)
    day = [show(facts["ambient"].value, TEMPERATURE, system), show(facts["speed"].value, SPEED, system)]
    day += [f"grade {show(facts['grade'].value, GRADE, system)}"]
    day += [say("A/C on" if loop.air_conditioning_on else "A/C off", system)]
    console.print(f"[bold]{escape(answer.job.title)}[/bold]" + ("   (invented example)" if answer.job.invented else ""))
    if answer.came_before:
        lasts = show(facts["for"].value, DURATION, system)
        peak = f"{band(answer.gauge_peak, TEMPERATURE, system)} {unit}"
        day += [f"read after {lasts} of it, {escape(answer.came_before)} (highest {peak})"]
    console.print(f"{escape(answer.duty.name)}: {', '.join(day)}.")
    console.print(f"Gauge {band(answer.gauge, TEMPERATURE, system)} {unit}", style="bold", end="")
    console.print(f"; as in the job {band(answer.gauge_before, TEMPERATURE, system)}." if answer.changed else ".")
    over, boils = (round(100.0 * share) for share in (answer.over_limit, answer.boils))
    limit, point = (show(T, TEMPERATURE, system) for T in (answer.limit, answer.boiling_point.p50))
    console.print(f"Chance of going over {limit}: {over} %. Boils at {point}: {boils} %.")
    console.print(
        f"Most likely: {show(loop.core_flow, FLOW, system)} through the radiator, "
        f"{show(loop.T_engine_out, TEMPERATURE, system)} in, {show(loop.T_bottom_hose, TEMPERATURE, system)} out, "
        f"{show(loop.core_heat, HEAT, system)} given up. {escape(answer.reason)}"
    )
    show_notes((*answer.job.remarks, *answer.remarks), (*answer.job.assumed_units, *answer.assumed_units), system)
    console.print(CAUTION, style="dim")
