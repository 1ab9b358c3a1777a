"""Checks: told so that a mechanic can do them unharmed, and with chances that add up."""

import re
from collections.abc import Callable

import numpy as np
import pytest

from toptank.catalogue.causes.all_causes import CAUSE_IDS, CAUSES, NOTHING_BROKEN
from toptank.catalogue.checks.check import GROUPS, Check, checks
from toptank.catalogue.checks.measure import MEASURES, IdleCondition
from toptank.catalogue.words.words import words
from toptank.knowledge.typical import typical_names, typical_sheet
from toptank.studies.diagnose.asking.next_check import settle_at_idle_conditions
from toptank.studies.diagnose.asking.open_checks import applies
from toptank.studies.diagnose.ensemble import (
    Ensemble,
    apply_causes,
    drawn_conditions,
    drawn_vehicles,
    settled,
    unsettled,
)
from toptank.studies.diagnose.evidence import Finding
from toptank.studies.diagnose.likelihood import figure_error, figures, finding_likelihood, outcome_chances
from toptank.studies.diagnose.posterior import Question

N = 256
each_check = pytest.mark.parametrize("check", checks().values(), ids=lambda check: check.id)

WITHOUT_DANGER = ("ask", "instruments", "look_and_feel")
"""Groups in which a check may be without hazard: talk, and a look with the engine off."""

DANGEROUS = re.compile(
    r"\b(?:engine hot|hot engine|running|idle|rpm|revv?\w*|lift\w*|jack|drive it|on the road|climb|cap off|take the cap"
    r"|cover\w*|hot core|steam|pump up|run it)\b",
    re.IGNORECASE,
)
"""Words in what is to be done that mean heat, turning parts, pressure or a lifted vehicle."""

SUBJECTS = {
    "temperature drop across the core": ["core_temperature_drop"],
    "hot and cold strips on the core face": ["infrared_along_core", "cold_tubes"],
    "fan speed ratio": ["fan_speed_ratio_hot"],
    "air on the face": ["face_air_speed", "paper_test"],
    "top and bottom hose": ["feel_hoses", "lower_hose_temperature"],
    "idle raised": ["fast_idle"],
    "heater on": ["heater_at_full", "heater_on_change"],
    "air conditioning off": ["air_conditioning_off"],
    "second_thermometer": ["second_thermometer"],
    "cap_tester": ["cap_tester"],
    "refill volume against capacity": ["refill_against_capacity"],
}


def test_there_are_at_least_35_checks() -> None:
    assert len(checks()) >= 35


@pytest.mark.parametrize("subject", SUBJECTS)
def test_every_check_that_was_asked_for_is_there(subject: str) -> None:
    assert set(SUBJECTS[subject]) <= set(checks())


@each_check
def test_a_check_says_how_long_with_what_and_how(check: Check) -> None:
    assert 0.0 < check.minutes <= 480.0
    assert check.group in GROUPS
    named = words("us").check[check.id]
    assert len(named.how.split()) >= 5, named.how
    assert named.tells
    assert bool(named.tools) != check.bare_hands
    assert check.source


@each_check
def test_a_check_says_how_it_misleads(check: Check) -> None:
    """No check is perfect; every one of ours has something, so an empty one has been forgotten."""
    assert len(words("us").check[check.id].misleads.split()) >= 5


@each_check
def test_what_is_hot_turns_or_hangs_has_a_warning(check: Check) -> None:
    if check.group not in WITHOUT_DANGER or (
        check.group != "ask" and DANGEROUS.search(words("us").check[check.id].how)
    ):
        assert check.hazards
        assert all(len(words("us").hazard[one].sentence.split()) >= 3 for one in check.hazards)


def test_the_four_dangers_of_the_trade_are_told_where_they_threaten() -> None:
    """Hot coolant under pressure, fans that start by themselves, blades that burst, belts."""
    told = {
        id_: " ".join(words("us").hazard[one].sentence.lower() for one in check.hazards)
        for id_, check in checks().items()
    }
    assert "scald" in told["level_cold"]
    assert "scald" in told["cap_tester"]
    assert "start at any time" in told["electric_fan_hot"]
    assert "burst" in told["spin_fan"]
    assert "belt" in told["turn_pulley_by_hand"]
    assert "burst" in told["pressure_test"]


@each_check
def test_a_check_has_either_outcomes_or_a_figure(check: Check) -> None:
    if check.dimension is None:
        assert len(check.outcomes) >= 2
        assert len(set(check.outcomes)) == len(check.outcomes)
        assert check.shown_by
    else:
        assert check.outcomes == ()
        assert check.error > 0.0
        assert bool(check.field) != bool(check.measure)
    assert set(check.shown_by) <= set(CAUSE_IDS)


@each_check
def test_rates_are_chances_and_a_cause_shows_itself_more_often_than_nothing_does(check: Check) -> None:
    """Otherwise to be listed would speak against a cause."""
    assert all(0.0 <= rate < 1.0 for rate in check.false_alarm)
    assert sum(check.false_alarm) < 1.0
    kinds = {cause.id: cause.kind_of for cause in CAUSES}
    for cause, rates in check.shown_by.items():
        assert len(rates) == len(check.false_alarm)
        assert all(0.0 <= rate <= 1.0 for rate in rates)
        # A kind of a wider cause that is listed takes over its rates; with none of its own it says that it does not
        # show: a thermostat that was put in backwards opens in the pan as stamped.
        if sum(rates) == 0.0 and kinds.get(cause) in check.shown_by:
            continue
        assert 0.0 < sum(rates) <= 1.0, cause
        assert any(rate > false for rate, false in zip(rates, check.false_alarm, strict=True)), cause


@each_check
def test_chances_of_outcomes_sum_to_one_whatever_is_wrong(check: Check) -> None:
    if check.dimension is not None:
        return
    rng = np.random.default_rng(3)
    severity = np.where(rng.random((500, len(CAUSES))) < rng.random((500, 1)) * 0.4, rng.random((500, len(CAUSES))), 0)
    severity[0], severity[1] = 0.0, 1.0
    for decisive in (False, True):
        chances = outcome_chances(check, CAUSES, severity, decisive=decisive)
        assert chances.shape == (500, len(check.outcomes))
        assert chances.min() >= 0.0
        assert chances.sum(axis=1) == pytest.approx(np.ones(500), abs=1e-12)


def test_with_nothing_wrong_a_check_shows_its_false_alarms() -> None:
    sound = np.zeros((1, len(CAUSES)))
    for check in checks().values():
        if check.dimension is None:
            chances = outcome_chances(check, CAUSES, sound)[0]
            assert chances[:-1] == pytest.approx(np.array(check.false_alarm), abs=1e-12), check.id


def test_the_chance_of_an_outcome_is_as_worked_by_hand() -> None:
    """Block fluid: hit 0.7, false alarm 0.03, severity 1: sound with (1 - 0.03)(1 - 0.7) = 0.291, yellow with 0.709.

    At half severity the hit is 0.4 + 0.6/2 = 0.7 of it, 0.49: sound with 0.97 x 0.51 = 0.4947.
    """
    severity = np.zeros((2, len(CAUSES)))
    severity[:, CAUSE_IDS.index("head_gasket_leaks")] = 1.0, 0.5
    chances = outcome_chances(checks()["combustion_leak_test"], CAUSES, severity)
    assert chances[:, 0] == pytest.approx([0.709, 0.5053], abs=1e-9)


@pytest.mark.parametrize("cause", [cause.id for cause in CAUSES])
def test_every_cause_is_shown_by_a_check_that_can_be_made(cause: str) -> None:
    """At full severity some abnormal outcome is at least three times as likely as on a sound vehicle."""
    place = CAUSE_IDS.index(cause)
    severity = np.zeros((2, len(CAUSES)))
    severity[1, place] = 1.0
    lifts = []
    for check in checks().values():
        if check.dimension is None:
            chances = outcome_chances(check, CAUSES, severity)
            lifts.append(float(np.max(chances[1, :-1] / np.maximum(chances[0, :-1], 1e-6))))
    assert max(lifts) >= 3.0


def test_nothing_broken_is_shown_by_no_check() -> None:
    assert not any(NOTHING_BROKEN in check.shown_by for check in checks().values())


def _possible(like: str, question: Question) -> Ensemble:
    """Vehicles of which each second one has a cause that fits, in turn."""
    sound = drawn_vehicles(typical_sheet(like), N, 4)
    odds = np.array([float(np.mean(np.asarray(cause.prior_factor(sound), float))) for cause in CAUSES])
    severity = np.zeros((N, len(CAUSES)))
    fits = np.flatnonzero(odds > 0.5)
    severity[np.arange(0, N, 2), fits[np.arange(N // 2) % len(fits)]] = 0.9
    vehicle, _ = apply_causes(sound, CAUSES, severity, np.maximum(odds, 1e-9))
    days = drawn_conditions(question.sheet, question.duties, N, 4)
    return settle_at_idle_conditions(unsettled(sound, vehicle, severity, days, "idle"))


@pytest.mark.parametrize("like", typical_names())
def test_every_figure_can_be_worked_out_on_every_typical_vehicle(like: str, asked: Callable[..., Question]) -> None:
    possible = _possible(like, asked())
    for check in checks().values():
        if check.dimension is not None:
            figure = np.asarray(figures(check, possible), float)
            assert figure.shape == (N,), check.id
            assert np.all(np.isfinite(figure)), check.id
            assert np.all(figure_error(check, figure) > 0.0), check.id


def test_every_measure_belongs_to_a_check_and_names_duties_that_are_settled() -> None:
    used = {check.measure for check in checks().values() if check.measure}
    assert used == set(MEASURES)
    assert all(set(measure.at) <= set(IdleCondition) for measure in MEASURES.values())


@pytest.mark.parametrize("name", [check.id for check in checks().values() if check.dimension is not None])
def test_a_figure_is_likeliest_where_it_is_true(name: str, asked: Callable[..., Question]) -> None:
    """What one vehicle shows speaks most for vehicles that show the same."""
    possible = _possible("pickup-1970s-v8-air", asked())
    check = checks()[name]
    if not applies(check, possible.vehicle):
        return
    figure = np.asarray(figures(check, possible), float)
    likelihood = finding_likelihood(Finding(check=name, figure=float(figure[7])), CAUSES, possible)
    assert likelihood[7] >= likelihood.max() - 1e-12


@pytest.mark.parametrize(
    ("measure", "cause", "sign"),
    [
        ("gauge_error", "gauge_reads_high", 1.0),
        ("core_drop", "pump_worn", 1.0),
        ("fan_speed_ratio", "fan_clutch_slips", -1.0),
        ("face_velocity", "fan_too_weak", -1.0),
        ("face_velocity", "fins_blocked", -1.0),
        ("front_air_rise", "shroud_leaks", 1.0),
    ],
)
def test_the_model_shows_a_cause_by_the_sign_the_trade_looks_for(
    measure: str, cause: str, sign: float, asked: Callable[..., Question]
) -> None:
    """Common practice, no source: a weak pump widens the drop, a slipping clutch slows the fan, dirt stops the air."""
    severity = np.zeros((2 * N, len(CAUSES)))
    severity[N:, CAUSE_IDS.index(cause)] = 0.9
    twice = drawn_vehicles(typical_sheet("pickup-1970s-v8-air"), 2 * N, 4)
    vehicle, _ = apply_causes(twice, CAUSES, severity, np.ones(len(CAUSES)))
    days = drawn_conditions(asked().sheet, asked().duties, 2 * N, 4)
    possible = settled(unsettled(twice, vehicle, severity, days, "idle"), (), MEASURES[measure].at)
    figure = MEASURES[measure].of(possible.vehicle, possible.idle_balances, possible.outside.ambient) + np.zeros(2 * N)
    assert sign * (np.median(figure[N:]) - np.median(figure[:N])) > 0.0


def test_air_at_the_face_of_an_electric_fan_is_what_it_moves_when_it_runs(asked: Callable[..., Question]) -> None:
    """The check is made with the fans running, as it says: about what they move when the air conditioning asks them."""
    sound = drawn_vehicles(typical_sheet("wagon-1990s-v6-air"), N, 4)
    days = drawn_conditions(asked().sheet, asked().duties, N, 4)
    possible = settle_at_idle_conditions(unsettled(sound, sound, np.zeros((N, len(CAUSES))), days, "idle"))
    figure = np.asarray(figures(checks()["face_air_speed"], possible), float)
    running = np.asarray(possible.idle_balances[IdleCondition.COOLED].V_fan_zone, float)
    assert np.median(figure) > 0.5 * np.median(running), (np.median(figure), np.median(running))
