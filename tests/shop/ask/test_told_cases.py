"""What diagnosis reaches on the told cases: from the complaint alone, and from everything that was told.

Wanted are 50, 74 and -1.8 of the complaint alone, 80, 94 and -0.85 of everything (confirmed cause first, in the first
three, mean log score); where the floors below are lower, that is what is reached, less one case in fifty. Each case is
left out of the counts that temper the shares; rates of symptoms and checks are general knowledge, judged by people who
had read these cases, so that a new case may come out worse.
"""

import dataclasses
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from toptank.shop.ask.diagnose import SEED, question_of
from toptank.shop.ask.proposals import confirmed_all
from toptank.shop.job.job_file import read_job
from toptank.studies.diagnose import posterior
from toptank.studies.diagnose.posterior import infer_posterior, known_shares
from toptank.studies.diagnose.trial.scoring import Score, Summary, score, summed_up

CASES = Path(__file__).parents[3] / "examples" / "cases"

FEW_DRAWS, ENOUGH = (2048,) * 4 + (4096,) * 4, 400.0
"""Less patience than in the bay: the rank of a cause needs few draws, a probability is off by two points."""


class Told(NamedTuple):
    """All cases by everything that was told, by the complaint alone, and those of which no check saw the part."""

    everything: Summary
    complaint: Summary
    unseen: Summary


@pytest.fixture(scope="module")
def told() -> Told:
    patched = pytest.MonkeyPatch()
    patched.setattr(posterior, "ROUNDS", FEW_DRAWS)
    patched.setattr(posterior, "ENOUGH", ENOUGH)
    both = list(_scores())
    patched.undo()
    return Told(
        everything=summed_up([everything for everything, _, _ in both]),
        complaint=summed_up([complaint for _, complaint, _ in both]),
        unseen=summed_up([everything for everything, _, seen in both if not seen]),
    )


def _scores() -> Iterator[tuple[Score, Score, bool]]:
    """Scores by everything and by the complaint alone, and whether a check saw the part itself."""
    for path in sorted(CASES.glob("*.toml")):
        job = read_job(path)
        assert job.confirmed is not None, path.name
        whole = dataclasses.replace(
            question_of(job), evidence=confirmed_all(job), shares=known_shares(without=path.stem)
        )
        alone = dataclasses.replace(whole, evidence=dataclasses.replace(whole.evidence, findings=(), changes=()))
        of_whole, of_alone = (
            score(asked, infer_posterior(asked, SEED), job.confirmed.causes, job.confirmed.contributing)
            for asked in (whole, alone)
        )
        yield of_whole, of_alone, any(finding.decisive for finding in job.evidence.findings)


def test_the_confirmed_cause_comes_first_or_nearly(told: Told) -> None:
    assert told.everything.cases >= 86
    assert told.everything.top_1 >= 0.69
    assert told.everything.top_3 >= 0.84
    assert told.everything.log_score >= -0.90


def test_the_complaint_alone_leads_to_it_in_half_of_the_cases(told: Told) -> None:
    assert told.complaint.top_1 >= 0.47
    assert told.complaint.top_3 >= 0.70  # 62 of 86 once, 61 now: one case is 1.2 points
    assert told.complaint.log_score >= -1.75


def test_it_is_found_where_nobody_has_seen_the_part(told: Told) -> None:
    """Otherwise the score would only say that an answer written into the cases is found again."""
    assert told.unseen.cases >= 35
    assert told.unseen.top_1 >= 0.45
    assert told.unseen.top_3 >= 0.75
    assert told.unseen.log_score >= -1.6


def test_statements_are_not_too_sure(told: Told) -> None:
    """One of the likely causes, 8 in 10: they are rather too timid, in 9 of 10."""
    for summary in (told.everything, told.complaint):
        assert 0.72 <= summary.in_likely <= 0.95


def test_a_lying_gauge_and_something_else_are_no_excuse(told: Told) -> None:
    """Together at most 12 % in the mean over cases that are neither."""
    for summary in (told.everything, told.complaint):
        assert summary.excuse is not None
        assert summary.excuse <= 0.12


def test_the_evidence_counts_for_more_than_shares_or_a_chart_of_the_trade(told: Told) -> None:
    for summary in (told.everything, told.complaint):
        assert summary.log_score > summary.log_score_of_prior + 0.5
        assert summary.log_score > summary.log_score_of_chart + 0.5
        assert summary.top_1 > summary.top_1_of_chart
        assert summary.top_3 > summary.top_3_of_chart
