"""Answers on the screen: few lines, the trade's words, every band with its median."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from rich import box
from rich.console import Console
from rich.markup import escape
from rich.table import Table

from toptank.interfaces.cli.screen import spelt_out
from toptank.units.conversion import from_si, unit_of
from toptank.units.dialect import spoken
from toptank.units.dimension import (
    AIR_PRESSURE,
    ALTITUDE,
    CONDUCTANCE,
    FRACTION,
    HEAT,
    LENGTH,
    PRESSURE,
    TEMPERATURE,
    TEMPERATURE_RISE,
)
from toptank.units.display import show
from toptank.units.sentence import said, said_each

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from rich import text as rich_text

    from toptank.shop.door import Boiling, CoreRating, Explanation, Freezing, TypicalRow
    from toptank.units.conversion import System
    from toptank.units.sentence import Text

CAUTION = (
    "Never open a hot system: let it cool until you can rest a hand on the radiator. Coolant is poisonous to people "
    "and animals. Electric fans can start at any time. Where the service manual differs, follow the manual."
)


class _Screen(Console):
    """Spells out signs before it lays out the text, so that tables stay straight."""

    def render_str(self, text: str, **how: Any) -> rich_text.Text:
        return super().render_str(spelt_out(text), **how)


console = _Screen(highlight=False, emoji=False)


def say(text: str, system: System) -> str:
    """Return a text in the English that goes with the units."""
    return spoken(text, system)


def sentence(text: str) -> str:
    """Return a text with a capital in front; capitals within stay."""
    return text[:1].upper() + text[1:]


def show_notes(remarks: Iterable[Text], assumed_units: Iterable[Text], system: System) -> None:
    """Print what to know of an answer, and the unit that numbers without one were taken in."""
    for remark in remarks:
        console.print(f"Note: {escape(said(remark, system))}")
    if assumed_units := tuple(assumed_units):
        console.print(escape("Numbers without a unit: " + "; ".join(said_each(assumed_units, system)) + "."))


def show_core(answer: CoreRating, system: System) -> None:
    """Print the rating of a core."""
    console.print(f"[bold]{escape(answer.name)}[/bold]  {show(answer.depth, LENGTH, system)} deep")
    rows = (
        ("heat", show(answer.heat, HEAT, system)),
        ("coolant out", show(answer.T_coolant_out, TEMPERATURE, system, 1)),
        ("air out", show(answer.T_air_out, TEMPERATURE, system, 1)),
        ("pressure drop, air", show(answer.air_pressure_drop, AIR_PRESSURE, system)),
        ("pressure drop, coolant", show(answer.coolant_pressure_drop, PRESSURE, system)),
        ("conductance UA", show(answer.conductance, CONDUCTANCE, system)),
        ("effectiveness", show(answer.effectiveness, FRACTION, system)),
        ("resistance on the air side", show(answer.air_share_of_resistance, FRACTION, system)),
        ("tubes", f"{answer.regime}, Reynolds number {answer.tube_reynolds:.0f}"),
    )
    _pairs(rows)
    show_notes(answer.remarks, answer.assumed_units, system)
    console.print("Heat: give or take 20 %, air pressure drop 30 %, more where the flow turns turbulent.", style="dim")


def show_boil(answer: Boiling, system: System) -> None:
    """Print a boiling point and its table of caps."""
    degrees, pounds = unit_of(TEMPERATURE, system), unit_of(PRESSURE, system)
    cap = show(answer.cap, PRESSURE, system)
    console.print(
        f"[bold]{show(answer.boiling_point, TEMPERATURE, system, 1)}[/bold] boiling point: "
        f"{show(answer.concentrate, FRACTION, system)} {answer.glycol} glycol antifreeze, {cap} cap, "
        f"{show(answer.altitude, ALTITUDE, system)}"
    )
    console.print(
        f"Without a cap: {show(answer.open_boiling_point, TEMPERATURE, system, 1)}. Each {pounds} of cap is worth "
        f"{_gain(answer.mean_slope, system)} {degrees} on average, {_gain(answer.slope, system)} "
        f"{degrees} at this cap: less, the higher the cap."
    )
    table = Table(
        "cap", "boils at", f"{degrees} for each {pounds} over the cap above", box=box.SIMPLE_HEAD, pad_edge=False
    )
    for row in answer.rows:
        cap, point = show(row.pressure, PRESSURE, system), show(row.boiling_point, TEMPERATURE, system, 1)
        table.add_row(cap, point, "" if row.slope is None else _gain(row.slope, system))
    console.print(table)
    show_notes((), answer.assumed_units, system)
    console.print(
        f"Hot metal boils the coolant sooner: stay {'15 to 20 °F' if system == 'us' else '8 to 11 °C'} below.",
        style="dim",
    )
    console.print(CAUTION, style="dim")


def _slope(kelvin_per_pascal: float, system: System) -> float:
    degrees = from_si(kelvin_per_pascal, TEMPERATURE_RISE, unit_of(TEMPERATURE_RISE, system))
    return float(degrees) / float(from_si(1.0, PRESSURE, unit_of(PRESSURE, system)))


def _gain(kelvin_per_pascal: float, system: System) -> str:
    """To three figures in any unit: a kilopascal is worth a tenth of what a pound is."""
    return f"{_slope(kelvin_per_pascal, system):#.3g}"


def show_freeze(answer: Freezing, system: System) -> None:
    """Print a freeze point."""
    console.print(
        f"[bold]{show(answer.freeze_point, TEMPERATURE, system)}[/bold] freeze point: "
        f"{show(answer.concentrate, FRACTION, system)} {answer.glycol} glycol antifreeze"
    )
    for remark in answer.remarks:
        console.print(f"{sentence(said(remark, system))}.")
    show_notes((), answer.assumed_units, system)
    console.print(
        "Keep it between 40 and 60 % antifreeze: a stronger mix cools less and protects no better.",
        style="dim",
    )


def show_vehicles(rows: Sequence[TypicalRow], system: System) -> None:
    """Print the list of typical vehicles."""
    table = Table("name", "what it is", box=box.SIMPLE_HEAD, pad_edge=False)
    for row in rows:
        table.add_row(f"[bold]{row.name}[/bold]", row.title)
    console.print(table)
    for where in dict.fromkeys(row.where for row in rows):
        console.print(f"Where the values come from: {where}.", style="dim")
    console.print("`toptank sheet new --like NAME --out JOB.toml` saves a starting file.", style="dim")


def show_explain(answer: Explanation, system: System) -> None:
    """Print an explanation."""
    console.print(f"[bold]{answer.name}[/bold]: {escape(answer.means)}.")
    grid = Table.grid(padding=(0, 2))
    grid.add_column(style="dim", justify="right")
    grid.add_column()
    for head, lines in (
        ("equations", answer.equations),
        ("sources", answer.sources),
        ("assumed", said_each(answer.assumptions, system)),
        ("read on in", answer.files),
    ):
        for i, line in enumerate(lines):
            grid.add_row(head if i == 0 else "", escape(line))
    console.print(grid)


def _pairs(rows: tuple[tuple[str, str], ...]) -> None:
    table = Table(box=None, show_header=False, pad_edge=False)
    for name, value in rows:
        table.add_row(name, value)
    console.print(table)
