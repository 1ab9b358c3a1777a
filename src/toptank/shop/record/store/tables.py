"""The tables as queries see them; `migrations` makes them."""

from sqlalchemy import Column, Integer, MetaData, Table, Text

_METADATA = MetaData()

APPLIED = Table("applied_migration", _METADATA, Column("number", Integer), Column("name", Text), Column("at", Text))

JOB = Table("job", _METADATA, Column("number", Integer, primary_key=True), Column("opened", Text))

REVISION = Table(
    "revision",
    _METADATA,
    Column("job", Integer, primary_key=True),
    Column("number", Integer, primary_key=True),
    Column("parent", Integer),
    Column("at", Text),
    Column("author", Text),
    Column("note", Text),
    Column("title", Text),
    Column("complaint", Text),
    Column("state", Text),
    Column("checksum", Text),
    Column("text", Text),
    Column("sitting", Text),
    Column("change", Text),
)

COUNTER = Table(
    "counter",
    _METADATA,
    Column("job", Integer, primary_key=True),
    Column("revision", Integer, primary_key=True),
    Column("customer", Text),
    Column("registration", Text),
    Column("vehicle", Text),
    Column("promised", Text),
    Column("waiting_for", Text),
    Column("words", Text),
)
"""What a revision says of who came with what, so that lists and the search need not read its text."""

NOTE = Table(
    "note",
    _METADATA,
    Column("number", Integer, primary_key=True),
    Column("job", Integer),
    Column("at", Text),
    Column("author", Text),
    Column("text", Text),
    Column("kind", Text),
    Column("subject", Text),
)

ATTACHMENT = Table(
    "attachment",
    _METADATA,
    Column("number", Integer, primary_key=True),
    Column("job", Integer),
    Column("checksum", Text),
    Column("name", Text),
    Column("size", Integer),
    Column("at", Text),
)

ANSWER = Table(
    "answer",
    _METADATA,
    Column("number", Integer, primary_key=True),
    Column("job", Integer),
    Column("revision", Integer),
    Column("kind", Text),
    Column("seed", Integer),
    Column("draws", Integer),
    Column("equations_version", Text),
    Column("at", Text),
    Column("answer", Text),
)
