"""Commands of the keys for loggers: made for one job, listed, ended."""

from typing import Annotated

import typer

from toptank.interfaces.cli.commands.job_attachment_commands import job
from toptank.interfaces.cli.commands.job_commands import NumberArgument
from toptank.interfaces.cli.screen import write
from toptank.interfaces.web.access import logger_keys
from toptank.shop import door

__all__ = ["job"]


@job.command()
def key(
    number: NumberArgument,
    name: Annotated[str, typer.Option("--name", help='which logger it is for, e.g. "scan tool, bay 2"')],
) -> None:
    """Make a key for a logger: it may add readings and logs to this job, and nothing else."""
    door.job_verbs.newest_revision(number)  # a job that is not there is told
    file = door.export_verbs.beside_the_record(logger_keys.NAME)
    told, kept = logger_keys.made(file, number, name, door.job_verbs.now())
    write(f"Key for {kept.name}, told this once: {told}")
    write(f'Send it as "Authorization: Bearer {told[:12]}..." to /api/v1/jobs/{number}/readings or .../attachments.')
    write(f"`toptank job end-key {kept.id}` ends it.")


@job.command()
def keys() -> None:
    """List the keys of loggers."""
    known = logger_keys.told(door.export_verbs.beside_the_record(logger_keys.NAME))
    for one in known:
        write(f"{one.id}: {one.name}, job {one.job}, made {one.made[:10]}")
    if not known:
        write("No logger has a key.")


@job.command("end-key")
def end_key(id_: Annotated[str, typer.Argument(metavar="ID", help="`toptank job keys` lists them")]) -> None:
    """End the key of a logger: nothing that is sent with it is taken any more."""
    gone = logger_keys.ended(door.export_verbs.beside_the_record(logger_keys.NAME), id_)
    write(f"The key of {gone.name} for job {gone.job} is ended.")
