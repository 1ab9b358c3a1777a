"""Commands that write down in a job what was found: a check with its outcome, what the driver says."""

from typing import Annotated

import typer

from toptank.interfaces.cli.command_output import tell_revision
from toptank.interfaces.cli.commands.job_commands import ByOption, NumberArgument
from toptank.interfaces.cli.options import JsonOption
from toptank.shop import door

NoteOption = Annotated[str, typer.Option("--note", help="anything else about it")]


def check(
    number: NumberArgument,
    name: Annotated[str, typer.Argument(help="the check; `toptank checks` lists them")],
    outcome: Annotated[str, typer.Argument(help='what it showed, e.g. "never roars" or "10 psi"')],
    seen: Annotated[bool, typer.Option("--seen", help="the fault itself was seen")] = False,
    note: NoteOption = "",
    by: ByOption = "",
    as_json: JsonOption = False,
) -> None:
    """Write down a check with what it showed."""
    saved = door.evidence_verbs.add_check(number, name, outcome, note=note, decisive=seen, author=by)
    tell_revision(saved, f"Written down in job {number}: {name}, {outcome}.", as_json)


def driver(
    number: NumberArgument,
    said: Annotated[str, typer.Argument(help="what the driver says; docs/symptoms.md lists it")],
    no: Annotated[bool, typer.Option("--no", help="he says it is not so")] = False,
    note: NoteOption = "",
    by: ByOption = "",
    as_json: JsonOption = False,
) -> None:
    """Write down what the driver says when asked."""
    saved = door.evidence_verbs.add_answer(number, said, denied=no, note=note, author=by)
    tell_revision(saved, f"Written down in job {number}: {'not ' if no else ''}{said}.", as_json)
