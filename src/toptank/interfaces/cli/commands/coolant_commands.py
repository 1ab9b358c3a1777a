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
        list[str] | None, typer.Option("--analysis", help='a figure of its analysis, e.g. "chloride=30" in mg/L; again')
    ] = None,
    as_json: JsonOption = False,
) -> None:
    """Say whether a water may thin concentrate, by published limits, and both sides of the distilled-water argument."""
    answer = door.coolant_verbs.water(kind, analysis or ())
    if as_json:
        print_json(door.water_answer(answer))
    else:
        late.show_water(answer)


def bleed(
    layout: Annotated[str | None, typer.Argument(help="a layout; left out, every one is told")] = None,
    job: Annotated[
        str | None, typer.Option("--job", help="number of a stored job, its file, or demo: its own layout")
    ] = None,
    as_json: JsonOption = False,
) -> None:
    """How to fill a system and get the air out, step by step, by its layout."""
    answer = door.coolant_verbs.bleed(layout, job=door.service.open_job(job) if job else None)
    if as_json:
        print_json(door.bleed_answer(answer))
    else:
        late.show_bleeding(answer)


def cap(
    job: JobArgument,
    part: Annotated[
        list[str] | None, typer.Option("--part", help="what the pressure reaches, by name; again for each")
    ] = None,
    bottle: Annotated[str | None, typer.Option("--bottle", help='the bottle that is there, e.g. "2 qt"')] = None,
    at: Annotated[
        str | None,
        typer.Option("--at", help="hottest coolant; the customer's limit, which the repair holds, if not said"),
    ] = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Which cap the worst day asks for and the weakest part bears, the margin to boiling, the recovery bottle."""
    opened = door.service.open_job(job)
    system: System = units.value if units else opened.system
    answer = door.coolant_verbs.cap(opened, parts=part or (), bottle=bottle, hottest=at, system=system)
    if as_json:
        print_json(door.cap_answer(answer), system)
    else:
        late.show_cap(answer, system)
