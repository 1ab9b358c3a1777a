"""The answer first: what a person acts on, at most a screen of it; the whole answer comes with --full."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich import box
from rich.markup import escape
from rich.table import Table

from toptank.interfaces.cli.tables.forecast_table import band, condition_table
from toptank.interfaces.cli.tables.log_table import moments
from toptank.interfaces.cli.tables.table import console, say
from toptank.shop import door
from toptank.units.conversion import kelvin, unit_of
from toptank.units.dimension import DISTANCE, TEMPERATURE
from toptank.units.display import show
from toptank.units.sentence import said, said_each

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from pathlib import Path

    from toptank.shop.door import (
        ChoiceAnswer,
        Chosen,
        Diagnosed,
        DiagnosisAnswer,
        DriveAnswer,
        Forecast,
        Job,
        ShortAnswer,
        StretchAnswer,
        Verified,
    )
    from toptank.units.conversion import System
    from toptank.units.sentence import Text

SAFETY = (
    "Never open a hot system. Electric fans can start at any time. Coolant is poisonous. "
    "Where the service manual differs, follow the manual."
)
MOST_OF_COMPLAINT = 230
"""Letters of a complaint that stand above a summary: three lines."""

NOTES = 2
"""Notes that a summary tells; the others come with --full."""

OUTCOMES = 3
STRETCHES = 8
MOMENTS = 6
"""Outcomes of a check, stretches of a drive, moments of a road test that a summary tells."""


def head(job: Job, system: System, *, complaint: bool = True, drawn_up: str = "") -> None:
    """Print whose answer it is, and the complaint in the driver's own words."""
    mark = drawn_up or ("invented example" if job.invented else "")
    console.print(f"[bold]{escape(job.title)}[/bold]" + (f" ({mark})" if mark else ""))
    told = " ".join(job.complaint.split())
    if complaint and told:
        shortened = told if len(told) <= MOST_OF_COMPLAINT else told[:MOST_OF_COMPLAINT].rsplit(" ", 1)[0] + " ..."
        console.print(f"“{escape(shortened)}”", style="italic")


def show_answer(summary: ShortAnswer, system: System) -> None:
    """Print the sentence that answers the question, then what follows from it."""
    console.print(f"[bold]{escape(say(summary.answer, system))}[/bold]")
    for line in summary.lines:
        console.print(escape(say(line, system)))


def show_diagnosis_summary(answer: Diagnosed, system: System) -> None:
    """Print what it most likely is and the check to make first."""
    head(answer.job, system)
    typed = door.diagnosis_answer(answer)
    show_answer(door.diagnosis_summary(typed, system), system)
    if heard := (*door.symptom_form.heard(answer.job), *door.figure_form.proposed_figures(answer.job)):
        told = "; ".join(one.told for one in heard)
        console.print(escape(f"Read in the complaint, not counted until you confirm it: {told}."))
    if typed.ask_first:
        questions = " ".join(said(one.question, system) for one in typed.ask_first)
        console.print(escape(f"Ask the driver first: {questions}"))
    if answer.job.confirmed is None:
        show_next_check(typed, system)
    _end([*answer.remarks], system)


def show_next_check(answer: DiagnosisAnswer, system: System, *, whole: bool = True) -> None:
    """Print the check to make first: how, what can hurt, what each outcome would mean."""
    check = door.first_check(answer, system)
    if check is None:
        return
    console.print(f"[bold]{escape(check.do_this_first)}[/bold]")
    console.print(escape(check.how))
    if check.hazard:
        console.print(f"[bold]Warning:[/bold] {escape(check.hazard)}")
    outcomes = check.outcomes[:OUTCOMES] if whole else check.outcomes[:2]
    for seen, means in outcomes:
        console.print(f"  If {escape(seen)}: {escape(means)}.")


def show_choice_summary(answer: Chosen, system: System) -> None:
    """Print the plan to take, the worst day as it is and with it, and three plans by name."""
    head(answer.job, system, complaint=False)
    typed = door.choice_answer(answer)
    show_answer(door.choice_summary(typed, system), system)
    show_three_plans(typed, system)
    plans = [remedy for one in door.three_plans(typed, system) for remedy in one.plan.plan]
    if invented := door.invented_prices(plans, answer.book, system):
        console.print(escape(invented), style="dim")
    _end([*answer.job.remarks, *answer.remarks], system)


def show_three_plans(answer: ChoiceAnswer, system: System, *, whole: bool = True) -> None:
    """Print three plans by a person's name for them, with the letters that `--plan` takes."""
    for one in door.three_plans(answer, system):
        console.print(escape(say(door.plan_line(one, answer, system), system)))
        if whole and one.does_not:
            console.print(f"   {escape(say(one.does_not, system))}", style="dim")


def show_forecast_summary(answer: Forecast, system: System) -> None:
    """Print where it gets hottest, and one line for each condition."""
    head(answer.job, system)
    show_answer(door.forecast_summary(answer, system), system)
    console.print(condition_table(answer, system))
    _end(answer.remarks, system)


def show_drive_summary(answer: DriveAnswer, system: System) -> None:
    """Print how hot it gets on the way, what would help, and the hottest stretches."""
    console.print(f"[bold]{escape(answer.title)}[/bold]" + (" (invented example)" if answer.invented else ""))
    show_answer(door.drive_summary(answer, system), system)
    table = Table(box=box.SIMPLE_HEAD, padding=(0, 1), show_edge=False)
    for name in ("stretch", "time", "distance", f"hottest, {unit_of(TEMPERATURE, system)}"):
        table.add_column(name, overflow="fold")
    shown = sorted(sorted(answer.stretches, key=_hottest, reverse=True)[:STRETCHES], key=_until)
    for one in shown:
        where = show(1000.0 * one.until_km, DISTANCE, system)
        hottest = one.gauge_at_its_hottest_degC
        ends = (kelvin(hottest.p10), kelvin(hottest.p50), kelvin(hottest.p90))
        cells = (said(one.name, system), f"{one.until_minutes:.0f} min", where)
        table.add_row(*map(escape, cells), band(ends, TEMPERATURE, system))
    console.print(table)
    _end(said_each(answer.remarks, system), system)


def _hottest(stretch: StretchAnswer) -> float:
    return stretch.gauge_at_its_hottest_degC.p50


def _until(stretch: StretchAnswer) -> float:
    return stretch.until_minutes


def show_verdict_summary(answer: Verified, system: System) -> None:
    """Print what a road test means for the worst day, and a few moments of it."""
    made_up = "simulated road test, invented" if answer.file is None else ""
    head(answer.job, system, complaint=False, drawn_up=made_up)
    show_answer(door.verdict_summary(answer, system), system)
    console.print(moments(answer, system, MOMENTS))
    _end(answer.remarks, system)


def show_demo_summary(diagnosed: Diagnosed, chosen: Chosen, system: System, folder: Path) -> None:
    """Print the built-in example on a screen and a half: fault, check, worst day, three plans, papers."""
    head(diagnosed.job, system)
    found = door.diagnosis_answer(diagnosed)
    plans = door.choice_answer(chosen)
    show_answer(door.diagnosis_summary(found, system), system)
    show_next_check(found, system, whole=False)
    show_answer(door.choice_summary(plans, system), system)
    show_three_plans(plans, system, whole=False)
    console.print(f"Saved order.pdf, order.html and plans.svg in {folder}")
    console.print("All of it: toptank demo --full. Your own vehicle: toptank job new --like NAME", style="dim")
    console.print(SAFETY, style="dim")


def _end(remarks: Iterable[Text], system: System) -> None:
    """Print a few notes, the safety line, and how to get the rest."""
    notes: Sequence[str] = [said(one, system) for one in remarks]
    for note in notes[:NOTES]:
        console.print(f"Note: {escape(note)}")
    left = len(notes) - NOTES
    more = f"{left} more note{'' if left == 1 else 's'} and everything" if left > 0 else "Everything"
    console.print(f"{more} else: --full. For a program: --json.", style="dim")
    console.print(SAFETY, style="dim")
