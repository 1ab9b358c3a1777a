"""Answers that are kept: the one place where they lie, bounded in bytes, the least lately used given up first.

The same answer is never worked out twice at a time; who waits for another's work may stop waiting.
"""

from __future__ import annotations

import dataclasses
import sys
import threading
from collections import OrderedDict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeVar, cast

from toptank.shop.cache.memory import give_back
from toptank.units.cancellation import CancelCheck, never_cancelled

T = TypeVar("T")

MOST_BYTES = 192 * 1024**2
"""What all kept answers may weigh together [byte]; a choice with its diagnosis weighs some 45 MB."""

LOOKS_EVERY = 0.25
"""How often who waits for another's work looks whether he still wants it [s]."""


@dataclass(slots=True)
class _Working:
    """Work on one answer: its lock, and how many hold it or wait for it."""

    lock: threading.Lock = field(default_factory=threading.Lock)
    wanted: int = 0


@dataclass(slots=True)
class Kept:
    """Answers by what they rest on.

    Parameters
    ----------
    most : what they may weigh together [byte]; the last one stays, whatever it weighs
    """

    most: int = MOST_BYTES
    bytes_kept: int = 0
    _answers: OrderedDict[str, tuple[Any, int]] = field(default_factory=OrderedDict[str, tuple[Any, int]])
    _working: dict[str, _Working] = field(default_factory=dict[str, _Working])
    _own: threading.Lock = field(default_factory=threading.Lock)

    def there(self, key: str) -> Any:
        """Return an answer if it is at hand."""
        with self._own:
            if key not in self._answers:
                return None
            self._answers.move_to_end(key)
            return self._answers[key][0]

    def put(self, key: str, answer: object) -> None:
        """Keep an answer, in place of an earlier one; give up others where they weigh too much together."""
        weight = weight_of(answer)
        with self._own:
            self.bytes_kept += weight - self._answers.pop(key, (None, 0))[1]
            self._answers[key] = (answer, weight)
            while self.bytes_kept > self.most and len(self._answers) > 1:
                self.bytes_kept -= self._answers.popitem(last=False)[1][1]

    def found(self, key: str, work: Callable[[], T], go_on: CancelCheck = never_cancelled) -> T:
        """Return the answer, worked out if need be; nothing is left behind where the work fails or is stopped."""
        with self._own:
            working = self._working.setdefault(key, _Working())
            working.wanted += 1
        try:
            while not working.lock.acquire(timeout=LOOKS_EVERY):
                go_on()
            try:
                answer = self.there(key)
                if answer is None:
                    answer = work()
                    self.put(key, answer)
                    give_back()
                return answer
            finally:
                working.lock.release()
        finally:
            with self._own:
                working.wanted -= 1
                if working.wanted == 0:
                    self._working.pop(key, None)


KEPT = Kept()
"""What this process keeps."""


def weight_of(answer: object) -> int:
    """Bytes of an answer and of everything that it leads to, each thing once; classes and functions are not its."""
    seen: set[int] = set()
    total, waiting = 0, [answer]
    while waiting:
        one = waiting.pop()
        if id(one) in seen or isinstance(one, type) or callable(one):
            continue
        seen.add(id(one))
        total += sys.getsizeof(one, 0) + _array_bytes(one)
        waiting += _inside(one)
    return total


def _array_bytes(one: object) -> int:
    """Bytes of an array that its object does not count: of a view, of a compiler's array."""
    whole = getattr(one, "nbytes", 0)
    return max(int(whole) - sys.getsizeof(one, 0), 0) if isinstance(whole, int) else 0


def _inside(one: object) -> Iterable[object]:
    if isinstance(one, Mapping):
        table = cast("Mapping[object, object]", one)
        return (*table.keys(), *table.values())
    if isinstance(one, list | tuple | set | frozenset):
        return tuple(cast("Iterable[object]", one))
    if dataclasses.is_dataclass(one):
        return tuple(getattr(one, each.name) for each in dataclasses.fields(one))
    return ()
