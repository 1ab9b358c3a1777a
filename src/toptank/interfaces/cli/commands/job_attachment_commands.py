"""Commands that keep something beside a job or carry the whole record: attachments, answers, backups."""

from pathlib import Path
from typing import Annotated

import typer

from toptank.interfaces.cli import late
from toptank.interfaces.cli.command_output import tell, tell_answer
from toptank.interfaces.cli.commands.job_commands import ForceOption, NumberArgument, job
from toptank.interfaces.cli.options import DrawsOption, FullOption, JsonOption, SeedOption, working
from toptank.interfaces.cli.screen import write
from toptank.interfaces.web.access import logger_keys
from toptank.shop import door


@job.command()
def attach(
    number: NumberArgument, file: Annotated[Path, typer.Argument(help="a photo or a log")], as_json: JsonOption = False
) -> None:
    """Keep a copy of a photo or a log with a job."""
    kept = door.job_verbs.attach(number, file)
    told = f"{kept.name} kept with job {number} as {kept.checksum[:12]}."
    tell(door.record_answers.attachment_answer(number, kept), told, as_json)


@job.command()
def fetch(
    number: NumberArgument,
    checksum: Annotated[str, typer.Argument(help="its first digits; `toptank job show` lists them")],
    out: Annotated[Path, typer.Option("--out", help="save to this file")],
    force: ForceOption = False,
    as_json: JsonOption = False,
) -> None:
    """Save a photo or log of a job to a file, after checking that it is unchanged."""
    found = door.job_verbs.fetch(number, checksum, out, replace=force)
    tell(door.record_answers.fetch_answer(number, found, str(out)), f"{found.name} saved to {out}.", as_json)


@job.command()
def forecast(
    number: NumberArgument,
    draws: DrawsOption = None,
    seed: SeedOption = None,
    as_json: JsonOption = False,
    full: FullOption = False,
) -> None:
    """Forecast a job, show it and save it with the job."""
    with working("forecasting"):
        kept, answer = door.stored_answers.keep_forecast(number, draws=draws, seed=seed)
    if not as_json:
        (late.show_forecast if full else late.show_forecast_summary)(answer, answer.job.system)
    tell_answer(number, kept, as_json)


@job.command()
def diagnose(
    number: NumberArgument, seed: SeedOption = None, as_json: JsonOption = False, full: FullOption = False
) -> None:
    """Diagnose a job, show it and save it with the job."""
    with working("trying each fault on this vehicle"):
        kept, answer = door.stored_answers.keep_diagnosis(number, seed=seed)
    if not as_json:
        (late.show_diagnosis if full else late.show_diagnosis_summary)(answer, answer.job.system)
    tell_answer(number, kept, as_json)


@job.command()
def checklist(
    number: NumberArgument,
    pdf: Annotated[Path, typer.Option("--pdf", help="save for the printer to this file")],
    force: ForceOption = False,
) -> None:
    """Print the next five checks: tools, minutes, warnings, boxes to tick, by cold, hot idle and road."""
    door.check_places(pdf, None, replace=force)
    found_job = door.job_verbs.stored_job(number)
    with working("trying each fault on this vehicle"):
        found = door.answer_cache.checklist(found_job)
    paper: door.Size = "letter" if found_job.system == "us" else "a4"
    door.write_whole(pdf, door.checklist_pdf(found, paper), replace=force)
    write(f"{sum(len(batch.checks) for batch in found.batches)} checks, {found.time}: {pdf}")


@job.command()
def choose(
    number: NumberArgument,
    prices: Annotated[Path | None, typer.Option("--prices", help="the shop's own price book (TOML)")] = None,
    draws: DrawsOption = None,
    seed: SeedOption = None,
    as_json: JsonOption = False,
    full: FullOption = False,
) -> None:
    """Compare repairs for a job, show them and save them with the job."""
    with working("trying each repair on the worst day"):
        kept, answer = door.stored_answers.keep_choice(number, draws=draws, seed=seed, price_book=prices)
    if not as_json:
        (late.show_choice if full else late.show_choice_summary)(answer, answer.job.system)
    tell_answer(number, kept, as_json)


@job.command()
def backup(
    file: Annotated[Path, typer.Argument(help="save to this file (.zip)")],
    force: ForceOption = False,
    fewer: Annotated[bool, typer.Option("--fewer", help="even in place of a backup that holds more jobs")] = False,
    as_json: JsonOption = False,
) -> None:
    """Back up every job, photos and logs too, into one file."""
    jobs = door.export_verbs.back_up(file, replace=force, fewer=fewer)
    tell(door.record_answers.BackupAnswer(file=str(file), jobs=jobs), f"{_count(jobs)} saved to {file}.", as_json)


@job.command()
def restore(
    file: Annotated[Path, typer.Argument(help="a backup (.zip)")],
    force: Annotated[bool, typer.Option("--force", help="overwrite existing jobs (backed up first)")] = False,
    as_json: JsonOption = False,
) -> None:
    """Restore a backup. Keys for loggers end: their job's number may be another customer's now."""
    jobs, before = door.export_verbs.restore(file, force=force)
    kept = f" What was there is in {before}." if before else ""
    if ended := logger_keys.all_ended(door.export_verbs.beside_the_record(logger_keys.NAME)):
        kept += (
            f" {ended} key{'' if ended == 1 else 's'} for loggers ended with it: make new ones with `toptank job key`."
        )
    answer = door.record_answers.RestoreAnswer(file=str(file), jobs=jobs, before=str(before) if before else None)
    tell(answer, f"{_count(jobs)} restored from {file}.{kept}", as_json)


def _count(jobs: int) -> str:
    return f"{jobs} job{'' if jobs == 1 else 's'}"
