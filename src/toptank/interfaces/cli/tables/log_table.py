"""Logs and road tests on the screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich import box
from rich.markup import escape
from rich.table import Table

from toptank.interfaces.cli.tables.diagnose_table import LEAST, SHOWN, percent
from toptank.interfaces.cli.tables.forecast_table import band
from toptank.interfaces.cli.tables.table import CAUTION, console, show_notes
from toptank.shop.door import clock_words, headline, naming, shown_lines, verdict_lines, verdict_summary, worth_words
from toptank.units.conversion import unit_of
from toptank.units.dimension import TEMPERATURE
from toptank.units.display import show

if TYPE_CHECKING:
    from toptank.shop.door import Logged, Verified
    from toptank.units.conversion import System

ROWS = 9
"""Moments of a drive that are shown."""


def show_log(answer: Logged, system: System) -> None:
    """Print what a log says."""
    file, job = answer.file, answer.job
    console.print(f"[bold]{escape(job.title)}[/bold]" + ("   (invented example)" if job.invented else ""))
    kind = "noted by hand" if file.log.by_hand else "logged"
    console.print(f"{escape(file.name)}: {file.rows:,} rows, {file.log.length / 60.0:.0f} minutes, {kind}.")
    table = Table("column", "means", "unit", "", box=box.SIMPLE_HEAD, padding=(0, 1), show_edge=False)
    left_out = [one.head for one in file.columns if not one.key and not one.note]
    for one in file.columns:
        if one.key or one.note:
            table.add_row(*(escape(text) for text in (one.head, one.key.replace("_", " "), one.unit, one.note)))
    console.print(table)
    if left_out:
        console.print(f"Columns not used: {escape(', '.join(left_out))}.", style="dim")
    for line in shown_lines(answer.shown, system):
        console.print(line)
    moved = Table("likely cause", "before", "with the log", box=box.SIMPLE_HEAD, padding=(0, 1), show_edge=False)
    for one in answer.moved[:SHOWN]:
        if max(one.before, one.after) >= LEAST:
            moved.add_row(escape(one.cause), percent(one.before), percent(one.after))
    console.print(moved)
    console.print(
        f"Something else: {percent(answer.unknown)}. {file.rows:,} rows, but worth {worth_words(answer.worth)}.",
        style="dim",
    )
    show_notes([*job.remarks, *answer.remarks], [*job.assumed_units, *answer.assumed_units], system)
    console.print(CAUTION, style="dim")


def show_verdict(answer: Verified, system: System) -> None:
    """Print a road test beside its forecast, and the verdict."""
    job, said = answer.job, answer.verdict
    made_up = "   (simulated road test, invented)" if answer.file is None else ""
    made_up = made_up or ("   (invented example)" if job.invented else "")
    console.print(f"[bold]Road test: {escape(job.title)}[/bold]{made_up}")
    console.print(f"Work done: {escape(naming.remedies(answer.done, system))}.")
    console.print(moments(answer, system, ROWS))
    short = verdict_summary(answer, system)
    console.print(f"[bold]{short.answer}[/bold] {escape(short.lines[0])}")
    console.print(f"{headline(said)}.")
    for line in verdict_lines(answer, system):
        console.print(escape(line))
    show_notes(answer.remarks, answer.assumed_units, system)
    console.print(CAUTION, style="dim")


def moments(answer: Verified, system: System, rows: int) -> Table:
    """A few moments of a road test: what was read, the range that was forecast, where it boils."""
    said, unit = answer.verdict, unit_of(TEMPERATURE, system)
    table = Table(box=box.SIMPLE_HEAD, padding=(0, 1), show_edge=False)
    for head in ("minute", f"read, {unit}", f"forecast, {unit}", f"boils, {unit}"):
        table.add_column(head)
    for i in range(0, len(said.time), max(len(said.time) // rows, 1)):
        ends = (float(said.low[i]), float(said.middle[i]), float(said.high[i]))
        forecast, boiling = band(ends, TEMPERATURE, system), _bare(said.boiling[i], system)
        table.add_row(clock_words(said.time[i]), _read(answer, i, system), forecast, boiling)
    return table


def _read(answer: Verified, place: int, system: System) -> str:
    """What was read nearest to a moment, if within a minute."""
    said = answer.verdict
    nearest = int(abs(said.read_time - said.time[place]).argmin())
    if abs(said.read_time[nearest] - said.time[place]) > 60.0:
        return ""
    return _bare(said.read[nearest], system)


def _bare(kelvin: float, system: System) -> str:
    return show(float(kelvin), TEMPERATURE, system).partition(" ")[0]
