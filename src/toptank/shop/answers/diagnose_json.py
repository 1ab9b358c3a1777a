"""Diagnoses, checks, causes and evaluations as JSON: plain records, probabilities in percent, minutes in minutes."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from toptank.shop.answers.answers import CaseScore, Diagnosed, Evaluation
from toptank.units.conversion import System
from toptank.units.dimension import FRACTION, Dimension
from toptank.units.display import show

if TYPE_CHECKING:
    from toptank.catalogue.causes.cause import Cause
    from toptank.catalogue.checks.check import Check
    from toptank.studies.diagnose.check_policy import PolicyCost
    from toptank.studies.diagnose.diagnosis import Suspect
    from toptank.studies.diagnose.next_check import Outcome, Suggestion
    from toptank.studies.diagnose.scoring import Summary


def percent(share: float) -> float:
    """Return a share in percent, to a hundredth."""
    return round(100.0 * share, 2)


def diagnose_json(answer: Diagnosed, system: System) -> dict[str, Any]:
    """Return a diagnosis."""
    found = answer.diagnosis
    return {
        "title": answer.job.title,
        "invented": answer.job.invented,
        "units": system,
        "seed": answer.seed,
        "closed_jobs": answer.closed_jobs,
        "own_share_pct": percent(answer.own_share),
        "causes": [_suspect(one) for one in found.suspects],
        "likely": list(found.likely),
        "pairs": [{"causes": [one, other], "probability_pct": percent(share)} for one, other, share in found.pairs],
        "repairs": [{"repair": name, "probability_pct": percent(share)} for name, share in found.repairs],
        "none_of_these_pct": percent(found.unknown),
        "draws": found.drawn,
        "worth": round(found.effective_sample_size, 1),
        "remarks": list(answer.remarks),
        "assumed_units": list(answer.job.assumed_units),
        "next_checks": [_suggestion(one, system) for one in found.checks],
        "settled": found.settled or None,
    }


def _suspect(one: Suspect) -> dict[str, Any]:
    severity = one.severity
    return {
        "cause": one.cause,
        "probability_pct": percent(one.probability),
        "before_pct": percent(one.before),
        "severity": None
        if severity is None
        else {point: round(value, 3) for point, value in zip(("p10", "p50", "p90"), severity, strict=True)},
        "repair": one.repair,
        "says": [{"evidence": voice.evidence, "factor": round(voice.factor, 3)} for voice in one.voices],
    }


def _suggestion(one: Suggestion, system: System) -> dict[str, Any]:
    return {
        "check": one.check,
        "field": one.field or None,
        "how": one.how,
        "minutes": one.minutes,
        "tools": one.tools,
        "hazard": one.hazard,
        "misleads": one.misleads,
        "information_bit": round(one.information, 4),
        "outcomes": [_outcome(one, outcome, system) for outcome in one.outcomes],
    }


def _outcome(suggestion: Suggestion, outcome: Outcome, system: System) -> dict[str, Any]:
    return {
        "seen": seen(suggestion, outcome, system),
        "chance_pct": percent(outcome.chance),
        "causes": [{"cause": cause, "probability_pct": percent(share)} for cause, share in outcome.causes],
        "repair": outcome.repair,
    }


def seen(suggestion: Suggestion, outcome: Outcome, system: System) -> str:
    """Say what is seen: the words of an outcome, or between which figures the reading lies."""
    dimension = suggestion.dimension
    return outcome.seen if dimension is None else between_figures(outcome.low, outcome.high, dimension, system)


def between_figures(low: float | None, high: float | None, dimension: Dimension, system: System) -> str:
    """Say between which figures a reading lies."""
    digits = 0 if dimension is FRACTION else None  # nobody reads a tenth of a percent
    below, above = (None if edge is None else show(edge, dimension, system, digits) for edge in (low, high))
    if below is None:
        return f"under {above}" if above is not None else "any figure"
    return f"over {below}" if above is None else f"{below} to {above}"


def checks_json(answer: Sequence[Check]) -> list[dict[str, Any]]:
    """Return the list of checks."""
    words = ("name", "group", "minutes", "tools", "how", "tells", "misleads", "hazard", "source")
    return [
        {
            **{word: getattr(check, word) for word in words},
            "outcomes": list(check.outcomes) or ["a figure: " + check.dimension.name if check.dimension else ""],
            "shown_by": sorted(check.shown_by),
            "only_on": check.only_on or None,
        }
        for check in answer
    ]


def causes_json(answer: Sequence[Cause]) -> list[dict[str, Any]]:
    """Return the list of causes."""
    total = sum(cause.prior_weight for cause in answer)
    return [
        {
            "name": cause.name,
            "does": cause.does,
            "repair": cause.repair,
            "share_pct": percent(cause.prior_weight / total),
            "origin": cause.origin,
        }
        for cause in answer
    ]


def evaluate_json(answer: Evaluation) -> dict[str, Any]:
    """Return an evaluation; the figures at the top are from all that was told."""
    return {
        **_summary(answer.told),
        "complaint_alone": _summary(answer.complaint),
        "reworded": _reworded(answer.moved),
        **_walked(answer.walk),
        "usual_order": list(answer.usual_order),
        "left_out": list(answer.left_out),
        "seed": answer.seed,
        "each": [_case(case) for case in answer.cases],
    }


def _summary(summary: Summary) -> dict[str, Any]:
    record = dataclasses.asdict(summary)
    bands, families = record.pop("calibration"), record.pop("families")
    rounded = {key: round(value, 4) if isinstance(value, float) else value for key, value in record.items()}
    calibration = [
        {
            "from_pct": percent(band["low"]),
            "to_pct": percent(band["high"]),
            "causes": band["causes"],
            "stated_pct": percent(band["stated"]),
            "found_pct": percent(band["found"]),
        }
        for band in bands
    ]
    by_family = [
        {key: round(value, 4) if isinstance(value, float) else value for key, value in one.items()} for one in families
    ]
    return {**rounded, "calibration": calibration, "families": by_family}


def _reworded(moved: Sequence[float]) -> dict[str, Any]:
    from toptank.studies.diagnose.perturbation import MOST

    return {
        "facts": len(moved),
        "within_15_points": round(sum(by <= MOST for by in moved) / len(moved), 4) if moved else None,
        "most_points": percent(max(moved)) if moved else None,
    }


def _case(case: CaseScore) -> dict[str, Any]:
    return {
        "name": case.name,
        "title": case.title,
        "confirmed": list(case.confirmed),
        "first": case.first,
        "rank": case.told.rank,
        "probability_pct": percent(case.told.probability),
        "rank_from_complaint": case.complaint.rank,
        "probability_from_complaint_pct": percent(case.complaint.probability),
        **_walked(case.walk),
    }


def _walked(walk: PolicyCost | None) -> dict[str, Any]:
    return {
        "check_minutes_chosen": None if walk is None else round(walk.chosen, 1),
        "check_minutes_usual_order": None if walk is None else round(walk.usual, 1),
        "found_as_chosen_pct": None if walk is None else percent(walk.chosen_finds),
        "found_in_usual_order_pct": None if walk is None else percent(walk.usual_finds),
    }
