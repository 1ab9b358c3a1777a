"""Where the record of jobs lies, and how it is opened: for one reader or one writer at a time, whole or not at all."""

import contextlib
import os
import sqlite3
import time
from collections.abc import Generator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import URL, Connection, Engine, NullPool, create_engine, event
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError, DBAPIError

from toptank.shop.files.leftovers import swept
from toptank.shop.files.toml_file import shortened
from toptank.shop.record.store import migrations
from toptank.shop.record.store.record import CannotWrite, StoreTrouble
from toptank.units.refusal import Refusal

SETTING = "TOPTANK_STORE"
WAIT = 15.0
"""How long a writer waits for another [s]; a save takes a few milliseconds."""

SETTINGS_FILES = ("shop.toml", "prices.toml")
"""Files beside the store that say who the shop is and what it asks for; a backup takes them along."""

BACKUPS_ENDING, ATTACHMENTS_ENDING = ".backups", ".attachments"
_NAME = "jobs.sqlite"
_FILE_ENDINGS = (".sqlite", ".sqlite3", ".db")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Store:
    """An opened record of jobs: its file, and the folder of its attachments beside it."""

    engine: Engine
    file: Path
    attachments: Path


def store_file() -> Path:
    """Return the file of the store: what TOPTANK_STORE names, or the usual place in the user's data folder.

    The setting may be a file (.sqlite, .sqlite3, .db), a folder or an sqlite:/// address.
    """
    named = os.environ.get(SETTING, "").strip()
    if "://" in named:
        return _file_of_address(named)
    if named:
        path = Path(os.path.expanduser(named))  # a "~" of nobody stays as it is
        return path if path.suffix in _FILE_ENDINGS or path.is_file() else path / _NAME
    folder = os.environ.get("XDG_DATA_HOME", "").strip()
    return (Path(folder) if folder else Path.home() / ".local" / "share") / "toptank" / _NAME


def _file_of_address(address: str) -> Path:
    try:
        url = make_url(address)
    except ArgumentError:
        url = None
    if url is None or url.get_backend_name() != "sqlite" or not url.database or url.database == ":memory:":
        limit, fix = (
            "is no file of SQLite, the only kind of record: with others what is promised here is not tested (nothing "
            "that was acknowledged is lost, one file to back up)",
            "write sqlite:/// and the file, or the file alone",
        )
        # an address may hold a password: no more of it than its kind is shown
        raise Refusal(field=SETTING, value=shortened(address.partition("://")[0]) + "://...", limit=limit, fix=fix)
    return Path(url.database)


def settings_of(store: Store) -> dict[str, Path]:
    """Return the shop's settings that lie beside a store, by their names."""
    places = {name: store.file.absolute().with_name(name) for name in SETTINGS_FILES}
    return {name: path for name, path in places.items() if path.is_file()}


@contextlib.contextmanager
def opened(file: Path | None = None, *, anew: bool = False) -> Generator[Store]:
    """Open a store, made or brought to the newest version where needed; close it at the end.

    Parameters
    ----------
    file : the store; None means the shop's
    anew : make one where none is, even though one was there before: a backup is put back

    Raises
    ------
    StoreTrouble : if it cannot be opened, or has gone while what belongs to it is still there
    """
    store = _store(file or store_file())
    try:
        with _told(store.file):
            if not anew:
                _check_not_gone(store)
            _make_place(store.file)
            swept(store.file.absolute().parent)
            swept(store.attachments.absolute())
            _bring_up_to_date(store)
        yield store
    finally:
        store.engine.dispose()


@contextlib.contextmanager
def reading(store: Store) -> Generator[Connection]:
    """Give one unchanging view of the store."""
    with _told(store.file), store.engine.connect() as connection, connection.begin():
        yield connection


@contextlib.contextmanager
def writing(store: Store) -> Generator[Connection]:
    """Give the only writer's view; at the end all of it is on the disk, or after an exception nothing."""
    writer = store.engine.execution_options(begin="IMMEDIATE")
    with _told(store.file), writer.connect() as connection, connection.begin():
        yield connection


def _store(file: Path) -> Store:
    engine = create_engine(URL.create("sqlite", database=str(file)), poolclass=NullPool, connect_args={"timeout": WAIT})
    event.listen(engine, "connect", _set_up)
    event.listen(engine, "begin", _begin)
    return Store(engine=engine, file=file, attachments=file.with_name(file.name + ATTACHMENTS_ENDING))


def _set_up(raw: Any, _: object) -> None:
    raw.isolation_level = None  # we say ourselves where a transaction begins: Python would begin it too late
    raw.execute("PRAGMA foreign_keys = ON")
    raw.execute("PRAGMA synchronous = FULL")  # what was acknowledged survives the machine, not only the program
    raw.create_function("casefold", 1, _casefold, deterministic=True)


def _casefold(text: str) -> str:
    return text.casefold()


def _begin(connection: Connection) -> None:
    connection.exec_driver_sql(f"BEGIN {connection.get_execution_options().get('begin', 'DEFERRED')}")


def _check_not_gone(store: Store) -> None:
    """Refuse to begin a new record where an old one has gone: it would look like a shop without customers."""
    beside = [store.attachments, store.file.with_name(store.file.name + BACKUPS_ENDING)]
    left = [one for one in beside if one.is_dir() and any(entry for entry in one.iterdir() if entry.name[0] != ".")]
    # What lies beside it comes after it, so that this order cannot meet a record that is just being made.
    if not left or (store.file.exists() and store.file.stat().st_size > 0):
        return
    limit = f"is {'empty' if store.file.exists() else 'not there'}, but {left[0].name} beside it tells of jobs"
    fix = "put the file back, or `toptank job restore` the newest backup; to begin anew, move that folder away first"
    raise StoreTrouble(field="store", value=shortened(store.file), limit=limit, fix=fix)


def _make_place(file: Path) -> None:
    """Make folder and file, for their owner only: a record of customers is nobody else's business."""
    for folder in reversed([one for one in file.absolute().parents if not one.exists()]):
        folder.mkdir(mode=0o700, exist_ok=True)
    with contextlib.suppress(FileExistsError):
        os.close(os.open(file, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))


def _bring_up_to_date(store: Store) -> None:
    with reading(store) as connection:
        reached = migrations.version(connection)
    if reached > migrations.NEWEST:
        limit = f"has version {reached}, and this toptank knows up to {migrations.NEWEST}"
        raise StoreTrouble(field="store", value=shortened(store.file), limit=limit, fix="use the newer toptank")
    if reached == migrations.NEWEST:
        return
    if reached == 0:
        _write_ahead(store.file)
    with writing(store) as connection:
        migrations.apply_missing(connection)


def _write_ahead(file: Path) -> None:
    """Switch a new file to a log written ahead: a reader then never waits, nor a writer for readers."""
    deadline = time.monotonic() + WAIT
    while True:  # SQLite does not wait here by itself when two programs make the same file at once
        with contextlib.closing(sqlite3.connect(file, timeout=WAIT)) as connection:
            try:
                connection.execute("PRAGMA journal_mode = WAL")
                return
            except sqlite3.OperationalError as error:
                if "locked" not in str(error) or time.monotonic() > deadline:
                    raise
        time.sleep(0.02)


@contextlib.contextmanager
def _told(file: Path) -> Generator[None]:
    """Turn what SQLite or the disk says into one sentence."""
    try:
        yield
    except (DBAPIError, sqlite3.Error, OSError) as error:
        cause = error.orig if isinstance(error, DBAPIError) else error
        kind, limit, fix = _trouble(str(cause))
        raise kind(field="store", value=shortened(file), limit=limit, fix=fix) from error


_COPY = f"or copy its folder elsewhere and name the copy in {SETTING}"
_TROUBLES = (
    (("locked", "busy"), StoreTrouble, "is locked by another program", f"close that and try again, {_COPY}"),
    (("full", "No space", "quota", "disk I/O", "too large"), CannotWrite,
     "cannot be written: the disk is full or fails", f"make room, {_COPY}"),
    (("readonly", "read-only", "Read-only", "Permission", "unable to open"), CannotWrite,
     "cannot be opened for writing", f"check the rights of its folder, {_COPY}"),
    (("malformed", "not a database", "encrypted"), StoreTrouble, "is damaged, or is no store",
     "restore a backup into another place"),
)  # fmt: skip
"""What is looked for in the words of SQLite and of the system, and what we say."""


def _trouble(said: str) -> tuple[type[StoreTrouble], str, str]:
    for words, kind, limit, fix in _TROUBLES:
        if any(word in said for word in words):
            return kind, limit, fix
    return StoreTrouble, f"says: {shortened(said, 120)}", f"check it, {_COPY}"
