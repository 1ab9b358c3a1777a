"""Commands of the record of jobs. Each calls one verb of shop/record/job_verbs and shows its answer."""

from pathlib import Path
from typing import Annotated

import typer

from toptank.interfaces.cli import late
from toptank.interfaces.cli.command_output import tell, tell_revision
from toptank.interfaces.cli.options import JsonOption, UnitsOption, print_json
from toptank.interfaces.cli.screen import write
from toptank.shop import door
from toptank.units.conversion import System, system_named
from toptank.units.refusal import Refusal

WHOLE = ".zip"
"""A name with this ending takes a whole job along."""

job = typer.Typer(help="Stored jobs: every version is kept, none is overwritten.", no_args_is_help=True)

NumberArgument = Annotated[int, typer.Argument(metavar="NUMBER", help="number of the job; `toptank job list` shows it")]
ByOption = Annotated[str, typer.Option("--by", help="your name, kept in the history")]
WhyOption = Annotated[str, typer.Option("--why", help="why, kept in the history")]
RevisionOption = Annotated[int | None, typer.Option("--revision", help="an earlier one; if left out, the newest")]
ForceOption = Annotated[bool, typer.Option("--force", help="replace a file that exists")]


@job.command()
def new(
    file: Annotated[Path | None, typer.Argument(help="job file (TOML)")] = None,
    like: Annotated[str | None, typer.Option("--like", help="a typical vehicle, in place of a file")] = None,
    says: Annotated[str, typer.Option("--says", help="what the driver says, in his own words; goes with --like")] = "",
    title: Annotated[str, typer.Option("--title", help="what you call the vehicle; goes with --like")] = "",
    customer: Annotated[str, typer.Option("--customer", help="whose vehicle it is")] = "",
    plate: Annotated[str, typer.Option("--plate", help="what the plate says")] = "",
    units: UnitsOption = None,
    by: ByOption = "",
    why: WhyOption = "",
    as_json: JsonOption = False,
) -> None:
    """Open a job from a job file, or like a typical vehicle."""
    if (file is None) == (like is None):
        given = "(neither)" if file is None else f"{file} and --like {like}"
        limit = "one of the two is needed, and only one"
        raise Refusal(field="file", value=given, limit=limit, fix="name a job file, or say --like NAME")
    if file is not None and (says or title):
        limit = "goes with --like, as the job file has its own"
        raise Refusal(field="says" if says else "title", value=says or title, limit=limit, fix="write it into the file")
    if file is not None:
        opened = door.job_verbs.open_new(file, author=by, note=why)
    elif says or title:
        system = units.value if units else "us"
        opened = door.job_verbs.open_told(str(like), title=title, complaint=says, system=system, author=by)
    else:
        opened = door.job_verbs.open_like(str(like), system=units.value if units else "us", author=by, note=why)
    at_the_counter = {"customer": customer, "registration": plate}
    if any(at_the_counter.values()):
        said = {key: text for key, text in at_the_counter.items() if text}
        opened = door.edit_verbs.set_write_up(opened.job, said, author=by)
    tell_revision(opened, f"Job {opened.job} opened: {opened.title}.", as_json)
    if not as_json:
        stored = door.job_verbs.stored_job(opened.job)
        late.show_notes(stored.remarks, stored.assumed_units, stored.system)
        late.show_heard(stored, opened.job)
        if says:
            write(f"Next: `toptank diagnose {opened.job}`; what else the driver says: `toptank job driver`.")


@job.command("list")
def list_jobs(
    search: Annotated[
        str, typer.Option("--search", help="words in title, complaint, notes, customer, registration or vehicle")
    ] = "",
    state: Annotated[
        str | None,
        typer.Option("--state", help="open, in-work, waiting-for-parts, waiting-for-customer or closed"),
    ] = None,
    as_json: JsonOption = False,
) -> None:
    """List the jobs."""
    rows = door.job_verbs.listed(search=search, state=state)
    if as_json:
        print_json(door.record_answers.list_answer(rows))
    else:
        late.show_jobs(rows)


@job.command()
def similar(number: NumberArgument, as_json: JsonOption = False) -> None:
    """Tell what closed jobs like this one turned out to be."""
    found = door.similar_jobs.similar(number)
    told = door.naming.experience(found, door.job_verbs.stored_job(number).system)
    tell(found, told or "No closed job is like this one yet.", as_json)


@job.command()
def show(number: NumberArgument, revision: RevisionOption = None, as_json: JsonOption = False) -> None:
    """Show a job, now or as it was."""
    found = door.job_verbs.record(number, revision=revision)
    if as_json:
        print_json(door.record_answers.record_answer(found))
    else:
        late.show_job(found, _system(found.shown.text))


@job.command()
def note(
    number: NumberArgument,
    text: Annotated[str, typer.Argument(help="in quotes")],
    by: ByOption = "",
    as_json: JsonOption = False,
) -> None:
    """Add a note to a job."""
    added = door.job_verbs.add_note(number, text, author=by)
    tell(door.record_answers.note_answer(number, added), f"Note saved with job {number}.", as_json)


@job.command("write-up")
def write_up(
    number: NumberArgument,
    customer: Annotated[str | None, typer.Option("--customer", help="whose vehicle it is")] = None,
    phone: Annotated[str | None, typer.Option("--phone", help="how to reach them")] = None,
    registration: Annotated[str | None, typer.Option("--registration", help="what the plate says")] = None,
    vin: Annotated[str | None, typer.Option("--vin", help="vehicle identification number")] = None,
    mechanic: Annotated[str | None, typer.Option("--mechanic", help="who works on it")] = None,
    promised: Annotated[str | None, typer.Option("--promised", help='e.g. "2026-12-04 noon"')] = None,
    waiting_for: Annotated[
        str | None, typer.Option("--waiting-for", help='parts, customer, or "" once work goes on')
    ] = None,
    by: ByOption = "",
    as_json: JsonOption = False,
) -> None:
    """Write down who came with what, when it was promised, and what the work waits for; "" takes an entry out."""
    said = {"customer": customer, "phone": phone, "registration": registration, "vin": vin, "mechanic": mechanic,
            "promised": promised, "waiting_for": waiting_for}  # fmt: skip
    told = {key: text for key, text in said.items() if text is not None}
    if not told:
        fix = 'say for example --customer "M. Miller", --promised 2026-12-04 or --waiting-for parts'
        raise Refusal(field="entry", value="(none)", limit="at least one is needed", fix=fix)
    saved = door.edit_verbs.set_write_up(number, told, author=by)
    tell_revision(saved, f"Saved as revision {saved.number} of job {number}.", as_json)


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
    saved = door.job_verbs.save(number, file, based_on=based_on, author=by, note=why)
    tell_revision(saved, f"Saved as revision {saved.number} of job {number}.", as_json)


@job.command()
def revert(
    number: NumberArgument,
    to: Annotated[int, typer.Option("--to", help="the revision to go back to")],
    by: ByOption = "",
    as_json: JsonOption = False,
) -> None:
    """Make an earlier revision the newest again; what came between stays in the history."""
    saved = door.job_verbs.revert(number, to, author=by)
    tell_revision(saved, f"Revision {to} of job {number} is back, as revision {saved.number}.", as_json)


@job.command()
def close(
    number: NumberArgument,
    cause: Annotated[list[str], typer.Option("--cause", help="the fault found; `toptank causes` lists them")],
    contributing: Annotated[list[str] | None, typer.Option("--contributing", help="what made it worse")] = None,
    how: Annotated[str, typer.Option("--how", help="how it was found")] = "",
    by: ByOption = "",
    as_json: JsonOption = False,
) -> None:
    """Close a job, recording the fault found."""
    saved = door.job_verbs.close(number, cause, contributing=contributing or (), how=how, author=by)
    tell_revision(saved, f"Job {number} closed: {', '.join(cause)}.", as_json)


@job.command()
def reopen(number: NumberArgument, by: ByOption = "", why: WhyOption = "", as_json: JsonOption = False) -> None:
    """Open a closed job again."""
    tell_revision(door.job_verbs.reopen(number, author=by, note=why), f"Job {number} is open again.", as_json)


@job.command()
def history(number: NumberArgument, as_json: JsonOption = False) -> None:
    """List every revision of a job."""
    found = door.job_verbs.history(number)
    if as_json:
        print_json(door.record_answers.history_answer(number, found))
    else:
        late.show_history(found, _system(found[-1].text))


@job.command()
def export(
    number: NumberArgument,
    out: Annotated[Path, typer.Option("--out", help="save to this file")],
    revision: RevisionOption = None,
    force: ForceOption = False,
    as_json: JsonOption = False,
) -> None:
    """Save a job to a file: as text with its notes as comments on top, or whole if the name ends in .zip.

    Whole means every revision, note, answer, photo and log, for another shop or another machine.
    """
    whole = out.suffix.lower() == WHOLE
    if whole and revision is not None:
        limit, fix = "goes with a text alone: a .zip holds every revision", "leave it out, or name the file .toml"
        raise Refusal(field="revision", value=str(revision), limit=limit, fix=fix)
    if whole:
        files = door.export_verbs.export_whole(number, out, replace=force)
        answer = door.record_answers.ExportAnswer(number=number, file=str(out), text=None, attachments_left=0)
        with_files = "" if not files else f", {files} photo{'s' * (files > 1)} or log{'s' * (files > 1)} with it"
        tell(answer, f"Job {number} saved whole to {out}{with_files}: `toptank job import {out}` opens it.", as_json)
        return
    text, left = door.export_verbs.export_to(number, out, revision=revision, replace=force)
    answer = door.record_answers.ExportAnswer(number=number, file=str(out), text=text, attachments_left=left)
    told = f"Job {number} saved to {out}: change it and `toptank job save {number} {out}`."
    if left:
        files_are = f"Its {left} attachments are" if left > 1 else "Its attachment is"
        told += f" {files_are} not in it: save it to a .zip to take everything along."
    tell(answer, told, as_json)


@job.command("import")
def import_job(
    file: Annotated[Path, typer.Argument(help="an exported job: TOML, or ZIP with everything; a backup too")],
    by: ByOption = "",
    as_json: JsonOption = False,
) -> None:
    """Open a job from an exported file; a .zip brings every revision, note, photo and log of each job in it."""
    if file.suffix.lower() != WHOLE:
        opened = door.job_verbs.import_job(file, author=by)
        tell_revision(opened, f"Job {opened.job} opened: {opened.title}.", as_json)
        return
    brought = [
        door.record_answers.ImportedJob(number_there=was, number=number)
        for was, number in door.export_verbs.import_whole(file, author=by)
    ]
    told = (
        "\n".join(f"Job {one.number} opened; it was job {one.number_there} there." for one in brought)
        or "No job is in it."
    )
    tell(door.record_answers.ImportAnswer(jobs=tuple(brought)), told, as_json)


def _system(text: str) -> System:
    return system_named(door.job_document.parsed(text).get("units"))
