"""The whole record in one file: a zip of the store, its attachments and a list of checksums."""

import contextlib
import hashlib
import json
import os
import sqlite3
import tempfile
import time
import zipfile
import zlib
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import IO

from sqlalchemy import func, select

from toptank.shop.files.atomic_write import check_place
from toptank.shop.files.leftovers import copy_prefix, partial_beside, swept
from toptank.shop.files.toml_file import shortened
from toptank.shop.record.store import migrations
from toptank.shop.record.store.attachments import place
from toptank.shop.record.store.opening import WAIT, Store, opened, reading, settings_of
from toptank.shop.record.store.record import StoreTrouble
from toptank.shop.record.store.tables import ATTACHMENT, JOB
from toptank.units.refusal import Refusal

FORMAT = "toptank-backup-1"
MANIFEST, STORE, FILES, SETTINGS = "manifest.json", "jobs.sqlite", "attachments/", "shop/"
LARGEST_MANIFEST = 64 * 1024**2
SPOILT = (zipfile.BadZipFile, EOFError, RuntimeError, zlib.error, OverflowError, OSError)
"""What the zip reader of Python raises on a damaged file.

A flipped byte can make it ask for a password or name a packing that it does not know: both are a RuntimeError."""

_PIECE = 1024 * 1024


def back_up(
    store: Store, path: Path, *, at: str, replace: bool, fewer: bool = False, not_fewer_than: Path | None = None
) -> int:
    """Write everything into one file; return the number of jobs in it.

    Parameters
    ----------
    replace : whether a file of that name may be replaced
    fewer : whether that may be a backup that holds more jobs than the record does now
    not_fewer_than : another backup that must not hold more jobs either

    Raises
    ------
    Refusal : if it cannot be written, or more jobs would be replaced by fewer; the backup that was there stays
    """

    def copied(copy: Path) -> None:
        copy_store(store.file, copy)
        with opened(copy) as frozen:
            jobs = jobs_in(frozen)
        for before in () if fewer else (path, not_fewer_than):
            _check_not_fewer(before, jobs)

    return pack_copy(store, path, copied, at=at, replace=replace, settings=settings_of(store))


def pack_copy(
    store: Store,
    path: Path,
    make: Callable[[Path], None],
    *,
    at: str,
    replace: bool,
    settings: Mapping[str, Path] = MappingProxyType({}),
) -> int:
    """Pack a copy that `make` puts into a place, with the attachments that it names; return the number of its jobs.

    `settings` are files of the shop itself that go with it, by their names.

    Raises
    ------
    Refusal : if it cannot be written; a file that was there stays
    """
    check_place(path, replace=replace)
    partial = partial_beside(path)
    beside = path.absolute().parent  # not beside the store, whose disk may be full
    swept(beside)
    try:
        with tempfile.TemporaryDirectory(prefix=copy_prefix("backup"), dir=beside) as folder:
            copy = Path(folder, STORE)
            make(copy)
            with opened(copy) as frozen:  # lists the attachments of this very copy, whatever is saved meanwhile
                checksums, jobs = attached(frozen), jobs_in(frozen)
            with os.fdopen(os.open(partial, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600), "w+b") as file:
                parts = {STORE: copy} | {f"{FILES}{one}": place(store.attachments, one) for one in sorted(checksums)}
                _pack(file, parts | {f"{SETTINGS}{name}": one for name, one in settings.items()}, at, jobs)
                file.flush()
                os.fsync(file.fileno())
        partial.replace(path)
    except OSError as error:
        limit = f"cannot be written: {error.strerror or error}"
        raise Refusal(
            field="backup", value=shortened(path), limit=limit, fix="make room, or write elsewhere"
        ) from error
    finally:
        with contextlib.suppress(OSError):
            partial.unlink(missing_ok=True)
    return jobs


def jobs_in(store: Store) -> int:
    """Return the number of jobs in a store."""
    with reading(store) as connection:
        return connection.execute(select(func.count()).select_from(JOB)).scalar_one()


def jobs_in_backup(path: Path) -> int | None:
    """Return the number of jobs in a backup; None where it is none, or damaged."""
    try:
        with zipfile.ZipFile(path) as packed:
            with packed.open(MANIFEST) as inside:
                told = json.loads(inside.read(LARGEST_MANIFEST)).get("jobs")
            return told if isinstance(told, int) else _counted(packed)
    except (*SPOILT, sqlite3.Error, KeyError, ValueError, TypeError, AttributeError, RecursionError):
        return None


def _counted(packed: zipfile.ZipFile) -> int:
    """Count the jobs of a backup that was made before its list told their number."""
    with (
        tempfile.TemporaryDirectory(prefix="toptank-counts-") as folder,
        contextlib.closing(sqlite3.connect(packed.extract(STORE, folder))) as connection,
    ):
        return int(connection.execute("SELECT count(*) FROM job").fetchone()[0])


def _check_not_fewer(path: Path | None, jobs: int) -> None:
    held = jobs_in_backup(path) if path is not None and path.is_file() else None
    if path is None or held is None or held <= jobs:
        return
    limit = f"holds {held} jobs and the record now {jobs}: it is not replaced by one with fewer"
    fix = "look whether the record is the right one and whole; then write to another file, or add --fewer"
    raise Refusal(field="backup", value=shortened(path), limit=limit, fix=fix)


def attached(store: Store) -> list[str]:
    """Return the checksums of every attachment."""
    with reading(store) as connection:
        return list(connection.execute(select(ATTACHMENT.c.checksum).distinct()).scalars())


def copy_store(source: Path, target: Path) -> None:
    """Copy a store as SQLite does it: one state of it, in one transaction, whoever writes meanwhile."""
    deadline = time.monotonic() + WAIT

    def give_up(_status: int, remaining: int, _total: int) -> None:
        if remaining and time.monotonic() > deadline:  # SQLite would wait for a locked store without end
            raise TimeoutError("it is locked by another program")

    try:
        with (
            contextlib.closing(sqlite3.connect(source)) as whence,
            contextlib.closing(sqlite3.connect(target)) as whither,
        ):
            whence.backup(whither, progress=give_up, sleep=0.05)
    except (sqlite3.Error, TimeoutError) as error:
        limit, fix = f"cannot be copied: {error}", "make room, close other programs, and try again"
        raise StoreTrouble(field="store", value=shortened(target), limit=limit, fix=fix) from error


def pieces(file: IO[bytes], most: int | None = None) -> Iterator[bytes]:
    """Return a file piece by piece; not much more than `most` of it [byte]."""
    size = 0
    while (most is None or size <= most) and (piece := file.read(_PIECE)):
        size += len(piece)
        yield piece


def _pack(file: IO[bytes], parts: Mapping[str, Path], at: str, jobs: int) -> None:
    listed: dict[str, dict[str, object]] = {}
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, path in parts.items():
            digest, size = hashlib.sha256(), 0
            entry = zipfile.ZipInfo(name)
            entry.compress_type = zipfile.ZIP_DEFLATED
            with _source(path) as source, packed.open(entry, "w", force_zip64=True) as inside:
                for piece in pieces(source):
                    digest.update(piece)
                    size += len(piece)
                    inside.write(piece)
            if name.startswith(FILES) and digest.hexdigest() != path.name:
                raise _lost(path, "does not fit its checksum, and a backup would hide that")
            listed[name] = {"sha256": digest.hexdigest(), "size": size}
        manifest = {"format": FORMAT, "made": at, "version": migrations.NEWEST, "jobs": jobs, "files": listed}
        packed.writestr(MANIFEST, json.dumps(manifest, indent=1))


def _source(path: Path) -> IO[bytes]:
    try:
        return path.open("rb")
    except FileNotFoundError:
        raise _lost(path, "is lost, and a backup would be without it") from None


def _lost(path: Path, limit: str) -> StoreTrouble:
    fix = "put it back from an older backup first"
    return StoreTrouble(field="attachment", value=path.name[:12], limit=limit, fix=fix)
