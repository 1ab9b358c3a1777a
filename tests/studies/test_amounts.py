"""Amounts that no law holds: each of them was once changed by hand, and every test of laws still passed."""

from types import SimpleNamespace
from typing import Any, cast

import numpy as np
import pytest

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.knowledge.sheet import vehicle
from toptank.knowledge.typical import typical_sheet
from toptank.studies.choose.worst_day_forecast import holds
from toptank.studies.diagnose.diagnosis import without_each_piece
from toptank.studies.diagnose.evidence import Changed
from toptank.studies.diagnose.likelihood import change_likelihood
from toptank.system.condition import Passage
from toptank.system.vehicle import Vehicle


def _passage(*, peak: float, margin: float) -> Passage:
    one = np.array([1.0])
    ends = {"T_peak": peak * one, "T_gauge_peak": peak * one, "least_margin": margin * one, "boils_after": np.inf * one}
    return Passage(end=cast("Any", None), state=cast("Any", None), **ends)


@pytest.mark.parametrize(("peak", "margin", "held"), [(380.0, 8.0, True), (380.0, 0.0, False), (396.0, 8.0, False)])
def test_a_vehicle_holds_where_it_stays_under_the_limit_and_does_not_boil(
    peak: float, margin: float, held: bool
) -> None:
    """A limit above the boiling point lets nothing boil that a lower one would not."""
    assert holds(_passage(peak=peak, margin=margin), limit=395.0).tolist() == [held]


@pytest.mark.parametrize(
    ("effect", "alone", "one_of_two", "not_at_fault"),
    [("cured", 0.61, 0.15, 0.015), ("helped", 0.20, 0.58, 0.10), ("none", 0.15, 0.22, 0.835)],
)
def test_what_a_new_thermostat_did_by_what_was_wrong(
    effect: str, alone: float, one_of_two: float, not_at_fault: float
) -> None:
    """By hand: 15 in 100 new thermostats are bad, so that of those that were all that was wrong 61 cure it."""
    mended = next(cause for cause in CAUSES if "thermostat" in cause.mended_by)
    other = next(cause for cause in CAUSES if "thermostat" not in (*cause.mended_by, *cause.mended_by_the_way))
    present = np.array([[True, False], [True, True], [False, True]])
    found = change_likelihood(Changed(part="thermostat", effect=effect), (mended, other), present)
    assert found.tolist() == pytest.approx([alone, one_of_two, not_at_fault])


def _after(remedy: str, like: str) -> tuple[Vehicle, Vehicle]:
    before = vehicle(typical_sheet(like))
    effect = next(one.effect for one in REMEDIES if one.id == remedy)
    return before, effect(before, before)


def test_a_severe_duty_clutch_takes_hold_four_kelvin_earlier_and_harder() -> None:
    before, after = _after("severe_duty_fan_clutch", "pickup-1970s-v8-air")
    assert float(after.fan_clutch.engages) == pytest.approx(float(before.fan_clutch.engages) - 4.0)
    assert float(after.fan_clutch.engaged_ratio) == pytest.approx(max(float(before.fan_clutch.engaged_ratio), 0.9))


def test_seals_halve_what_comes_round() -> None:
    before, after = _after("seal_core", "pickup-1970s-v8-air")
    assert float(after.shroud.recirculation) == pytest.approx(0.5 * float(before.shroud.recirculation))


def test_more_blades_cost_more_power_than_they_give_pressure() -> None:
    before, after = _after("fan_with_more_blades", "pickup-1970s-v8-air")
    assert float(after.fan.pressure_coefficient) == pytest.approx(1.2 * float(before.fan.pressure_coefficient))
    assert 1.0 < float(after.fan.power_coefficient) / float(before.fan.power_coefficient) <= 1.35 + 1e-9


def test_a_cause_without_one_piece_of_the_evidence_is_a_share_of_what_is_left() -> None:
    """By hand: weights 3 to 1, a piece that speaks 3 to 1 for the first; without it both are as likely."""
    told: Any = SimpleNamespace(weight=np.array([0.75, 0.25]), log_likelihoods=np.log([[0.9, 0.3], [0.5, 0.5]]))
    found = without_each_piece(told, np.eye(2))
    assert found[0] == pytest.approx([0.5, 0.5])
    assert found[1] == pytest.approx([0.75, 0.25])
