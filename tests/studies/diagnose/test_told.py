"""What was told and what was passed over: who says little has left little out; who names no place has said none."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from toptank.catalogue.causes.all_causes import CAUSE_IDS, CAUSES
from toptank.knowledge.sheet import DutySheet, Fact, Provenance, duty_sheet
from toptank.studies.diagnose.evidence import Evidence, Reading, Told
from toptank.studies.diagnose.posterior import Question, infer_posterior
from toptank.studies.diagnose.symptom_likelihood import TALKATIVE, told_lines
from toptank.studies.diagnose.without_place import driven_as_named, says_no_place

Asked = Callable[..., Question]
TOLD = ("gurgle", "steam", "heater_cold", "puddle", "sweet_smell", "came_suddenly")


def _passed_over(told: int) -> float:
    """How strongly silence speaks against a hose that is off, against a silted block, of so many symptoms told [1]."""
    alone = np.eye(len(CAUSES), dtype=bool)[[CAUSE_IDS.index(one) for one in ("hose_off", "block_silted")]]
    denied = tuple(Told(symptom=one, denied=True) for one in TOLD[:told])
    off, silted = told_lines(Evidence(symptoms=denied), CAUSES, alone)[-1]
    return float(silted - off)


def test_who_says_one_thing_has_passed_over_little() -> None:
    """Of a hose that burst everybody would speak; one sentence of something else says less of that than four."""
    assert TALKATIVE == 4
    assert 0.0 < _passed_over(1) < 0.35 * _passed_over(4)
    assert _passed_over(2) == pytest.approx(2.0 * _passed_over(1), rel=0.2)
    assert _passed_over(5) <= _passed_over(4)  # nothing counts more than in full, and one more is not silent


def _duty(name: str, speed: Fact, **more: Fact) -> DutySheet:
    return duty_sheet(name, {"speed": speed, **more})


def _fact(value: float, spread: float, how: Provenance = Provenance.ASSUMED) -> Fact:
    return Fact(value=value, how=how, spread=spread, origin="here")


@pytest.mark.parametrize(
    ("name", "speed", "none"),
    [
        ("driving", _fact(15.6, 2.2), True),
        ("where it runs hot", _fact(15.6, 2.2), True),
        ("condition 2", _fact(15.6, 2.2), True),
        ("on the way to work", _fact(17.9, 7.2), True),
        ("town", _fact(11.2, 2.2), False),
        ("driving", _fact(24.6, 0.4, Provenance.MEASURED), False),
    ],
)
def test_a_condition_called_driving_says_no_place_unless_its_speed_is_known(name: str, speed: Fact, none: bool) -> None:
    assert says_no_place(_duty(name, speed)) is none


def test_a_grade_that_was_measured_is_a_place() -> None:
    assert not says_no_place(_duty("driving", _fact(15.6, 2.2), grade=_fact(0.05, 0.0, Provenance.MEASURED)))


def _lifted(asked: Asked, cause: str, symptom: str = "") -> float:
    """How much likelier a cause is once a pickup was hot on the flat road, and a symptom was told."""
    told = (Told(symptom=symptom),) if symptom else ()
    question = asked([Reading(duty="flat", words="hot")])
    weighed = infer_posterior(replace(question, evidence=replace(question.evidence, symptoms=told)), 1)
    place = CAUSE_IDS.index(cause)
    return float(weighed.weight @ weighed.possible.present[:, place]) / float(weighed.before[place])


def test_a_lost_hose_is_no_less_likely_for_running_hot_on_a_road(asked: Asked) -> None:
    """What boils is called hot or boiling, whatever a sender shows that hangs in steam."""
    assert _lifted(asked, "hose_off") >= 1.0


@pytest.mark.parametrize("symptom", ["engine_hurt", "down_on_power", "gauge_dead", "eases_when_slowed"])
def test_what_only_heat_does_speaks_against_a_false_gauge(asked: Asked, symptom: str) -> None:
    assert _lifted(asked, "gauge_reads_high", symptom) <= 0.5 * _lifted(asked, "gauge_reads_high")


def test_what_comes_and_goes_without_a_place_is_hardly_a_clutch() -> None:
    """A clutch that slips does so in every queue on a warm day."""
    alone = np.eye(len(CAUSES), dtype=bool)[[CAUSE_IDS.index(one) for one in ("fan_clutch_slips", "pump_worn")]]
    clutch, pump = told_lines(Evidence(symptoms=(Told(symptom="now_and_then"),)), CAUSES, alone)[0]
    assert clutch <= pump - 0.6


@pytest.mark.parametrize(
    ("name", "mph", "grade"),
    [
        ("on the highway", 60.0, 0.0),
        ("in town", 12.0, 0.0),
        ("long hill", 40.0, 0.05),
        ("where it runs hot", 36.0, 0.0),
    ],
)
def test_a_condition_without_a_speed_is_driven_as_its_name_says(name: str, mph: float, grade: float) -> None:
    facts = driven_as_named(duty_sheet(name, {})).facts
    assert facts["speed"].value / 0.44704 == pytest.approx(mph, abs=3.0)
    assert facts["speed"].how == Provenance.ASSUMED
    assert facts["speed"].spread > 1.0
    assert facts["grade"].value == pytest.approx(grade)


def test_a_speed_that_was_told_is_left_and_what_stands_or_works_stays_where_it_is() -> None:
    told = _duty("on the highway", _fact(20.0, 2.0))
    assert driven_as_named(told) == told
    for name, more in (
        ("idling at the lights of the town", {}),
        ("driving the baler", {"shaft_load": _fact(2e4, 0.0)}),
    ):
        still = duty_sheet(name, more)
        assert driven_as_named(still) == still


def test_a_boil_told_of_no_place_is_no_boil_at_standstill(asked: Asked) -> None:
    """A core whose tubes are blocked boils on a hill and not at the lights: no place told speaks against it no more."""
    question = asked([Reading(duty="driving", words="boiled")])
    anywhere = replace(question, duties=(duty_sheet("driving", {}),))
    weighed = infer_posterior(anywhere, 1)
    for cause in ("thermostat_stuck", "hose_off", "tubes_blocked"):
        place = CAUSE_IDS.index(cause)
        assert weighed.weight @ weighed.possible.present[:, place] >= 0.9 * weighed.before[place], cause
