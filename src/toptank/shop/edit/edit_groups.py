"""What was typed in one go: one field of one open page within a minute is one burst for whoever looks or takes back.

Every revision stays in the record as it was saved, so that no keystroke waits for the end of a burst. A burst is told
from the revisions themselves: the same sitting and field, one after the other with nothing else between them, the last
at most a minute after the first. Only a field that is typed has a sitting: a row added or taken out is
a step by itself.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from toptank.shop.record.store.record import Revision

LONGEST = timedelta(minutes=1)
"""How long a burst lasts at most, so that taking it back never takes back more than that; judgement."""

Burst = tuple[Revision, ...]
"""Its revisions, the first one first."""


def bursts(revisions: Sequence[Revision]) -> tuple[Burst, ...]:
    """Return the bursts of a history, the first one first; a revision of no sitting is one by itself."""
    found: list[list[Revision]] = []
    for one in revisions:
        if found and _goes_on(found[-1], one):
            found[-1].append(one)
        else:
            found.append([one])
    return tuple(tuple(burst) for burst in found)


def burst_of(revisions: Sequence[Revision], number: int) -> Burst:
    """Return the part up to a revision of the burst in which it was saved."""
    return bursts([one for one in revisions if one.number <= number])[-1]


def _goes_on(burst: Sequence[Revision], one: Revision) -> bool:
    first = burst[0]
    same = bool(one.sitting) and (one.sitting, one.author) == (first.sitting, first.author)
    field = one.note.partition(":")[0] == first.note.partition(":")[0]
    return same and field and datetime.fromisoformat(one.at) - datetime.fromisoformat(first.at) <= LONGEST
