"""Which row is which: a row of a list keeps one name from the revision that brought it until it is taken out.

Places shift when somebody takes a row out; a name does not. Names are not written into the document: they follow from
the revisions, which never change.
"""

from __future__ import annotations

import json
import threading
from collections.abc import Mapping
from dataclasses import dataclass, field
from difflib import SequenceMatcher
from typing import cast

from toptank.shop.edit.edit_document import LISTS
from toptank.shop.files.toml_file import shortened
from toptank.shop.job.former_format import upgraded
from toptank.shop.record.store import document
from toptank.shop.record.store import jobs_and_revisions as kept
from toptank.shop.record.store.kinds import revision_gone_back_to, row_taken_out
from toptank.shop.record.store.opening import Store, opened
from toptank.shop.record.store.record import Revision
from toptank.units.refusal import Refusal

Names = Mapping[str, tuple[str, ...]]
"""The names of the rows of each list, in the order of the document."""

_Row = dict[str, object]
_MOST_JOBS = 64
_known: dict[tuple[str, int], _Named] = {}
_lock = threading.Lock()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Named:
    """A revision with its rows and their names; number 0 is before the first."""

    number: int = 0
    checksum: str = ""
    units: object = None
    rows: dict[str, list[_Row]] = field(default_factory=dict[str, list[_Row]])
    names: dict[str, tuple[str, ...]] = field(default_factory=dict[str, tuple[str, ...]])


def names_of(shown: Revision) -> Names:
    """Return the names of the rows of a stored revision."""
    with opened() as store:
        return names_in(store, shown)


def names_in(store: Store, shown: Revision) -> Names:
    """Return the names of the rows of a revision of an opened store."""
    place = (str(store.file), shown.job)
    with _lock:
        known = _known.get(place, _Named())
    if (known.number, known.checksum) == (shown.number, shown.checksum):
        return known.names
    if known.number > shown.number or (
        known.number and kept.revision(store, shown.job, known.number).checksum != known.checksum
    ):
        known = _Named()  # an earlier revision is asked for, or another store lies there now
    for one in kept.between(store, shown.job, known.number, shown.number):
        known = _next(known, one)
    with _lock:
        _known[place] = known
        while len(_known) > _MOST_JOBS:
            _known.pop(next(iter(_known)))
    return known.names


def place_of(store: Store, newest: Revision, key: str, row: str) -> int:
    """Return where a row stands in a revision.

    Raises
    ------
    Refusal : if it is not there any more
    """
    names = names_in(store, newest).get(key, ())
    if row not in names:
        fix = "look at the page again, and write it where it belongs now"
        raise Refusal(field=shortened(key), value="(a row)", limit="was taken out by somebody meanwhile", fix=fix)
    return names.index(row)


def _next(before: _Named, one: Revision) -> _Named:
    """Carry the names on to the next revision."""
    tables = document.parsed(upgraded(one.text))  # a format brought along renames no row
    units = tables.get("units", "us")
    taken = row_taken_out(one.change)
    rows: dict[str, list[_Row]] = {}
    names: dict[str, tuple[str, ...]] = {}
    for key in LISTS:
        found = tables.get(key)
        now = cast("list[_Row]", found) if isinstance(found, list) else []
        was, old = before.rows.get(key, []), before.names.get(key, ())
        gone = taken[1] if taken and taken[0] == key else None
        carried = _carried(was, now, other_units=units != before.units, gone=gone)
        if revision_gone_back_to(one.change) is not None and len(was) == len(
            now
        ):  # several fields of a row come back at once
            carried = [
                place if whence is None and place not in carried else whence for place, whence in enumerate(carried)
            ]
        born = f"{one.number}-{one.checksum[:8]}"
        rows[key] = now
        names[key] = tuple(f"{born}-{place}" if whence is None else old[whence] for place, whence in enumerate(carried))
    return _Named(number=one.number, checksum=one.checksum, units=units, rows=rows, names=names)


def _carried(was: list[_Row], now: list[_Row], *, other_units: bool, gone: int | None) -> list[int | None]:
    """Return for every row where it stood before, None for a new one.

    What came before a condition follows the name of another row, and makes no row another one.
    """
    was, now = ([{key: row[key] for key in row if key != "after"} for row in rows] for rows in (was, now))
    if gone is not None and was[:gone] + was[gone + 1 :] == now:
        return [place + (place >= gone) for place in range(len(now))]
    apart = [place for place, (one, two) in enumerate(zip(was, now, strict=False)) if one != two]
    if len(was) == len(now):
        keys = [_keys_apart(was[place], now[place]) for place in apart]
        renamed = all(one == {"duty"} for one in keys)
        if other_units or renamed or (len(apart) == 1 and len(keys[0]) == 1):
            return list(range(len(now)))
    return _aligned(was, now)


def _aligned(was: list[_Row], now: list[_Row]) -> list[int | None]:
    carried: list[int | None] = [None] * len(now)
    texts = [[json.dumps(row, sort_keys=True, default=str) for row in rows] for rows in (was, now)]
    matcher = SequenceMatcher(None, *texts, autojunk=False)
    for block in matcher.get_matching_blocks():
        for step in range(block.size):
            carried[block.b + step] = block.a + step
    return carried


def _keys_apart(one: _Row, two: _Row) -> set[str]:
    return {key for key in one.keys() | two.keys() if one.get(key) != two.get(key)}
