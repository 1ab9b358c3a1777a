"""A forecast on the screen: every band with its median, what the band rests on, what would narrow it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, TypeVar

from rich import box
from rich.markup import escape
from rich.measure import Measurement
from rich.table import Table

from toptank.interfaces.cli.tables.table import CAUTION, console, say, sentence, show_notes
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
WIDENED = "biggest unknowns"

WORDED = {"condition": 16, "seen": 8}
"""Columns of words, which may be broken, and how wide they get at most."""

WIDEST_SCREEN = 1000
"""Of any screen; a table is measured as if it had that much room."""

Code = TypeVar("Code", bound=int)

LOST = (3, 4)
"""Codes of those that boil or find no balance."""

HOW_THEY_ENDED = {
    0: "the thermostat holds it",
    1: "it settles with the thermostat wide open",
    2: "it is short of power",
    3: "it boils",
    4: "it gets hotter without end",
    5: "no answer was found",
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
    """Say how often it ends how; what would be shown as never is left out."""
    percent = {code: round(100.0 * share) for code, share in sorted(shares.items())}
    return "; ".join(f"{HOW_THEY_ENDED[code]} {share} %" for code, share in percent.items() if share > 0)


def show_forecast(answer: Forecast, system: System) -> None:
    """Print a forecast."""
    job, known = answer.job, answer.known
    console.print(f"[bold]{escape(job.title)}[/bold]" + ("   (invented example)" if job.invented else ""))
    if job.complaint.strip():
        console.print(f"“{escape(' '.join(job.complaint.split()))}”", style="italic")
    console.print(
        f"{known['measured']} figures measured, {known['plate']} read off a plate, {known['assumed']} estimated; like "
        f"{job.sheet.like}; {answer.draws:,} simulations."
    )
    console.print(condition_table(answer, system))
    console.print(
        f"Most likely value (range, 8 times in 10), in {unit_of(TEMPERATURE, system)}. "
        "Boils outside at: outside temperature at which it boils there.",
        style="dim",
    )
    show_notes(answer.remarks, job.assumed_units, system)
    for duty, widest, untold in zip(answer.duties, answer.widest, answer.untold, strict=True):
        _duty(duty, widest, untold, system)
    console.print("Temperatures above boiling mean: it boils.", style="dim")
    console.print(CAUTION, style="dim")


def condition_table(answer: Forecast, system: System) -> Table:
    """A row for each condition: gauge, what was seen, how far from boiling, how often it boils."""
    heads = ("condition", f"gauge {unit_of(TEMPERATURE, system)}", "seen", "below boiling", "boils", "boils outside at")
    return _table(heads, [_row(answer.job, duty, system) for duty in answer.duties])


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
    boils = "" if duty.boils_after is None else f"; if it boils, after {band(duty.boils_after, DURATION, system)} min"
    lasts = show(duty.sheet.facts["for"].value, DURATION, system)
    return [("read", f"after {lasts} of it, {duty.came_before}; {peak}{boils}")]


def _duty(duty: DutyForecast, widest: Sequence[Weighty], untold: str, system: System) -> None:
    bands = duty.bands
    console.print(f"[bold]{escape(duty.name)}[/bold]")
    engine = f"{show(bands.engine_speed.p50, ROTATION, system)}, {show(bands.engine_power.p50, POWER, system)}"
    coolant = (
        f"{show(bands.core_flow.p50, FLOW, system)}, lower hose {show(bands.bottom_hose.p50, TEMPERATURE, system)}"
    )
    air = f"{show(bands.face_velocity.p50, AIR_SPEED, system)} at {show(bands.core_air_in.p50, TEMPERATURE, system)}"
    ambient = band(bands.limiting_ambient, TEMPERATURE, system)
    outside = "any temperature" if ambient == ANY else f"{ambient} {unit_of(TEMPERATURE, system)}"
    lines = [
        *_time(duty, system),
        ("as described", duty.reason),
        ("in the simulations", ended(duty.shares)),
        (
            "most likely",
            f"engine {engine}; heat to coolant {show(bands.engine_heat.p50, HEAT, system)}; coolant {coolant}; "
            f"air {air}; fan {show(bands.fan_speed.p50, ROTATION, system)}",
        ),
        (
            "limit",
            f"hits {show(duty.limit, TEMPERATURE, system)} when it is {outside} outside",
        ),
    ]
    for i, one in enumerate(widest):
        check = f"Check: {one.measure}" if one.measurable else sentence(one.measure)
        lines.append((WIDENED if i == 0 else "", f"{100 * one.share:.0f} %  {one.means}. {check}"))
    if untold:
        lines.append((WIDENED, sentence(untold) + "."))
    grid = Table.grid(padding=(0, 2))
    grid.add_column(style="dim", min_width=21)
    grid.add_column()
    for head, text in lines:
        grid.add_row(head, escape(say(text, system)))
    console.print(grid)
