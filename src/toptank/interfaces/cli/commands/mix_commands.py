"""The command of mixing. It calls the verb of shop/ask/coolant/mix and shows its answer."""

from typing import Annotated

import typer

from toptank.interfaces.cli import late
from toptank.interfaces.cli.options import JsonOption, UnitsOption, print_json
from toptank.shop import door
from toptank.units.conversion import System

GlycolOption = Annotated[str, typer.Option("--glycol", help="ethylene or propylene")]


def mix(
    capacity: Annotated[str, typer.Option(help='capacity of the whole system with heater, e.g. "16 qt"')],
    now: Annotated[
        str | None, typer.Option(help='coolant strength now (% antifreeze), e.g. "30 %"; plain water is 0 %')
    ] = None,
    refractometer: Annotated[
        str | None, typer.Option("--refractometer", help='in place of --now: freeze point it reads, e.g. "-20 F"')
    ] = None,
    gravity: Annotated[
        str | None, typer.Option("--gravity", help="in place of --now: specific gravity on the hydrometer")
    ] = None,
    sample: Annotated[
        str | None, typer.Option("--sample", help="temperature of the sample; leave out if the tester corrects for it")
    ] = None,
    scale: Annotated[
        str | None,
        typer.Option("--scale", help="glycol of the refractometer's scale; else that of the coolant"),
    ] = None,
    rinses: Annotated[int, typer.Option("--rinses", help="times it was drained and filled with water since")] = 0,
    inside: Annotated[
        str | None, typer.Option("--inside", help="coolant type that is in: IAT, OAT, HOAT ..., unknown or water")
    ] = None,
    new: Annotated[str | None, typer.Option("--new", help="coolant type that is to go in")] = None,
    want: Annotated[str, typer.Option(help='coolant strength wanted (% antifreeze), e.g. "50 %"')] = "50 %",
    drainable: Annotated[
        str, typer.Option(help="how much drains: petcock and block drains 80 %, petcock alone about 45 %")
    ] = "80 %",
    glycol: GlycolOption = "ethylene",
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Work out what to drain and what to add for the strength you want, and where it freezes and boils."""
    system: System = units.value if units else door.mix_verbs.system_of(capacity)
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
