"""Whether it goes in, on the screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich import box
from rich.markup import escape
from rich.table import Table

from toptank.interfaces.cli.tables.table import CAUTION, console, show_notes
from toptank.shop import door

if TYPE_CHECKING:
    from toptank.shop.door import Fit, Fitted
    from toptank.units.conversion import System

_SIGNS = {"clears": "clears", "tight": "TIGHT", "rubs": "RUBS", "not known": "measure"}
"""How a verdict stands out without colour."""

_IN_ONE_LINE = {
    "clears": "It fits: everything clears.",
    "tight": "Touch and go: measure again where it is tight.",
    "rubs": "Won't fit without changes.",
    "not known": "Fit not confirmed yet: some of it was never measured.",
}


def show_fit(answer: Fitted, system: System) -> None:
    """Print each item of the stack-up with its verdict, and what to measure next."""
    console.print(f"[bold]{escape(answer.job.title)}[/bold]" + ("   (invented example)" if answer.job.invented else ""))
    for one in answer.fits:
        _show_one(one, system)
    show_notes(answer.remarks, answer.assumed_units, system)
    console.print(
        '"Clears" and "rubs" mean 95 % sure, given tape accuracy. Limits: common practice or judgement.',
        style="dim",
    )
    console.print(CAUTION, style="dim")


def _show_one(one: Fit, system: System) -> None:
    candidate, (parts, note) = one.candidate, door.fit_verbs.told(one, system)
    console.print(f"\n[bold]{escape(door.fit_verbs.name(one, system))}[/bold]: {_IN_ONE_LINE[one.verdict().value]}")
    for line in (
        note,
        parts and f"Parts: {parts}.",
        candidate.price and f"Quoted price: {candidate.price}.",
    ):
        if line:
            console.print(escape(line), style="dim")
    table = Table("", "what", "answer", "what to do", box=box.SIMPLE_HEAD, show_edge=False, pad_edge=False)
    for item in one.items:
        verdict, more = door.fit_verbs.words(item, system)
        table.add_row(_SIGNS[item.verdict.value], escape(item.name), escape(verdict), escape(more))
    console.print(table)
    asked = door.fit_verbs.to_measure(one)
    if asked:
        console.print("[bold]Measure next[/bold] and enter it in the job:")
        for line in asked:
            console.print(f"  {escape(line)}")
