"""Vehicles with known causes are logged on a hill and weighed by their log: what is stated comes true."""

from collections.abc import Callable

import numpy as np
import pytest
from scipy import stats

from toptank.knowledge.model_discrepancy import log_likelihood
from toptank.knowledge.sheet import duty
from toptank.studies.diagnose import log_evidence, posterior
from toptank.studies.diagnose.ensemble import taken
from toptank.studies.diagnose.log_evidence import carried
from toptank.studies.diagnose.posterior import Question
from toptank.studies.diagnose.trial.log_trial import LogTrial, check_road, log_trial
from toptank.studies.diagnose.trial.truths import truths
from toptank.system.population import solve

VEHICLES, DRIVEN = 28, 256
P_LEAST = 1e-3
"""A sound answer fails one of these tests in a thousand seeds, and seeds are fixed here."""

Trials = list[tuple[LogTrial, np.ndarray, float]]
"""Trial, coolant on the climb of every draw of its answer, and of the vehicle itself [K]."""


@pytest.fixture(scope="module")
def trials(asked: Callable[..., Question]) -> Trials:
    """Logs of some vehicles, weighed with less patience than in the bay: a rank needs few draws."""
    patched = pytest.MonkeyPatch()
    patched.setattr(posterior, "ROUNDS", (2048,) * 6)
    patched.setattr(posterior, "ENOUGH", 400.0)
    patched.setattr(log_evidence, "DRIVEN", DRIVEN)
    patched.setattr(log_evidence, "CARRIES", 30.0)
    question = asked()
    climb = next(sheet for sheet in question.duties if sheet.name == "climb")
    fleet = truths(question, VEHICLES, 440_001, np.random.default_rng(31))
    done: Trials = []
    for number in range(VEHICLES):
        trial = log_trial(question, taken(fleet, np.array([number])), check_road(duty(climb)), number)
        there = [np.asarray(solve(one, duty(climb)).T_engine_out, float)
                 for one in (trial.says.weighed.possible.vehicle, trial.truth.vehicle)]  # fmt: skip
        done.append((trial, there[0], float(there[1][0])))
    patched.undo()
    return done


def _in_the_tails(ranks: list[float]) -> float:
    """Chance that so many ranks or more lie in the outer tenth of what was stated, were it honest [1]."""
    outside = int(np.sum(np.abs(np.array(ranks) - 0.5) > 0.45))
    return float(stats.binom.sf(outside - 1, len(ranks), 0.1))


def test_the_coolant_on_the_climb_ranks_anywhere_in_the_answer_alike(trials: Trials) -> None:
    ranks = [trial.rank(draws, truth, number) for number, (trial, draws, truth) in enumerate(trials)]
    assert stats.kstest(ranks, "uniform").pvalue > P_LEAST
    assert _in_the_tails(ranks) > P_LEAST


def test_a_log_taken_for_many_independent_readings_would_be_found_out(trials: Trials) -> None:
    """The same draws with the same readings, what the model misses taken as new every 20 s."""
    ranks: list[float] = []
    for number, (trial, draws, truth) in enumerate(trials):
        seen = trial.says.compared
        of_log, of_many = (log_likelihood(seen.time, seen.read, seen.shown, spread)
                           for spread in (seen.spread, np.diag(np.diag(seen.spread))))  # fmt: skip
        weight = trial.says.weighed.weight * np.exp(of_many - of_log - np.max(of_many - of_log))
        ranks.append(float(weight @ (draws < truth) / weight.sum()) + 1e-9 * number)
    assert _in_the_tails(ranks) < P_LEAST


def test_causes_are_there_as_often_as_stated_after_a_log(trials: Trials) -> None:
    """Of all that are called unlikely, and of all that are called likely: within 3.5 standard deviations of a count."""
    stated = np.concatenate([trial.says.stated for trial, _, _ in trials])
    held = np.concatenate([trial.held() for trial, _, _ in trials])
    for low, high in ((0.0, 0.02), (0.02, 0.1), (0.1, 0.3), (0.3, 1.01)):
        inside = (stated >= low) & (stated < high)
        scatter = np.sqrt(np.sum(stated[inside] * (1.0 - stated[inside])) + 0.25)
        assert abs(held[inside].sum() - stated[inside].sum()) <= 3.5 * scatter, (low, high, int(inside.sum()))


def test_a_log_that_hardly_any_draw_goes_with_counts_for_less() -> None:
    """What one draw of two thousand says is no percentage."""
    counted, weight = carried(np.where(np.arange(2000) == 7, 0.0, -30.0))
    assert counted < 0.5
    assert 1.0 / np.sum(weight**2) == pytest.approx(100.0, rel=0.02)
    flat = carried(np.linspace(-1.0, 0.0, 2000))
    assert flat[0] == 1.0
    assert flat[1] == pytest.approx(np.exp(np.linspace(-1.0, 0.0, 2000)) / np.exp(np.linspace(-1, 0, 2000)).sum())
