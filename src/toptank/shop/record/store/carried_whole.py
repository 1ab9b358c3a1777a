"""One job whole, to carry away: a backup that holds nothing else. Brought in, each job of a backup becomes a new one.

So a job goes to another shop, or a whole record into another, with every revision, note, answer, photo and log.
"""

from pathlib import Path

from sqlalchemy import Connection, Table, insert, select

from toptank.shop.record.store.backup import attached, pack_copy
from toptank.shop.record.store.jobs_and_revisions import newest_number
from toptank.shop.record.store.opening import Store, opened, reading, writing
from toptank.shop.record.store.restoring import check_attachments, keep_attachments, unpacked
from toptank.shop.record.store.tables import ANSWER, ATTACHMENT, COUNTER, JOB, NOTE, REVISION

BESIDE: tuple[Table, ...] = (REVISION, COUNTER, NOTE, ATTACHMENT, ANSWER)
"""What belongs to a job; answers come after the revisions that they speak of."""


def carry_out(store: Store, job: int, path: Path, *, at: str, replace: bool) -> int:
    """Write one job, all that is kept of it, into one file; return the number of its photos and logs.

    Raises
    ------
    Refusal : if there is no such job, or the file cannot be written
    """
    files = 0

    def make(copy: Path) -> None:
        nonlocal files
        with opened(copy) as alone, reading(store) as source, writing(alone) as target:
            newest_number(source, job)
            _copied(source, target, job, number=job)
            files = len(target.execute(select(ATTACHMENT.c.number)).all())

    pack_copy(store, path, make, at=at, replace=replace)
    return files


def bring_in(store: Store, path: Path, *, author: str, at: str) -> tuple[tuple[int, int], ...]:
    """Add every job of such a file, or of a backup, as a new one; return its number there and its number here.

    Raises
    ------
    Refusal : if the file is damaged; the record is as it was then
    """
    with unpacked(path, store.file.absolute().parent) as (copy, files), opened(copy) as found:
        checksums = attached(found)
        check_attachments(path, files, checksums)
        keep_attachments(store, files, checksums)
        with reading(found) as source, writing(store) as target:
            there = source.execute(select(JOB.c.number).order_by(JOB.c.number)).scalars().all()
            brought = tuple((one, _copied(source, target, one)) for one in there)
            for was, now in brought:
                note = {
                    "at": at,
                    "author": author,
                    "text": f"imported whole; it was job {was}",
                    "kind": "",
                    "subject": "",
                }
                target.execute(insert(NOTE).values(job=now, **note))
    return brought


def _copied(source: Connection, target: Connection, job: int, *, number: int | None = None) -> int:
    """Copy all that is kept of a job; return its number there, a new one where none is named."""
    whence = dict(source.execute(select(JOB).where(JOB.c.number == job)).mappings().one())
    whence["number"] = number
    kept = {key: value for key, value in whence.items() if value is not None}
    placed: int = target.execute(insert(JOB).values(kept).returning(JOB.c.number)).scalar_one()
    for table in BESIDE:
        rows = [dict(row) for row in source.execute(select(table).where(table.c.job == job)).mappings()]
        if table is not REVISION:
            rows = [{key: value for key, value in row.items() if key != "number"} for row in rows]
        if rows:
            target.execute(insert(table), [{**row, "job": placed} for row in rows])
    return placed
