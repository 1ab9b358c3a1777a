"""What is kept weighs no more than it may, is never worked out twice at a time, and leaves nothing behind."""

import threading
from dataclasses import dataclass

import numpy as np
import pytest

from toptank.shop.cache.kept import Kept, weight_of
from toptank.units.cancellation import Cancelled


@dataclass(frozen=True)
class Draws:
    values: np.ndarray
    inside: dict[str, tuple[np.ndarray, ...]]


def test_an_answer_weighs_what_its_arrays_weigh_and_each_of_them_once() -> None:
    values = np.zeros(1_000_000)
    alone = weight_of(Draws(values=values, inside={}))
    assert 8_000_000 <= alone < 8_010_000
    assert weight_of(Draws(values=values, inside={"again": (values, values)})) < alone + 1000
    assert weight_of(Draws(values=values, inside={"more": (np.zeros(500_000),)})) == pytest.approx(12_000_000, rel=0.01)


def test_the_least_lately_used_is_given_up_where_all_weigh_too_much() -> None:
    kept = Kept(most=20_000_000)
    for name in ("first", "second"):
        kept.put(name, np.zeros(1_000_000))
    assert kept.there("first") is not None
    kept.put("third", np.zeros(1_000_000))
    assert kept.there("second") is None
    assert kept.there("first") is not None
    assert kept.there("third") is not None
    assert kept.bytes_kept <= 20_000_000


def test_one_that_weighs_more_than_all_may_is_still_at_hand_until_the_next() -> None:
    kept = Kept(most=1000)
    kept.put("large", np.zeros(1_000_000))
    assert kept.there("large") is not None
    kept.put("next", "small")
    assert kept.there("large") is None
    assert kept.bytes_kept <= 1000


def test_a_kept_answer_that_is_put_anew_is_weighed_once() -> None:
    kept = Kept()
    for _ in range(3):
        kept.put("same", np.zeros(1_000_000))
    assert kept.bytes_kept == pytest.approx(8_000_000, rel=0.01)


def test_work_that_fails_leaves_no_lock_behind_and_the_next_may_try() -> None:
    kept = Kept()

    def fails() -> str:
        raise ValueError("no figure")

    for _ in range(2):
        with pytest.raises(ValueError, match="no figure"):
            kept.found("asked", fails)
    assert kept._working == {}
    assert kept.found("asked", lambda: "answer") == "answer"
    assert kept._working == {}


def test_two_who_ask_at_once_get_one_piece_of_work_and_who_waits_may_leave() -> None:
    kept, begun, end, times = Kept(), threading.Event(), threading.Event(), list[int]()

    def slow() -> str:
        times.append(1)
        begun.set()
        assert end.wait(60.0)
        return "answer"

    def leaves() -> None:
        raise Cancelled

    first = threading.Thread(target=lambda: kept.found("asked", slow))
    first.start()
    assert begun.wait(60.0)
    with pytest.raises(Cancelled):
        kept.found("asked", slow, leaves)
    end.set()
    first.join(60.0)
    assert kept.found("asked", slow) == "answer"
    assert times == [1]
    assert kept._working == {}
