"""The command of what if. It calls one verb of shop/ask/what_if and shows its answer."""

from pathlib import Path
from typing import Annotated, Any

import typer

from toptank.interfaces.cli.options import JobArgument, JsonOption, UnitsOption, print_json, working
from toptank.interfaces.cli.screen import write
from toptank.units.conversion import System
from toptank.units.dimension import DURATION, FLOW, GRADE, HEAT, SPEED, TEMPERATURE
from toptank.units.display import show

AmbientOption = Annotated[str | None, typer.Option("--ambient", help='air outside instead, e.g. "98 F"')]
GradeOption = Annotated[str | None, typer.Option("--grade", help='grade instead, e.g. "5 %"')]
SpeedOption = Annotated[str | None, typer.Option("--speed", help='road speed instead, e.g. "35 mph"')]
CoolingOption = Annotated[str | None, typer.Option("--air-conditioning", help="on or off instead")]
DutyOption = Annotated[str | None, typer.Option("--duty", help="a duty of the job or of its worst day; else the first")]
DrawingOption = Annotated[Path | None, typer.Option("--out", help="draw the loop at that duty: .svg or .png")]
ForceOption = Annotated[bool, typer.Option("--force", help="replace a file that exists")]


def what_if(
    job: JobArgument,
    duty: DutyOption = None,
    ambient: AmbientOption = None,
    grade: GradeOption = None,
    speed: SpeedOption = None,
    air_conditioning: CoolingOption = None,
    out: DrawingOption = None,
    force: ForceOption = False,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Say where the gauge would settle if it were hotter, steeper, faster, with the air conditioning off."""
    from toptank.shop.door import service
    from toptank.shop.door import what_if_verbs as verbs

    opened = service.open_job(job)
    system = units.value if units else opened.system
    if out is not None:
        from toptank.interfaces.web.drawing.picture_file import check_picture_file

        check_picture_file(out, replace=force)
    with working("drawing possible vehicles and settling one duty"):
        changes = verbs.Changes(ambient, grade, speed, air_conditioning)
        answer = verbs.what_if(opened, changes, duty=duty, system=system)
    if out is not None:
        from toptank.interfaces.web.drawing.loop_picture import loop_picture
        from toptank.interfaces.web.drawing.picture_file import write_picture

        title = f"{answer.duty.name}: {opened.title}"
        drawing = loop_picture(answer.loop, system, title=title, limit=answer.limit, invented=opened.invented)
        write_picture(drawing, out, replace=force)
    if as_json:
        from toptank.shop.door import what_if_answer

        print_json(what_if_answer(answer), system)
        return
    _show(answer, system)
    if out is not None:
        write(f"Loop drawn in {out}.")


def _show(answer: Any, system: System) -> None:
    from rich.markup import escape

    from toptank.interfaces.cli.tables.forecast_table import band
    from toptank.interfaces.cli.tables.table import CAUTION, console, show_notes
    from toptank.units.conversion import unit_of

    facts, loop, unit = answer.duty.facts, answer.loop, unit_of(TEMPERATURE, system)
    day = [show(facts["ambient"].value, TEMPERATURE, system), show(facts["speed"].value, SPEED, system)]
    day += [f"grade {show(facts['grade'].value, GRADE, system)}"]
    day += ["air conditioning on" if loop.air_conditioning_on else "air conditioning off"]
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
    console.print(f"Over the limit of {limit} in {over} of 100 possible vehicles; boils, from {point}, in {boils}.")
    console.print(
        f"The one in the middle: {show(loop.core_flow, FLOW, system)} through the core, "
        f"{show(loop.T_engine_out, TEMPERATURE, system)} in, {show(loop.T_bottom_hose, TEMPERATURE, system)} out, "
        f"{show(loop.core_heat, HEAT, system)} given up. {escape(answer.reason)}"
    )
    show_notes((*answer.job.remarks, *answer.remarks), (*answer.job.assumed_units, *answer.assumed_units), system)
    console.print(CAUTION, style="dim")
