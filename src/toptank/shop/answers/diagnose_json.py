"""Diagnoses, checks, causes and evaluations as JSON: plain records, probabilities in percent, minutes in minutes."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from toptank.shop.answers import naming
from toptank.shop.answers.answers import CaseScore, Diagnosed, Evaluation
from toptank.units.conversion import System

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
        "causes": [_suspect(one, system) for one in found.suspects],
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


def _suspect(one: Suspect, system: System) -> dict[str, Any]:
    severity = one.severity
    return {
        "cause": one.cause,
        "name": naming.cause(one.cause, system),
        "probability_pct": percent(one.probability),
        "before_pct": percent(one.before),
        "severity": None
        if severity is None
        else {point: round(value, 3) for point, value in zip(("p10", "p50", "p90"), severity, strict=True)},
        "repair": one.repair,
        "says": [
            {"evidence": naming.evidence(voice.evidence, system), "factor": round(voice.factor, 3)}
            for voice in one.voices
        ],
    }


def _suggestion(one: Suggestion, system: System) -> dict[str, Any]:
    named = naming.check(one.check, system)
    return {
        "check": one.check,
        "name": named.name,
        "field": one.field or None,
        "how": named.how,
        "minutes": one.minutes,
        "tools": named.tools or "none",
        "hazard": naming.hazard(one.check, system),
        "misleads": named.misleads,
        "information_bit": round(one.information, 4),
        "outcomes": [_outcome(one, outcome, system) for outcome in one.outcomes],
    }


def _outcome(suggestion: Suggestion, outcome: Outcome, system: System) -> dict[str, Any]:
    edges = (outcome.low, outcome.high, suggestion.dimension)
    return {
        "outcome": outcome.seen or None,
        "seen": naming.seen(suggestion.check, outcome.seen, *edges, system),
        "chance_pct": percent(outcome.chance),
        "causes": [{"cause": cause, "probability_pct": percent(share)} for cause, share in outcome.causes],
        "repair": outcome.repair,
    }


def checks_json(answer: Sequence[Check], system: System = "us") -> list[dict[str, Any]]:
    """Return the list of checks, in the words that go with some units."""
    return [
        {
            "id": check.id,
            "name": (named := naming.check(check.id, system)).name,
            "group": check.group,
            "minutes": check.minutes,
            "tools": named.tools or "none",
            "how": named.how,
            "tells": named.tells,
            "misleads": named.misleads,
            "hazard": naming.hazard(check.id, system),
            "source": check.source,
            "outcomes": [{"id": one, "name": named.outcomes[one]} for one in check.outcomes],
            "figure": check.dimension.name if check.dimension else None,
            "shown_by": sorted(check.shown_by),
            "only_on": check.only_on or None,
        }
        for check in answer
    ]


def causes_json(answer: Sequence[Cause], system: System = "us") -> list[dict[str, Any]]:
    """Return the list of causes, in the words that go with some units."""
    total = sum(cause.prior_weight for cause in answer)
    return [
        {
            "id": cause.id,
            "name": naming.cause(cause.id, system),
            "does": naming.cause_sentence(cause.id, system),
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
        **_walked(answer.walk),
        "usual_order": list(answer.usual_order),
        "left_out": list(answer.left_out),
        "seed": answer.seed,
        "each": [_case(case) for case in answer.cases],
    }


def _summary(summary: Summary) -> dict[str, Any]:
    record = dataclasses.asdict(summary)
    bands = record.pop("calibration")
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
    return {**rounded, "calibration": calibration}


def _case(case: CaseScore) -> dict[str, Any]:
    return {
        "name": case.name,
        "title": case.title,
        "confirmed": list(case.confirmed),
        "first": case.first,
        "rank": case.told.rank,
        "probability_pct": percent(case.told.probability),
        "rank_from_complaint": case.complaint.rank,
        **_walked(case.walk),
    }


def _walked(walk: PolicyCost | None) -> dict[str, Any]:
    return {
        "check_minutes_chosen": None if walk is None else round(walk.chosen, 1),
        "check_minutes_usual_order": None if walk is None else round(walk.usual, 1),
        "found_as_chosen_pct": None if walk is None else percent(walk.chosen_finds),
        "found_in_usual_order_pct": None if walk is None else percent(walk.usual_finds),
    }
