"""Turns: who asks for much does not keep those waiting who ask for little."""

import threading

import pytest

from toptank.interfaces import turns
from toptank.interfaces.turns import MOST_WAITING, Busy, Turns


def _held(lane: Turns, asker: str, go: threading.Event) -> None:
    """Keep the lane busy, from now on, until it may go."""
    begun = threading.Event()

    def hold() -> None:
        begun.set()
        go.wait(20)

    lane.submit(asker, hold)
    assert begun.wait(20)


def test_each_asker_is_served_in_turn() -> None:
    lane, go, served = Turns(1, "test"), threading.Event(), list[str]()
    _held(lane, "greedy", go)
    asked = [("greedy", f"greedy {n}") for n in range(3)] + [("patient", "patient 0"), ("late", "late 0")]
    waiting = [lane.submit(asker, lambda one=one: served.append(one)) for asker, one in asked]
    go.set()
    for one in waiting:
        one.result(10)
    assert served == ["greedy 0", "patient 0", "late 0", "greedy 1", "greedy 2"]


def test_what_is_cancelled_while_it_waits_is_never_begun() -> None:
    lane, go, served = Turns(1, "test"), threading.Event(), list[int]()
    _held(lane, "a", go)
    first, second = (lane.submit("a", lambda n=n: served.append(n)) for n in range(2))
    assert first.cancel()
    go.set()
    second.result(10)
    assert served == [1]


def test_an_error_reaches_who_asked_and_nobody_else() -> None:
    lane = Turns(1, "test")

    def fails() -> int:
        raise ValueError("no")

    with pytest.raises(ValueError, match="no"):
        lane.answer("a", fails)
    assert lane.answer("a", lambda: 2) == 2


def test_an_asker_with_too_much_waiting_is_refused_and_others_are_not(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(turns, "PATIENCE", 0.05)
    lane, go = Turns(1, "test"), threading.Event()
    _held(lane, "a", go)
    waiting = [lane.submit("a", lambda: None) for _ in range(MOST_WAITING)]
    with pytest.raises(Busy, match="wait"):
        lane.submit("a", lambda: None)
    other = lane.submit("b", lambda: 7)
    with pytest.raises(Busy, match="again in a minute"):
        lane.answer("b", lambda: 8)  # no turn in time: it is told, not kept hanging
    go.set()
    assert other.result(10) == 7
    for one in waiting:
        one.result(10)
