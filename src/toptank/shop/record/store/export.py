"""A job as a file to carry away: its document as it is written, and above it, in comments, where it comes from.

    # toptank record 1: job 7, revision 3, checksum 0123456789ab, 1 note
    # toptank note: {"at": "...", "author": "...", "text": "..."}

The first line says from which revision the file was made, so that a save can tell whether somebody saved meanwhile.
"""

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import get_args

from toptank.shop.files.toml_file import LARGEST, MARK
from toptank.shop.record.store.document import parsed, read_text
from toptank.shop.record.store.kinds import About, Kind, former_note
from toptank.shop.record.store.record import Note, Revision
from toptank.shop.record.store.words import printable
from toptank.units.refusal import Refusal

_FIRST = re.compile(
    r"# toptank record 1: job (\d{1,18}), revision (\d{1,18}), checksum ([0-9a-f]{12}), (\d{1,6}) notes?\r?\n"
)
_NOTE = re.compile(r"# toptank note: (\{.*\})\r?\n")

_LARGEST_WITH_NOTES = 64 * 1024**2


@dataclass(frozen=True, slots=True, kw_only=True)
class CarriedAway:
    """A file that was read back: the document, and where it came from if it says so."""

    text: str
    notes: tuple[Note, ...] = ()
    job: int | None = None
    revision: int | None = None
    checksum: str = ""


def written_out(revision: Revision, notes: Sequence[Note]) -> str:
    """Return a revision as the text of a file."""
    count = f"{len(notes)} note{'' if len(notes) == 1 else 's'}"
    whence = f"job {revision.job}, revision {revision.number}, checksum {revision.checksum[:12]}, {count}"
    head = [f"# toptank record 1: {whence}"]
    # escaped to ASCII, so that no sign of a note can end the comment
    head += [f"# toptank note: {json.dumps(_line(one))}" for one in notes]
    mark = MARK if revision.text.startswith(MARK) else ""
    return mark + "".join(f"{line}\n" for line in head) + revision.text.removeprefix(mark)


def _line(note: Note) -> dict[str, str]:
    """Return a note as it is carried; of somebody's own words there is nothing more to say."""
    line = {"at": note.at, "author": note.author, "text": note.text}
    return line | {"kind": note.kind, "subject": note.subject} if note.kind else line


def read_carried(path: Path) -> CarriedAway:
    """Read a job file, and what stands above it if it was written out here; many notes may make that long.

    Raises
    ------
    Refusal : in one sentence, if it is no job file
    """
    if not path.is_file() or not LARGEST < path.stat().st_size <= _LARGEST_WITH_NOTES:
        return read_back(read_text(path))
    try:
        carried = read_back(path.read_bytes().decode("utf-8"))
        if carried.job is not None:
            parsed(carried.text)
            return carried
    except Refusal:
        raise
    except (OSError, ValueError, RecursionError):
        pass  # the usual way of reading tells why
    return read_back(read_text(path))


def read_back(text: str) -> CarriedAway:
    """Take a file apart again; one that was never written out is all document.

    Raises
    ------
    Refusal : if the comments above were spoilt
    """
    mark = MARK if text.startswith(MARK) else ""
    first = _FIRST.match(text, len(mark))
    if first is None:
        return CarriedAway(text=text)
    notes: list[Note] = []
    end = first.end()
    for number in range(int(first[4])):
        line = _NOTE.match(text, end)
        if line is None:
            raise _spoilt(f"note {number + 1} of {first[4]}")
        notes.append(_note(line[1]))
        end = line.end()
    return CarriedAway(
        text=mark + text[end:], notes=tuple(notes), job=int(first[1]), revision=int(first[2]), checksum=first[3]
    )


def _note(line: str) -> Note:
    try:
        found = json.loads(line)
    except (ValueError, RecursionError):
        raise _spoilt("a note") from None
    parts = [found.get(key) for key in ("at", "author", "text")]
    if not all(isinstance(part, str) and printable(part) for part in parts):
        raise _spoilt("a note")
    kind, subject = found.get("kind", ""), found.get("subject", "")
    about = About(kind, subject) if kind in get_args(Kind) and isinstance(subject, str) else About()
    about = about if about.kind else former_note(parts[2])
    return Note(at=parts[0], author=parts[1], text=parts[2], kind=about.kind, subject=about.subject)


def _spoilt(what: str) -> Refusal:
    limit, fix = "cannot be read in the comments above the job", "export it again, or delete those comments"
    return Refusal(field="file", value=what, limit=limit, fix=fix)
