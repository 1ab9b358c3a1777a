"""The verbs of the record of jobs: open, save, note, close, look up. One function a verb.

Each opens the store, does one thing and closes it. What was typed is never lost to a store that cannot be written:
it is put into a file elsewhere, and the refusal says where.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, get_args

from toptank.catalogue.words.aliases import id_of, meant
from toptank.shop.files.atomic_write import check_place, write_whole
from toptank.shop.files.toml_file import document_of, shortened
from toptank.shop.job.former_format import upgraded
from toptank.shop.job.job_file import job_of
from toptank.shop.job.starting_file import bare_sheet, demo_text, new_sheet
from toptank.shop.record.plan_note import taken
from toptank.shop.record.store import (
    attachments,
    document,
    notes_and_answers,
)
from toptank.shop.record.store import jobs_and_revisions as kept
from toptank.shop.record.store.export import CarriedAway, read_back, read_carried
from toptank.shop.record.store.kinds import About
from toptank.shop.record.store.opening import Store, opened
from toptank.shop.record.store.reading_copy import opened_to_read
from toptank.shop.record.store.record import Attachment, JobRecord, JobRow, Note, Revision, Wanted
from toptank.shop.record.store.rescue_copy import kept_if_it_fails
from toptank.shop.record.store.words import LONGEST_NAME, LONGEST_NOTE, check_encodable, check_words
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.shop.job.job import Job
    from toptank.units.conversion import System


def now() -> str:
    """Return the time as it is written into the record: UTC, ISO 8601."""
    return datetime.now(UTC).isoformat(timespec="milliseconds")


def open_new(path: Path, *, author: str = "", note: str = "") -> Revision:
    """Open a job with a job file as its first revision."""
    return _add(read_carried(path).text, author=author, note=note)


def open_text(text: str, *, author: str = "", note: str = "") -> Revision:
    """Open a job with a job file as text."""
    return _add(_carried(text).text, author=author, note=note)


def open_like(like: str, *, system: System, author: str = "", note: str = "") -> Revision:
    """Open a job with the starting file of a typical vehicle."""
    return _add(new_sheet(like, system=system), author=author, note=note)


def open_told(like: str, *, title: str, complaint: str, system: System, author: str = "") -> Revision:
    """Open a job with what is known when the vehicle comes in: what it is like, its name, the driver's words."""
    check_words(title, "title")
    check_words(complaint, "complaint")
    return _add(bare_sheet(like, title=title, complaint=complaint, system=system), author=author, note="opened")


def open_example(*, author: str = "") -> Revision:
    """Open a job with the built-in example, comments and all."""
    return _add(demo_text(), author=author, note="the built-in example")


def import_job(path: Path, *, author: str = "") -> Revision:
    """Open a job with an exported file, with the notes that it carries."""
    carried = read_carried(path)
    whence = f"imported; it was job {carried.job}, revision {carried.revision}" if carried.job else "imported"
    return _add(carried.text, author=author, note=whence, notes=carried.notes)


def _add(text: str, *, author: str, note: str, notes: Sequence[Note] = ()) -> Revision:
    check_signature(author, note)
    document.told(text)  # what cannot be used is told before any store is made
    with kept_if_it_fails(text, ".toml"), opened() as store:
        return kept.add_job(store, text, author=author, note=note, at=now(), notes=notes)


def save(number: int, path: Path, *, based_on: int | None = None, author: str = "", note: str = "") -> Revision:
    """Save a job file as the next revision of a job.

    An exported file says itself which revision it was made from; any other needs `based_on`.
    """
    return _saved(number, read_carried(path), shortened(path), based_on=based_on, author=author, note=note)


def save_text(number: int, text: str, *, based_on: int | None = None, author: str = "", note: str = "") -> Revision:
    """Save a job file as text as the next revision of a job; as in `save`."""
    return _saved(number, _carried(text), "(as sent)", based_on=based_on, author=author, note=note)


def _carried(text: str) -> CarriedAway:
    """Take a text apart that was not read from a file; refuse what is no TOML."""
    check_encodable(text)
    carried = read_back(text)
    document_of(carried.text.encode("utf-8"), "(as sent)")
    return carried


def refuse_closed(newest: Revision) -> None:
    """Refuse to change a closed job: whoever means it opens it again first.

    Raises
    ------
    Refusal : if the newest revision is closed
    """
    if newest.state == "closed":
        limit = "is closed: it holds what was found and done"
        fix = f"open it again on its record page or with `toptank job reopen {newest.job}`, or put it into a note"
        raise Refusal(field="job", value=str(newest.job), limit=limit, fix=fix)


def _saved(number: int, carried: CarriedAway, named: str, *, based_on: int | None, author: str, note: str) -> Revision:
    check_signature(author, note)
    with kept_if_it_fails(carried.text, ".toml"), opened() as store:
        newest = kept.revision(store, number)
        refuse_closed(newest)
        if based_on is None and carried.revision is not None:
            based_on = carried.revision
            made_from = kept.revision(store, number, based_on) if based_on <= newest.number else newest
            if carried.job != number or not made_from.checksum.startswith(carried.checksum):
                limit = f"was made from revision {based_on} of job {carried.job}, not from one of job {number}"
                fix = f"save it there, or say --based-on {newest.number} if it is meant"
                raise Refusal(field="file", value=named, limit=limit, fix=fix)
        if based_on is None:
            limit = f"is needed: this file does not say which revision of job {number} it was made from"
            fix = f"the newest is {newest.number}; say --based-on {newest.number} if that is the one"
            raise Refusal(field="based-on", value="(missing)", limit=limit, fix=fix)
        return kept.save(store, number, carried.text, based_on=based_on, author=author, note=note, at=now())


def revert(number: int, revision: int, *, author: str = "") -> Revision:
    """Make an earlier revision the newest again; what came between stays in the history."""
    return _rewritten(
        number,
        lambda store, _: kept.revision(store, number, revision).text,
        author=author,
        note=f"back to revision {revision}",
    )


def close(
    number: int, causes: Sequence[str], *, contributing: Sequence[str] = (), how: str = "", author: str = ""
) -> Revision:
    """Close a job with what it was; that is written into its document."""
    causes, contributing = _causes(causes, "cause"), _causes(contributing, "contributing")
    check_words(how, "how")
    if not causes:
        limit, fix = "is needed to close a job", "toptank causes lists them"
        raise Refusal(field="cause", value="(missing)", limit=limit, fix=fix)
    note = f"{kept.CLOSED}{', '.join(causes)}"
    return _rewritten(
        number,
        lambda _, newest: document.with_confirmed(upgraded(newest.text), causes, contributing, how),
        author=author,
        note=note,
        typed=f"closed: {', '.join((*causes, *contributing))}\n{how}",
    )


def reopen(number: int, *, author: str = "", note: str = "") -> Revision:
    """Open a closed job again: it was something else, or more than that."""

    def bare(_: Store, newest: Revision) -> str:
        if newest.state == "open":
            limit, fix = "is open already", "`toptank job show` tells its state"
            raise Refusal(field="job", value=str(number), limit=limit, fix=fix)
        return document.without_confirmed(newest.text)

    return _rewritten(number, bare, author=author, note=note or "opened again")


def _rewritten(
    number: int, write: Callable[[Store, Revision], str], *, author: str, note: str, typed: str = ""
) -> Revision:
    """Save what `write` makes of the newest revision."""
    check_signature(author, note)
    with kept_if_it_fails(f"job {number}\n{typed or note}\n", ".txt"), opened() as store:
        newest = kept.revision(store, number)
        text = write(store, newest)
        return kept.save(store, number, text, based_on=newest.number, author=author, note=note, at=now())


def check_signature(author: str, note: str) -> None:
    """Refuse who and why where they could not be shown again."""
    check_words(author, "by", LONGEST_NAME)
    check_words(note, "why")


def _causes(written: Sequence[str], field: str) -> list[str]:
    """Return the ids of causes as somebody wrote them."""
    found: list[str] = []
    for cause in written:
        id_ = id_of("cause", cause)
        if id_ is None:
            fix = meant("cause", cause, "toptank causes lists them")
            raise Refusal(field=field, value=shortened(cause), limit="is no cause that is known here", fix=fix)
        found.append(id_)
    return found


def add_note(number: int, text: str, *, author: str = "", about: About = notes_and_answers.NOTHING) -> Note:
    """Put a note beside a job; `about` says what the program notes."""
    check_words(author, "by", LONGEST_NAME)
    check_words(text, "note", LONGEST_NOTE)
    with kept_if_it_fails(text, ".txt"), opened() as store:
        return notes_and_answers.add_note(store, number, text, author=author, at=now(), about=about)


def listed(*, search: str = "", state: str | None = None) -> tuple[JobRow, ...]:
    """List the jobs in which every word of `search` is found, in one state: `STATES`; None for all."""
    check_words(search, "search")
    wanted = None if state is None else _state(state)
    with opened_to_read() as store:
        return kept.listed(store, search=search, state=wanted)


STATES: tuple[Wanted, ...] = get_args(Wanted)
"""States that a list can be asked for."""


def _state(written: str) -> Wanted:
    """Return the state that was meant: spaces and hyphens do as well."""
    meant_ = "_".join(written.casefold().replace("-", " ").replace("_", " ").split())
    for one in STATES:
        if one == meant_:
            return one
    words = [one.replace("_", " ") for one in STATES]
    fix = did_you_mean(meant_.replace("_", " "), words, f"write one of {', '.join(words)}")
    raise Refusal(field="state", value=shortened(written), limit="is no state of a job", fix=fix)


def record(number: int, *, revision: int | None = None) -> JobRecord:
    """Return all that is kept of a job."""
    with opened_to_read() as store:
        return kept.record(store, number, revision)


def newest_closed(most: int) -> tuple[Revision, ...]:
    """Return the newest revisions of closed jobs, the job that was opened last first."""
    with opened_to_read() as store:
        return kept.newest_closed(store, most)


def stored_job(number: int, *, revision: int | None = None) -> Job:
    """Return a revision of a job as the other verbs take it."""
    return job_of_record(record(number, revision=revision))


def job_of_record(read: JobRecord) -> Job:
    """Return the revision of a record that was read as the other verbs take it, with the plan that was taken."""
    return dataclasses.replace(job_of_revision(read.shown), number=read.shown.job, plan_taken=taken(read))


def job_of_revision(shown: Revision) -> Job:
    """Return a revision that was read as the other verbs take it."""
    return job_of_text(shown.text)


def job_of_text(text: str) -> Job:
    """Return a document as the other verbs take it."""
    return job_of(document.parsed(text))


def newest_revision(number: int) -> int:
    """Return the number of a job's newest revision, without reading it."""
    with opened_to_read() as store:
        return kept.newest_of(store, number)


def history(number: int) -> tuple[Revision, ...]:
    """Return every revision of a job, the first one first."""
    with opened_to_read() as store:
        return kept.history(store, number)


def attach(number: int, path: Path, *, name: str | None = None) -> Attachment:
    """Keep a copy of a photo or a log beside a job, shown under a name of its own or that of the file."""
    with opened() as store:
        return attachments.attach(store, number, path, at=now(), name=name)


def attachment(number: int, checksum: str) -> tuple[Attachment, bytes]:
    """Return an attachment, checked, and what is in it."""
    with opened_to_read() as store:
        return attachments.content(store, number, checksum)


def fetch(number: int, checksum: str, path: Path, *, replace: bool = False) -> Attachment:
    """Write an attachment, checked, into a file."""
    check_place(path, replace=replace)
    with opened_to_read() as store:
        attachment, whole = attachments.content(store, number, checksum)
    write_whole(path, whole, replace=replace)
    return attachment
