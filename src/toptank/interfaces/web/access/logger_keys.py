"""Keys for loggers: each may add readings and logs to one job, and nothing else; each can be ended by itself.

A key is 128 bits that nobody guesses; of it only a hash is kept, beside the record and readable by its owner only, so
that whoever reads that file cannot send anything. The passphrase stays with the shop.
"""

from __future__ import annotations

import hashlib
import json
import secrets
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING

from toptank.interfaces.web.access.passphrase import written_privately
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from pathlib import Path

NAME, START = "logger-keys.json", "logger-"
"""Name of the file, and how every key begins."""

MAY = ("readings", "readings-after", "attachments")
"""What a logger may add to its job."""

MOST, LONGEST_NAME = 200, 60


@dataclass(frozen=True, slots=True, kw_only=True)
class LoggerKey:
    """A key as it is kept.

    Parameters
    ----------
    id : by which it is ended
    job : that it may add to
    name : what the shop calls the logger
    made : when, ISO 8601
    hashed : SHA-256 of the key
    """

    id: str
    job: int
    name: str
    made: str
    hashed: str

    def may(self, method: str, path: str) -> bool:
        """Whether a request is one for which it was made."""
        return method == "POST" and path in {f"/api/v1/jobs/{self.job}/{what}" for what in MAY}


def made(file: Path, job: int, name: str, at: str) -> tuple[str, LoggerKey]:
    """Make a key; return it, which is told once and never again, and what is kept of it.

    Raises
    ------
    Refusal : if its name cannot be shown, there are too many, or the file of keys is damaged
    """
    name = " ".join(name.split())
    if not name or len(name) > LONGEST_NAME or not name.isprintable():
        fix = 'say which logger it is, such as --name "scan tool, bay 2"'
        raise Refusal(field="name", value=name[:80] or "(missing)", limit="is needed, on one line", fix=fix)
    known = told(file)
    if len(known) >= MOST:
        limit, fix = f"holds {MOST} keys already", "end those that nobody uses: `toptank job keys` lists them"
        raise Refusal(field="keys", value=str(len(known)), limit=limit, fix=fix)
    key = START + secrets.token_urlsafe(16)
    kept = LoggerKey(id=secrets.token_hex(3), job=job, name=name, made=at, hashed=_hashed(key))
    _keep(file, (*known, kept))
    return key, kept


def ended(file: Path, id_: str) -> LoggerKey:
    """End a key: from now on nothing that is sent with it is taken.

    Raises
    ------
    Refusal : if there is none of that id, or the file of keys is damaged
    """
    known = told(file)
    found = next((one for one in known if one.id == id_), None)
    if found is None:
        raise Refusal(field="key", value=id_[:40], limit="is not there", fix="`toptank job keys` lists them")
    _keep(file, tuple(one for one in known if one is not found))
    return found


def keys(file: Path) -> tuple[LoggerKey, ...]:
    """Return every key that is kept; none where the file cannot be read: then no logger is let in."""
    try:
        return told(file)
    except Refusal:
        return ()


def told(file: Path) -> tuple[LoggerKey, ...]:
    """Return every key that is kept, to whoever lists or changes them.

    Raises
    ------
    Refusal : if the file is there and cannot be read: nothing is written over it, for its keys would end unseen
    """
    try:
        return tuple(LoggerKey(**one) for one in json.loads(file.read_text(encoding="utf-8")))
    except FileNotFoundError:
        return ()
    except (OSError, ValueError, TypeError, RecursionError) as error:
        limit = "cannot be read, so no logger is let in"
        fix = "move it away to end all keys, then make new ones"
        raise Refusal(field="keys", value=str(file), limit=limit, fix=fix) from error


def all_ended(file: Path) -> int:
    """End every key, and return how many there were: they spoke of the jobs of another record."""
    ended = len(keys(file))
    file.unlink(missing_ok=True)
    return ended


def known(file: Path, given: str) -> LoggerKey | None:
    """Return the key that was sent; None where it is none of ours."""
    hashed = _hashed(given)
    return next((one for one in keys(file) if secrets.compare_digest(one.hashed, hashed)), None)


def _hashed(key: str) -> str:
    return hashlib.sha256(key.encode("utf-8", "replace")).hexdigest()


def _keep(file: Path, known: tuple[LoggerKey, ...]) -> None:
    written_privately(file, json.dumps([asdict(one) for one in known]).encode("utf-8"))
