"""A backup put back: unpacked beside the store, every sign of it checked, and only then put in."""

import contextlib
import errno
import hashlib
import json
import os
import sqlite3
import tempfile
import zipfile
from collections.abc import Generator
from pathlib import Path
from typing import IO

from toptank.shop.files.atomic_write import write_whole
from toptank.shop.files.leftovers import copy_prefix
from toptank.shop.files.toml_file import LARGEST as LARGEST_SETTING
from toptank.shop.files.toml_file import shortened
from toptank.shop.record.store import migrations
from toptank.shop.record.store.attachments import LARGEST, keep_content, place
from toptank.shop.record.store.backup import (
    FILES,
    FORMAT,
    LARGEST_MANIFEST,
    MANIFEST,
    SETTINGS,
    SPOILT,
    STORE,
    attached,
    back_up,
    copy_store,
    jobs_in,
    pieces,
)
from toptank.shop.record.store.opening import SETTINGS_FILES, Store, opened, settings_of
from toptank.shop.record.store.record import StoreTrouble
from toptank.units.refusal import Refusal

_LARGEST_STORE = 64 * 1024**3
_SETTINGS = tuple(SETTINGS + name for name in SETTINGS_FILES)
_DISK = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EACCES, errno.EROFS)


def restore(store: Store, path: Path, *, at: str, force: bool) -> tuple[int, Path | None]:
    """Put a backup into the store; return the number of jobs, and where what was there before is kept.

    The shop's settings come with it; those that are there already stay unless `force` is said.

    Raises
    ------
    Refusal : if the backup is damaged, or the store holds jobs and `force` is not said
    """
    with unpacked(path, store.file.absolute().parent) as (copy, files):
        with opened(copy) as found:
            jobs, checksums = jobs_in(found), attached(found)
        check_attachments(path, files, checksums)
        settings = {name: files.parent / SETTINGS / name for name in SETTINGS_FILES}
        held_settings = settings_of(store)
        before = _set_aside(store, at) if force and (jobs_in(store) or held_settings) else None
        keep_attachments(store, files, checksums)  # first the files, then what speaks of them
        if before is None and (held := jobs_in(store)):
            limit = f"holds {held} job{'' if held == 1 else 's'}, and a restore would put others in their place"
            fix = "restore into an empty store (TOPTANK_STORE), or add --force"
            raise Refusal(field="store", value=shortened(store.file), limit=limit, fix=fix)
        copy_store(copy, store.file)
        for name, found_setting in settings.items():
            if found_setting.is_file() and (force or name not in held_settings):
                write_whole(store.file.absolute().with_name(name), found_setting.read_bytes(), replace=True)
    return jobs, before


def check_attachments(path: Path, files: Path, checksums: list[str]) -> None:
    """Refuse a backup without some of the files that it speaks of."""
    for one in checksums:
        if not place(files, one).is_file():
            raise _damaged(path, f"attachment {one[:12]} is not in it")


def keep_attachments(store: Store, files: Path, checksums: list[str]) -> None:
    """Keep files of a backup in the store."""
    for one in checksums:
        with place(files, one).open("rb") as file:
            keep_content(store.attachments, pieces(file))


def _set_aside(store: Store, at: str) -> Path:
    """Back up what a restore is about to replace, beside the store."""
    before = store.file.absolute().with_name(f"before-restore-{at.replace(':', '')[:17]}-{os.urandom(3).hex()}.zip")
    back_up(store, before, at=at, replace=False)
    return before


@contextlib.contextmanager
def unpacked(path: Path, beside: Path) -> Generator[tuple[Path, Path]]:
    """Unpack a backup into a folder beside the store and check it; give its store and the folder of its files.

    Raises
    ------
    Refusal : if it is no backup, or damaged
    """
    if not path.is_file():
        fix = "name a file that `toptank job backup` wrote"
        raise Refusal(field="backup", value=shortened(path), limit="is not a file", fix=fix)
    with tempfile.TemporaryDirectory(prefix=copy_prefix("restore"), dir=beside) as name:
        folder = Path(name)
        try:
            with zipfile.ZipFile(path) as packed:
                _unpack(packed, path, folder)
        except SPOILT as error:
            if isinstance(error, OSError) and error.errno in _DISK:
                limit, fix = f"cannot be unpacked: {error.strerror}", "make room, or set the store up elsewhere"
                raise StoreTrouble(field="backup", value=shortened(path), limit=limit, fix=fix) from error
            raise _damaged(path, shortened(error, 100) or "it ends too early") from error
        _check_store(folder / STORE, path)
        yield folder / STORE, folder / FILES


def _unpack(packed: zipfile.ZipFile, path: Path, folder: Path) -> None:
    listed = _manifest(packed, path)
    names = sorted(packed.namelist())
    if names != sorted([MANIFEST, *listed]):
        odd = sorted({*names} ^ {MANIFEST, *listed}) or names
        raise _damaged(path, f"what it holds is not what its list says: {shortened(odd[0])}")
    for name, (checksum, size) in listed.items():
        with packed.open(name) as inside:
            if name == STORE:
                found = _written(folder / STORE, inside, size)
            elif name in _SETTINGS:
                (folder / SETTINGS).mkdir(exist_ok=True)
                found = _written(folder / name, inside, size)
            else:
                found = keep_content(folder / FILES, pieces(inside, size))
        if found != (checksum, size) or name not in (STORE, FILES + checksum, *_SETTINGS):
            raise _damaged(path, f"{shortened(name)} does not fit its checksum")


def _manifest(packed: zipfile.ZipFile, path: Path) -> dict[str, tuple[str, int]]:
    """Read the list of what is inside: name, checksum, size."""
    spoilt = _damaged(path, "its list of checksums is missing or cannot be read")
    try:
        with packed.open(MANIFEST) as inside:
            manifest = json.loads(inside.read(LARGEST_MANIFEST))
        form, made_by = str(manifest["format"]), int(manifest["version"])
        listed = {str(name): (str(one["sha256"]), int(one["size"])) for name, one in manifest["files"].items()}
    except (KeyError, ValueError, TypeError, AttributeError, RecursionError) as error:
        raise spoilt from error
    if form != FORMAT or STORE not in listed:
        raise spoilt
    if made_by > migrations.NEWEST:
        fix = "restore it with that one"
        raise Refusal(field="backup", value=shortened(path), limit="was made by a newer toptank", fix=fix)
    for name, (_, size) in listed.items():
        largest = _LARGEST_STORE if name == STORE else LARGEST_SETTING if name in _SETTINGS else LARGEST
        if not 0 <= size <= largest:
            raise _damaged(path, f"its list gives {shortened(name)} a size that cannot be")
    return listed


def _written(target: Path, inside: IO[bytes], size: int) -> tuple[str, int]:
    digest, length = hashlib.sha256(), 0
    with target.open("xb") as file:
        for piece in pieces(inside, size):
            digest.update(piece)
            length += len(piece)
            file.write(piece)
    return digest.hexdigest(), length


def _check_store(copy: Path, path: Path) -> None:
    """Let SQLite look through the whole store; checksums tell of the disk, not of who made the file."""
    try:
        with contextlib.closing(sqlite3.connect(copy)) as connection:
            said = connection.execute("PRAGMA integrity_check").fetchone()[0]
            orphans = connection.execute("PRAGMA foreign_key_check").fetchall()
    except sqlite3.Error as error:
        raise _damaged(path, f"its store is none: {error}") from error
    if said != "ok" or orphans:
        raise _damaged(path, f"its store does not hold together: {shortened(said if said != 'ok' else orphans[0])}")


def _damaged(path: Path, why: str) -> Refusal:
    fix = "take an older backup; the store is as it was"
    return Refusal(field="backup", value=shortened(path), limit=f"is damaged: {why}", fix=fix)
