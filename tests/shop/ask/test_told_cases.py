"""What diagnosis must reach on the told cases: the confirmed cause first in 65 of 100, among the first three in 88."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from toptank.shop.ask.diagnose import SEED, question_of
from toptank.shop.job.job_file import read_job
from toptank.studies.diagnose.posterior import infer_posterior
from toptank.studies.diagnose.scoring import Score, Summary, score, summed_up

CASES = Path(__file__).parents[3] / "examples" / "cases"


@pytest.fixture(scope="module")
def told() -> Summary:
    """Every case diagnosed from all that was told."""
    return summed_up(list(_scores()))


def _scores() -> Iterator[Score]:
    for path in sorted(CASES.glob("*.toml")):
        job = read_job(path)
        assert job.confirmed is not None, path.name
        question = question_of(job)
        yield score(question, infer_posterior(question, SEED), job.confirmed.causes, job.confirmed.contributing)


def test_the_confirmed_cause_comes_first_or_nearly(told: Summary) -> None:
    assert told.cases >= 50
    assert told.top_1 >= 0.65
    assert told.top_3 >= 0.88


def test_statements_are_neither_too_sure_nor_too_timid(told: Summary) -> None:
    assert 0.70 <= told.in_likely <= 0.90


def test_the_evidence_counts_for_more_than_shares_or_a_chart_of_the_trade(told: Summary) -> None:
    assert told.log_score > told.log_score_of_prior
    assert told.log_score > told.log_score_of_chart
