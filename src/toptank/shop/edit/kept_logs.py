"""The verbs of logs that are kept with a stored job: noted here, looked at, asked about, held beside the forecast.

A log is named by its checksum, as it was attached.
"""

from __future__ import annotations

import json
import re
import tempfile
from collections.abc import Callable, Generator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from toptank.shop.ask import drive
from toptank.shop.ask.logs import columns_asked
from toptank.shop.ask.logs.columns_asked import look_at_columns
from toptank.shop.edit import edit, edit_document
from toptank.shop.files.read_bytes import shortened
from toptank.shop.log.log_mapping import IGNORE, mapping_of, plain_head
from toptank.shop.log.noted_table import table_text
from toptank.shop.record import job_verbs, plan_taken
from toptank.shop.record.store import document
from toptank.units.cancellation import CancelCheck, never_cancelled
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.shop.answers.answers import Chosen
    from toptank.shop.answers.drive import DriveAnswer
    from toptank.shop.ask.logs.columns_asked import LogLook
    from toptank.shop.cache.answer_cache import Road
    from toptank.shop.job.job import Job
    from toptank.shop.log.noted_table import NotedRow
    from toptank.shop.record.store.record import Attachment, JobRecord, Revision
    from toptank.units.conversion import System

LOG_ENDINGS, ROUTE_ENDINGS = (".csv", ".txt", ".log"), (".gpx",)
LONGEST_STEM = 150
"""Bytes of a name that are kept before its ending; no file system takes more than 255."""

_UNSAFE = re.compile(r'[<>:"/\\|?*\x00-\x1f\x7f]')
"""Signs that some file system refuses in a name."""

HEAD = 'its first line must name the columns, such as "time (s), coolant (°C), speed (km/h)"'
FEWEST = 2
_NAMES_A_FILE = (".csv", ".tsv", ".txt")


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """An answer that is kept: its number, when it was given, of which revision, and what it says (the JSON of it)."""

    number: int
    at: str
    revision: int
    answer: dict[str, Any]


def said_of(record: JobRecord, kind: str) -> tuple[Said, ...]:
    """Return the answers of a kind that are kept with a job, the newest first."""
    kept = [
        Said(number=one.number, at=one.at, revision=one.revision, answer=json.loads(one.answer))
        for one in record.answers
        if one.kind == kind
    ]
    return tuple(sorted(kept, key=_number, reverse=True))


def _number(said: Said) -> int:
    return said.number


def logs_of(record: JobRecord) -> tuple[Attachment, ...]:
    """Return the attachments of a job that may be logs, the newest first."""
    return _ending_so(record, LOG_ENDINGS)


def routes_of(record: JobRecord) -> tuple[Attachment, ...]:
    """Return the attachments of a job that may be routes, the newest first."""
    return _ending_so(record, ROUTE_ENDINGS)


def _ending_so(record: JobRecord, endings: tuple[str, ...]) -> tuple[Attachment, ...]:
    return tuple(one for one in reversed(record.attachments) if one.name.lower().endswith(endings))


@dataclass(frozen=True, slots=True, kw_only=True)
class SentLog:
    """A log that came as text; it is kept once it could be used."""

    text: str
    name: str


@contextmanager
def on_disk(number: int, log: str | SentLog) -> Generator[Path]:
    """Lay a log or a route down as a file under a name like its own, for as long as it is read."""
    if isinstance(log, SentLog):
        name, content = log.name, log.text.encode("utf-8", errors="replace")
    else:
        found, content = job_verbs.attachment(number, log)
        name = found.name
    ending = Path(name).suffix.lower()
    plain = _UNSAFE.sub("_", Path(name).stem).encode("utf-8", errors="replace")[:LONGEST_STEM]
    stem = plain.decode("utf-8", errors="ignore").strip(" .") or "log"
    known = ending if ending in (*LOG_ENDINGS, *ROUTE_ENDINGS) else ""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / f"{stem}{known}"
        path.write_bytes(content)
        yield path


def keep_text(number: int, text: str, name: str) -> Attachment:
    """Keep a log that came as text beside a job."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "log.csv"
        path.write_text(text, encoding="utf-8")
        return job_verbs.attach(number, path, name=name)


def keep_log(number: int, path: Path, name: str) -> Attachment:
    """Keep a log beside a job; one that nobody could ever make use of is refused, and not kept.

    Raises
    ------
    Refusal : if no line of it can be a head, or fewer than two columns below hold figures
    """
    told = [one for one in look_at_columns(path) if any(sign.isdigit() for cell in one.cells for sign in cell)]
    if len(told) < FEWEST:
        limit = "holds no two columns of figures: every row of a log has a time and a reading"
        raise Refusal(field="log", value=shortened(name), limit=limit, fix=HEAD)
    return job_verbs.attach(number, path, name=name)


def keep_table(number: int, rows: Sequence[NotedRow], *, name: str, system: System) -> Attachment:
    """Keep a drive that was noted line by line as a log beside a job."""
    return keep_text(number, table_text(rows, system), name)


def look(number: int, checksum: str, job: Job | None = None, go_on: CancelCheck = never_cancelled) -> LogLook:
    """Look at a kept log with what its job says of the columns; `go_on` may stop that."""
    job = job_verbs.stored_job(number) if job is None else job
    with on_disk(number, checksum) as path:
        go_on()
        return columns_asked.look(job, path, go_on)


def say_columns(
    number: int, checksum: str, told: Sequence[tuple[str, str, str]], *, decimal: str = "", author: str = ""
) -> Revision:
    """Keep with the job what the columns of a log mean, where their heads do not say it.

    Parameters
    ----------
    told : head, key (empty: left out) and unit (empty: none, or as the cells say) of every column
    decimal : comma or point, where it cannot be told

    Raises
    ------
    Refusal : if a meaning or a unit is none; nothing is changed then
    """
    with on_disk(number, checksum) as path:
        by_itself = {plain_head(one.head): one for one in look_at_columns(path)}
    written: list[str] = []
    for head, key, unit in told:
        own = by_itself.get(plain_head(head))
        if own is not None and (own.key, own.unit, own.asks) == (key, unit, ""):
            continue
        words = " ".join(head.split())
        written.append(f"{words} = {key} {unit}".strip() if key else f"{words} = {IGNORE}")
    mapping_of(written, decimal)
    parsed = document.parsed(job_verbs.record(number).shown.text)
    columns: Any = edit_document.value_at(parsed, "log.columns") or []
    heads = {plain_head(head) for head, _, _ in told}
    others = [str(one) for one in columns if plain_head(str(one).rpartition("=")[0]) not in heads]
    return edit.set_log_columns(number, [*others, *written], decimal, author=author)


def drive_along(
    number: int, job: Job, asked: Road, chosen: Callable[[Job], Chosen], go_on: CancelCheck = never_cancelled
) -> DriveAnswer:
    """Forecast a drive along legs, or along a GPX file that is kept with a stored job.

    `chosen` finds the choice of a job where a plan is asked for; `go_on` may stop the work.
    """
    job = plan_taken.asked_for(job, asked.plan or None)

    def driven(route: Path | None) -> DriveAnswer:
        return drive.drive(
            job,
            legs=asked.legs.strip() or None,
            route=route,
            speed=asked.speed.strip() or None,
            ambient=typed_air(asked.ambient),
            air_conditioning=asked.air_conditioning or None,
            duty=asked.duty.strip() or None,
            plan=asked.plan or None,
            chosen=chosen(job) if asked.plan else None,
            cold=asked.cold == "cold",
            system=asked.system,
            go_on=go_on,
        )

    if not asked.route:
        return driven(None)
    with on_disk(number, asked.route) as path:
        return driven(path)


def typed_air(ambient: str | None) -> str | None:
    """The air outside as it came over the net: typed, never the name of a file of this machine."""
    told = (ambient or "").strip()
    if told.lower().endswith(_NAMES_A_FILE):
        fix = 'write "92 F", or "88 F to 95 F" from start to end'
        raise Refusal(field="ambient", value=shortened(told), limit="is no temperature", fix=fix)
    return told or None
