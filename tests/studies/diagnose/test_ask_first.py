"""What the driver is asked first: what is not told yet, what the vehicle can have, and what tells most."""

from collections.abc import Callable

import numpy as np
import pytest

from toptank.catalogue.causes.all_causes import CAUSE_IDS, CAUSES
from toptank.catalogue.symptoms.symptom import symptoms
from toptank.studies.diagnose.asking.ask_first import ASKED, DriverQuestion, questions_to_ask
from toptank.studies.diagnose.asking.next_check import cause_indicators, repair_indicators
from toptank.studies.diagnose.ensemble import Ensemble, drawn_conditions, drawn_vehicles, unsettled
from toptank.studies.diagnose.evidence import Evidence, Finding, Told
from toptank.studies.diagnose.posterior import Question

N = 256
ELECTRIC = "wagon-1990s-v6-air"


def _either_of(asked: Callable[..., Question], one: str, other: str, like: str = ELECTRIC) -> Ensemble:
    """Vehicles of which half have one cause and half the other."""
    question = asked(like=like)
    sound = drawn_vehicles(question.sheet, N, 2)
    severity = np.zeros((N, len(CAUSES)))
    severity[: N // 2, CAUSE_IDS.index(one)] = 0.7
    severity[N // 2 :, CAUSE_IDS.index(other)] = 0.7
    return unsettled(sound, sound, severity, drawn_conditions(question.sheet, question.duties, N, 2))


def _asked(possible: Ensemble, evidence: Evidence | None = None) -> tuple[DriverQuestion, ...]:
    needed = repair_indicators(cause_indicators(possible))
    return questions_to_ask(evidence or Evidence(), possible, needed)


def test_what_separates_two_causes_is_asked_first(asked: Callable[..., Question]) -> None:
    """A hose that is off or a gauge that lies: any mechanic asks whether it lost its coolant, or a hose came off."""
    questions = _asked(_either_of(asked, "hose_off", "gauge_reads_high"))
    assert len(questions) == ASKED
    assert questions[0].symptom in ("hose_came_off", "lost_coolant_suddenly", "found_low")
    assert questions[0].yes == pytest.approx(0.5, abs=0.1)


def test_its_information_is_that_of_a_question_with_these_answers(asked: Callable[..., Question]) -> None:
    """By hand: yes in 0.8904 and 0.0413 of two equal halves tells each of two repairs 0.623 bit.

    That is H(0.4659) - (H(0.8904) + H(0.0413)) / 2 = 0.9966 - (0.4988 + 0.2479) / 2; 0.9 and 0.03 are so, and 1.2 % are
    misheard.
    """
    first = next(
        one for one in _asked(_either_of(asked, "hose_off", "gauge_reads_high")) if one.symptom == "hose_came_off"
    )
    assert first.information == pytest.approx(2.0 * 0.623, rel=0.01)


def test_what_was_told_or_checked_is_not_asked_again(asked: Callable[..., Question]) -> None:
    possible = _either_of(asked, "hose_off", "gauge_reads_high")
    first = _asked(possible)[0].symptom
    told = Evidence(symptoms=(Told(symptom=first, denied=True),))
    assert first not in {one.symptom for one in _asked(possible, told)}
    seen = Evidence(findings=(Finding(check="coolant_loss", outcome="none_lost"),))
    answered = {one.id for one in symptoms().values() if "coolant_loss" in one.asked_by}
    assert not answered & {one.symptom for one in _asked(possible, seen)}


def test_only_what_is_fitted_is_asked_for(asked: Callable[..., Question]) -> None:
    pair = ("electric_fan_weak", "tubes_scaled")
    assert "fan_never_runs" in {one.symptom for one in _asked(_either_of(asked, *pair))}
    belted = _asked(_either_of(asked, *pair, like="saloon-1950s-six"))
    assert not any(symptoms()[one.symptom].only_on == "electric_fan" for one in belted)


def test_nothing_is_asked_where_no_answer_could_tell_anything(asked: Callable[..., Question]) -> None:
    assert _asked(_either_of(asked, "thermostat_stuck", "thermostat_stuck")) == ()
