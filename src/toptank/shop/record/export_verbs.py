"""The verbs of carrying away and bringing back: a job as a file or whole, the record as a backup."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from toptank.shop.files.atomic_write import write_whole
from toptank.shop.record import job_verbs
from toptank.shop.record.store import backup, carried_whole, generations, restoring
from toptank.shop.record.store.export import written_out
from toptank.shop.record.store.opening import opened, store_file
from toptank.shop.record.store.reading_copy import opened_to_read

if TYPE_CHECKING:
    from pathlib import Path


def export(number: int, *, revision: int | None = None) -> str:
    """Return a job as the text of a file, with its notes in comments above."""
    found = job_verbs.record(number, revision=revision)
    return written_out(found.shown, found.notes)


def export_to(number: int, path: Path, *, revision: int | None = None, replace: bool = False) -> tuple[str, int]:
    """Write a job into a file; return its text, and how many attachments are not in it: a backup carries those."""
    found = job_verbs.record(number, revision=revision)
    text = written_out(found.shown, found.notes)
    write_whole(path, text.encode("utf-8"), replace=replace)
    return text, len(found.attachments)


def export_whole(number: int, path: Path, *, replace: bool = False) -> int:
    """Write a job with every revision, note, answer, photo and log into one file; return the number of the last two."""
    with opened_to_read() as store:
        return carried_whole.carry_out(store, number, path, at=job_verbs.now(), replace=replace)


def import_whole(path: Path, *, author: str = "") -> tuple[tuple[int, int], ...]:
    """Add every job of a file that `export_whole` or `back_up` wrote as a new one, with all that is kept of it.

    Returns
    -------
    for each job its number there and its number here
    """
    job_verbs.check_signature(author, "")
    with opened() as store:
        return carried_whole.bring_in(store, path, author=author, at=job_verbs.now())


def back_up(path: Path, *, replace: bool = False, fewer: bool = False) -> int:
    """Write the whole record into one file; return the number of jobs in it.

    Parameters
    ----------
    replace : whether a file of that name may be replaced
    fewer : whether even by a backup with fewer jobs
    """
    with opened_to_read() as store:
        return backup.back_up(store, path, at=job_verbs.now(), replace=replace, fewer=fewer)


def back_up_by_itself() -> Path | None:
    """Bring the backups of the day and of the week up to date; return the day's, or None where nothing has changed.

    Raises
    ------
    Refusal : if they cannot be written, or would hold fewer jobs than the newest one
    """
    with opened_to_read() as store:
        return generations.keep(store, datetime.now().astimezone())


def restore(path: Path, *, force: bool = False) -> tuple[int, Path | None]:
    """Put a backup into an empty store; return the number of jobs, and where what `force` replaced is kept."""
    with opened(anew=True) as store:
        return restoring.restore(store, path, at=job_verbs.now(), force=force)


def beside_the_record(name: str) -> Path:
    """Return a place for a file that belongs to the record as a whole."""
    return store_file().with_name(name)
