"""Commands of finding out. Each calls one verb of shop/ask/diagnose and shows its answer."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from toptank.interfaces.cli import late
from toptank.interfaces.cli.options import (
    FullOption,
    JsonOption,
    SeedOption,
    Units,
    UnitsOption,
    print_json,
    print_json_line,
    working,
)
from toptank.shop import door
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.shop.door import Diagnosed, Job

WORK = "trying each fault on this vehicle"

JobsArgument = Annotated[
    list[str],
    typer.Argument(
        metavar="JOB...", help="number of a stored job, a job file (TOML), or demo; several print a line of JSON each"
    ),
]
JsonLinesOption = Annotated[bool, typer.Option("--jsonl", help="print a line of JSON for each job")]
LearnOption = Annotated[Path | None, typer.Option("--learn-from", help="folder of closed jobs to learn from")]


def show_diagnosis_of(
    job: "Job", units: Units | None, seed: int | None, *, learn_from: Path | None = None, full: bool = False
) -> "Diagnosed":
    """Diagnose a job, print the answer, a screen of it or all, and return it."""
    system = units.value if units else job.system
    with working(WORK):
        answer = door.diagnose_verbs.diagnose(job, seed=seed, learn_from=learn_from)
    show = late.show_diagnosis if full else late.show_diagnosis_summary
    show(answer, system)
    return answer


def diagnose(
    jobs: JobsArgument,
    units: UnitsOption = None,
    as_json: JsonOption = False,
    as_jsonl: JsonLinesOption = False,
    full: FullOption = False,
    seed: SeedOption = None,
    learn_from: LearnOption = None,
) -> None:
    """List the likely faults, most likely first, and say which check to do next."""
    if as_jsonl or len(jobs) > 1:
        _diagnose_each(jobs, units, seed, learn_from)
        return
    opened = door.service.open_job(jobs[0])
    if as_json:
        with working(WORK):
            answer = door.diagnose_verbs.diagnose(opened, seed=seed, learn_from=learn_from)
        print_json(door.diagnosis_answer(answer), units.value if units else opened.system)
    else:
        show_diagnosis_of(opened, units, seed, learn_from=learn_from, full=full)


def _diagnose_each(jobs: list[str], units: Units | None, seed: int | None, learn_from: Path | None) -> None:
    """Print a line of JSON for each job, all by one model; of one that cannot be used what is wrong with it."""
    bad = 0
    for name in jobs:
        try:
            opened = door.service.open_job(name)
            answer = door.diagnose_verbs.diagnose(opened, seed=seed, learn_from=learn_from)
        except Refusal as refusal:
            bad += 1
            told = {"field": refusal.field, "value": refusal.value, "limit": refusal.limit, "fix": refusal.fix}
            print_json_line({"job": name, "left_out": told})
        else:
            record = door.diagnosis_answer(answer).record(units.value if units else opened.system)
            print_json_line({"job": name, **record})
    if bad:
        raise typer.Exit(1)


def checks(as_json: JsonOption = False) -> None:
    """List every check with its minutes, outcomes and hazards."""
    answer = door.checks()
    if as_json:
        print_json(answer)
    else:
        late.show_checks(answer)


def causes(as_json: JsonOption = False) -> None:
    """List every fault that is looked for, and how common it is among vehicles that run hot."""
    answer = door.causes()
    if as_json:
        print_json(answer)
    else:
        late.show_causes(answer)


def evaluate(
    folder: Annotated[Path, typer.Argument(help="folder of closed jobs: job files with a section [confirmed]")],
    as_json: JsonOption = False,
    seed: SeedOption = None,
) -> None:
    """Diagnose closed jobs and compare with the fault that was found."""
    with working("diagnosing closed jobs") as status:
        answer = door.diagnose_verbs.evaluate(
            folder, seed=seed, progress=lambda done, of: status.update(f"diagnosing closed jobs: {done} of {of} ...")
        )
    if as_json:
        print_json(door.evaluation_answer(answer))
    else:
        late.show_evaluation(answer)
