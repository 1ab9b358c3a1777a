"""What the complaint tells and nobody has confirmed yet, and what to ask the driver first, on the screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.markup import escape

from toptank.interfaces.cli.tables.table import console
from toptank.shop.door import figure_form, naming, symptom_form

if TYPE_CHECKING:
    from toptank.shop.door import Diagnosis, Job


def show_heard(job: Job, number: int | None = None) -> None:
    """Print what the words of the job tell, and how it is made to count; of a stored job by the command that does."""
    heard, figures = symptom_form.heard(job), figure_form.proposed_figures(job)
    if not heard and not figures:
        return
    console.print("[bold]Read in the complaint, not counted yet[/bold]")
    for one in heard:
        line = f"toptank job driver {number or 'NUMBER'} {one.symptom}{' --no' if one.denied else ''}"
        console.print(f"   {escape(one.told)} (“{escape(one.quote)}”)")
        console.print(f"      {escape(line)}", soft_wrap=True)  # to be copied whole
    for figure in figures:
        console.print(f"   {escape(figure.told)} (“{escape(figure.quote)}”)")
    console.print(
        escape(
            "If the driver says so too, say it with that command; on the page it is one press. In a job file it stands "
            "under [[symptom]], a figure under [[reading]]."
        ),
        style="dim",
    )


def show_questions(found: Diagnosis) -> None:
    """Print what to ask the driver before anything is done."""
    if not found.ask_first:
        return
    console.print("[bold]Ask the driver first[/bold]")
    for one in found.ask_first:
        console.print(f"   {escape(naming.question(one.symptom))} {escape(f'({one.symptom})')}")
