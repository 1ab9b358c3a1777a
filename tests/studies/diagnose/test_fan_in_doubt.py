"""What was told of a fan says which kind it is, whatever is usual for such a vehicle; a fan that was seen stays."""

import pytest

from toptank.catalogue.causes.all_causes import CAUSE_IDS
from toptank.knowledge.sheet import Fact, Provenance, duty_sheet, overlay
from toptank.knowledge.typical import typical_sheet
from toptank.studies.diagnose.evidence import Evidence, Finding, Told
from toptank.studies.diagnose.fan_in_doubt import with_fan_in_doubt
from toptank.studies.diagnose.posterior import Question, candidate_causes, known_shares

CLUTCHED, ELECTRIC = "pickup-1970s-v8-air", "saloon-1980s-four-air"


def _question(like: str, evidence: Evidence, seen: float | None = None) -> Question:
    sheet = typical_sheet(like)
    if seen is not None:
        fact = Fact(value=seen, how=Provenance.MEASURED, spread=0.0, origin="here")
        sheet = overlay(sheet, {"fan.drive": fact})
    return Question(sheet=sheet, duties=(duty_sheet("driving", {}),), evidence=evidence, shares=known_shares())


def _chance(like: str, cause: str, *told: str, seen: float | None = None) -> float:
    """How likely a cause is before the readings, over its own share: 1 where every vehicle can have it."""
    evidence = Evidence(symptoms=tuple(Told(symptom=one) for one in told))
    found = candidate_causes(_question(like, evidence, seen), 1)
    column = CAUSE_IDS.index(cause)
    return float(found.prior_factor[found.columns.index(column)]) if column in found.columns else 0.0


@pytest.mark.parametrize(
    ("like", "cause", "seen"), [(CLUTCHED, "electric_fan_weak", 0.0), (ELECTRIC, "fan_clutch_slips", 2.0)]
)
def test_a_fan_that_was_seen_rules_the_other_kind_out(like: str, cause: str, seen: float) -> None:
    assert _chance(like, cause, seen=seen) == 0.0


@pytest.mark.parametrize(
    ("like", "cause", "told"),
    [
        (CLUTCHED, "electric_fan_weak", "fan_never_runs"),
        (CLUTCHED, "electric_fan_reversed", "hotter_with_fan"),
        (ELECTRIC, "fan_clutch_slips", "fan_spins_freely"),
    ],
)
def test_who_tells_of_a_fan_has_it(like: str, cause: str, told: str) -> None:
    assert _chance(like, cause, told) >= 0.9


def test_a_check_made_at_an_electric_fan_says_that_there_is_one() -> None:
    made = Evidence(findings=(Finding(check="electric_fan_hot", outcome="runs"),))
    assert with_fan_in_doubt(typical_sheet(CLUTCHED), made).facts["fan.drive"].value == 2.0


def test_what_was_told_of_both_kinds_settles_nothing() -> None:
    told = Evidence(symptoms=(Told(symptom="fan_never_runs"), Told(symptom="fan_spins_freely")))
    assert with_fan_in_doubt(typical_sheet(CLUTCHED), told) == typical_sheet(CLUTCHED)
