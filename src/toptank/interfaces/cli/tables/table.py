"""Answers on the screen: few lines, the trade's words, every band with its median."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from rich import box
from rich.console import Console
from rich.markup import escape
from rich.table import Table

from toptank.interfaces.cli.screen import spelt_out
from toptank.units.conversion import from_si, to_si, unit_of
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
from toptank.units.sentence import said_each

if TYPE_CHECKING:
    from collections.abc import Iterable

    from rich import text as rich_text

    from toptank.shop.door import BoilAnswer, CoreAnswer, ExplainAnswer, FreezeAnswer, VehiclesAnswer
    from toptank.units.conversion import System
    from toptank.units.dimension import Dimension
    from toptank.units.sentence import Sentences, Text

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


def show_notes(remarks: Iterable[Text] | Sentences, assumed_units: Iterable[Text] | Sentences, system: System) -> None:
    """Print what to know of an answer, and the unit that numbers without one were taken in."""
    for remark in said_each(remarks, system):
        console.print(f"Note: {escape(remark)}")
    if assumed := said_each(assumed_units, system):
        console.print(escape("Numbers without a unit: " + "; ".join(assumed) + "."))


def show_core(answer: CoreAnswer, system: System) -> None:
    """Print the rating of a core."""
    console.print(f"[bold]{escape(answer.name)}[/bold]  {_of(answer.depth_mm, 'mm', LENGTH, system)} deep")
    rows = (
        ("heat", _of(answer.heat_kW, "kW", HEAT, system)),
        ("coolant out", _of(answer.coolant_out_degC, "°C", TEMPERATURE, system, 1)),
        ("air out", _of(answer.air_out_degC, "°C", TEMPERATURE, system, 1)),
        ("pressure drop, air", show(answer.air_pressure_drop_Pa, AIR_PRESSURE, system)),
        ("pressure drop, coolant", _of(answer.coolant_pressure_drop_kPa, "kPa", PRESSURE, system)),
        ("conductance UA", show(answer.conductance_W_per_K, CONDUCTANCE, system)),
        ("effectiveness", _of(answer.effectiveness_pct, "%", FRACTION, system)),
        ("resistance on the air side", _of(answer.air_share_of_resistance_pct, "%", FRACTION, system)),
        ("tubes", f"{answer.regime}, Reynolds number {answer.tube_reynolds:.0f}"),
    )
    _pairs(rows)
    show_notes(answer.remarks, answer.assumed_units, system)
    console.print("Heat: give or take 20 %, air pressure drop 30 %, more where the flow turns turbulent.", style="dim")


def show_boil(answer: BoilAnswer, system: System) -> None:
    """Print a boiling point and its table of caps."""
    degrees, pounds = unit_of(TEMPERATURE, system), unit_of(PRESSURE, system)
    cap = _of(answer.cap_kPa, "kPa", PRESSURE, system)
    console.print(
        f"[bold]{_of(answer.boiling_point_degC, '°C', TEMPERATURE, system, 1)}[/bold] boiling point: "
        f"{_of(answer.mix_pct, '%', FRACTION, system)} {answer.glycol} glycol antifreeze, {cap} cap, "
        f"{show(answer.altitude_m, ALTITUDE, system)}"
    )
    mean, here = (_gain(one, system) for one in (answer.mean_gain_K_per_kPa, answer.gain_at_this_cap_K_per_kPa))
    console.print(
        f"Without a cap: {_of(answer.open_boiling_point_degC, '°C', TEMPERATURE, system, 1)}. Each {pounds} of cap is "
        f"worth {mean} {degrees} on average, {here} {degrees} at this cap: less, the higher the cap."
    )
    table = Table(
        "cap", "boils at", f"{degrees} for each {pounds} over the cap above", box=box.SIMPLE_HEAD, pad_edge=False
    )
    for row in answer.caps:
        cap = _of(row.cap_kPa, "kPa", PRESSURE, system)
        point = _of(row.boiling_point_degC, "°C", TEMPERATURE, system, 1)
        table.add_row(cap, point, "" if row.gain_K_per_kPa is None else _gain(row.gain_K_per_kPa, system))
    console.print(table)
    show_notes((), answer.assumed_units, system)
    console.print(
        f"Hot metal boils the coolant sooner: stay {'15 to 20 °F' if system == 'us' else '8 to 11 °C'} below.",
        style="dim",
    )
    console.print(CAUTION, style="dim")


def _of(value: float, unit: str, dimension: Dimension, system: System, digits: int | None = None) -> str:
    """Write a figure of an answer, which stands in the unit of its key, in those of the reader."""
    return show(float(to_si(value, dimension, unit)), dimension, system, digits)


def _gain(kelvin_per_kilopascal: float, system: System) -> str:
    """To three figures in any unit: a kilopascal is worth a tenth of what a pound is."""
    degrees = from_si(kelvin_per_kilopascal, TEMPERATURE_RISE, unit_of(TEMPERATURE_RISE, system))
    return f"{float(degrees) / float(from_si(1000.0, PRESSURE, unit_of(PRESSURE, system))):#.3g}"


def show_freeze(answer: FreezeAnswer, system: System) -> None:
    """Print a freeze point."""
    console.print(
        f"[bold]{_of(answer.freeze_point_degC, '°C', TEMPERATURE, system)}[/bold] freeze point: "
        f"{_of(answer.mix_pct, '%', FRACTION, system)} {answer.glycol} glycol antifreeze"
    )
    for remark in said_each(answer.remarks, system):
        console.print(f"{sentence(remark)}.")
    show_notes((), answer.assumed_units, system)
    console.print(
        "Keep it between 40 and 60 % antifreeze: a stronger mix cools less and protects no better.",
        style="dim",
    )


def show_vehicles(answer: VehiclesAnswer, system: System) -> None:
    """Print the list of typical vehicles."""
    table = Table("name", "what it is", box=box.SIMPLE_HEAD, pad_edge=False)
    for row in answer.vehicles:
        table.add_row(f"[bold]{row.name}[/bold]", row.title)
    console.print(table)
    for where in dict.fromkeys(row.where for row in answer.vehicles):
        console.print(f"Where the values come from: {where}.", style="dim")
    console.print("`toptank sheet new --like NAME --out JOB.toml` saves a starting file.", style="dim")


def show_explain(answer: ExplainAnswer, system: System) -> None:
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
