"""A job file of a former format brought along: what the catalogue holds gets its id, all else stays as it was written.

Files of every format are read as they are; this is for what is written again.
"""

from __future__ import annotations

from typing import Any

import tomlkit

from toptank.catalogue.words.aliases import Kind, id_of, outcome_of
from toptank.shop.job.job_file import FORMAT, FORMER

_MARK = "\ufeff"


def upgraded(text: str) -> str:
    """Return a job file in the format of today, to the last comment; one that is so already, unchanged.

    A word that names nothing in the catalogue stays: whoever reads the file refuses it in his own words.
    """
    document: Any = tomlkit.parse(text.removeprefix(_MARK))
    if document.get("format") not in FORMER:
        return text
    document["format"] = FORMAT
    for check in document.get("check", []):
        _check(check)
    for changed in document.get("changed", []):
        _one(changed, "part", "work")
    for offer in document.get("offer", []):
        _one(offer, "remedy", "remedy")
    for key in ("after_work", "doubtful", "renewed"):
        _list(document.get("history", {}), key, "work")
    for key in ("causes", "contributing"):
        _list(document.get("confirmed", {}), key, "cause")
    return (_MARK if text.startswith(_MARK) else "") + tomlkit.dumps(document)


def _check(row: Any) -> None:
    written, outcome = row.get("name"), row.get("outcome")
    check = id_of("check", written) if isinstance(written, str) else None
    if check is None:
        return
    row["name"] = check
    seen = outcome_of(check, outcome) if isinstance(outcome, str) else None
    if seen is not None:
        row["outcome"] = seen


def _one(row: Any, key: str, kind: Kind) -> None:
    written = row.get(key)
    meant = id_of(kind, written) if isinstance(written, str) else None
    if meant is not None:
        row[key] = meant


def _list(table: Any, key: str, kind: Kind) -> None:
    for place, written in enumerate(table.get(key, [])):
        meant = id_of(kind, written) if isinstance(written, str) else None
        if meant is not None:
            table[key][place] = meant
