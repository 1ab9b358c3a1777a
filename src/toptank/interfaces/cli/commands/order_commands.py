"""The command of the work order. It calls shop/order and writes what comes back."""

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from toptank.interfaces.cli.commands.choose_commands import PricesOption
from toptank.interfaces.cli.options import DrawsOption, JobArgument, SeedOption, Units, UnitsOption, working
from toptank.interfaces.cli.screen import write
from toptank.shop import door
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.shop.door import Chosen, Diagnosed, Job, Order, Size, Verified

WORK = "finding the fault, comparing repairs, working out the road test"


class Paper(StrEnum):
    """Paper of the shop's printer."""

    letter = "letter"
    a4 = "a4"


PaperOption = Annotated[
    Paper | None, typer.Option("--paper", help="letter or a4; if left out, letter for us units, else a4")
]


def order(
    job: JobArgument,
    pdf: Annotated[Path | None, typer.Option("--pdf", help="save for the printer to this file")] = None,
    html: Annotated[Path | None, typer.Option("--html", help="save for a browser to this file")] = None,
    plan: Annotated[
        str | None,
        typer.Option("--plan", help="plan of `toptank choose`, by number or name"),
    ] = None,
    paper: PaperOption = None,
    units: UnitsOption = None,
    prices: PricesOption = None,
    seed: SeedOption = None,
    draws: DrawsOption = None,
    appendix: Annotated[bool, typer.Option("--appendix", help="add what is behind it: other causes, notes")] = False,
    customer: Annotated[bool, typer.Option("--customer", help="the customer's page alone, as a file to send")] = False,
    force: Annotated[bool, typer.Option("--force", help="write over files that exist")] = False,
) -> None:
    """Write the work order: a page for the bench and a page for the customer."""
    if customer and appendix:
        fix = "leave one of the two out"
        limit = "is the shop's own, and the customer's page goes out alone"
        raise Refusal(field="appendix", value="yes", limit=limit, fix=fix)
    check_order_files(pdf, html, force=force)
    answer = door.service.open_job(job)
    record = write_order_of(
        answer,
        units,
        pdf=pdf,
        html=html,
        plan=plan,
        paper=paper,
        prices=prices,
        seed=seed,
        draws=draws,
        force=force,
        appendix=appendix,
        alone=customer,
    )
    if customer or answer.number is None:  # the customer has not agreed yet
        return
    if door.plan_taken.ordered(answer.number, record.plan, system=answer.system):
        write(f"Job {answer.number}: this plan is recorded as ordered; the road test is judged by it.")


def check_order_files(pdf: Path | None, html: Path | None, *, force: bool, needed: bool = True) -> None:
    """Refuse files that cannot be written, before any work is done; none at all is well where none is needed."""
    if pdf is None and html is None and not needed:
        return
    door.check_places(pdf, html, replace=force)


def write_order_of(
    job: "Job",
    units: Units | None,
    *,
    pdf: Path | None,
    html: Path | None,
    plan: str | None = None,
    paper: Paper | None = None,
    prices: Path | None = None,
    seed: int | None = None,
    draws: int | None = None,
    force: bool = False,
    appendix: bool = False,
    alone: bool = False,
    diagnosed: "Diagnosed | None" = None,
    chosen: "Chosen | None" = None,
    verified: "Verified | None" = None,
    quiet: bool = False,
) -> "Order":
    """Write the order of a job, from answers that are there already if they are given, and say where."""
    system = units.value if units else job.system
    with working(WORK):
        record = door.written_order(
            job, system=system, seed=seed, draws=draws, price_book=prices, plan=plan, diagnosed=diagnosed,
            chosen=chosen, verified=verified,
        )  # fmt: skip
        size: Size = paper.value if paper else ("letter" if system == "us" else "a4")
        door.write_files(record, size, pdf_file=pdf, html_file=html, replace=force, appendix=appendix, alone=alone)
    if quiet:
        return record
    if plan is None and job.plan_taken is not None:
        write(f"For the plan taken: {door.naming.plan(job.plan_taken, system)}.")
    for file in (pdf, html):
        if file is not None:
            write(f"{'Customer page' if alone else 'Work order'} saved: {file}")
    return record
