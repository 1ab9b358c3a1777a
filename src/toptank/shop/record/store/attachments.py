"""Photos and logs of a job: kept by their checksum, never by the name that they came with."""

import contextlib
import hashlib
import os
import stat
from collections.abc import Generator, Iterator
from pathlib import Path
from typing import BinaryIO

from sqlalchemy import insert, select

from toptank.shop.files.leftovers import partial_beside
from toptank.shop.files.toml_file import shortened
from toptank.shop.record.store.jobs_and_revisions import newest_number
from toptank.shop.record.store.opening import Store, reading, writing
from toptank.shop.record.store.record import Attachment, StoreTrouble
from toptank.shop.record.store.tables import ATTACHMENT
from toptank.units.refusal import Refusal

LARGEST = 64 * 1024 * 1024
"""Largest file that is kept [byte]."""

LONGEST_NAME, LONGEST_ENDING = 120, 8
SHORTEST_START = 6
"""So many digits of a checksum tell the files of one job apart."""

_PIECE = 1024 * 1024


def attach(store: Store, job: int, path: Path, *, at: str, name: str | None = None) -> Attachment:
    """Keep a copy of a file beside a job. The same file twice is kept once.

    Raises
    ------
    Refusal : if it is no file, empty, too large, or cannot be read
    """
    with reading(store) as connection:
        newest_number(connection, job)  # a job that is not there is told before any copying
    checksum, size = _keep(store, path)
    added = Attachment(checksum=checksum, name=shown_name(name or path.name), size=size, at=at)
    here = (ATTACHMENT.c.job == job) & (ATTACHMENT.c.checksum == checksum)
    kept = (ATTACHMENT.c.checksum, ATTACHMENT.c.name, ATTACHMENT.c.size, ATTACHMENT.c.at)
    with writing(store) as connection:
        before = connection.execute(select(*kept).where(here)).mappings().one_or_none()
        if before is not None:
            return Attachment(**before)
        row = {"checksum": checksum, "name": added.name, "size": size, "at": at}
        connection.execute(insert(ATTACHMENT).values(job=job, **row))
    return added


def content(store: Store, job: int, start: str) -> tuple[Attachment, bytes]:
    """Return a file that was kept, named by the first digits of its checksum.

    Raises
    ------
    Refusal : if none or several of the job's files begin so
    StoreTrouble : if the file is not what it was
    """
    with reading(store) as connection:
        newest_number(connection, job)
        asked = select(ATTACHMENT.c.checksum, ATTACHMENT.c.name, ATTACHMENT.c.size, ATTACHMENT.c.at)
        rows = connection.execute(asked.where(ATTACHMENT.c.job == job)).mappings().all()
    found = [Attachment(**row) for row in rows if row["checksum"].startswith(start.lower())]
    if len(found) != 1 or len(start) < SHORTEST_START:
        limit = f"must be the first {SHORTEST_START} digits or more of one checksum"
        fix = f"`toptank job show {job}` lists the files with theirs"
        raise Refusal(field="checksum", value=shortened(start) or '""', limit=limit, fix=fix)
    return found[0], checked_content(store.attachments, found[0].checksum)


def checked_content(folder: Path, checksum: str) -> bytes:
    """Return what is kept under a checksum, if it still fits."""
    fix = "restore a backup into another place"
    try:
        kept = place(folder, checksum).read_bytes()
    except OSError as error:
        said = error.strerror or "cannot be read"
        raise StoreTrouble(field="attachment", value=checksum[:12], limit=f"is lost: {said}", fix=fix) from error
    if hashlib.sha256(kept).hexdigest() != checksum:
        raise StoreTrouble(field="attachment", value=checksum[:12], limit="does not fit its checksum", fix=fix)
    return kept


def place(folder: Path, checksum: str) -> Path:
    """Return where a file with this checksum lies."""
    if len(checksum) != 64 or set(checksum) - set("0123456789abcdef"):
        raise StoreTrouble(
            field="attachment", value=shortened(checksum), limit="is no checksum", fix="restore a backup"
        )
    return folder / checksum[:2] / checksum


def shown_name(name: str) -> str:
    """Return the name to show: the last part of a path of any system, without signs that cannot be printed."""
    last = name.replace("\\", "/").rsplit("/", 1)[-1]
    plain = "".join(sign if sign.isprintable() else "?" for sign in last)
    dot, ending = (plain.rfind("."), plain[plain.rfind(".") :]) if "." in plain else (len(plain), "")
    if len(plain) > LONGEST_NAME and len(ending) <= LONGEST_ENDING:  # by its ending a log is known for one
        return shortened(plain[:dot], LONGEST_NAME - len(ending)) + ending
    return shortened(plain, LONGEST_NAME) or "without a name"


def keep_content(folder: Path, pieces: Iterator[bytes]) -> tuple[str, int]:
    """Write a file under its checksum, whole and on the disk, or not at all; return checksum and size."""
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    partial = partial_beside(folder / "any")
    digest, size = hashlib.sha256(), 0
    try:
        with os.fdopen(os.open(partial, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600), "wb") as file:
            for piece in pieces:
                digest.update(piece)
                size += len(piece)
                file.write(piece)
            file.flush()
            os.fsync(file.fileno())
        kept = place(folder, digest.hexdigest())
        kept.parent.mkdir(mode=0o700, exist_ok=True)
        partial.replace(kept)  # one that lies there already has the same content, or is mended by this
        _settle(kept.parent)
        _settle(folder)
    except BaseException:
        with contextlib.suppress(OSError):
            partial.unlink(missing_ok=True)
        raise
    return digest.hexdigest(), size


def _settle(folder: Path) -> None:
    """Have the names in a folder on the disk too; a system that cannot do that is left alone."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _keep(store: Store, path: Path) -> tuple[str, int]:
    with _opened(path) as file:
        try:
            checksum, size = keep_content(store.attachments, _pieces(file, path))
        except OSError as error:
            limit, fix = f"cannot be kept: {error.strerror}", "make room, or set the store up elsewhere"
            raise StoreTrouble(field="file", value=shortened(path), limit=limit, fix=fix) from error
    return checksum, size


@contextlib.contextmanager
def _opened(path: Path) -> Generator[BinaryIO]:
    named = shortened(path)
    try:
        kind = path.stat().st_mode
        if not stat.S_ISREG(kind):  # to open a pipe may wait without end
            raise Refusal(field="file", value=named, limit="is not a file", fix="name a photo or a log")
        file = path.open("rb")
    except OSError as error:
        limit = f"cannot be read: {error.strerror}"
        raise Refusal(field="file", value=named, limit=limit, fix="check the name") from error
    with file:
        yield file


def _pieces(file: BinaryIO, path: Path) -> Iterator[bytes]:
    size = 0
    while piece := file.read(_PIECE):
        size += len(piece)
        if size > LARGEST:
            limit, fix = f"is larger than {LARGEST // 1024**2} MiB", "make the photo smaller, or split the log"
            raise Refusal(field="file", value=shortened(path), limit=limit, fix=fix)
        yield piece
    if size == 0:
        raise Refusal(field="file", value=shortened(path), limit="is empty", fix="check that it was saved")
