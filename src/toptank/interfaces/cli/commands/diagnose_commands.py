"""Commands of finding out. Each calls one verb of shop/ask/diagnose and shows its answer."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from toptank.interfaces.cli import late
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
from toptank.shop import door

if TYPE_CHECKING:
    from toptank.shop.door import Diagnosed, Job

WORK = "trying each fault on this vehicle"

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
    job: JobArgument,
    units: UnitsOption = None,
    as_json: JsonOption = False,
    full: FullOption = False,
    seed: SeedOption = None,
    learn_from: LearnOption = None,
) -> None:
    """List the likely faults, most likely first, and say which check to do next."""
    opened = door.service.open_job(job)
    if as_json:
        with working(WORK):
            answer = door.diagnose_verbs.diagnose(opened, seed=seed, learn_from=learn_from)
        print_json(door.diagnosis_answer(answer), units.value if units else opened.system)
    else:
        show_diagnosis_of(opened, units, seed, learn_from=learn_from, full=full)


def checks(as_json: JsonOption = False) -> None:
    """List every check with its minutes, outcomes and hazards."""
    answer = door.diagnose_verbs.checks()
    if as_json:
        print_json(door.checks_answer(answer))
    else:
        late.show_checks(answer)


def causes(as_json: JsonOption = False) -> None:
    """List every fault that is looked for, and how common it is among vehicles that run hot."""
    answer = door.diagnose_verbs.causes()
    if as_json:
        print_json(door.causes_answer(answer))
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
