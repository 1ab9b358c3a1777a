"""What is seen of a fault never undoes what was heard of it, and what nobody has seen is made sure first.

Common practice, no source: a belt that squeals and is seen to slip is the belt; no head is lifted for words alone.
"""

import dataclasses
from collections.abc import Callable, Sequence

import pytest

from toptank.catalogue.causes.all_causes import CAUSE_IDS
from toptank.studies.diagnose.asking.next_check import suggest
from toptank.studies.diagnose.diagnosis import flags
from toptank.studies.diagnose.evidence import Changed, Finding, Told
from toptank.studies.diagnose.posterior import PosteriorSample, Question, infer_posterior

Asked = Callable[..., Question]

SIX = "compact-1960s-six"
SLIPS = Finding(check="turn_pulley_by_hand", outcome="slips")


def _asked(asked: Asked, heard: Sequence[str], *seen: Finding, like: str = SIX) -> Question:
    question = asked(findings=seen, like=like)
    symptoms = tuple(Told(symptom=one) for one in heard)
    return dataclasses.replace(question, evidence=dataclasses.replace(question.evidence, symptoms=symptoms))


def _chance(weighed: PosteriorSample, cause: str) -> float:
    return float(weighed.weight @ flags(weighed)[:, CAUSE_IDS.index(cause)])


@pytest.mark.parametrize("heard", [("belt_squeals",), ("belt_squeals", "creeps_up")])
def test_a_belt_that_is_heard_and_seen_slipping_is_likelier_than_either_alone(
    heard: tuple[str, ...], asked: Asked
) -> None:
    heard_alone, seen_alone, both = (
        _chance(infer_posterior(question, 1), "belt_slips")
        for question in (_asked(asked, heard), _asked(asked, (), SLIPS), _asked(asked, heard, SLIPS))
    )
    assert both > max(heard_alone, seen_alone)
    assert both > 0.85


def test_what_an_outcome_is_announced_to_mean_is_what_it_means(asked: Asked) -> None:
    """Within what other draws may move."""
    before = _asked(asked, ("belt_squeals",))
    suggestions, _ = suggest(before, infer_posterior(before, 1), 1)
    (slips,) = (
        outcome
        for one in suggestions
        for outcome in one.outcomes
        if (one.check, outcome.seen) == (SLIPS.check, SLIPS.outcome)
    )
    after = infer_posterior(_asked(asked, ("belt_squeals",), SLIPS), 1)
    assert dict(slips.causes)["belt_slips"] == pytest.approx(_chance(after, "belt_slips"), abs=0.06)


def test_no_head_is_lifted_for_words_alone(asked: Asked) -> None:
    told = _asked(asked, ("bubbles", "white_smoke", "uses_coolant"))
    weighed = infer_posterior(told, 1)
    assert _chance(weighed, "head_gasket_leaks") > 0.7
    suggestions, settled = suggest(told, weighed, 1)
    assert not settled
    assert suggestions[0].check == "combustion_leak_test"
    proven = Finding(check="combustion_leak_test", outcome="turns_yellow")
    seen = _asked(asked, ("bubbles", "white_smoke", "uses_coolant"), proven)
    assert suggest(seen, infer_posterior(seen, 1), 1)[1]


def test_a_new_sender_in_vain_leaves_what_was_found_of_the_gauge(asked: Asked) -> None:
    """A needle in the red with the key just on: after a new sender it is the gauge or its wire, and found all the same.

    Where both were changed, what was found before is put right as far as may be.
    """
    found = Finding(check="gauge_at_key_on", outcome="reads_high")
    sender, gauge = (Changed(part=part, effect="none") for part in ("sender", "gauge"))
    chance = {
        changed: _chance(infer_posterior(asked(findings=(found,), changes=changed), 1), "gauge_reads_high")
        for changed in ((), (sender,), (sender, gauge))
    }
    assert chance[(sender,)] > 0.5 > chance[(sender, gauge)]
    assert chance[()] > chance[(sender,)]
