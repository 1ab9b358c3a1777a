"""The command of mixing. It calls the verb of shop/ask/coolant/mix and shows its answer."""

from typing import Annotated

import typer

from toptank.interfaces.cli import late
from toptank.interfaces.cli.options import JsonOption, Units, UnitsOption, print_json
from toptank.shop import door
from toptank.units.conversion import System

GlycolOption = Annotated[str, typer.Option("--glycol", help="ethylene or propylene")]


def mix(
    capacity: Annotated[str, typer.Option(help='volume of the whole system with heater, e.g. "16 qt"')],
    now: Annotated[
        str | None, typer.Option(help='share of concentrate that is in, e.g. "30 %"; water, as after a flush, is 0 %')
    ] = None,
    refractometer: Annotated[
        str | None, typer.Option("--refractometer", help='in place of --now: freeze point that it reads, e.g. "-20 F"')
    ] = None,
    gravity: Annotated[
        str | None, typer.Option("--gravity", help="in place of --now: specific gravity that a hydrometer reads")
    ] = None,
    sample: Annotated[
        str | None, typer.Option("--sample", help="temperature of the sample; left out where the instrument corrects")
    ] = None,
    scale: Annotated[
        str | None, typer.Option("--scale", help="glycol of the refractometer's scale; that of the coolant if not said")
    ] = None,
    rinses: Annotated[int, typer.Option("--rinses", help="times it was drained and filled with water since")] = 0,
    inside: Annotated[
        str | None, typer.Option("--inside", help="family that is in: IAT, OAT, HOAT ..., unknown or water")
    ] = None,
    new: Annotated[str | None, typer.Option("--new", help="family that is to go in")] = None,
    want: Annotated[str, typer.Option(help='share of concentrate that is wanted, e.g. "50 %"')] = "50 %",
    drainable: Annotated[
        str, typer.Option(help="share of the system that comes out: cock and block drains 80 %, cock alone about 45 %")
    ] = "80 %",
    glycol: GlycolOption = "ethylene",
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """What to drain and what to add to reach a share of concentrate, and where the mix freezes and boils."""
    system: System = (units or Units.us).value
    read = door.mix_verbs.Instrument(refractometer=refractometer, gravity=gravity, sample=sample, scale=scale)
    families = None
    if inside is not None or new is not None:
        families = door.mix_verbs.Families(inside=inside or "unknown", new=new or "IAT")
    answer = door.mix_verbs.mix(
        capacity=capacity, now=now, want=want, drainable=drainable, glycol=glycol, system=system, instrument=read,
        rinses=rinses, families=families,
    )  # fmt: skip
    if as_json:
        print_json(door.mix_answer(answer), system)
    else:
        late.show_mix(answer, system)
