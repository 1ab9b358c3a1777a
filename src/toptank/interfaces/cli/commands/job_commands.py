"""Commands of the record of jobs. Each calls one verb of shop/record/job_verbs and shows its answer."""

from pathlib import Path
from typing import Annotated

import typer

from toptank.interfaces.cli.command_output import tell, tell_revision
from toptank.interfaces.cli.options import JsonOption, UnitsOption, print_json
from toptank.units.refusal import Refusal

job = typer.Typer(help="The record of jobs: every revision is kept, none is overwritten.", no_args_is_help=True)

NumberArgument = Annotated[int, typer.Argument(metavar="NUMBER", help="number of the job; `toptank job list` shows it")]
ByOption = Annotated[str, typer.Option("--by", help="who does this; it is written beside it")]
WhyOption = Annotated[str, typer.Option("--why", help="why; it is written beside the revision")]
RevisionOption = Annotated[int | None, typer.Option("--revision", help="an earlier one; else the newest")]
ForceOption = Annotated[bool, typer.Option("--force", help="replace a file that exists")]


@job.command()
def new(
    file: Annotated[Path | None, typer.Argument(help="job file (TOML)")] = None,
    like: Annotated[str | None, typer.Option("--like", help="a typical vehicle, in place of a file")] = None,
    units: UnitsOption = None,
    by: ByOption = "",
    why: WhyOption = "",
    as_json: JsonOption = False,
) -> None:
    """Open a job with a job file, or with the starting file of a typical vehicle."""
    from toptank.shop.door import job_verbs

    if (file is None) == (like is None):
        given = "(neither)" if file is None else f"{file} and --like {like}"
        limit = "one of the two is needed, and only one"
        raise Refusal(field="file", value=given, limit=limit, fix="name a job file, or say --like NAME")
    if file is not None:
        opened = job_verbs.open_new(file, author=by, note=why)
    else:
        opened = job_verbs.open_like(str(like), system=units.value if units else "us", author=by, note=why)
    tell_revision(opened, f"Job {opened.job} opened: {opened.title}.", as_json)


@job.command("list")
def list_jobs(
    search: Annotated[str, typer.Option("--search", help="words in title, complaint or notes")] = "",
    state: Annotated[str | None, typer.Option("--state", help="open or closed")] = None,
    as_json: JsonOption = False,
) -> None:
    """List the jobs."""
    from toptank.shop.door import job_verbs
    from toptank.shop.door import record_answers as record

    rows = job_verbs.listed(search=search, state=state)
    if as_json:
        print_json(record.list_answer(rows))
    else:
        from toptank.interfaces.cli.tables.job_table import show_jobs

        show_jobs(rows)


@job.command()
def show(number: NumberArgument, revision: RevisionOption = None, as_json: JsonOption = False) -> None:
    """Show all that is kept of a job, as it stands or as it stood."""
    from toptank.shop.door import job_verbs
    from toptank.shop.door import record_answers as record

    found = job_verbs.record(number, revision=revision)
    if as_json:
        print_json(record.record_answer(found))
    else:
        from toptank.interfaces.cli.tables.job_table import show_job

        show_job(found)


@job.command()
def note(
    number: NumberArgument,
    text: Annotated[str, typer.Argument(help="in quotes")],
    by: ByOption = "",
    as_json: JsonOption = False,
) -> None:
    """Put a note beside a job."""
    from toptank.shop.door import job_verbs
    from toptank.shop.door import record_answers as record

    added = job_verbs.add_note(number, text, author=by)
    tell(record.note_answer(number, added), f"Note kept with job {number}.", as_json)


@job.command()
def save(
    number: NumberArgument,
    file: Annotated[Path, typer.Argument(help="job file (TOML)")],
    based_on: Annotated[
        int | None, typer.Option("--based-on", help="the revision it was made from; an exported file says it itself")
    ] = None,
    by: ByOption = "",
    why: WhyOption = "",
    as_json: JsonOption = False,
) -> None:
    """Save a job file as the next revision of a job."""
    from toptank.shop.door import job_verbs

    saved = job_verbs.save(number, file, based_on=based_on, author=by, note=why)
    tell_revision(saved, f"Saved as revision {saved.number} of job {number}.", as_json)


@job.command()
def revert(
    number: NumberArgument,
    to: Annotated[int, typer.Option("--to", help="the revision to go back to")],
    by: ByOption = "",
    as_json: JsonOption = False,
) -> None:
    """Make an earlier revision the newest again; what came between stays in the history."""
    from toptank.shop.door import job_verbs

    saved = job_verbs.revert(number, to, author=by)
    tell_revision(saved, f"Revision {to} of job {number} is back, as revision {saved.number}.", as_json)


@job.command()
def close(
    number: NumberArgument,
    cause: Annotated[list[str], typer.Option("--cause", help="what it was; `toptank causes` lists them")],
    contributing: Annotated[list[str] | None, typer.Option("--contributing", help="what made it worse")] = None,
    how: Annotated[str, typer.Option("--how", help="how it was found")] = "",
    by: ByOption = "",
    as_json: JsonOption = False,
) -> None:
    """Close a job with what it was."""
    from toptank.shop.door import job_verbs

    saved = job_verbs.close(number, cause, contributing=contributing or (), how=how, author=by)
    tell_revision(saved, f"Job {number} closed: {', '.join(cause)}.", as_json)


@job.command()
def reopen(number: NumberArgument, by: ByOption = "", why: WhyOption = "", as_json: JsonOption = False) -> None:
    """Open a closed job again."""
    from toptank.shop.door import job_verbs

    tell_revision(job_verbs.reopen(number, author=by, note=why), f"Job {number} is open again.", as_json)


@job.command()
def history(number: NumberArgument, as_json: JsonOption = False) -> None:
    """List every revision of a job."""
    from toptank.shop.door import job_verbs
    from toptank.shop.door import record_answers as record

    found = job_verbs.history(number)
    if as_json:
        print_json(record.history_answer(number, found))
    else:
        from toptank.interfaces.cli.tables.job_table import show_history

        show_history(found)


@job.command()
def export(
    number: NumberArgument,
    out: Annotated[Path, typer.Option("--out", help="write to this file")],
    revision: RevisionOption = None,
    force: ForceOption = False,
    as_json: JsonOption = False,
) -> None:
    """Write a job into a file; notes, and the revision that it is, stand in comments above. Attachments stay behind."""
    from toptank.shop.door import job_verbs
    from toptank.shop.door import record_answers as record

    text, left = job_verbs.export_to(number, out, revision=revision, replace=force)
    answer = record.ExportAnswer(number=number, file=str(out), text=text, attachments_left=left)
    told = f"Job {number} written to {out}: change it and `toptank job save {number} {out}`."
    if left:
        files = f"Its {left} attachments are" if left > 1 else "Its attachment is"
        told += f" {files} not in it: `toptank job fetch` writes one, `toptank job backup` carries all."
    tell(answer, told, as_json)


@job.command("import")
def import_job(
    file: Annotated[Path, typer.Argument(help="an exported job (TOML)")], by: ByOption = "", as_json: JsonOption = False
) -> None:
    """Open a job with an exported file, with the notes that it carries."""
    from toptank.shop.door import job_verbs

    opened = job_verbs.import_job(file, author=by)
    tell_revision(opened, f"Job {opened.job} opened: {opened.title}.", as_json)
