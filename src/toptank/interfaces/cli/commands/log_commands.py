"""Commands of logged drives. Each calls one verb and shows its answer."""

from concurrent.futures import Future
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from toptank.interfaces.cli import late
from toptank.interfaces.cli.commands.order_commands import check_order_files, write_order_of
from toptank.interfaces.cli.options import (
    FullOption,
    JobArgument,
    JsonOption,
    SeedOption,
    Units,
    UnitsOption,
    print_json,
    working,
)
from toptank.interfaces.cli.screen import write
from toptank.shop import door

if TYPE_CHECKING:
    from toptank.shop.door import Chosen, Job

FileArgument = Annotated[Path, typer.Argument(help="the log: a logger's file, or a table noted by hand")]
ColumnOption = Annotated[
    list[str] | None,
    typer.Option("--column", help='an unclear column, e.g. "W1 = coolant °F"; may be repeated'),
]
DecimalOption = Annotated[str | None, typer.Option("--decimal", help="decimal mark, comma or point, if unclear")]
AmbientOption = Annotated[
    str | None, typer.Option("--ambient", help='air outside if no column says it: "92 F", "88 F to 95 F", or a file')
]
GradeOption = Annotated[str | None, typer.Option("--grade", help='grade if no column says it, e.g. "0 %"')]


def log(
    job: JobArgument,
    file: FileArgument,
    column: ColumnOption = None,
    decimal: DecimalOption = None,
    ambient: AmbientOption = None,
    grade: GradeOption = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
    seed: SeedOption = None,
) -> None:
    """Read a logged drive: what it shows, and how it changes the likely faults."""
    opened = door.service.open_job(job)
    system = units.value if units else opened.system
    with working("driving the log"):
        answer = door.log_verbs.log(
            opened,
            file,
            columns=column or (),
            decimal=decimal or "",
            ambient=ambient,
            grade=grade,
            seed=seed,
            system=system,
        )
    if as_json:
        print_json(door.log_answer(answer), system)
        return

    late.show_log(answer, system)


def verify(
    job: JobArgument,
    file: FileArgument,
    done: Annotated[
        list[str] | None,
        typer.Option("--done", help="work that was done, else that of the plan; may be repeated"),
    ] = None,
    column: ColumnOption = None,
    decimal: DecimalOption = None,
    ambient: AmbientOption = None,
    grade: GradeOption = None,
    pdf: Annotated[Path | None, typer.Option("--pdf", help="save the work order with the road test on it")] = None,
    html: Annotated[Path | None, typer.Option("--html", help="the same for a browser")] = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
    seed: SeedOption = None,
    force: Annotated[bool, typer.Option("--force", help="write over files that exist")] = False,
    full: FullOption = False,
) -> None:
    """Compare a road test with the forecast: whether the repair works and will hold on the worst day."""
    check_order_files(pdf, html, force=force, needed=False)
    opened = door.service.open_job(job)
    system = units.value if units else opened.system
    with working("driving the log, repaired and not repaired"):
        answer = door.verify_verbs.verify(
            opened, file, done=done or (), columns=column or (), decimal=decimal or "", ambient=ambient, grade=grade,
            seed=seed, system=system,
        )  # fmt: skip
    kept = door.verify_verbs.keep(job, file, answer)
    if as_json:
        print_json(door.verdict_answer(answer), system)
    else:
        show = late.show_verdict if full else late.show_verdict_summary
        show(answer, system)
        if kept is not None:
            write(f"Saved with job {job}.")
    if pdf is not None or html is not None:
        write_order_of(opened, units, pdf=pdf, html=html, verified=answer, seed=answer.seed, force=force, quiet=as_json)


def compiled_meanwhile(job: "Job") -> Future[None]:
    """Begin to compile what a simulated road test takes."""
    return door.verify_verbs.compiled_meanwhile(job)


def show_simulated(job: "Job", units: Units | None, chosen: "Chosen", meanwhile: Future[None]) -> None:
    """Simulate a road test of what was chosen, and print its verdict; where nothing was recommended, nothing."""
    if chosen.recommended is None:
        return
    with working("simulating a road test"):
        meanwhile.result()
        answer = door.verify_verbs.simulated(chosen, seed=chosen.seed)
    late.show_verdict(answer, units.value if units else job.system)
