"""Jobs and their revisions: added, shown, listed; a save upon somebody else's save is refused."""

import dataclasses
import hashlib
from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

from sqlalchemy import ColumnElement, Connection, exists, func, insert, or_, select

from toptank.shop.files.toml_file import shortened
from toptank.shop.record.store import document
from toptank.shop.record.store.counter import bare
from toptank.shop.record.store.opening import Store, reading, writing
from toptank.shop.record.store.record import (
    Attachment,
    JobRecord,
    JobRow,
    KeptAnswer,
    Note,
    Revision,
    StoreTrouble,
    Wanted,
)
from toptank.shop.record.store.tables import ANSWER, ATTACHMENT, COUNTER, JOB, NOTE, REVISION
from toptank.units.refusal import Refusal

_LARGEST_NUMBER = 2**63 - 1


def checksum(text: str) -> str:
    """Return the SHA-256 of a text."""
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def add_job(store: Store, text: str, *, author: str, note: str, at: str, notes: Sequence[Note] = ()) -> Revision:
    """Open a job with this document as its first revision, with the notes that came with it."""
    told = document.told(text)
    with writing(store) as connection:
        job = connection.execute(insert(JOB).values(opened=at).returning(JOB.c.number)).scalar_one()
        first = _revision(job, 1, None, text, told, author=author, note=note, at=at)
        _put(connection, first, told)
        for one in notes:
            connection.execute(insert(NOTE).values(job=job, **dataclasses.asdict(one)))
    return first


def save(
    store: Store, job: int, text: str, *, based_on: int, author: str, note: str, at: str, change: str = ""
) -> Revision:
    """Add a revision to a job.

    Raises
    ------
    Refusal : if the newest revision is not the one that this was made from; nothing is lost then
    """
    told = document.told(text)
    with writing(store) as connection:
        newest = newest_number(connection, job)
        if newest != based_on:
            raise clash(job, based_on, newest)
        added = _revision(job, newest + 1, newest, text, told, author=author, note=note, at=at)
        added = dataclasses.replace(added, change=change)
        _put(connection, added, told)
    return added


class Rewritten(NamedTuple):
    """A text that was made of the newest one, why, and what rows need to know of the change (`kinds`)."""

    text: str
    note: str
    change: str = ""


def rewrite(
    store: Store,
    job: int,
    write: Callable[[Revision], Rewritten],
    *,
    author: str,
    at: Callable[[], str],
    sitting: str = "",
) -> Revision:
    """Add what `write` makes of the newest revision, with its note; nobody else saves between reading and writing.

    The same text adds nothing.
    """
    with writing(store) as connection:
        newest = _read_revision(connection, job, None)
        text, note, change = write(newest)
        if text == newest.text:
            return newest
        told = document.told(text)
        added = _revision(job, newest.number + 1, newest.number, text, told, author=author, note=note, at=at())
        added = dataclasses.replace(added, sitting=sitting, change=change)
        _put(connection, added, told)
    return added


def clash(job: int, based_on: int, newest: int) -> Refusal:
    """Return what is said to somebody whose work rests on another revision than the newest."""
    if based_on > newest:
        fix = f"`toptank job history {job}` lists them"
        return Refusal(field="based-on", value=str(based_on), limit=f"is not there: the newest is {newest}", fix=fix)
    limit = f"somebody has saved revision {newest} of job {job} meanwhile, so this was not saved over it"
    fix = f"look at it with `toptank job show {job}`, bring the two together, and save with --based-on {newest}"
    return Refusal(field="based-on", value=str(based_on), limit=limit, fix=fix)


def newest_number(connection: Connection, job: int) -> int:
    """Return the number of a job's newest revision.

    Raises
    ------
    Refusal : if there is no such job
    """
    newest = None
    if 0 < job <= _LARGEST_NUMBER:
        newest = connection.execute(select(func.max(REVISION.c.number)).where(REVISION.c.job == job)).scalar_one()
    if newest is None:
        raise Refusal(field="job", value=str(job), limit="is not there", fix="`toptank job list` shows every job")
    return newest


def revision(store: Store, job: int, number: int | None = None) -> Revision:
    """Return one revision of a job; the newest if none is named."""
    with reading(store) as connection:
        return _read_revision(connection, job, number)


def newest_of(store: Store, job: int) -> int:
    """Return the number of a job's newest revision."""
    with reading(store) as connection:
        return newest_number(connection, job)


def history(store: Store, job: int) -> tuple[Revision, ...]:
    """Return every revision of a job, the first one first."""
    with reading(store) as connection:
        newest_number(connection, job)
        found = connection.execute(select(REVISION).where(REVISION.c.job == job).order_by(REVISION.c.number))
        return tuple(_checked(Revision(**row)) for row in found.mappings())


def between(store: Store, job: int, after: int, last: int) -> tuple[Revision, ...]:
    """Return the revisions after one and up to another."""
    asked = select(REVISION).where(REVISION.c.job == job, REVISION.c.number > after, REVISION.c.number <= last)
    with reading(store) as connection:
        found = connection.execute(asked.order_by(REVISION.c.number))
        return tuple(_checked(Revision(**row)) for row in found.mappings())


def record(store: Store, job: int, number: int | None = None) -> JobRecord:
    """Return all that is kept of a job, at one of its revisions."""
    with reading(store) as connection:
        shown = _read_revision(connection, job, number)
        notes = connection.execute(
            select(NOTE.c.at, NOTE.c.author, NOTE.c.text, NOTE.c.kind, NOTE.c.subject)
            .where(NOTE.c.job == job)
            .order_by(NOTE.c.number)
        )
        files = connection.execute(
            select(ATTACHMENT.c.checksum, ATTACHMENT.c.name, ATTACHMENT.c.size, ATTACHMENT.c.at)
            .where(ATTACHMENT.c.job == job)
            .order_by(ATTACHMENT.c.number)
        )
        kept = [column for column in ANSWER.c if column.name != "job"]
        answers = connection.execute(select(*kept).where(ANSWER.c.job == job).order_by(ANSWER.c.number))
        return JobRecord(
            shown=shown,
            newest=newest_number(connection, job),
            notes=tuple(Note(**row) for row in notes.mappings()),
            attachments=tuple(Attachment(**row) for row in files.mappings()),
            answers=tuple(KeptAnswer(**row) for row in answers.mappings()),
        )


def listed(store: Store, *, search: str = "", state: Wanted | None = None) -> tuple[JobRow, ...]:
    """Return the jobs in which every word is found, whatever its capitals.

    Words are looked for in title, complaint and notes, in who came with what, and in the kind of vehicle.
    """
    newest = (
        select(REVISION.c.job, func.max(REVISION.c.number).label("number")).group_by(REVISION.c.job).subquery("newest")
    )
    notes = select(func.count()).where(NOTE.c.job == REVISION.c.job).scalar_subquery()
    asked = (
        select(
            REVISION.c.job.label("number"),
            REVISION.c.title,
            REVISION.c.complaint,
            REVISION.c.state,
            REVISION.c.note,
            REVISION.c.number.label("revision"),
            JOB.c.opened,
            REVISION.c.at.label("saved"),
            notes.label("notes"),
            *(func.coalesce(column, "").label(column.name) for column in _AT_THE_COUNTER),
        )
        .join(newest, (newest.c.job == REVISION.c.job) & (newest.c.number == REVISION.c.number))
        .join(JOB, JOB.c.number == REVISION.c.job)
        .outerjoin(COUNTER, (COUNTER.c.job == REVISION.c.job) & (COUNTER.c.revision == REVISION.c.number))
        .order_by(REVISION.c.job)
    )
    if state is not None:
        asked = asked.where(*_in_state(state))
    for word in search.casefold().split():
        asked = asked.where(_holds(word))
    with reading(store) as connection:
        return tuple(_row(dict(row)) for row in connection.execute(asked).mappings())


CLOSED = "closed: "
"""How the note of the revision begins that a job was closed with; the ids of its causes follow."""


def _row(row: dict[str, Any]) -> JobRow:
    """A line of the list; what a closed job turned out to be is read from the note that it was closed with."""
    note = row.pop("note")
    closed = row["state"] == "closed" and note.startswith(CLOSED)
    return JobRow(**row, found=tuple(note.removeprefix(CLOSED).split(", ")) if closed else ())


def newest_closed(store: Store, most: int) -> tuple[Revision, ...]:
    """Return the newest revisions of closed jobs, the job that was opened last first; none that is damaged.

    What was learned from one job is lost then, and no other job with it: whoever opens the damaged one is told.
    """
    newest = (
        select(REVISION.c.job, func.max(REVISION.c.number).label("number")).group_by(REVISION.c.job).subquery("newest")
    )
    asked = (
        select(REVISION)
        .join(newest, (newest.c.job == REVISION.c.job) & (newest.c.number == REVISION.c.number))
        .where(REVISION.c.state == "closed")
        .order_by(REVISION.c.job.desc())
        .limit(most)
    )
    with reading(store) as connection:
        found = [Revision(**row) for row in connection.execute(asked).mappings()]
    return tuple(one for one in found if _is_whole(one))


_AT_THE_COUNTER = (COUNTER.c.customer, COUNTER.c.registration, COUNTER.c.vehicle, COUNTER.c.promised,
                   COUNTER.c.waiting_for)  # fmt: skip


def _in_state(state: Wanted) -> tuple[ColumnElement[bool], ...]:
    """What holds of a job in such a state; one that is closed waits for nothing any more."""
    if state in ("open", "closed"):
        return (REVISION.c.state == state,)
    waiting = "" if state == "in_work" else state.removeprefix("waiting_for_")
    return REVISION.c.state == "open", func.coalesce(COUNTER.c.waiting_for, "") == waiting


def _holds(word: str) -> ColumnElement[bool]:
    # instr, not LIKE: a percent sign that is searched for is a percent sign
    in_a_note = exists().where(
        NOTE.c.job == REVISION.c.job, func.instr(func.casefold(NOTE.c.text), word) > 0
    )  # fmt: skip
    in_title = func.instr(func.casefold(REVISION.c.title), word) > 0
    in_complaint = func.instr(func.casefold(REVISION.c.complaint), word) > 0
    written = dict.fromkeys(filter(None, (word, bare(word))))
    at_the_counter = [func.instr(func.coalesce(COUNTER.c.words, ""), one) > 0 for one in written]
    return or_(in_title, in_complaint, in_a_note, *at_the_counter)


def _read_revision(connection: Connection, job: int, number: int | None) -> Revision:
    newest = newest_number(connection, job)
    wanted = newest if number is None else number
    if not 1 <= wanted <= newest:
        fix = f"`toptank job history {job}` lists them"
        raise Refusal(field="revision", value=str(wanted), limit=f"is not there: job {job} has 1 to {newest}", fix=fix)
    asked = select(REVISION).where(REVISION.c.job == job, REVISION.c.number == wanted)
    return _checked(Revision(**connection.execute(asked).mappings().one()))


def _is_whole(found: Revision) -> bool:
    return checksum(found.text) == found.checksum


def _checked(found: Revision) -> Revision:
    if not _is_whole(found):
        named = f"job {found.job}, revision {found.number}"
        limit, fix = "is damaged: its text does not fit its checksum", "restore a backup into another place"
        raise StoreTrouble(field="store", value=shortened(named), limit=limit, fix=fix)
    return found


def _revision(
    job: int, number: int, parent: int | None, text: str, told: document.Told, *, author: str, note: str, at: str
) -> Revision:
    return Revision(
        job=job,
        number=number,
        parent=parent,
        at=at,
        author=author,
        note=note,
        title=told.title,
        complaint=told.complaint,
        state=told.state,
        checksum=checksum(text),
        text=text,
    )


def _put(connection: Connection, one: Revision, told: document.Told) -> None:
    row = {column.name: getattr(one, column.name) for column in REVISION.c}
    connection.execute(insert(REVISION).values(row))
    connection.execute(insert(COUNTER).values(job=one.job, revision=one.number, **told.counter._asdict()))
