"""The answer to `evaluate`: how good the diagnoses of closed jobs were."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, TypeAlias

from pydantic import Field

from toptank.shop.answers.answer import Amount, Answer, Count, Number, Percent, Texts, filled, pct

if TYPE_CHECKING:
    from toptank.shop.answers.answers import CaseScore, Evaluation
    from toptank.studies.diagnose.trial.check_policy import PolicyCost
    from toptank.studies.diagnose.trial.scoring import Summary

REWORDED_MOST = 0.15
"""Points by which a reading told otherwise may move the leading cause [1]."""

LogScore: TypeAlias = Annotated[float, Field(le=0.0)]


class CalibrationBand(Answer):
    """Causes that were given a probability between two figures.

    Parameters
    ----------
    stated_pct : mean of what was said
    found_pct : how many of them were there
    """

    from_pct: Percent
    to_pct: Percent
    repairs: Count
    stated_pct: Percent
    found_pct: Percent


class FamilyAnswer(Answer):
    """Closed jobs of one family of causes.

    Parameters
    ----------
    family : air, flow, heat, instruments or nothing
    cases : closed jobs
    top_1_pct, top_3_pct : of the jobs, whose confirmed cause came first, was among the first three
    family_first_pct : of the jobs, whose family came first
    log_score_nat : mean natural logarithm of the probability of what it was
    """

    family: str
    cases: Number
    top_1_pct: Percent
    top_3_pct: Percent
    family_first_pct: Percent
    log_score_nat: LogScore


class RewordedAnswer(Answer):
    """Readings of the complaint alone, each told otherwise within what was said.

    Parameters
    ----------
    readings : rewordings tried
    within_15_points_pct : of them, those that move the leading cause by 15 points at most
    most_pct : points by which one of them moves it at most
    """

    readings: Count
    within_15_points_pct: Percent | None
    most_pct: Percent | None


class SummaryAnswer(Answer):
    """Diagnoses of closed jobs together.

    Parameters
    ----------
    cases : closed jobs
    top_1_pct : of the jobs, whose confirmed cause came first
    top_3_pct : of the jobs, whose confirmed cause was among the first three
    log_score_nat, log_score_of_prior_nat, log_score_of_chart_nat : mean natural logarithm of the probability of
        what it was; nearer to 0 is better
    top_1_of_chart_pct, top_3_of_chart_pct : the same by a fixed chart of the trade
    excuse_pct : mean given to a lying gauge and to something else, where it was neither; null without such a job
    in_likely_pct : of the jobs, whose cause was among those of which at least one is there, 8 in 10
    """

    cases: Number
    top_1_pct: Percent
    top_3_pct: Percent
    log_score_nat: LogScore
    log_score_of_prior_nat: LogScore
    log_score_of_chart_nat: LogScore
    top_1_of_chart_pct: Percent
    top_3_of_chart_pct: Percent
    in_likely_pct: Percent
    excuse_pct: Percent | None
    calibration: tuple[CalibrationBand, ...]
    families: tuple[FamilyAnswer, ...]


class Searched(Answer):
    """Checks until the right repair came first; null where no vehicle could be searched.

    Parameters
    ----------
    check_chosen_minutes : minutes of checks, as chosen here
    check_usual_order_minutes : minutes of checks, in the order of most shops
    found_as_chosen_pct, found_in_usual_order_pct : searches in which the right repair came first
    """

    check_chosen_minutes: Amount | None
    check_usual_order_minutes: Amount | None
    found_as_chosen_pct: Percent | None
    found_in_usual_order_pct: Percent | None


class CaseAnswer(Searched):
    """One closed job.

    Parameters
    ----------
    name : of its file
    confirmed : what it was
    first : what the diagnosis put first
    rank : of the confirmed cause
    rank_from_complaint : without what checks showed
    """

    name: str
    title: str
    confirmed: tuple[str, ...]
    first: str
    rank: Number
    probability_pct: Percent
    rank_from_complaint: Number


class EvaluationAnswer(SummaryAnswer, Searched):
    """A folder of closed jobs, diagnosed and compared; the figures at the top are from all that was told.

    Parameters
    ----------
    complaint_alone : words, conditions, temperatures and history, without checks and without what was tried
    reworded : how far the answer moves with the wording of a reading
    usual_order : in which most shops check
    left_out : files that could not be read, and why
    seed : same seed, same answer
    """

    complaint_alone: SummaryAnswer
    reworded: RewordedAnswer
    usual_order: tuple[str, ...]
    left_out: Texts
    seed: Count
    each: tuple[CaseAnswer, ...]


def evaluation_answer(found: Evaluation) -> EvaluationAnswer:
    """Return an evaluation."""
    return EvaluationAnswer(
        **dict(_summary(found.told)),
        **dict(_searched(found.walk)),
        complaint_alone=_summary(found.complaint),
        reworded=_reworded(found.moved),
        usual_order=found.usual_order,
        left_out=found.left_out,
        seed=found.seed,
        each=tuple(_case(case) for case in found.cases),
    )


def _summary(found: Summary) -> SummaryAnswer:
    bands = (
        filled(CalibrationBand, one, {"from_pct": pct(one.low), "to_pct": pct(one.high)}) for one in found.calibration
    )
    families = (filled(FamilyAnswer, one, {"log_score_nat": round(one.log_score, 4)}) for one in found.families)
    given = {
        "log_score_nat": round(found.log_score, 4),
        "log_score_of_prior_nat": round(found.log_score_of_prior, 4),
        "log_score_of_chart_nat": round(found.log_score_of_chart, 4),
        "families": tuple(families),
        "calibration": tuple(bands),
    }
    return filled(SummaryAnswer, found, given)


def _reworded(moved: tuple[float, ...]) -> RewordedAnswer:
    within = sum(by <= REWORDED_MOST for by in moved) / len(moved) if moved else None
    return RewordedAnswer(
        readings=len(moved),
        within_15_points_pct=None if within is None else pct(within),
        most_pct=pct(max(moved)) if moved else None,
    )


def _searched(found: PolicyCost | None) -> Searched:
    return Searched(
        check_chosen_minutes=None if found is None else round(found.chosen, 1),
        check_usual_order_minutes=None if found is None else round(found.usual, 1),
        found_as_chosen_pct=None if found is None else pct(found.chosen_finds),
        found_in_usual_order_pct=None if found is None else pct(found.usual_finds),
    )


def _case(found: CaseScore) -> CaseAnswer:
    given = {
        "rank": found.told.rank,
        "probability_pct": pct(found.told.probability),
        "rank_from_complaint": found.complaint.rank,
    }
    return filled(CaseAnswer, found, dict(_searched(found.walk)) | given)
