"""The command of fit. It calls the verb of shop/ask/fit and shows its answer."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from toptank.interfaces.cli import late
from toptank.interfaces.cli.options import JobArgument, JsonOption, Units, UnitsOption, print_json
from toptank.interfaces.cli.screen import write
from toptank.shop import door

if TYPE_CHECKING:
    from toptank.shop.door import Job


def fit(
    job: JobArgument,
    candidate: Annotated[
        str | None,
        typer.Option("--with", help="a repair, a plan or an offer of the job; if left out, every offer, or what is in"),
    ] = None,
    drawing: Annotated[Path | None, typer.Option("--drawing", help="save a drawing to scale: .svg")] = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
    force: Annotated[bool, typer.Option("--force", help="replace a file that exists")] = False,
) -> None:
    """Say whether it fits: what clears and by how much, what rubs and what it needs, what to measure.

    Sections [fit] and [[offer]] of the job hold your measurements and what is on offer.
    """
    if drawing is not None:
        door.fit_verbs.check_drawing_file(drawing, replace=force)
    answer = door.fit_verbs.fit_job(door.service.open_job(job), name=candidate)
    system = units.value if units else answer.job.system
    if drawing is not None:
        door.fit_verbs.write_drawing(answer, drawing, system, replace=force)
    if as_json:
        print_json(door.fit_answer(answer), system)
        return
    late.show_fit(answer, system)
    if drawing is not None:
        write(f"Drawing saved: {drawing}")


def show_fit_of(job: "Job", units: Units | None) -> None:
    """Say of a job whether what is on offer, or what is in now, goes in."""
    late.show_fit(door.fit_verbs.fit_job(job), units.value if units else job.system)
