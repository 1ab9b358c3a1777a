"""What several commands of the record share: the telling of a sentence or a record, a revision, a kept answer."""

import dataclasses
import json
from typing import Any

from toptank.interfaces.cli.options import print_json
from toptank.interfaces.cli.screen import write


def tell(record: Any, sentence: str, as_json: bool) -> None:
    """Print a record as JSON, or the sentence."""
    if as_json:
        print_json(record)
    else:
        write(sentence)


def tell_revision(revision: Any, sentence: str, as_json: bool) -> None:
    """Print a revision without its text, or the sentence."""
    tell(revision_record(revision, whole=False), sentence, as_json)


def tell_answer(number: int, kept: Any, title: str, as_json: bool) -> None:
    """Print an answer that was kept, or that it was."""
    told = f"{kept.kind.capitalize()} of job {number} ({title}) kept as answer {kept.number}"
    made = f"revision {kept.revision}, {kept.draws:,} draws, seed {kept.seed}, equations {kept.equations_version}"
    tell({"job": number} | answer_record(kept), f"{told}: {made}.", as_json)


def revision_record(revision: Any, *, whole: bool = True) -> dict[str, Any]:
    """Return a revision as a record; without its text where it is not whole."""
    record = dataclasses.asdict(revision)
    record = {"number": record.pop("job"), "revision": record.pop("number")} | record
    if not whole:
        del record["text"]
    return record


def answer_record(kept: Any) -> dict[str, Any]:
    """Return an answer as a record, its own record inside."""
    return dataclasses.asdict(kept) | {"answer": json.loads(kept.answer)}
