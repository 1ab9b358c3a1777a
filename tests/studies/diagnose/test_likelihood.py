"""What may be seen has chances that add up to one on every vehicle; otherwise some vehicles are favoured unseen."""

from collections.abc import Callable
from itertools import pairwise

import numpy as np
import pytest

from toptank.catalogue.causes.all_causes import CAUSE_IDS, CAUSES
from toptank.catalogue.checks.check import checks
from toptank.catalogue.checks.measure import IdleCondition
from toptank.knowledge.typical import typical_sheet
from toptank.studies.diagnose.ensemble import (
    Ensemble,
    apply_causes,
    drawn_conditions,
    drawn_vehicles,
    settled,
    unsettled,
)
from toptank.studies.diagnose.evidence import EFFECTS, NEEDLE, ONSETS, WORDS, WORK, Changed, Finding, History, Reading
from toptank.studies.diagnose.likelihood import (
    change_likelihood,
    counts,
    figure_error,
    figures,
    finding_likelihood,
    history_likelihood,
    likelihoods,
    reading_likelihood,
)
from toptank.studies.diagnose.posterior import Question

Asked = Callable[..., Question]

N = 256
PICKUP = "pickup-1970s-v8-air"


@pytest.fixture(scope="module")
def possible(asked: Asked) -> Ensemble:
    """Pickups with one cause each, at three duties and standing."""
    sound = drawn_vehicles(typical_sheet(PICKUP), N, 4)
    odds = np.array([float(np.mean(np.asarray(cause.prior_factor(sound), float))) for cause in CAUSES])
    fits = np.flatnonzero(odds > 0.0)
    severity = np.zeros((N, len(CAUSES)))
    severity[np.arange(N), fits[np.arange(N) % len(fits)]] = 0.8
    vehicle, _ = apply_causes(sound, CAUSES, severity, np.maximum(odds, 1e-9))
    days = drawn_conditions(asked().sheet, asked().duties, N, 4)
    return settled(unsettled(sound, vehicle, severity, days, "idle"), tuple(days), tuple(IdleCondition))


@pytest.mark.parametrize("duty", ["idle", "climb", "flat"])
def test_the_needle_stands_somewhere(duty: str, possible: Ensemble) -> None:
    total = sum(reading_likelihood(Reading(duty=duty, needle=word), possible) for word in NEEDLE)
    assert total == pytest.approx(np.ones(N), abs=1e-12)


@pytest.mark.parametrize("duty", ["idle", "climb", "flat"])
def test_a_driver_says_one_thing_of_one_drive(duty: str, possible: Ensemble) -> None:
    """Who has seen it boil says so, and does not call it hot or fine."""
    total = sum(reading_likelihood(Reading(duty=duty, words=word), possible) for word in WORDS)
    assert total == pytest.approx(np.ones(N), abs=0.01)


@pytest.mark.parametrize("place", ["gauge", "second", "transmission"])
def test_ranges_side_by_side_add_up_to_the_range_over_all_of_them(place: str, possible: Ensemble) -> None:
    edges = [340.0, 360.0, 372.0, 390.0]
    parts = sum(
        reading_likelihood(Reading(duty="climb", low=low, high=high, place=place), possible)
        for low, high in pairwise(edges)
    )
    whole = reading_likelihood(Reading(duty="climb", low=edges[0], high=edges[-1], place=place), possible)
    assert parts == pytest.approx(whole, abs=1e-9)


def test_below_and_above_one_figure_is_all_there_is(possible: Ensemble) -> None:
    below = reading_likelihood(Reading(duty="flat", high=365.0), possible)
    above = reading_likelihood(Reading(duty="flat", low=365.0), possible)
    assert below + above == pytest.approx(np.ones(N), abs=1e-9)


@pytest.mark.parametrize("decisive", [False, True])
def test_outcomes_of_every_check_add_up_to_one(decisive: bool, possible: Ensemble) -> None:
    for check in checks().values():
        if check.dimension is None:
            seen = [Finding(check=check.id, outcome=outcome, decisive=decisive) for outcome in check.outcomes]
            total = sum(finding_likelihood(one, CAUSES, possible) for one in seen)
            assert total == pytest.approx(np.ones(N), abs=1e-9), check.id


@pytest.mark.parametrize("name", [check.id for check in checks().values() if check.dimension is not None])
def test_a_figure_has_the_same_total_chance_on_every_vehicle(name: str, possible: Ensemble) -> None:
    """Summed over all figures that could be read; a density must not grow with the error that it divides by."""
    check = checks()[name]
    figure = np.asarray(figures(check, possible), float)
    error = figure_error(check, figure)
    steps = np.linspace((figure - 7.0 * error).min(), (figure + 7.0 * error).max(), 6001)
    spacing = steps[1] - steps[0]
    keep = error >= 2.0 * spacing  # the grid must see the peak
    total = sum(finding_likelihood(Finding(check=name, figure=float(step)), CAUSES, possible) for step in steps)
    assert keep.sum() > N // 2
    assert np.asarray(total)[keep] == pytest.approx(np.full(keep.sum(), np.median(np.asarray(total)[keep])), rel=0.02)


@pytest.mark.parametrize("part", WORK)
def test_what_a_changed_part_did_adds_up_to_one(part: str, possible: Ensemble) -> None:
    total = sum(change_likelihood(Changed(part=part, effect=effect), CAUSES, possible.present) for effect in EFFECTS)
    assert total == pytest.approx(np.ones(N), abs=1e-9)


def test_how_it_began_adds_up_to_one(possible: Ensemble) -> None:
    total = sum(history_likelihood(History(onset=onset), CAUSES, possible.present) for onset in ONSETS)
    assert total == pytest.approx(np.ones(N), abs=1e-9)


def test_no_history_says_nothing(possible: Ensemble, asked: Asked) -> None:
    assert history_likelihood(History(), CAUSES, possible.present) == pytest.approx(np.ones(N))
    assert likelihoods(asked().evidence, CAUSES, possible).shape == (0, N)


def test_miles_speak_for_what_wears_and_new_parts_against_their_causes(possible: Ensemble) -> None:
    many, few = (history_likelihood(History(distance=d), CAUSES, possible.present) for d in (3e8, 2e7))
    worn = possible.present[:, CAUSE_IDS.index("pump_worn")]
    assert np.all(many[worn] > 1.0)
    assert np.all(few[worn] < 1.0)
    gauge = possible.present[:, CAUSE_IDS.index("gauge_reads_high")]
    assert np.all(many[gauge] == 1.0)
    renewed = history_likelihood(History(renewed=("water_pump",)), CAUSES, possible.present)
    assert np.all(renewed[worn] < 1.0)
    assert np.all(renewed[gauge] == 1.0)


def test_whatever_is_seen_no_vehicle_becomes_impossible(possible: Ensemble) -> None:
    """Anybody can be mistaken: no likelihood is nothing, or one wrong figure would rule out the truth."""
    readings = [
        Reading(duty="climb", low=250.0, high=250.0),
        Reading(duty="climb", low=430.0, high=430.0),
        Reading(duty="climb", low=420.0),
        Reading(duty="climb", high=250.0),
        *(Reading(duty="climb", words=word) for word in WORDS),
        *(Reading(duty="climb", needle=word) for word in NEEDLE),
    ]
    for reading in readings:
        assert reading_likelihood(reading, possible).min() > 1e-6, reading


def test_likelihoods_are_chances(possible: Ensemble) -> None:
    for word in WORDS:
        chance = reading_likelihood(Reading(duty="idle", words=word), possible)
        assert np.all((chance >= 0.0) & (chance <= 1.0 + 1e-12))


def test_a_lying_gauge_moves_the_gauge_and_not_the_second_thermometer(possible: Ensemble) -> None:
    lies = possible.present[:, CAUSE_IDS.index("gauge_reads_high")]
    gauge, second = (
        reading_likelihood(Reading(duty="flat", low=385.0, place=place), possible) for place in ("gauge", "second")
    )
    assert np.median(gauge[lies]) > 5.0 * np.median(second[lies])


def test_what_was_found_and_put_right_without_effect_is_not_wrong_still() -> None:
    """A thermostat was missing and one was fitted: nobody fits another. What was only found speaks in full."""
    missing = Finding(check="kind_of_thermostat", outcome="none_fitted")
    found, did_nothing, helped = (
        counts(missing, changes)
        for changes in (
            (),
            (Changed(part="thermostat", effect="none"),),
            (Changed(part="cap", effect="none"), Changed(part="thermostat", effect="helped")),
        )
    )
    assert did_nothing < 0.2 * found
    assert helped == pytest.approx(0.5 * found)
    assert counts(missing, (Changed(part="water_pump", effect="none"),)) == found
    sound = Finding(check="kind_of_thermostat", outcome="right_kind")
    assert counts(sound, (Changed(part="thermostat", effect="none"),)) == 1.0


def test_what_was_changed_leaves_less_of_its_own_fault_than_of_others(possible: Ensemble) -> None:
    """Six parts changed without effect: every cause that they put right has become rarer, the others have not."""
    parts = ("thermostat", "water_pump", "cap", "hoses", "radiator_rodded", "fan_clutch")
    told = np.prod(
        [change_likelihood(Changed(part=part, effect="none"), CAUSES, possible.present) for part in parts], axis=0
    )
    mended = np.array([bool(set(parts) & set(cause.mended_by)) for cause in CAUSES])
    its_own = (possible.present & mended).any(axis=1)
    assert told[its_own].max() < 0.35 * told[~its_own & ~(possible.present[:, _place("coolant_low")])].min()


def _place(cause: str) -> int:
    return CAUSE_IDS.index(cause)
