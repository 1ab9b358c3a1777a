"""The tables as queries see them; `migrations` makes them."""

from sqlalchemy import Column, Integer, MetaData, Table, Text

_METADATA = MetaData()


def _table(name: str, keys: str, numbers: str, texts: str) -> Table:
    """A table by the names of its columns: numbers of its primary key, other numbers, texts."""
    return Table(
        name,
        _METADATA,
        *(Column(one, Integer, primary_key=True) for one in keys.split()),
        *(Column(one, Integer) for one in numbers.split()),
        *(Column(one, Text) for one in texts.split()),
    )


APPLIED = _table("applied_migration", "", "number", "name at")
JOB = _table("job", "number", "", "opened")
REVISION = _table(
    "revision", "job number", "parent", "at author note title complaint state checksum text sitting change"
)
COUNTER = _table("counter", "job revision", "", "customer registration vehicle promised waiting_for words")
"""What a revision says of who came with what, so that lists and the search need not read its text."""

NOTE = _table("note", "number", "job", "at author text kind subject")
ATTACHMENT = _table("attachment", "number", "job size", "checksum name at")
ANSWER = _table("answer", "number", "job revision seed draws", "kind equations_version at answer")
