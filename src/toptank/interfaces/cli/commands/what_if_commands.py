"""The command of what if. It calls one verb of shop/ask/what_if and shows its answer."""

from pathlib import Path
from typing import Annotated

import typer

from toptank.interfaces.cli import late
from toptank.interfaces.cli.options import JobArgument, JsonOption, UnitsOption, print_json, working
from toptank.interfaces.cli.screen import write
from toptank.shop import door

AmbientOption = Annotated[str | None, typer.Option("--ambient", help='air outside instead, e.g. "98 F"')]
GradeOption = Annotated[str | None, typer.Option("--grade", help='grade instead, e.g. "5 %"')]
SpeedOption = Annotated[str | None, typer.Option("--speed", help='road speed instead, e.g. "35 mph"')]
CoolingOption = Annotated[str | None, typer.Option("--air-conditioning", help="on or off instead")]
DutyOption = Annotated[
    str | None,
    typer.Option("--condition", "--duty", help="a condition of the job or worst day"),
]
DrawingOption = Annotated[Path | None, typer.Option("--out", help="save a picture of the cooling loop: .svg or .png")]
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
    """What if it were hotter, steeper, faster, or with the A/C off: where the gauge would settle."""
    opened = door.service.open_job(job)
    system = units.value if units else opened.system
    if out is not None:
        late.check_picture_file(out, replace=force)
    with working("working it out"):
        changes = door.what_if_verbs.Changes(ambient, grade, speed, air_conditioning)
        answer = door.what_if_verbs.what_if(opened, changes, duty=duty, system=system)
    if out is not None:
        title = f"{answer.duty.name}: {opened.title}"
        drawing = late.loop_picture(answer.loop, system, title=title, limit=answer.limit, invented=opened.invented)
        late.write_picture(drawing, out, replace=force)
    if as_json:
        print_json(door.what_if_answer(answer), system)
        return
    late.show_what_if(answer, system)
    if out is not None:
        write(f"Picture saved: {out}")
