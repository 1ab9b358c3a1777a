"""Commands of water, cap, bottle and bleeding. Each calls one verb of shop/ask/coolant/coolant and shows its answer."""

from typing import Annotated

import typer

from toptank.interfaces.cli import late
from toptank.interfaces.cli.options import JobArgument, JsonOption, UnitsOption, print_json
from toptank.shop import door
from toptank.units.conversion import System


def water(
    kind: Annotated[str, typer.Argument(help="distilled, deionised, tap, well, softened, bottled drinking")],
    analysis: Annotated[
        list[str] | None,
        typer.Option("--analysis", help='figure of its lab report, e.g. "chloride=30" in mg/L; again'),
    ] = None,
    as_json: JsonOption = False,
) -> None:
    """Check if a water is fit to mix with antifreeze, and both sides of the distilled-water argument."""
    answer = door.coolant_verbs.water(kind, analysis or ())
    if as_json:
        print_json(door.water_answer(answer))
    else:
        late.show_water(answer)


def bleed(
    layout: Annotated[str | None, typer.Argument(help="a layout; if left out, all of them")] = None,
    job: Annotated[
        str | None, typer.Option("--job", help="number of a stored job, its file, or demo: the layout of that job")
    ] = None,
    as_json: JsonOption = False,
) -> None:
    """Fill a system and bleed the air out, step by step, by its layout."""
    answer = door.coolant_verbs.bleed(layout, job=door.service.open_job(job) if job else None)
    if as_json:
        print_json(door.bleed_answer(answer))
    else:
        late.show_bleeding(answer)


def cap(
    job: JobArgument,
    part: Annotated[
        list[str] | None, typer.Option("--part", help="a part under pressure, by name; again for each")
    ] = None,
    bottle: Annotated[str | None, typer.Option("--bottle", help='the bottle that is there, e.g. "2 qt"')] = None,
    at: Annotated[
        str | None,
        typer.Option("--at", help="hottest coolant; if left out, the customer's limit"),
    ] = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Pick a cap: enough for the worst day, not too much for the weakest part; and the recovery bottle."""
    opened = door.service.open_job(job)
    system: System = units.value if units else opened.system
    answer = door.coolant_verbs.cap(opened, parts=part or (), bottle=bottle, hottest=at, system=system)
    if as_json:
        print_json(door.cap_answer(answer), system)
    else:
        late.show_cap(answer, system)
