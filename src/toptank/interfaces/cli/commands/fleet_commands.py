"""The command of a fleet. It calls one verb of shop/ask/fleet and shows its answer."""

import math
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from toptank.interfaces.cli import late
from toptank.interfaces.cli.options import (
    DrawsOption,
    FullOption,
    JsonOption,
    SeedOption,
    UnitsOption,
    print_json,
    working,
)
from toptank.interfaces.cli.screen import write
from toptank.shop import door

if TYPE_CHECKING:
    from toptank.shop.door import FleetProgress

SourceArgument = Annotated[
    str,
    typer.Argument(
        metavar="SOURCE",
        help="folder of job files, a table (.csv, .parquet; one vehicle a row), or record, the jobs stored",
    ),
]
DayOption = Annotated[str, typer.Option("--day", help='hottest air of the day, "105 F", or "78 F to 105 F"')]
RouteOption = Annotated[
    Path | None, typer.Option("--route", help="the road as a GPX file; else the worst day of each vehicle")
]
SpeedOption = Annotated[str | None, typer.Option("--speed", help="how fast the road is driven; else as its times say")]
LeaveOption = Annotated[str | None, typer.Option("--leave", help="hours of leaving, e.g. 06:00..20:00")]
PlansOption = Annotated[bool, typer.Option("--plans", help="also find the cheapest repair that holds, and its price")]
OutOption = Annotated[
    Path | None, typer.Option("--out", help="save the vehicles: .csv, .parquet or .jsonl; a stopped run goes on")
]
PictureOption = Annotated[Path | None, typer.Option("--picture", help="save a picture of the fleet: .png or .svg")]
WorkersOption = Annotated[int | None, typer.Option("--workers", help="processes of this machine, by Dask")]
SchedulerOption = Annotated[
    str | None, typer.Option("--scheduler", help="address of a Dask scheduler, e.g. tcp://10.0.0.5:8786")
]

DeviceOption = Annotated[
    str | None, typer.Option("--device", help="cpu or gpu; else the GPU where there is one, and this process works")
]


def fleet(
    source: SourceArgument,
    day: DayOption,
    route: RouteOption = None,
    speed: SpeedOption = None,
    leave: LeaveOption = None,
    plans: PlansOption = False,
    prices: Annotated[Path | None, typer.Option("--prices", help="your own price book (TOML)")] = None,
    out: OutOption = None,
    picture: PictureOption = None,
    force: Annotated[bool, typer.Option("--force", help="replace a file that exists")] = False,
    workers: WorkersOption = None,
    scheduler: SchedulerOption = None,
    device: DeviceOption = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
    full: FullOption = False,
    draws: DrawsOption = None,
    seed: SeedOption = None,
) -> None:
    """Rank a fleet for a hot day: which vehicles hold, what air each bears, and what would ease it."""
    system = "us" if units is None else units.value
    if picture is not None:
        late.check_chart_file(picture, replace=force)
    with working("reading the fleet") as status:
        answer = door.fleet_verbs.fleet(
            source, day=day, route=route, speed=speed, leave=leave, plans=plans, price_book=prices, out=out,
            replace=force, draws=draws, seed=seed, system=system, workers=workers, scheduler=scheduler,
            device=device, progress=lambda told: status.update(_told(told)),
        )  # fmt: skip
    if picture is not None:
        late.write_fleet_chart(answer, picture, system, replace=force)
    if as_json:
        print_json(answer, system)
        return
    late.show_fleet(answer, system, full=full)
    for saved in (out, picture):
        if saved is not None:
            write(f"Saved: {saved}")


def _told(progress: "FleetProgress") -> str:
    left = "" if math.isnan(progress.left) else f", {_time(progress.left)} left"
    return f"{progress.done:,} of {progress.of:,} vehicles{left} ..."


def _time(seconds: float) -> str:
    return f"{seconds:.0f} s" if seconds < 90.0 else f"{seconds / 60.0:.0f} min"
