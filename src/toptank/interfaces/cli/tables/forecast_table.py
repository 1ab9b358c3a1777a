"""A forecast on the screen: every band with its median, what the band rests on, what would narrow it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, TypeVar

from rich import box
from rich.markup import escape
from rich.measure import Measurement
from rich.table import Table

from toptank.interfaces.cli.tables.table import CAUTION, console, sentence, show_notes
from toptank.units.conversion import from_si, unit_of
from toptank.units.dimension import (
    AIR_SPEED,
    DURATION,
    FLOW,
    HEAT,
    POWER,
    ROTATION,
    TEMPERATURE,
    TEMPERATURE_RISE,
)
from toptank.units.display import show

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from toptank.shop.door import DutyForecast, Forecast, Job, Weighty
    from toptank.units.conversion import System
    from toptank.units.dimension import (
        Dimension,
    )

DASH = "\u2013"
ANY = "any"
WIDENED = "widened most by"

WORDED = {"duty": 16, "seen": 8}
"""Columns of words, which may be broken, and how wide they get at most."""

WIDEST_SCREEN = 1000
"""Of any screen; a table is measured as if it had that much room."""

Code = TypeVar("Code", bound=int)

LOST = (3, 4)
"""Codes of those that boil or find no balance."""

HOW_THEY_ENDED = {
    0: "are held by the thermostat",
    1: "settle with the thermostat wide open",
    2: "are short of power",
    3: "boil",
    4: "get hotter without end",
    5: "have figures for which no answer was found",
}
"""What the vehicles of a status do; see figures.STATUS_WORDS."""


def band(values: Sequence[float], dimension: Dimension, system: System) -> str:
    """Write a band as "median (p10-p90)", in the unit of the shop; with "to" where a dash could be a minus.

    Where there is no figure, since the thing happens at any temperature looked at, that is said.
    """
    unit = unit_of(dimension, system)
    if all(map(math.isnan, values)):
        return ANY
    figures = [None if math.isnan(value) else round(float(from_si(value, dimension, unit))) for value in values]
    low, middle, high = (ANY if figure is None else str(figure) for figure in figures)
    dash = DASH if all(figure is not None and figure >= 0 for figure in figures) else " to "
    return f"{middle} ({low}{dash}{high})"


def ended(shares: Mapping[Code, float]) -> str:
    """Say how the balances of the vehicles drawn ended; what would be shown as none of them is left out."""
    percent = {code: round(100.0 * share) for code, share in sorted(shares.items())}
    return "; ".join(f"{share} % {HOW_THEY_ENDED[code]}" for code, share in percent.items() if share > 0)


def show_forecast(answer: Forecast, system: System) -> None:
    """Print a forecast."""
    job, known = answer.job, answer.known
    console.print(f"[bold]{escape(job.title)}[/bold]" + ("   (invented example)" if job.invented else ""))
    if job.complaint.strip():
        console.print(f"“{escape(' '.join(job.complaint.split()))}”", style="italic")
    console.print(
        f"{known['measured']} facts measured, {known['plate']} read off a plate, {known['assumed']} assumed; vehicle "
        f"like {job.sheet.like}; {answer.draws:,} possible vehicles drawn. Bands hold 8 in 10."
    )
    degrees = unit_of(TEMPERATURE, system)
    heads = ("duty", f"gauge {degrees}", "seen", "to boiling", "boils", "air to boil")
    console.print(_table(heads, [_row(job, duty, system) for duty in answer.duties]))
    console.print(
        f"Middle vehicle, 8 in 10 in brackets, in {degrees}; air to boil: ambient at which this duty would boil.",
        style="dim",
    )
    for duty, widest, untold in zip(answer.duties, answer.widest, answer.untold, strict=True):
        _duty(duty, widest, untold, job.limit, system)
    show_notes(answer.remarks, job.assumed_units, system)
    console.print(
        "A temperature above the boiling point is where the heat would balance if it did not boil first.", style="dim"
    )
    console.print(CAUTION, style="dim")


def _row(job: Job, duty: DutyForecast, system: System) -> tuple[str, ...]:
    bands = duty.bands
    return (
        f"[bold]{escape(duty.name)}[/bold]",
        band(bands.gauge, TEMPERATURE, system),
        _seen(job, duty.name, system),
        band(bands.margin_to_boiling, TEMPERATURE_RISE, system),
        f"{100 * (sum(share for code, share in duty.shares.items() if code in LOST)):.0f} %",
        band(bands.air_to_boil, TEMPERATURE, system),
    )


def _table(heads: tuple[str, ...], rows: list[tuple[str, ...]]) -> Table:
    """A row for each duty; on a screen too narrow for that, a line for each figure."""
    wide = Table(box=box.SIMPLE_HEAD, pad_edge=False)
    for i, head in enumerate(heads):
        if head in WORDED:
            wide.add_column(head, max_width=WORDED[head])
        else:
            longest = max(len(text) for text in (head, *(row[i] for row in rows)))
            wide.add_column(head, justify="right", no_wrap=True, min_width=longest)
    for row in rows:
        wide.add_row(*row)
    if Measurement.get(console, console.options.update(width=WIDEST_SCREEN), wide).minimum <= console.width:
        return wide
    narrow = Table(box=box.SIMPLE_HEAD, pad_edge=False, show_header=False)
    for row in rows:
        for head, text in zip(heads, row, strict=True):
            if text:
                narrow.add_row(head, text)
        narrow.add_section()
    return narrow


def _seen(job: Job, name: str, system: System) -> str:
    said = [reading for reading in job.evidence.readings if reading.duty == name]
    words = [
        " ".join(filter(None, (show(r.figure, TEMPERATURE, system) if r.figure is not None else "", r.words)))
        for r in said
    ]
    return ", ".join(words)


def _time(duty: DutyForecast, system: System) -> list[tuple[str, str]]:
    """Say after how long the gauge is read, and what it was at most; nothing of what is steady."""
    if not duty.came_before:
        return []
    peak = f"highest {band(duty.bands.gauge_peak, TEMPERATURE, system)} {unit_of(TEMPERATURE, system)}"
    boils = (
        "" if duty.boils_after is None else f"; those that boil do after {band(duty.boils_after, DURATION, system)} min"
    )
    lasts = show(duty.sheet.facts["for"].value, DURATION, system)
    return [("read", f"at the end of {lasts} of it, {duty.came_before}; {peak}{boils}")]


def _duty(duty: DutyForecast, widest: Sequence[Weighty], untold: str, limit: float, system: System) -> None:
    bands = duty.bands
    console.print(f"[bold]{escape(duty.name)}[/bold]")
    engine = f"{show(bands.engine_speed.p50, ROTATION, system)}, {show(bands.engine_power.p50, POWER, system)}"
    coolant = (
        f"{show(bands.core_flow.p50, FLOW, system)}, bottom hose {show(bands.bottom_hose.p50, TEMPERATURE, system)}"
    )
    air = f"{show(bands.face_velocity.p50, AIR_SPEED, system)} at {show(bands.core_air_in.p50, TEMPERATURE, system)}"
    ambient = band(bands.limiting_ambient, TEMPERATURE, system)
    outside = "any temperature" if ambient == ANY else f"{ambient} {unit_of(TEMPERATURE, system)}"
    lines = [
        *_time(duty, system),
        ("as the sheet stands", duty.reason),
        ("of the vehicles drawn", ended(duty.shares)),
        (
            "at the middle",
            f"engine {engine}; heat to coolant {show(bands.engine_heat.p50, HEAT, system)}; coolant {coolant}; "
            f"air {air}; fan {show(bands.fan_speed.p50, ROTATION, system)}",
        ),
        (
            "the limit",
            f"{show(limit, TEMPERATURE, system)} is reached at {outside} outside",
        ),
    ]
    for i, one in enumerate(widest):
        check = f"Check: {one.measure}" if one.measurable else sentence(one.measure)
        lines.append((WIDENED if i == 0 else "", f"{100 * one.share:.0f} %  {one.means} ({one.path}). {check}"))
    if untold:
        lines.append((WIDENED, sentence(untold) + "."))
    grid = Table.grid(padding=(0, 2))
    grid.add_column(style="dim", min_width=21)
    grid.add_column()
    for head, text in lines:
        grid.add_row(head, text)
    console.print(grid)
