"""Work that is stopped ends at its next step and keeps nothing; who wanted the same answer still gets it."""

import dataclasses
import threading

import pytest

from toptank.shop.answers.answers import Diagnosed
from toptank.shop.ask import service
from toptank.shop.ask.choice import choose
from toptank.shop.cache import answer_cache
from toptank.units.cancellation import Cancelled


class _Patience:
    """Somebody who waits for a number of steps; they are counted."""

    def __init__(self, most: int = 1_000_000) -> None:
        self.most, self.steps = most, 0

    def go_on(self) -> None:
        self.steps += 1
        if self.steps > self.most:
            raise Cancelled


@pytest.fixture(scope="module")
def diagnosed() -> Diagnosed:
    """Three ask for one diagnosis: the first is stopped in the midst of it, the second while it waits for the first."""
    job = dataclasses.replace(service.demo_job(), duties=tuple(reversed(service.demo_job().duties)))  # nobody's yet
    begun, given_up = threading.Event(), threading.Event()
    ended: list[str] = []

    def held() -> None:
        begun.set()
        given_up.wait(60)
        raise Cancelled

    def first() -> None:
        with pytest.raises(Cancelled):
            answer_cache.diagnosed(job, held)
        ended.append("stopped")

    def second() -> None:
        with pytest.raises(Cancelled):
            answer_cache.diagnosed(job, _Patience(2).go_on)
        ended.append("gave up")
        given_up.set()

    threads = [threading.Thread(target=first), threading.Thread(target=second)]
    threads[0].start()
    assert begun.wait(60)
    threads[1].start()
    third = _Patience()
    answer = answer_cache.diagnosed(job, third.go_on)
    for thread in threads:
        thread.join(60)
    assert sorted(ended) == ["gave up", "stopped"]
    assert third.steps >= 4  # two rounds at least, and the parts of the answer
    return answer


def test_who_waits_for_an_answer_gets_it_though_others_were_stopped(diagnosed: Diagnosed) -> None:
    assert diagnosed.diagnosis.suspects


def test_a_choice_ends_at_the_step_at_which_it_was_stopped(diagnosed: Diagnosed) -> None:
    whole = _Patience()
    choose.choose(diagnosed.job, diagnosed=diagnosed, draws=200, go_on=whole.go_on)
    assert whole.steps >= 4
    for most in (0, whole.steps - 1):
        patience = _Patience(most)
        with pytest.raises(Cancelled):
            choose.choose(diagnosed.job, diagnosed=diagnosed, draws=200, go_on=patience.go_on)
        assert patience.steps == most + 1
