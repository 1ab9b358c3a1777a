"""Which plan to take and which check to make first: small cases that can be reckoned by hand, in money."""

from typing import Any

import numpy as np
import pytest

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.studies.choose.decision import (
    CheckModel,
    Fault,
    LossModel,
    Seen,
    brings_back,
    decisive,
    expected_value_of_sample_information,
    losses,
    recommended,
    worth_showing,
)
from toptank.studies.choose.worst_day_forecast import WorstDayForecast

N = 1000
LOST_DAY = 3000.0


def _plan(cost: float, held: Any, *remedies: str) -> WorstDayForecast:
    """Return a plan that holds on some draws: on the first share of them, or where the flags say so."""
    flags = np.arange(N) < round(N * held) if isinstance(held, float) else held
    done = tuple(remedy for remedy in REMEDIES if remedy.id in remedies)
    return WorstDayForecast(
        remedies=done, duties=(), holds=float(flags.mean()), held=flags, hardest="", limiting_ambient=None, cost=cost,
        minutes=60.0,
    )  # fmt: skip


def _split(chances: Any, minutes: float = 1.0) -> CheckModel:
    return CheckModel("look", minutes, None, (Seen("yes"), Seen("no")), np.asarray(chances, float))


@pytest.mark.parametrize(("holds", "taken"), [(0.79, 400.0), (0.81, 400.0), (0.87, 400.0), (0.89, 100.0)])
def test_a_dearer_plan_is_taken_while_what_it_holds_more_is_worth_its_price(holds: float, taken: float) -> None:
    """100 + 3000 (1 - h) against 400 + 3000 x 0.02 = 460: even at h = 0.88, and nothing happens at 0.80."""
    found = recommended([_plan(0.0, 0.0), _plan(100.0, holds), _plan(400.0, 0.98)], LossModel(LOST_DAY))
    assert found is not None
    assert found.cost == taken


def test_a_fault_that_is_left_is_mended_later_at_its_price() -> None:
    """Even odds of a fault of 230: leaving it costs 115; both plans hold always, 300 against 400 less 115."""
    leaves, mends = _plan(300.0, 1.0), _plan(400.0, 1.0, "replace_fan_clutch")
    fault = Fault("replace_fan_clutch", np.arange(N) % 2 == 0, frozenset({"replace_fan_clutch"}), 230.0)
    stakes = LossModel(LOST_DAY, faults=(fault,))
    assert losses([leaves, mends], stakes).mean(axis=0).tolist() == [415.0, 400.0]
    assert recommended([leaves, mends], stakes) is mends
    assert recommended([leaves, mends], LossModel(LOST_DAY)) is leaves


@pytest.mark.parametrize(("price", "taken"), [(500.0, 9.0), (700.0, 300.0)])
def test_going_without_is_weighed_at_its_price(price: float, taken: float) -> None:
    """9 + 3000 x 0.02 + price against 300 + 3000 x 0.15 = 750: the customer goes without while that is under 681."""
    without = _plan(9.0, 0.98, "air_conditioning_off")
    found = recommended([_plan(0.0, 0.0), without, _plan(300.0, 0.85)], LossModel(LOST_DAY, cost_of_concession=price))
    assert found is not None
    assert found.cost == taken


def test_what_fails_more_often_than_not_is_no_plan() -> None:
    assert recommended([_plan(0.0, 0.1), _plan(100.0, 0.49)], LossModel(LOST_DAY)) is None


def test_an_uncertain_diagnosis_asks_for_a_check_and_not_for_a_bigger_radiator() -> None:
    """Six in ten have the fault; its repair holds on 95 of 100 of those, the radiator on 95 of all, for 900.

    On the whole the radiator costs 900 + 3000 x 0.05 + 230 x 0.6 = 1188, the repair 230 + 3000 x 0.43 = 1520.
    """
    broken = np.arange(N) < 600
    plain = _plan(230.0, np.arange(N) < 570, "replace_fan_clutch")
    radiator = _plan(900.0, 0.95, "aluminium_radiator_2_row")
    fault = Fault("replace_fan_clutch", broken, frozenset({"replace_fan_clutch"}), 230.0)
    stakes = LossModel(LOST_DAY, faults=(fault,))
    plans = [_plan(0.0, 0.0), plain, radiator]
    assert recommended(plans, stakes, plain, sound=0.95) is plain
    assert recommended(plans, stakes, None) is radiator


@pytest.mark.parametrize(("holds", "sound", "enough"), [(0.85, 0.95, True), (0.6, 0.65, True), (0.6, 0.9, False)])
def test_a_repair_is_measured_by_what_a_sound_vehicle_does(holds: float, sound: float, enough: bool) -> None:
    """Eight in ten is sure enough, ten points less than a sound one is as good as that."""
    fault = Fault("replace_fan_clutch", np.ones(N, bool), frozenset({"replace_fan_clutch"}), 230.0)
    assert brings_back(_plan(230.0, holds, "replace_fan_clutch"), fault, sound) == enough


def test_on_a_day_that_no_sound_vehicle_holds_the_plain_repair_is_no_plan() -> None:
    fault = Fault("replace_fan_clutch", np.ones(N, bool), frozenset({"replace_fan_clutch"}), 230.0)
    plain = _plan(230.0, 0.1, "replace_fan_clutch")
    assert recommended([_plan(0.0, 0.0), plain], LossModel(LOST_DAY, faults=(fault,)), plain, sound=0.1) is None


@pytest.mark.parametrize(("broken", "as_it_is", "taken"), [(150, 0.96, 0.0), (150, 0.4, 753.0), (900, 0.96, 753.0)])
def test_a_vehicle_that_holds_as_it_stands_needs_no_repair_of_what_is_hardly_broken(
    broken: int, as_it_is: float, taken: float
) -> None:
    """15 in 100 may need a radiator of 753: 113 later and 120 of lost days are less than 753 now. What is known is."""
    core = "aluminium_radiator_plastic_tanks"
    fault = Fault("replace_core", np.arange(N) < broken, frozenset({core}), 753.0)
    nothing, plain = _plan(0.0, as_it_is), _plan(753.0, 0.97, core)
    found = recommended([nothing, plain], LossModel(LOST_DAY, faults=(fault,)), plain)
    assert found is not None
    assert found.cost == taken


def test_what_leaves_the_fault_or_gains_too_little_is_not_shown() -> None:
    """The repair holds 85 of 100: 93 for a pulley with it are too little, 97 for a radiator with it are shown."""
    fault = Fault("replace_fan_clutch", np.arange(N) < 900, frozenset({"replace_fan_clutch"}), 230.0)
    nothing, pulley_alone = _plan(0.0, 0.0), _plan(187.0, 0.3, "smaller_pump_pulley")
    plain = _plan(230.0, 0.85, "replace_fan_clutch")
    pulley = _plan(417.0, 0.93, "replace_fan_clutch", "smaller_pump_pulley")
    radiator = _plan(1000.0, 0.97, "replace_fan_clutch", "aluminium_radiator_2_row")
    shown = worth_showing([nothing, pulley_alone, plain, pulley, radiator], LossModel(1.0, faults=(fault,)), plain)
    assert shown == [nothing, plain, radiator]


def test_the_plan_depends_on_a_check_that_tells_what_is_broken() -> None:
    """Half are broken. 100 mends those alone, 900 holds on all: knowing saves 800 on every other vehicle, 400."""
    broken = np.arange(N) % 4 < 2
    cheap, dear = _plan(100.0, broken), _plan(900.0, 1.0)
    tells = _split(np.stack([broken, ~broken], axis=1), minutes=6.0)
    check = decisive([_plan(0.0, 0.0), cheap, dear], LossModel(LOST_DAY, labour=2.0, checks=(tells,)))
    assert check is not None
    assert check.saves == pytest.approx(400.0 - 12.0)
    assert {branch.seen: branch.plan for branch in check.branches} == {(Seen("yes"),): cheap, (Seen("no"),): dear}
    assert sum(branch.chance for branch in check.branches) == pytest.approx(1.0)


@pytest.mark.parametrize("minutes", [1.0, 300.0])
def test_a_check_that_tells_nothing_or_costs_more_than_it_saves_decides_nothing(minutes: float) -> None:
    """At 2 a minute 300 minutes cost 600, and the best of checks saves 400."""
    broken = np.arange(N) % 4 < 2
    told = np.full((N, 2), 0.5) if minutes == 1.0 else np.stack([broken, ~broken], axis=1)
    plans = [_plan(100.0, broken), _plan(900.0, 1.0)]
    assert decisive(plans, LossModel(LOST_DAY, labour=2.0, checks=(_split(told, minutes),))) is None


def test_chance_does_not_make_a_check_look_worth_it() -> None:
    """Outcomes thrown by a coin tell nothing: what they seem to save is nought on average, within three errors."""
    rng = np.random.default_rng()
    found: list[float] = []
    for _ in range(200):
        lost = np.array(LOST_DAY * (rng.random((N, 6)) < 0.3), float)
        seen = rng.integers(0, 3, N)
        found.append(expected_value_of_sample_information(lost, np.eye(3)[seen]))
    assert np.mean(found) < 3.0 * np.std(found) / np.sqrt(len(found))


def test_a_check_of_which_no_outcome_leads_to_the_plan_taken_decides_nothing() -> None:
    """Between two others it would save 400: beside a plan that no outcome asks for that is no reason to look."""
    broken = np.arange(N) % 4 < 2
    plans = [_plan(0.0, 0.0), _plan(100.0, broken), _plan(900.0, 1.0), _plan(950.0, 1.0)]
    stakes = LossModel(LOST_DAY, labour=2.0, checks=(_split(np.stack([broken, ~broken], axis=1), minutes=6.0),))
    assert decisive(plans, stakes, plans[3]) is None
    assert decisive(plans, stakes, plans[1]) is not None


@pytest.mark.parametrize(("with_another", "enough"), [(0.4, True), (0.0, False)])
def test_what_else_may_be_broken_is_for_the_road_test(with_another: float, enough: bool) -> None:
    """Of all that have the fault half have another, too: 95 in 100 hold where it is alone, few or none where it is not.

    Common practice, no source: the bad part first and a road test, not every part that may be bad as well. In all 0.675
    hold, more often than not; or 0.475, and then the plain repair is none.
    """
    place = np.arange(N)
    another = place >= N // 2
    held = np.where(another, place - N // 2 < with_another * N / 2, place < 0.95 * N / 2)
    fault = Fault("replace_cap", np.ones(N, bool), frozenset({"replace_cap"}), 25.0)
    other = Fault("replace_belt", another, frozenset({"replace_belt"}), 77.0)
    plain = _plan(25.0, held, "replace_cap")
    assert brings_back(plain, fault, 0.95, [other]) is enough
    assert not brings_back(plain, fault, 0.95), "by itself it is not as good as a sound one"
