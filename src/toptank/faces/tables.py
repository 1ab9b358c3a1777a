"""Answers on the screen: few lines, the trade's words, every band with its median."""

from typing import Any

from rich import box
from rich.console import Console
from rich.markup import escape
from rich.table import Table

from toptank.jobs.as_json import slope
from toptank.jobs.figures import STATUS_WORDS
from toptank.units.conversion import System, from_si, unit_of
from toptank.units.dimension import (
    AIR_PRESSURE,
    AIR_SPEED,
    ALTITUDE,
    CONDUCTANCE,
    FLOW,
    FRACTION,
    HEAT,
    LENGTH,
    POWER,
    PRESSURE,
    ROTATION,
    TEMPERATURE,
    TEMPERATURE_RISE,
    Dimension,
)
from toptank.units.display import show

CAUTION = (
    "Never open a hot system: let it cool until a hand can rest on the core. Coolant poisons people and animals. "
    "A fan may start by itself. The maker's manual goes before every figure here."
)

console = Console(highlight=False, emoji=False)


def band(values: Any, dimension: Dimension, system: System) -> str:
    """Write a band as "median (p10-p90)", in the unit of the shop."""
    unit = unit_of(dimension, system)
    low, middle, high = (round(float(from_si(value, dimension, unit))) for value in values)
    return f"{middle} ({low}\u2013{high})"


def show_forecast(answer: Any, system: System) -> None:
    """Print a forecast."""
    job, known = answer.job, answer.known
    console.print(f"[bold]{escape(job.title)}[/bold]" + ("   (invented example)" if job.invented else ""))
    if job.complaint.strip():
        console.print(f"“{escape(' '.join(job.complaint.split()))}”", style="italic")
    console.print(
        f"{known['measured']} facts measured, {known['plate']} read off a plate, {known['assumed']} assumed like "
        f"{job.sheet.like}; {answer.draws:,} possible vehicles drawn. Bands hold 8 in 10."
    )
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, title_justify="left")
    degrees = unit_of(TEMPERATURE, system)
    table.add_column("duty", max_width=16)
    table.add_column(f"gauge {degrees}", justify="right", no_wrap=True)
    table.add_column("seen", max_width=8)
    for head in ("to boiling", "boils", "air to boil"):
        table.add_column(head, justify="right", no_wrap=True)
    for duty in answer.duties:
        bands = duty.bands
        table.add_row(
            f"[bold]{escape(duty.name)}[/bold]",
            band(bands.gauge, TEMPERATURE, system),
            _seen(job, duty.name, system),
            band(bands.margin_to_boiling, TEMPERATURE_RISE, system),
            f"{100 * (duty.shares.get(3, 0.0) + duty.shares.get(4, 0.0)):.0f} %",
            band(bands.air_to_boil, TEMPERATURE, system),
        )
    console.print(table)
    console.print(
        f"Middle vehicle, 8 in 10 in brackets, in {degrees}; air to boil: ambient at which this duty would boil.",
        style="dim",
    )
    for duty, widest in zip(answer.duties, answer.widest, strict=True):
        _duty(duty, widest, job.limit, system)
    _notes(job.remarks, job.assumed_units)
    console.print(
        "A temperature above the boiling point is where the heat would balance if it did not boil first.", style="dim"
    )
    console.print(CAUTION, style="dim")


def _seen(job: Any, name: str, system: System) -> str:
    said = [reading for reading in job.readings if reading.duty == name]
    words = [
        " ".join(filter(None, (show(r.gauge, TEMPERATURE, system) if r.gauge is not None else "", r.words)))
        for r in said
    ]
    return ", ".join(words)


def _duty(duty: Any, widest: Any, limit: float, system: System) -> None:
    bands = duty.bands
    console.print(f"[bold]{escape(duty.name)}[/bold]")
    shares = ", ".join(f"{STATUS_WORDS[code]} {100 * share:.0f} %" for code, share in sorted(duty.shares.items()))
    engine = f"{show(bands.engine_speed.p50, ROTATION, system)}, {show(bands.engine_power.p50, POWER, system)}"
    coolant = (
        f"{show(bands.core_flow.p50, FLOW, system)}, bottom hose {show(bands.bottom_hose.p50, TEMPERATURE, system)}"
    )
    air = f"{show(bands.face_velocity.p50, AIR_SPEED, system)} at {show(bands.core_air_in.p50, TEMPERATURE, system)}"
    lines = [
        ("as the sheet stands", duty.reason),
        ("of the vehicles drawn", shares),
        (
            "at the middle",
            f"engine {engine}; heat to coolant {show(bands.engine_heat.p50, HEAT, system)}; coolant {coolant}; "
            f"air {air}; fan {show(bands.fan_speed.p50, ROTATION, system)}",
        ),
        (
            "the limit",
            f"{show(limit, TEMPERATURE, system)} is reached at {band(bands.limiting_ambient, TEMPERATURE, system)} "
            f"{unit_of(TEMPERATURE, system)} outside",
        ),
    ]
    for i, one in enumerate(widest):
        head = "widened most by" if i == 0 else ""
        lines.append((head, f"{100 * one.share:.0f} %  {one.means} ({one.path}). Check: {one.measure}"))
    grid = Table.grid(padding=(0, 2))
    grid.add_column(style="dim", min_width=21)
    grid.add_column()
    for head, text in lines:
        grid.add_row(head, text)
    console.print(grid)


def _notes(remarks: Any, assumed_units: Any) -> None:
    for remark in remarks:
        console.print(f"Look again: {escape(remark)}")
    if assumed_units:
        console.print(escape("Bare numbers: " + "; ".join(assumed_units) + "."))


def show_core(answer: Any, system: System) -> None:
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
        ("share of the resistance on the air side", show(answer.air_share_of_resistance, FRACTION, system)),
        ("tubes", f"{answer.regime}, Reynolds number {answer.tube_reynolds:.0f}"),
    )
    _pairs(rows)
    _notes(answer.remarks, answer.assumed_units)
    console.print("Heat transfer doubtful by 20 %, air pressure drop by 30 %, more near the transition.", style="dim")


def show_boil(answer: Any, system: System) -> None:
    """Print a boiling point and its table of caps."""
    degrees, pounds = unit_of(TEMPERATURE, system), unit_of(PRESSURE, system)
    console.print(
        f"[bold]{show(answer.boiling_point, TEMPERATURE, system, 1)}[/bold] boiling point: "
        f"{show(answer.concentrate, FRACTION, system)} {answer.glycol} glycol concentrate, cap "
        f"{show(answer.cap, PRESSURE, system)}, {show(answer.altitude, ALTITUDE, system)}"
    )
    console.print(
        f"open {show(answer.open_boiling_point, TEMPERATURE, system, 1)}; each {pounds} of cap is worth "
        f"{slope(answer.mean_slope, system):.1f} {degrees} on the way, {slope(answer.slope, system):.1f} {degrees} "
        "at this cap, less the higher the cap"
    )
    table = Table(
        "cap", "boils at", f"{degrees} for each {pounds} since the cap above", box=box.SIMPLE_HEAD, pad_edge=False
    )
    for row in answer.rows:
        cap, point = show(row.pressure, PRESSURE, system), show(row.boiling_point, TEMPERATURE, system, 1)
        table.add_row(cap, point, "" if row.slope is None else f"{slope(row.slope, system):.2f}")
    console.print(table)
    _notes((), answer.assumed_units)
    console.print("Metal boils the coolant earlier than that: keep 15 to 20 °F (8 to 11 °C) below it.", style="dim")
    console.print(CAUTION, style="dim")


def show_freeze(answer: Any, system: System) -> None:
    """Print a freeze point."""
    console.print(
        f"[bold]{show(answer.freeze_point, TEMPERATURE, system)}[/bold] freeze point: "
        f"{show(answer.concentrate, FRACTION, system)} {answer.glycol} glycol concentrate"
    )
    _notes((), answer.assumed_units)
    console.print("Concentrate holds 95 % glycol. Keep between 40 and 60 %: more protects and cools less.", style="dim")


def show_vehicles(rows: Any) -> None:
    """Print the list of typical vehicles."""
    table = Table("name", "what it is", box=box.SIMPLE_HEAD, pad_edge=False)
    for row in rows:
        table.add_row(f"[bold]{row.name}[/bold]", row.title)
    console.print(table)
    for where in dict.fromkeys(row.where for row in rows):
        console.print(f"Where the values come from: {where}.", style="dim")
    console.print("`toptank sheet new --like NAME --out JOB.toml` makes a starting file.", style="dim")


def show_explain(answer: Any) -> None:
    """Print an explanation."""
    console.print(f"[bold]{answer.name}[/bold]: {answer.means}.")
    for head, lines in (
        ("equations", answer.equations),
        ("sources", answer.sources),
        ("assumed", answer.assumptions),
        ("read on in", answer.files),
    ):
        for i, line in enumerate(lines):
            console.print(f"{head if i == 0 else '':>11}  {line}")


def _pairs(rows: tuple[tuple[str, str], ...]) -> None:
    table = Table(box=None, show_header=False, pad_edge=False)
    for name, value in rows:
        table.add_row(name, value)
    console.print(table)
