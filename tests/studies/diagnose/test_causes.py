"""Causes change a vehicle as the trade says, stay inside what a part can be, and fit somebody."""

import dataclasses
from collections.abc import Callable
from functools import cache
from typing import Any

import numpy as np
import pytest

from toptank.catalogue.causes.all_causes import CAUSE_IDS, CAUSES, NOTHING_BROKEN
from toptank.catalogue.causes.cause import ONSETS, Cause
from toptank.catalogue.checks.check import checks
from toptank.catalogue.words.words import words
from toptank.knowledge.draws import draw_duty, draws
from toptank.knowledge.sheet import declaration_of, fields, vehicle
from toptank.knowledge.typical import typical_names, typical_sheet
from toptank.studies.diagnose.ensemble import LEAST_SEVERITY, severities
from toptank.studies.diagnose.evidence import WORK
from toptank.studies.diagnose.posterior import Question
from toptank.system.balance import Balance
from toptank.system.population import solve
from toptank.system.vehicle import Vehicle

N = 256
BY_NAME = {cause.id: cause for cause in CAUSES}
each_cause = pytest.mark.parametrize("cause", CAUSES, ids=lambda cause: cause.id)

# The list of causes that diagnosis is to know, phrase by phrase, with the names that stand for each.
WANTED = {
    "core too small for the duty": ["core_too_small"],
    "scale in tubes": ["tubes_scaled"],
    "tubes_blocked": ["tubes_blocked"],
    "fins_blocked": ["fins_blocked"],
    "fins loose on tubes": ["fins_loose"],
    "fan clutch slips, engages late, or seized": [
        "fan_clutch_slips", "fan_clutch_late", "fan_clutch_seized",
    ],
    "fan missing, too small or fouled": ["fan_missing", "fan_too_weak"],
    "electric fan dead, weak or reversed": ["electric_fan_weak", "electric_fan_reversed"],
    "shroud missing, leaking, or choking ram air": [
        "shroud_missing", "shroud_leaks", "shroud_chokes_ram_air",
    ],
    "air_bypasses_core": ["air_bypasses_core"],
    "belt_slips": ["belt_slips"],
    "pump worn, turning the wrong way": ["pump_worn", "pump_reversed"],
    "thermostat stuck or late, wrong kind for the bypass": [
        "thermostat_stuck", "thermostat_wrong", "thermostat_open",
    ],
    "lower_hose_collapses": ["lower_hose_collapses"],
    "cap weak or of the wrong kind": ["cap_weak"],
    "low coolant or air": ["coolant_low"],
    "mixture too strong or too weak": ["coolant_too_strong", "coolant_too_weak"],
    "block_silted": ["block_silted"],
    "ignition_late": ["ignition_late"],
    "mixture lean": ["mixture_lean"],
    "exhaust_restricted": ["exhaust_restricted"],
    "head gasket leaks gas": ["head_gasket_leaks"],
    "brakes_drag": ["brakes_drag"],
    "transmission_heat": ["transmission_heat"],
    "nothing_broken": [NOTHING_BROKEN],
    "the gauge lies": ["gauge_reads_high"],
}  # fmt: skip


@pytest.mark.parametrize("wanted", WANTED)
def test_every_cause_that_was_asked_for_is_looked_for(wanted: str) -> None:
    assert set(WANTED[wanted]) <= set(CAUSE_IDS)


def test_no_cause_has_two_entries_and_every_one_is_told_in_words() -> None:
    assert len(set(CAUSE_IDS)) == len(CAUSE_IDS)
    for cause in CAUSES:
        assert words("us").cause[cause.id].sentence.endswith("."), cause.id
        assert cause.repair, cause.id
        assert cause.origin in ("judgement", "common practice, no source"), cause.id


@each_cause
def test_what_a_cause_says_of_itself_can_be_used(cause: Cause) -> None:
    assert cause.mended_by, "nothing mends it"
    assert set(cause.mended_by) | set(cause.begun_by) <= set(WORK)
    assert 0.0 < cause.prior_weight < 1.0
    assert sum(cause.onset) == pytest.approx(1.0), f"shares of {ONSETS[:-1]}"
    assert min(cause.severity) > 0.0


def _leaves(vehicles: Vehicle) -> dict[str, Any]:
    return {path: getattr(getattr(vehicles, path.split(".")[0]), path.split(".")[1]) for path, _ in fields()}


def _differing(one: Vehicle, other: Vehicle) -> list[str]:
    first, second = _leaves(one), _leaves(other)
    return [path for path in first if not np.array_equal(first[path] + np.zeros(N), second[path] + np.zeros(N))]


@each_cause
def test_no_severity_leaves_every_vehicle_bit_for_bit_as_it_is(cause: Cause) -> None:
    for like in typical_names():
        assert _differing(_sound(like), cause.effect(_sound(like), np.zeros(N))) == [], like


@cache
def _sound(like: str) -> Vehicle:
    return draws(typical_sheet(like), N, 5)


@each_cause
def test_full_severity_changes_a_vehicle_that_can_have_it(cause: Cause) -> None:
    """On every typical vehicle that can have it, in every draw that can."""
    found = 0
    for like in typical_names():
        sound = _sound(like)
        can = np.asarray(cause.prior_factor(sound), float) + np.zeros(N) > 0.0
        first, second = _leaves(sound), _leaves(cause.effect(sound, np.ones(N)))
        moved = np.any([(first[path] != second[path]) + np.zeros(N, bool) for path in first], axis=0)
        assert moved[can].all(), like
        found += bool(can.mean() > 0.5)
    assert found > 0, "fits no typical vehicle"


@each_cause
def test_no_cause_takes_a_part_beyond_what_it_can_be(cause: Cause) -> None:
    """Hard limits of every field of every typical vehicle, at severities from 0 to 1 in one array."""
    for like in typical_names():
        can = np.asarray(cause.prior_factor(_sound(like)), float) + np.zeros(N) > 0.0
        for path, values in _leaves(cause.effect(_sound(like), np.linspace(0.0, 1.0, N))).items():
            low, high = declaration_of(path).hard
            inside = (values >= low - 1e-12) & (values <= high * (1.0 + 1e-12)) | ~can
            assert inside.all(), (like, path, float(np.min(values)), float(np.max(values)), (low, high))


@pytest.mark.parametrize("like", ["pickup-1970s-v8-air", "wagon-1990s-v6-air", "open-car-1930s-four"])
def test_two_and_three_causes_at_once_stay_within_what_parts_can_be(like: str) -> None:
    """Any two at once, each at a severity of its own; those of one draw do not touch the others."""
    sound = draws(typical_sheet(like), N, 8)
    severity = np.linspace(0.05, 1.0, N)
    for first in CAUSES:
        once = first.effect(sound, severity)
        for second in CAUSES:
            twice = second.effect(once, np.where(np.arange(N) % 2 == 0, severity[::-1], 0.0))
            for path, values in _leaves(twice).items():
                low, high = declaration_of(path).hard
                ok = (values >= low - 1e-12) & (values <= high * (1.0 + 1e-12))
                assert np.all(ok), (first.id, second.id, path, float(np.min(values)), float(np.max(values)))


@each_cause
def test_mixed_severities_give_each_draw_what_it_would_get_alone(cause: Cause) -> None:
    central = vehicle(typical_sheet("pickup-1970s-v8-air"))
    grades = np.array([0.0, 0.2, 0.5, 1.0])
    together = _leaves(cause.effect(central, grades))
    for place, grade in enumerate(grades):
        alone = _leaves(cause.effect(central, np.full(1, grade)))
        for path, values in together.items():
            here = np.broadcast_to(values, (4,))[place]
            assert here == pytest.approx(float(np.ravel(alone[path])[0]), rel=1e-14), path


def test_severities_are_drawn_where_a_cause_is_and_nowhere_else() -> None:
    present = np.random.default_rng(1).random((4000, len(CAUSES))) < 0.3
    drawn = severities(CAUSES, present, np.random.default_rng(2))
    assert np.all(drawn[~present] == 0.0)
    assert np.all((drawn[present] >= LEAST_SEVERITY) & (drawn[present] <= 1.0))
    a, b = BY_NAME["pump_worn"].severity
    column = drawn[:, CAUSE_IDS.index("pump_worn")]
    expected = LEAST_SEVERITY + (1.0 - LEAST_SEVERITY) * a / (a + b)  # mean of a beta distribution
    assert column[column > 0.0].mean() == pytest.approx(expected, abs=0.03)


@pytest.mark.parametrize(
    ("cause", "like"),
    [
        ("fan_clutch_slips", "wagon-1990s-v6-air"),
        ("fan_clutch_late", "wagon-1990s-v6-air"),
        ("fan_clutch_seized", "saloon-1950s-six"),
        ("electric_fan_weak", "pickup-1970s-v8-air"),
        ("electric_fan_reversed", "saloon-1950s-six"),
        ("mixture_lean", "pickup-1990s-diesel-air"),
        ("transmission_heat", "roadster-1960s-four"),
    ],
)
def test_what_is_not_fitted_cannot_fail(cause: str, like: str) -> None:
    assert float(np.max(np.asarray(BY_NAME[cause].prior_factor(vehicle(typical_sheet(like))), float))) == 0.0


def test_every_cause_has_a_check_that_shows_it() -> None:
    shown = {cause for check in checks().values() for cause in check.shown_by}
    assert {cause.id for cause in CAUSES if cause.kind_of not in shown} <= shown, "a kind shows what the wider one does"
    assert shown <= set(CAUSE_IDS), "a check speaks of a cause that is none"


Seen = Callable[[Vehicle, Balance], Any]

# A seized clutch always drives the fan: noise and power, little heat (common practice, no source). A choking shroud
# holds back ram air, which tells at speed only. Both are in the list all the same.
RUNS_COLD = ("thermostat_open", "gauge_reads_low")
BOILS_EARLIER = ("cap_weak", "cap_wrong", "coolant_too_weak")
WITHOUT_COOLING = ("fan_switch_dead",)  # the air conditioning turns that fan on by its own wire
HARDLY_WARMER = ("fan_clutch_seized",)


def _settled(sound: Vehicle, cause: Cause, question: Question) -> list[tuple[Balance, Balance]]:
    sick = cause.effect(sound, np.ones(N))
    duties = [draw_duty(duty, N, 9) for duty in question.duties]
    if cause.id in WITHOUT_COOLING:
        duties = [dataclasses.replace(duty, air_conditioning=np.zeros(N)) for duty in duties]
    return [(solve(sound, duty), solve(sick, duty)) for duty in duties]


def _fitting(cause: Cause) -> str:
    """A typical vehicle that usually has what can fail."""
    order = ("pickup-1970s-v8-air", "wagon-1990s-v6-air", *typical_names())
    return next(like for like in order if float(np.mean(cause.prior_factor(draws(typical_sheet(like), N, 9)))) > 0.3)


@pytest.mark.parametrize("cause", [cause for cause in CAUSES if cause.id not in RUNS_COLD], ids=lambda it: it.id)
def test_at_its_worst_a_cause_makes_the_gauge_hotter_or_boiling_nearer(
    cause: Cause, asked: Callable[..., Question]
) -> None:
    """In the median draw, at a hot idle, on the climb or on the flat: by 2 K, the least a driver could see."""
    sound = draws(typical_sheet(_fitting(cause)), N, 9)
    pairs = _settled(sound, cause, asked())
    hotter = [float(np.median(sick.T_gauge - well.T_gauge)) for well, sick in pairs]
    nearer = [float(np.median(well.margin_to_boiling() - sick.margin_to_boiling())) for well, sick in pairs]
    if cause.id in BOILS_EARLIER:
        assert max(nearer) > 2.0, nearer
    elif cause.id in HARDLY_WARMER:
        assert abs(hotter[1]) < 10.0, hotter
    else:
        assert max(hotter) > 2.0, hotter


@pytest.mark.parametrize("like", ["pickup-1970s-v8-air", "saloon-1950s-six", "wagon-1990s-v6-air"])
def test_without_its_thermostat_it_runs_cold_on_the_flat_of_a_cool_day(
    like: str, asked: Callable[..., Question]
) -> None:
    """At 45 °F. On a hot day a sound thermostat stands open too, and then there is nothing to be seen."""
    sound = draws(typical_sheet(like), N, 9)
    cool = dataclasses.replace(draw_duty(asked().duties[2], N, 9), ambient=np.full(N, (45.0 + 459.67) / 1.8))
    for severity in (0.2, 1.0):
        sick = BY_NAME[RUNS_COLD[0]].effect(sound, np.full(N, severity))
        assert float(np.median(solve(sick, cool).T_gauge - solve(sound, cool).T_gauge)) < -2.0
