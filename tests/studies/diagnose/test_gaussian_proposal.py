"""Looking where earlier draws agreed may only save draws, never change an answer."""

from collections.abc import Callable

import numpy as np
import pytest

from toptank.catalogue.causes.all_causes import CAUSE_IDS
from toptank.catalogue.checks.check import checks
from toptank.studies.diagnose import posterior
from toptank.studies.diagnose.evidence import Finding, Reading
from toptank.studies.diagnose.gaussian_proposal import LinearGaussianProposal, Scores, density_ratio, fit, propose
from toptank.studies.diagnose.posterior import Question, infer_posterior
from toptank.studies.diagnose.rounds import LEAST_SURVIVAL, Problem, Proposal, round_of

N = 40_000
EFFECTS = np.array([[6.0, 0.0], [2.0, -3.0], [0.0, 0.5]])
OF_STEPS = np.array([[4.0, 4.0]])
OF_SEVERITY = np.array([[5.0, 1.0], [0.0, 3.0]])
OF_PRESENCE = np.array([[8.0, 0.0], [0.0, 10.0]])
CONSTANT = np.array([360.0, 350.0])
AIM = np.array([375.0, 352.0])


def _scores(seed: int) -> Scores:
    rng = np.random.default_rng(seed)
    return Scores(
        smooth=rng.standard_normal((N, 3)),
        steps=rng.random((N, 1)),
        severity=rng.standard_normal((N, 2)),
        present=rng.random((N, 2)) < 0.4,
        stays=np.zeros(N, bool),
    )


def _sets(seed: int) -> np.ndarray:
    """Draws with the same causes have the same number."""
    return _scores(seed).present @ np.array([1, 2])


def _shown(scores: Scores) -> np.ndarray:
    severity = np.where(scores.present, scores.severity, 0.0)
    moving = scores.smooth @ EFFECTS + severity @ OF_SEVERITY
    return CONSTANT + moving + scores.steps @ OF_STEPS + scores.present @ OF_PRESENCE


def _agreement(scores: Scores) -> np.ndarray:
    agrees = np.exp(-0.5 * (((_shown(scores) - AIM) / 2.0) ** 2).sum(axis=1))
    return agrees / agrees.sum()


@pytest.fixture(scope="module")
def guide() -> LinearGaussianProposal:
    scores = _scores(1)
    return fit(scores, _shown(scores), np.full(2, 4.0), np.ones(N), _agreement(scores))


def test_what_is_linear_is_learnt(guide: LinearGaussianProposal) -> None:
    # the ridge of one draw's worth of doubt pulls each by about 1 in 40,000 draws
    assert np.allclose(guide.of_smooth, EFFECTS, atol=0.01)
    assert np.allclose(guide.of_steps, OF_STEPS, atol=0.01)
    assert np.allclose(guide.of_severity, OF_SEVERITY, atol=0.01)
    assert np.allclose(guide.of_presence, OF_PRESENCE, atol=0.01)
    assert np.allclose(guide.constant, CONSTANT, atol=0.02)


def test_how_much_likelier_a_draw_is_makes_good_that_it_was_moved(guide: LinearGaussianProposal) -> None:
    """Moved draws weighed by the inverse have the moments of unmoved ones: mean 0 and variance 1 of every score."""
    drawn = propose(guide, _scores(2), _sets(2), np.random.default_rng(3))
    weight = 1.0 / density_ratio(guide, drawn, _sets(2))
    error = float(np.std(weight)) / np.sqrt(N)
    assert abs(weight.mean() - 1.0) < 4.0 * error
    for score in (*drawn.smooth.T, *drawn.severity.T):
        for power, expected in ((1, 0.0), (2, 1.0), (3, 0.0)):
            moment = weight * score**power
            assert abs(moment.mean() - expected) < 4.5 * np.std(moment) / np.sqrt(N)


def test_moved_draws_agree_far_more_often(guide: LinearGaussianProposal) -> None:
    def close(scores: Scores) -> float:
        return float((np.abs(_shown(scores) - AIM) < 4.0).all(axis=1).mean())

    assert close(propose(guide, _scores(4), _sets(4), np.random.default_rng(5))) > 3.0 * close(_scores(4))


def test_a_cause_that_is_absent_is_not_made_worse(guide: LinearGaussianProposal) -> None:
    before = _scores(6)
    after = propose(guide, before, _sets(6), np.random.default_rng(7))
    assert np.array_equal(after.severity[~before.present], before.severity[~before.present])
    assert np.array_equal(after.steps, before.steps)


def test_what_the_model_does_not_read_is_left_where_it_is(guide: LinearGaussianProposal) -> None:
    stays = np.random.default_rng(8).random(N) < 0.25
    before = _scores(9)._replace(stays=stays)
    after = propose(guide, before, _sets(9), np.random.default_rng(10))
    assert np.array_equal(after.smooth[stays], before.smooth[stays])
    assert np.array_equal(after.severity[stays], before.severity[stays])
    assert np.allclose(density_ratio(guide, after, _sets(9))[stays], 1.0)
    assert (after.smooth[~stays] != before.smooth[~stays]).any(axis=1).mean() > 0.5


def test_a_guide_does_not_change_the_answer(asked: Callable[..., Question], monkeypatch: pytest.MonkeyPatch) -> None:
    """Against one large round that is drawn as if nothing were known; three points are its own scatter."""
    kelvin = (250.0 + 459.67) / 1.8
    readings = (Reading(duty="climb", low=kelvin, high=kelvin), Reading(duty="flat", words="fine"))
    question = asked(readings)
    guided = infer_posterior(question, 5)
    monkeypatch.setattr(posterior, "ROUNDS", (49152,))
    plain = infer_posterior(question, 6)
    apart = np.abs(guided.weight @ guided.possible.present - plain.weight @ plain.possible.present)
    assert apart.max() < 0.03, CAUSE_IDS[int(apart.argmax())]
    assert abs(guided.unknown - plain.unknown) < 0.01


def test_however_often_draws_are_thinned_none_stands_for_many(asked: Callable[..., Question]) -> None:
    """Else a dozen readings would leave the answer to the luck of a few draws."""
    readings = [
        Reading(duty=duty, words=words) for duty, words in (("idle", "hot"), ("climb", "fine"), ("flat", "hot"))
    ]
    question = asked(readings)
    suspects = posterior.candidate_causes(question, 1)
    asked_of = Problem(question.sheet, question.duties, question.evidence, suspects, ())
    one = round_of(asked_of, Proposal(suspects.prior, None), 4096, (1, 0))
    # the odds of a cause are part of what a draw stands for; for a set of three they stay under twenty times
    assert np.exp(one.log_correction.max()) <= 20.0 / LEAST_SURVIVAL
    thinned = np.exp(one.log_correction) > 1.0 / LEAST_SURVIVAL * (1.0 + 1e-9)
    assert thinned.mean() < 0.05
    # and together they stand for all that were drawn
    assert np.exp(one.log_correction).sum() == pytest.approx(4096, rel=0.15)


FIGURES = [name for name, check in checks().items() if check.dimension is not None]


@pytest.mark.parametrize("first", FIGURES)
def test_every_figure_that_can_be_read_is_weighed(
    first: str, asked: Callable[..., Question], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Alone and beside another: instruments that are read at one, two or three standing duties."""
    monkeypatch.setattr(posterior, "ROUNDS", (256, 256))
    other = FIGURES[(FIGURES.index(first) + 1) % len(FIGURES)]
    readings = [Reading(duty="climb", words="hot")]
    for names in ((first,), (first, other)):
        weighed = infer_posterior(asked(readings, [Finding(check=name, figure=1.0) for name in names]), 1)
        assert np.isfinite(weighed.weight).all()
        assert weighed.weight.sum() == pytest.approx(1.0)
