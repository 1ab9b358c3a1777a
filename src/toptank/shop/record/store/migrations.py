"""How a store came to be what it is: numbered steps, each applied once. A step that was released is never changed."""

from collections.abc import Callable
from datetime import UTC, datetime
from typing import NamedTuple

from sqlalchemy import Connection, func, insert, select

from toptank.shop.record.store.counter import former_counter
from toptank.shop.record.store.kinds import former_change, former_note
from toptank.shop.record.store.record import StoreTrouble
from toptank.shop.record.store.tables import APPLIED

_JOBS_AND_REVISIONS = (
    "CREATE TABLE job (number INTEGER PRIMARY KEY AUTOINCREMENT, opened TEXT NOT NULL) STRICT",
    """
    CREATE TABLE revision (
        job INTEGER NOT NULL REFERENCES job (number),
        number INTEGER NOT NULL CHECK (number >= 1),
        parent INTEGER,
        at TEXT NOT NULL,
        author TEXT NOT NULL,
        note TEXT NOT NULL,
        title TEXT NOT NULL,
        complaint TEXT NOT NULL,
        state TEXT NOT NULL CHECK (state IN ('open', 'closed')),
        checksum TEXT NOT NULL CHECK (length(checksum) = 64),
        text TEXT NOT NULL,
        PRIMARY KEY (job, number),
        FOREIGN KEY (job, parent) REFERENCES revision (job, number)
    ) STRICT
    """,
    """
    CREATE TABLE note (
        number INTEGER PRIMARY KEY AUTOINCREMENT,
        job INTEGER NOT NULL REFERENCES job (number),
        at TEXT NOT NULL,
        author TEXT NOT NULL,
        text TEXT NOT NULL
    ) STRICT
    """,
    "CREATE INDEX note_of_job ON note (job)",
)

_ATTACHMENTS_AND_ANSWERS = (
    """
    CREATE TABLE attachment (
        number INTEGER PRIMARY KEY AUTOINCREMENT,
        job INTEGER NOT NULL REFERENCES job (number),
        checksum TEXT NOT NULL CHECK (length(checksum) = 64),
        name TEXT NOT NULL,
        size INTEGER NOT NULL,
        at TEXT NOT NULL,
        UNIQUE (job, checksum)
    ) STRICT
    """,
    """
    CREATE TABLE answer (
        number INTEGER PRIMARY KEY AUTOINCREMENT,
        job INTEGER NOT NULL,
        revision INTEGER NOT NULL,
        kind TEXT NOT NULL CHECK (kind IN ('forecast', 'diagnosis')),
        seed INTEGER NOT NULL,
        draws INTEGER NOT NULL,
        equations_version TEXT NOT NULL,
        at TEXT NOT NULL,
        answer TEXT NOT NULL,
        FOREIGN KEY (job, revision) REFERENCES revision (job, number)
    ) STRICT
    """,
    "CREATE INDEX answer_of_job ON answer (job)",
)

_KEPT = ("job", "revision", "note", "attachment", "answer")


def _statements(statements: tuple[str, ...]) -> Callable[[Connection], None]:
    def apply(connection: Connection) -> None:
        for statement in statements:
            connection.exec_driver_sql(statement)

    return apply


def _nothing_is_overwritten(connection: Connection) -> None:
    """Let the file itself refuse to change or to forget what it holds, whoever asks."""
    for table in _KEPT:
        _never_changed(connection, table)


def _never_changed(connection: Connection, table: str) -> None:
    for what in ("UPDATE", "DELETE"):
        connection.exec_driver_sql(_no(what, table))


def _no(what: str, table: str) -> str:
    return (
        f"CREATE TRIGGER no_{what.lower()}_of_{table} BEFORE {what} ON {table} "
        f"BEGIN SELECT RAISE(ABORT, 'a {table} is never changed or taken out'); END"
    )


def _answers_may_be(*kinds: str) -> Callable[[Connection], None]:
    """Let answers be of these kinds: SQLite changes no rule of a table but by making it anew."""

    def apply(connection: Connection) -> None:
        named = ", ".join(f"'{kind}'" for kind in kinds)
        _statements(tuple(one.format(kinds=named) for one in _ANSWER_ANEW))(connection)
        _never_changed(connection, "answer")

    return apply


_ANSWER_ANEW = (
    """
    CREATE TABLE answer_anew (
        number INTEGER PRIMARY KEY AUTOINCREMENT,
        job INTEGER NOT NULL,
        revision INTEGER NOT NULL,
        kind TEXT NOT NULL CHECK (kind IN ({kinds})),
        seed INTEGER NOT NULL,
        draws INTEGER NOT NULL,
        equations_version TEXT NOT NULL,
        at TEXT NOT NULL,
        answer TEXT NOT NULL,
        FOREIGN KEY (job, revision) REFERENCES revision (job, number)
    ) STRICT
    """,
    "INSERT INTO answer_anew SELECT * FROM answer",
    "DROP TABLE answer",  # its index and its triggers go with it; dropping fires none of them
    "ALTER TABLE answer_anew RENAME TO answer",
    "CREATE INDEX answer_of_job ON answer (job)",
)


_SITTINGS = ("ALTER TABLE revision ADD COLUMN sitting TEXT NOT NULL DEFAULT ''",)


_WHAT_IT_IS_ABOUT = (
    "ALTER TABLE note ADD COLUMN kind TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE note ADD COLUMN subject TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE revision ADD COLUMN change TEXT NOT NULL DEFAULT ''",
)


def _what_notes_are_about(connection: Connection) -> None:
    """Keep beside its words what a note of the program is about; not a sign of what was written changes."""
    _statements(_WHAT_IT_IS_ABOUT)(connection)
    for table in ("note", "revision"):
        connection.exec_driver_sql(f"DROP TRIGGER IF EXISTS no_update_of_{table}")
    for number, text in connection.exec_driver_sql("SELECT number, text FROM note").all():
        about = former_note(text)
        if about.kind:
            connection.exec_driver_sql("UPDATE note SET kind = ?, subject = ? WHERE number = ?", (*about, number))
    for job, number, note in connection.exec_driver_sql("SELECT job, number, note FROM revision").all():
        if change := former_change(note):
            row = (change, job, number)
            connection.exec_driver_sql("UPDATE revision SET change = ? WHERE job = ? AND number = ?", row)
    for table in ("note", "revision"):
        connection.exec_driver_sql(_no("UPDATE", table))


_COUNTER = """
    CREATE TABLE counter (
        job INTEGER NOT NULL,
        revision INTEGER NOT NULL,
        customer TEXT NOT NULL,
        registration TEXT NOT NULL,
        vehicle TEXT NOT NULL,
        promised TEXT NOT NULL,
        waiting_for TEXT NOT NULL,
        words TEXT NOT NULL,
        PRIMARY KEY (job, revision),
        FOREIGN KEY (job, revision) REFERENCES revision (job, number)
    ) STRICT
    """

_NEWEST = "SELECT job, max(number), text FROM revision GROUP BY job"


def _who_came_with_what(connection: Connection) -> None:
    """Have lists know who came with what: of each job its newest revision, as lists show no other."""
    connection.exec_driver_sql(_COUNTER)
    _never_changed(connection, "counter")
    for job, revision, text in connection.exec_driver_sql(_NEWEST).all():
        row = (job, revision, *former_counter(text))
        connection.exec_driver_sql(f"INSERT INTO counter VALUES ({', '.join('?' * len(row))})", row)


class Migration(NamedTuple):
    """One step from a store to the next version of it."""

    number: int
    name: str
    apply: Callable[[Connection], None]


MIGRATIONS = (
    Migration(1, "jobs, revisions and notes", _statements(_JOBS_AND_REVISIONS)),
    Migration(2, "attachments and answers", _statements(_ATTACHMENTS_AND_ANSWERS)),
    Migration(3, "nothing is overwritten", _nothing_is_overwritten),
    Migration(4, "verdicts are kept", _answers_may_be("forecast", "diagnosis", "verdict")),
    Migration(5, "what logs say is kept", _answers_may_be("forecast", "diagnosis", "verdict", "log")),
    Migration(6, "a revision says at which sitting it was saved", _statements(_SITTINGS)),
    Migration(7, "choices are kept", _answers_may_be("forecast", "diagnosis", "choice", "verdict", "log")),
    Migration(8, "notes and changes say what they are about", _what_notes_are_about),
    Migration(9, "lists know who came with what", _who_came_with_what),
)
NEWEST = MIGRATIONS[-1].number


def version(connection: Connection) -> int:
    """Return the number of the last step that was applied; 0 for an empty file.

    Raises
    ------
    StoreTrouble : if the file holds something else
    """
    tables = set(connection.exec_driver_sql("SELECT name FROM sqlite_master WHERE type = 'table'").scalars())
    if APPLIED.name in tables:
        return connection.execute(select(func.coalesce(func.max(APPLIED.c.number), 0))).scalar_one()
    if tables:
        fix = "name another file in TOPTANK_STORE"
        raise StoreTrouble(field="store", value=", ".join(sorted(tables)[:3]), limit="are tables of others", fix=fix)
    return 0


def apply_missing(connection: Connection, *, upto: int = NEWEST) -> None:
    """Apply every step that is missing. The caller holds the write lock, and commits all of it or nothing."""
    reached = version(connection)
    if reached == 0:
        connection.exec_driver_sql(
            "CREATE TABLE IF NOT EXISTS applied_migration "
            "(number INTEGER PRIMARY KEY, name TEXT NOT NULL, at TEXT NOT NULL) STRICT"
        )
    for step in MIGRATIONS:
        if reached < step.number <= upto:
            step.apply(connection)
            at = datetime.now(UTC).isoformat(timespec="seconds")
            connection.execute(insert(APPLIED).values(number=step.number, name=step.name, at=at))
