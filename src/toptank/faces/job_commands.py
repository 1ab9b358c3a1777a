"""Commands of the record of jobs. Each calls one verb of jobs/job_verbs and shows its answer."""

import dataclasses
import json
from pathlib import Path
from typing import Annotated, Any

import typer

from toptank.faces.options import JsonOption, SeedOption, UnitsOption, print_json, working
from toptank.faces.screen import write
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
    from toptank.jobs import job_verbs

    if (file is None) == (like is None):
        given = "(neither)" if file is None else f"{file} and --like {like}"
        limit = "one of the two is needed, and only one"
        raise Refusal(field="file", value=given, limit=limit, fix="name a job file, or say --like NAME")
    if file is not None:
        opened = job_verbs.open_new(file, author=by, note=why)
    else:
        opened = job_verbs.open_like(str(like), system=units.value if units else "us", author=by, note=why)
    _tell_revision(opened, f"Job {opened.job} opened: {opened.title}.", as_json)


@job.command("list")
def list_jobs(
    search: Annotated[str, typer.Option("--search", help="words in title, complaint or notes")] = "",
    state: Annotated[str | None, typer.Option("--state", help="open or closed")] = None,
    as_json: JsonOption = False,
) -> None:
    """List the jobs."""
    from toptank.jobs import job_verbs

    rows = job_verbs.listed(search=search, state=state)
    if as_json:
        print_json({"jobs": [dataclasses.asdict(row) for row in rows]})
    else:
        from toptank.faces.job_table import show_jobs

        show_jobs(rows)


@job.command()
def show(number: NumberArgument, revision: RevisionOption = None, as_json: JsonOption = False) -> None:
    """Show all that is kept of a job, as it stands or as it stood."""
    from toptank.jobs import job_verbs

    found = job_verbs.record(number, revision=revision)
    if as_json:
        record = _revision_record(found.shown) | {"newest": found.newest}
        record |= {key: [dataclasses.asdict(one) for one in getattr(found, key)] for key in ("notes", "attachments")}
        print_json(record | {"answers": [_answer_record(one) for one in found.answers]})
    else:
        from toptank.faces.job_table import show_job

        show_job(found)


@job.command()
def note(
    number: NumberArgument,
    text: Annotated[str, typer.Argument(help="in quotes")],
    by: ByOption = "",
    as_json: JsonOption = False,
) -> None:
    """Put a note beside a job."""
    from toptank.jobs import job_verbs

    added = job_verbs.add_note(number, text, author=by)
    _tell({"number": number} | dataclasses.asdict(added), f"Note kept with job {number}.", as_json)


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
    from toptank.jobs import job_verbs

    saved = job_verbs.save(number, file, based_on=based_on, author=by, note=why)
    _tell_revision(saved, f"Saved as revision {saved.number} of job {number}.", as_json)


@job.command()
def revert(
    number: NumberArgument,
    to: Annotated[int, typer.Option("--to", help="the revision to go back to")],
    by: ByOption = "",
    as_json: JsonOption = False,
) -> None:
    """Make an earlier revision the newest again; what came between stays in the history."""
    from toptank.jobs import job_verbs

    saved = job_verbs.revert(number, to, author=by)
    _tell_revision(saved, f"Revision {to} of job {number} is back, as revision {saved.number}.", as_json)


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
    from toptank.jobs import job_verbs

    saved = job_verbs.close(number, cause, contributing=contributing or (), how=how, author=by)
    _tell_revision(saved, f"Job {number} closed: {', '.join(cause)}.", as_json)


@job.command()
def reopen(number: NumberArgument, by: ByOption = "", why: WhyOption = "", as_json: JsonOption = False) -> None:
    """Open a closed job again."""
    from toptank.jobs import job_verbs

    _tell_revision(job_verbs.reopen(number, author=by, note=why), f"Job {number} is open again.", as_json)


@job.command()
def history(number: NumberArgument, as_json: JsonOption = False) -> None:
    """List every revision of a job."""
    from toptank.jobs import job_verbs

    found = job_verbs.history(number)
    if as_json:
        print_json({"number": number, "revisions": [_revision_record(one, whole=False) for one in found]})
    else:
        from toptank.faces.job_table import show_history

        show_history(found)


@job.command()
def export(
    number: NumberArgument,
    out: Annotated[Path, typer.Option("--out", help="write to this file")],
    revision: RevisionOption = None,
    force: ForceOption = False,
    as_json: JsonOption = False,
) -> None:
    """Write a job into a file; notes, and the revision that it is, stand in comments above."""
    from toptank.jobs import job_verbs

    text = job_verbs.export_to(number, out, revision=revision, replace=force)
    record = {"number": number, "file": str(out), "text": text}
    _tell(record, f"Job {number} written to {out}: change it and `toptank job save {number} {out}`.", as_json)


@job.command("import")
def import_job(
    file: Annotated[Path, typer.Argument(help="an exported job (TOML)")], by: ByOption = "", as_json: JsonOption = False
) -> None:
    """Open a job with an exported file, with the notes that it carries."""
    from toptank.jobs import job_verbs

    opened = job_verbs.import_job(file, author=by)
    _tell_revision(opened, f"Job {opened.job} opened: {opened.title}.", as_json)


@job.command()
def attach(
    number: NumberArgument, file: Annotated[Path, typer.Argument(help="a photo or a log")], as_json: JsonOption = False
) -> None:
    """Keep a copy of a photo or a log with a job."""
    from toptank.jobs import job_verbs

    kept = job_verbs.attach(number, file)
    told = f"{kept.name} kept with job {number} as {kept.checksum[:12]}."
    _tell({"number": number} | dataclasses.asdict(kept), told, as_json)


@job.command()
def fetch(
    number: NumberArgument,
    checksum: Annotated[str, typer.Argument(help="its first digits; `toptank job show` lists them")],
    out: Annotated[Path, typer.Option("--out", help="write to this file")],
    force: ForceOption = False,
    as_json: JsonOption = False,
) -> None:
    """Write an attachment into a file, after checking that it is what it was."""
    from toptank.jobs import job_verbs

    found = job_verbs.fetch(number, checksum, out, replace=force)
    record = {"number": number, "file": str(out)} | dataclasses.asdict(found)
    _tell(record, f"{found.name} written to {out}.", as_json)


@job.command()
def forecast(
    number: NumberArgument,
    draws: Annotated[int | None, typer.Option("--draws", help="number of possible vehicles drawn")] = None,
    seed: SeedOption = None,
    as_json: JsonOption = False,
) -> None:
    """Forecast a job and keep the answer with its inputs."""
    from toptank.jobs import job_verbs

    with working("drawing possible vehicles"):
        kept, title = job_verbs.keep_forecast(number, draws=draws, seed=seed)
    _tell_answer(number, kept, title, as_json)


@job.command()
def diagnose(number: NumberArgument, seed: SeedOption = None, as_json: JsonOption = False) -> None:
    """Diagnose a job and keep the answer with its inputs."""
    from toptank.jobs import job_verbs

    with working("trying causes on possible vehicles"):
        kept, title = job_verbs.keep_diagnosis(number, seed=seed)
    _tell_answer(number, kept, title, as_json)


@job.command()
def backup(
    file: Annotated[Path, typer.Argument(help="write to this file (.zip)")],
    force: ForceOption = False,
    as_json: JsonOption = False,
) -> None:
    """Write the whole record, attachments too, into one file."""
    from toptank.jobs import job_verbs

    jobs = job_verbs.back_up(file, replace=force)
    _tell({"file": str(file), "jobs": jobs}, f"{_count(jobs)} written to {file}.", as_json)


@job.command()
def restore(
    file: Annotated[Path, typer.Argument(help="a backup (.zip)")],
    force: Annotated[bool, typer.Option("--force", help="even where jobs are; those are backed up first")] = False,
    as_json: JsonOption = False,
) -> None:
    """Put a backup into an empty record."""
    from toptank.jobs import job_verbs

    jobs, before = job_verbs.restore(file, force=force)
    kept = f" What was there is in {before}." if before else ""
    record = {"file": str(file), "jobs": jobs, "before": str(before) if before else None}
    _tell(record, f"{_count(jobs)} restored from {file}.{kept}", as_json)


def _count(jobs: int) -> str:
    return f"{jobs} job{'' if jobs == 1 else 's'}"


def _tell(record: Any, sentence: str, as_json: bool) -> None:
    if as_json:
        print_json(record)
    else:
        write(sentence)


def _tell_revision(revision: Any, sentence: str, as_json: bool) -> None:
    _tell(_revision_record(revision, whole=False), sentence, as_json)


def _tell_answer(number: int, kept: Any, title: str, as_json: bool) -> None:
    told = f"{kept.kind.capitalize()} of job {number} ({title}) kept as answer {kept.number}"
    made = f"revision {kept.revision}, {kept.draws:,} draws, seed {kept.seed}, equations {kept.equations_version}"
    _tell({"job": number} | _answer_record(kept), f"{told}: {made}.", as_json)


def _revision_record(revision: Any, *, whole: bool = True) -> dict[str, Any]:
    record = dataclasses.asdict(revision)
    record = {"number": record.pop("job"), "revision": record.pop("number")} | record
    if not whole:
        del record["text"]
    return record


def _answer_record(kept: Any) -> dict[str, Any]:
    return dataclasses.asdict(kept) | {"answer": json.loads(kept.answer)}
