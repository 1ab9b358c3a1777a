"""The command of fit. It calls the verb of shop/ask/fit and shows its answer."""

from pathlib import Path
from typing import Annotated, Any

import typer

from toptank.interfaces.cli.options import JobArgument, JsonOption, UnitsOption, print_json
from toptank.interfaces.cli.screen import write

_SIGNS = {"clears": "clears", "tight": "TIGHT", "rubs": "RUBS", "not known": "unknown"}
"""How a verdict stands out without colour."""

_IN_ONE_LINE = {
    "clears": "Goes in: everything clears.",
    "tight": "May go in: what is tight must be measured again.",
    "rubs": "Does not go in as it is.",
    "not known": "Not settled: some of it was never measured.",
}


def fit(
    job: JobArgument,
    candidate: Annotated[
        str | None,
        typer.Option("--with", help="a remedy, a plan, an offer of the job; else every offer, or what is in"),
    ] = None,
    drawing: Annotated[Path | None, typer.Option("--drawing", help="write a drawing to scale: .svg")] = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
    force: Annotated[bool, typer.Option("--force", help="replace a file that exists")] = False,
) -> None:
    """Say whether it goes in: what clears by how much, what rubs and its mend, what must be measured.

    Sections [fit] and [[offer]] of the job tell of the bay and of what is on offer.
    """
    from toptank.shop.door import fit_verbs, service

    if drawing is not None:
        fit_verbs.check_drawing_file(drawing, replace=force)
    answer = fit_verbs.fit_job(service.open_job(job), name=candidate)
    system = units.value if units else answer.job.system
    if drawing is not None:
        fit_verbs.write_drawing(answer, drawing, system, replace=force)
    if as_json:
        from toptank.shop.door import fit_answer

        print_json(fit_answer(answer), system)
        return
    _show(answer, system)
    if drawing is not None:
        write(f"Drawing written to {drawing}.")


def show_fit_of(job: Any, units: Any) -> None:
    """Say of a job whether what is on offer, or what is in now, goes in."""
    from toptank.shop.door import fit_verbs

    _show(fit_verbs.fit_job(job), units.value if units else job.system)


def _show(answer: Any, system: Any) -> None:
    from rich.markup import escape

    from toptank.interfaces.cli.tables.table import CAUTION, console, show_notes

    console.print(f"[bold]{escape(answer.job.title)}[/bold]" + ("   (invented example)" if answer.job.invented else ""))
    for one in answer.fits:
        _show_one(one, system)
    show_notes(answer.remarks, answer.assumed_units, system)
    console.print(
        "Clears and rubs are said where 95 in 100 measures as good as these would say so. "
        "Limits: common practice or judgement; the maker's manual goes before.",
        style="dim",
    )
    console.print(CAUTION, style="dim")


def _show_one(one: Any, system: Any) -> None:
    from rich import box
    from rich.markup import escape
    from rich.table import Table

    from toptank.interfaces.cli.tables.table import console
    from toptank.shop.door import fit_verbs

    candidate, (parts, note) = one.candidate, fit_verbs.told(one, system)
    console.print(f"\n[bold]{escape(fit_verbs.name(one, system))}[/bold]: {_IN_ONE_LINE[one.verdict().value]}")
    for line in (
        note,
        parts and f"Parts: {parts}.",
        candidate.price and f"Price as offered: {candidate.price}.",
    ):
        if line:
            console.print(escape(line), style="dim")
    table = Table("", "what", "answer", "what to do", box=box.SIMPLE_HEAD, show_edge=False, pad_edge=False)
    for item in one.items:
        verdict, more = fit_verbs.words(item, system)
        table.add_row(_SIGNS[item.verdict.value], escape(item.name), escape(verdict), escape(more))
    console.print(table)
    asked = fit_verbs.to_measure(one)
    if asked:
        console.print("[bold]Measure next[/bold], and write it into the job:")
        for line in asked:
            console.print(f"  {escape(line)}")
