"""A recipe of the mix on the screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich import box
from rich.markup import escape
from rich.table import Table

from toptank.interfaces.cli.tables.table import CAUTION, console, show_notes
from toptank.shop import door
from toptank.units.dimension import PRESSURE, TEMPERATURE
from toptank.units.display import show

if TYPE_CHECKING:
    from toptank.shop.door import Mixed
    from toptank.units.conversion import System

RUN_TO_MIX = "Run it with the heater on until the thermostat opens, so that it mixes; let it cool before the next step."
FULL = "Assumes a full system. Measure what drains: no two engines drain alike."


def show_mix(answer: Mixed, system: System) -> None:
    """Print what to drain and add, and where the mix freezes and boils."""
    _show_reading(answer, system)
    _show_steps(answer, system)
    _show_corrected(answer, system)
    _show_refill(answer, system)
    _show_points(answer, system)
    _show_family(answer)
    show_notes(answer.remarks, answer.assumed_units, system)
    console.print(FULL, style="dim")
    console.print(CAUTION, style="dim")


def _show_reading(answer: Mixed, system: System) -> None:
    read = answer.read
    if read is None:
        return
    console.print(
        f"Reads [bold]{_share(read.concentrate)}[/bold] antifreeze ({_share(read.low)} to {_share(read.high)}), "
        f"freezes at {_temperature(read.freeze_point, system)}."
    )
    for trap in read.remarks:
        console.print(f"  Can fool you: {escape(trap)}.", style="dim")


def _show_family(answer: Mixed) -> None:
    if answer.family is not None:
        console.print(
            f"Coolant type: [bold]{escape(answer.family.action.value)}[/bold]. {escape(answer.family.reason)}."
        )
        for caution in answer.family.cautions:
            console.print(f"  Caution: {escape(caution)}.", style="dim")


def _show_steps(answer: Mixed, system: System) -> None:
    whole = f"{_volume(answer.capacity, system)} of {answer.glycol} glycol mix"
    recipe = answer.recipe
    if not recipe.rounds:
        console.print(f"[bold]Nothing to drain[/bold]: {whole} is at {_share(answer.wanted)} already")
        return
    end = "" if recipe.reaches else f", [bold]not {_share(answer.wanted)}[/bold]"
    console.print(f"{whole}, from {_share(answer.now)} to {_share(recipe.reached)}{end}:")
    for number, one in enumerate(recipe.rounds, start=1):
        what = "antifreeze" if one.concentrate > 0.0 else "water"
        drained = _volume(one.drained, system)
        console.print(f"{number}. Drain [bold]{drained}[/bold], add {drained} of {what}: {_share(one.share)}.")
        if number < len(recipe.rounds):
            console.print(f"   {RUN_TO_MIX}")


def _show_corrected(answer: Mixed, system: System) -> None:
    if not any(one.concentrate > 0.0 for one in answer.recipe.rounds):
        return
    if answer.read is not None:
        console.print("The reading was converted to antifreeze, so these figures are right as they are.")
        return
    most_drained, usual, least_drained = answer.corrected
    least, _, most = answer.glycol_shares
    console.print(
        f"Antifreeze is {_ends(least, most)} % glycol: if your tester reads glycol, swap "
        f"[bold]{_volume(usual.drained, system)}[/bold] instead of {_volume(answer.recipe.drained, system)} "
        f"({_volume(least_drained.drained, system)} to {_volume(most_drained.drained, system)}; the other would end at "
        f"{100 * answer.gives[1]:.0f} %)."
    )


def _show_refill(answer: Mixed, system: System) -> None:
    filled = answer.refill
    reached = "" if filled.reaches else f", which ends at {_share(filled.reached)}"
    console.print(
        f"Or drain everything that comes out (about {_volume(filled.drained, system)}): add "
        f"{_volume(filled.concentrate, system)} antifreeze, then {_volume(filled.water, system)} water{reached}."
    )


def _show_points(answer: Mixed, system: System) -> None:
    table = Table("", "as pure glycol", "as antifreeze", box=box.SIMPLE_HEAD, pad_edge=False)
    capped = f"boils under {show(door.MIX_CAP, PRESSURE, system)}"
    for when, reading in (("before", answer.before), ("after", answer.after)):
        for name, field in (("freezes", "freeze"), ("boils open", "boil_open"), (capped, "boil_capped")):
            table.add_row(
                f"{when}, {_share(reading.share)}: {name}",
                _temperature(getattr(reading.pure, field), system),
                _band([getattr(one, field) for one in reading.corrected], system),
            )
    console.print(table)
    least, _, most = answer.glycol_shares
    said = f"In brackets: antifreeze that is {_ends(least, most, 'and for')} % glycol."
    console.print(f"Boiling at sea level. {said}", style="dim")


def _ends(least: float, most: float, between: str = "to") -> str:
    return f"{100 * least:.3g} {between} {100 * most:.3g}"


def _band(three: list[float | None], system: System) -> str:
    """The usual figure, and both ends where they are followed and read differently."""
    least, usual, most = three
    ends = [_temperature(end, system) for end in (least, most)]
    middle = _temperature(usual, system)
    same = ends[0] == ends[1] == middle
    return middle if same or least is None or most is None else f"{middle} ({ends[0]} to {ends[1]})"


def _volume(value: float, system: System) -> str:
    return door.shop_volume(value, system)


def _share(value: float) -> str:
    return f"{100 * value:.0f} %"


def _temperature(value: float | None, system: System) -> str:
    return "not known" if value is None else show(value, TEMPERATURE, system)
