"""The record of jobs on the screen: lists as tables, a job as it is kept."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from rich import box
from rich.markup import escape
from rich.table import Table

from toptank.interfaces.cli.screen import write
from toptank.interfaces.cli.tables.table import console
from toptank.shop.door import change_words, naming

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from toptank.shop.door import JobRecord, JobRow, Revision
    from toptank.units.conversion import System


def show_jobs(rows: Sequence[JobRow]) -> None:
    """Print the list of jobs."""
    if not rows:
        write("No jobs, or none that matches.")
        return
    today = datetime.now().astimezone().date()
    cells = (
        (
            row.number,
            row.title,
            ", ".join(filter(None, (row.customer, row.registration))),
            f"{row.stands.replace('_', ' ')}{f': {naming.causes_found(row.found)}' if row.found else ''}",
            f"{row.promised}{' (late)' if row.is_late(today) else ''}",
        )
        for row in rows
    )
    _table(("job", "title", "customer, plate", "state", "promised"), cells)


def show_history(revisions: Sequence[Revision], system: System) -> None:
    """Print every revision of a job."""
    cells = (
        (one.number, _moment(one.at), one.state, one.author, change_words(one.note, system), one.checksum[:12])
        for one in revisions
    )
    _table(("revision", "saved", "state", "by", "why", "checksum"), cells)


def show_job(found: JobRecord, system: System) -> None:
    """Print all that is kept of a job, and its document as it is written."""
    shown = found.shown
    write(f"Job {shown.job}: {shown.title} ({shown.state})")
    _line(
        f"Revision {shown.number} of {found.newest}, {_moment(shown.at)}",
        shown.author,
        change_words(shown.note, system),
    )
    for one in found.notes:
        _line(f"Note, {_moment(one.at)}", one.author, one.text)
    for file in found.attachments:
        write(f"File {file.checksum[:12]}, {_moment(file.at)}: {file.name}, {file.size:,} bytes")
    for answer in found.answers:
        write(f"Saved {answer.kind}, {_moment(answer.at)}, from revision {answer.revision}")
    write("")
    write(_harmless(shown.text.removeprefix("\ufeff").rstrip("\n")))


def _harmless(text: str) -> str:
    """TOML lets a comment hold signs that a terminal takes for orders."""
    return "".join(sign if sign.isprintable() or sign in "\n\t" else "?" for sign in text.replace("\r\n", "\n"))


def _moment(at: str) -> str:
    """A time by the clock of the shop, to the minute; it is kept in UTC."""
    return f"{datetime.fromisoformat(at).astimezone():%Y-%m-%d %H:%M}"


def _line(head: str, author: str, text: str) -> None:
    who = f", {author}" if author else ""
    write(f"{head}{who}{': ' + text if text else ''}")


def _table(heads: tuple[str, ...], rows: Iterable[tuple[object, ...]]) -> None:
    table = Table(*heads, box=box.SIMPLE_HEAD, pad_edge=False)
    for row in rows:
        table.add_row(*(escape(str(cell)) for cell in row))
    console.print(table)
