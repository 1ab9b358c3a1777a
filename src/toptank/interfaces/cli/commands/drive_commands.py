"""The command of driving. It calls one verb of shop/ask/drive and shows its answer."""

from pathlib import Path
from typing import Annotated

import typer

from toptank.interfaces.cli import late
from toptank.interfaces.cli.options import (
    DrawsOption,
    FullOption,
    JobArgument,
    JsonOption,
    SeedOption,
    UnitsOption,
    print_json,
    working,
)
from toptank.interfaces.cli.screen import write
from toptank.shop import door

LegsOption = Annotated[
    str | None, typer.Option("--legs", help='e.g. "8 miles up 6 % at 45 mph, then idle 10 min", or "towing climb"')
]
RouteOption = Annotated[Path | None, typer.Option("--route", help="the road as a GPX file")]
SpeedOption = Annotated[
    str | None,
    typer.Option("--speed", help='how fast a route is driven, e.g. "50 mph, 35 mph from 3 mi"; else as its times say'),
]
AmbientOption = Annotated[
    str | None,
    typer.Option(
        "--ambient",
        help='air outside: "98 F", "88 F to 98 F" from start to end, or a CSV file of times and temperatures; '
        "if left out, as in the job",
    ),
]
AltitudeOption = Annotated[str | None, typer.Option("--altitude", help="elevation of the start; else as in the job")]
CoolingOption = Annotated[
    str | None, typer.Option("--air-conditioning", help="on or off at the start; if left out, as in the job")
]
PlanOption = Annotated[
    str | None,
    typer.Option("--plan", help="after a plan of `toptank choose`, by number or name; else as it is now"),
]
DutyOption = Annotated[
    str | None, typer.Option("--condition", "--duty", help="condition to take load and weather from")
]


def drive(
    job: JobArgument,
    legs: LegsOption = None,
    route: RouteOption = None,
    speed: SpeedOption = None,
    ambient: AmbientOption = None,
    altitude: AltitudeOption = None,
    air_conditioning: CoolingOption = None,
    duty: DutyOption = None,
    plan: PlanOption = None,
    cold: Annotated[bool, typer.Option("--cold", help="it stood overnight; if left out, it starts warm")] = False,
    out: Annotated[Path | None, typer.Option("--out", help="save a chart of the drive: .png or .svg")] = None,
    force: Annotated[bool, typer.Option("--force", help="replace a file that exists")] = False,
    units: UnitsOption = None,
    as_json: JsonOption = False,
    seed: SeedOption = None,
    draws: DrawsOption = None,
    full: FullOption = False,
) -> None:
    """Drive the vehicle along a road: what the gauge does, where it gets hottest, what would help."""
    opened = door.service.open_job(job)
    system = units.value if units else opened.system
    if out is not None:
        late.check_picture_file(out, replace=force)
    with working("driving the road"):
        answer = door.drive(
            opened, legs=legs, route=route, speed=speed, ambient=ambient, altitude=altitude,
            air_conditioning=air_conditioning, duty=duty, plan=plan, cold=cold, seed=seed, draws=draws, units=system,
        )  # fmt: skip
    if out is not None:
        late.write_picture(late.strip_chart(late.strip_of(answer), system), out, replace=force)
    if as_json:
        print_json(answer, system)
        return

    show = late.show_drive if full else late.show_drive_summary
    show(answer, system)
    if out is not None:
        write(f"Chart saved: {out}")
