"""A shop's closed jobs move the shares of causes by Dirichlet's rule; expected values are worked by hand."""

import numpy as np
import pytest

from toptank.catalogue.causes.all_causes import CAUSES, NOTHING_BROKEN
from toptank.catalogue.causes.told_cases import prior_weights
from toptank.studies.diagnose.learning import STRENGTH, learn

NAMES = [cause.id for cause in CAUSES]
DECLARED = np.array(prior_weights())
PUMP, STAT = NAMES.index("pump_worn"), NAMES.index("thermostat_stuck")


def test_nothing_is_learnt_without_jobs() -> None:
    learnt = learn([])
    assert learnt.shares == pytest.approx(DECLARED, abs=1e-15)
    assert (learnt.jobs, learnt.own) == (0, 0.0)


def test_jobs_as_many_as_the_strength_count_for_half() -> None:
    """10 jobs of one cause on a strength of 10: (10 share + 10) / 20, and (10 share) / 20 for every other."""
    learnt = learn([("pump_worn",)] * 10, strength=10.0)
    assert learnt.shares[PUMP] == pytest.approx(0.5 * DECLARED[PUMP] + 0.5, abs=1e-12)
    assert np.delete(learnt.shares, PUMP) == pytest.approx(0.5 * np.delete(DECLARED, PUMP), abs=1e-12)
    assert (learnt.jobs, learnt.own) == (10, 0.5)


def test_two_causes_of_one_job_share_its_count() -> None:
    """Strength 4 and one job of two causes: (4 share + 1/2) / 5 for each of them."""
    learnt = learn([("pump_worn", "thermostat_stuck")], strength=4.0)
    for place in (PUMP, STAT):
        assert learnt.shares[place] == pytest.approx((4.0 * DECLARED[place] + 0.5) / 5.0, abs=1e-12)
    assert learnt.own == pytest.approx(0.2)


def test_a_stronger_belief_learns_more_slowly_and_every_job_counts_alike() -> None:
    jobs = [("pump_worn",)] * 6
    weak, strong = learn(jobs, strength=6.0), learn(jobs, strength=60.0)
    assert weak.shares[PUMP] > strong.shares[PUMP] > DECLARED[PUMP]
    assert strong.own == pytest.approx(6.0 / 66.0)
    assert learn(jobs).shares == pytest.approx(learn(jobs, strength=STRENGTH).shares)


def test_the_order_of_jobs_does_not_matter_and_shares_sum_to_one() -> None:
    jobs = [("pump_worn",), ("cap_weak", "pump_worn"), ("head_gasket_leaks",)]
    forth, back = learn(jobs), learn(jobs[::-1])
    assert forth.shares == pytest.approx(back.shares, abs=1e-15)
    assert forth.shares.sum() == pytest.approx(1.0, abs=1e-12)


def test_a_job_of_which_no_cause_is_known_here_teaches_nothing() -> None:
    learnt = learn([("gremlins",), (NOTHING_BROKEN,), ()])
    assert learnt.jobs == 0
    assert learnt.shares == pytest.approx(DECLARED, abs=1e-15)


def test_a_cause_never_met_keeps_a_chance() -> None:
    """However many jobs of others: Dirichlet never falls to nothing."""
    assert learn([("pump_worn",)] * 5000).shares.min() > 0.0
