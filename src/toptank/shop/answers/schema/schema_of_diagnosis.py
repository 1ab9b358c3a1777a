"""JSON schemas of a diagnosis, of the lists of checks and causes, and of an evaluation."""

from toptank.catalogue.causes.all_causes import CAUSE_NAMES, CAUSES
from toptank.catalogue.causes.family import FAMILIES
from toptank.catalogue.checks.check import GROUPS, checks
from toptank.shop.answers.schema.schema_shapes import (
    COUNT,
    PERCENT,
    SYSTEMS,
    TEXT,
    TEXTS,
    Schema,
    many,
    table_of_all,
    told,
    words,
)

CAUSE: Schema = words(CAUSE_NAMES)
SHARE: Schema = {"type": "number", "minimum": 0, "maximum": 1}
MINUTES: Schema = {"type": "number", "minimum": 0, "description": "working time in minutes"}


def _or_null(kind: Schema) -> Schema:
    return {"anyOf": [kind, {"type": "null"}]}


def _causes() -> Schema:
    return many(table_of_all({"cause": CAUSE, "probability_pct": PERCENT}))


def diagnosis() -> Schema:
    """Return the schema of a diagnosis."""
    severity = table_of_all(dict.fromkeys(("p10", "p50", "p90"), SHARE))
    factor = {"type": "number", "minimum": 0, "description": "on the odds of the cause; above 1 speaks for it"}
    suspect = {
        "cause": CAUSE,
        "probability_pct": PERCENT,
        "before_pct": {**PERCENT, "description": "before any reading, check, change or history"},
        "severity": {**_or_null(severity), "description": "how far gone it is if it is there; 1 is as bad as it gets"},
        "repair": TEXT,
        "says": many(table_of_all({"evidence": TEXT, "factor": factor})),
    }
    pair = {"causes": {**many(CAUSE, least=2), "maxItems": 2}, "probability_pct": PERCENT}
    return table_of_all(
        {
            "title": TEXT,
            "invented": {"type": "boolean"},
            "units": words(SYSTEMS),
            "seed": COUNT,
            "closed_jobs": {**COUNT, "description": "closed jobs that taught the shares of the causes"},
            "own_share_pct": {**PERCENT, "description": "how much of the shares comes from them"},
            "causes": many(table_of_all(suspect), least=1),
            "likely": {**many(CAUSE, least=1), "description": "fewest causes of which one is there, 8 in 10"},
            "pairs": many(table_of_all(pair)),
            "repairs": many(table_of_all({"repair": TEXT, "probability_pct": PERCENT})),
            "none_of_these_pct": {**PERCENT, "description": "none of the causes that are looked for"},
            "draws": COUNT,
            "worth": {"type": "number", "minimum": 0, "description": "equal draws that would say as much"},
            "remarks": TEXTS,
            "assumed_units": TEXTS,
            "next_checks": many(_suggestion()),
            "settled": _or_null(told("what to repair first, where no check changes it any more")),
        }
    )


def _suggestion() -> Schema:
    outcome = {"seen": TEXT, "chance_pct": PERCENT, "causes": _causes(), "repair": TEXT}
    return table_of_all(
        {
            "check": TEXT,
            "field": _or_null(told("the field of the sheet to measure, where the check is that")),
            "how": TEXT,
            "minutes": MINUTES,
            "tools": TEXT,
            "hazard": TEXT,
            "misleads": TEXT,
            "information_bit": {"type": "number", "minimum": 0, "description": "expected, about what to repair"},
            "outcomes": many(table_of_all(outcome)),
        }
    )


def list_of_checks() -> Schema:
    """Return the schema of the list of checks."""
    texts = dict.fromkeys(("tools", "how", "tells", "misleads", "hazard", "source"), TEXT)
    row = {
        "name": words(checks()),
        "group": words(GROUPS),
        "minutes": MINUTES,
        **texts,
        "outcomes": {**many(TEXT, least=1), "description": "the last is what a sound vehicle shows"},
        "shown_by": {**many(CAUSE), "description": "causes that raise the chance of an outcome"},
        "only_on": _or_null(told("what the vehicle must have for it")),
    }
    return many(table_of_all(row), least=1)


def list_of_causes() -> Schema:
    """Return the schema of the list of causes."""
    row = {
        "name": words(cause.name for cause in CAUSES),
        "does": TEXT,
        "repair": TEXT,
        "share_pct": {**PERCENT, "description": "how often it is the reason, before anything is known"},
        "origin": told("where the share comes from"),
    }
    return many(table_of_all(row), least=1)


def evaluation() -> Schema:
    """Return the schema of an evaluation; the figures at the top are from all that was told."""
    walked = {
        "check_minutes_chosen": _or_null(MINUTES),
        "check_minutes_usual_order": _or_null(MINUTES),
        "found_as_chosen_pct": {**_or_null(PERCENT), "description": "searches in which the right repair came first"},
        "found_in_usual_order_pct": _or_null(PERCENT),
    }
    case = {
        "name": told("name of its file"),
        "title": TEXT,
        "confirmed": many(CAUSE, least=1),
        "first": {**CAUSE, "description": "what the diagnosis put first"},
        "rank": {"type": "integer", "minimum": 1},
        "probability_pct": PERCENT,
        "rank_from_complaint": {"type": "integer", "minimum": 1},
        "probability_from_complaint_pct": PERCENT,
        **walked,
    }
    return table_of_all(
        {
            **_summary(),
            "complaint_alone": table_of_all(_summary()),
            "reworded": table_of_all(_reworded()),
            **walked,
            "left_out": {**many(TEXT), "description": "files that could not be read, and why"},
            "usual_order": {**many(words(checks()), least=1), "description": "in which most shops check"},
            "seed": COUNT,
            "each": many(table_of_all(case), least=1),
        }
    )


def _summary() -> Schema:
    log_score = {"type": "number", "maximum": 0, "description": "mean natural logarithm; nearer to 0 is better"}
    band = {
        "from_pct": PERCENT,
        "to_pct": PERCENT,
        "causes": COUNT,
        "stated_pct": {**PERCENT, "description": "mean of what was said"},
        "found_pct": {**PERCENT, "description": "how many of them were there"},
    }
    family = {
        "family": words(FAMILIES),
        "cases": {"type": "integer", "minimum": 1},
        "top_1": SHARE,
        "top_3": SHARE,
        "family_first": {**SHARE, "description": "share of the jobs in which the family came first"},
        "log_score": log_score,
    }
    return {
        "cases": {"type": "integer", "minimum": 1},
        "top_1": {**SHARE, "description": "share of the jobs whose confirmed cause came first"},
        "top_3": {**SHARE, "description": "among the first three"},
        "log_score": log_score,
        "log_score_of_prior": log_score,
        "log_score_of_chart": log_score,
        "top_1_of_chart": {**SHARE, "description": "the same by a fixed chart of the trade"},
        "top_3_of_chart": SHARE,
        "in_likely": {**SHARE, "description": "among the causes of which at least one is there, 8 in 10"},
        "excuse": {
            **_or_null(SHARE),
            "description": "mean given to the gauge and to something else where it was neither",
        },
        "calibration": many(table_of_all(band)),
        "families": many(table_of_all(family)),
    }


def _reworded() -> Schema:
    within = {**_or_null(SHARE), "description": "share of rewordings that move the leading cause by 15 points at most"}
    return {"facts": COUNT, "within_15_points": within, "most_points": _or_null(PERCENT)}
