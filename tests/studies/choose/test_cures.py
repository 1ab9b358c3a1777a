"""Each remedy takes away the causes that it says and no other: a table of all pairs."""

import dataclasses
from functools import cache
from itertools import product

import numpy as np
import pytest

from toptank.catalogue.causes.all_causes import CAUSES, with_causes
from toptank.catalogue.causes.cause import Cause
from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.catalogue.remedies.remedy import Remedy
from toptank.knowledge.draws import draws
from toptank.knowledge.typical import typical_sheet
from toptank.studies.choose.worst_day_forecast import WorstDayCase, repaired
from toptank.system.duty import Duty
from toptank.system.population import solve_ensembles
from toptank.system.vehicle import Vehicle

N = 16
LIKE = ("pickup-1970s-v8-air", "wagon-1990s-v6-air", "saloon-1950s-six")
SOUND = {name: draws(typical_sheet(name), N, 5) for name in LIKE}
each_remedy = pytest.mark.parametrize("remedy", REMEDIES, ids=lambda remedy: remedy.id)


def _can(share: object) -> bool:
    return float(np.mean(np.asarray(share, float))) > 0.5


def _case(cause: Cause, sound: Vehicle, grade: float = 0.8) -> WorstDayCase:
    severity = np.zeros((N, len(CAUSES)))
    severity[:, CAUSES.index(cause)] = grade
    return WorstDayCase(with_causes(sound, severity), sound, severity, {}, 380.0)


def _both_can_be(remedy: Remedy, cause: Cause, sound: Vehicle) -> bool:
    there = float(np.max(np.asarray(cause.prior_factor(sound), float))) > 0.0
    return there and _can(remedy.fits(cause.effect(sound, np.full(N, 0.8))))


def _differ(one: Vehicle, other: Vehicle) -> bool:
    return any(
        not np.array_equal(np.asarray(getattr(mine, field.name)), np.asarray(getattr(yours, field.name)))
        for part in dataclasses.fields(one)
        for mine, yours in [(getattr(one, part.name), getattr(other, part.name))]
        for field in dataclasses.fields(mine)
    )


@each_remedy
def test_a_remedy_cures_a_cause_if_and_only_if_it_says_so(remedy: Remedy) -> None:
    """Cured: afterwards as if it had never been there. Not cured: what it does to the vehicle is still to be seen."""
    wrong: list[tuple[str, str]] = []
    for (like, sound), cause in product(SOUND.items(), CAUSES):
        if _both_can_be(remedy, cause, sound):
            seen = _differ(repaired(_case(cause, sound), (remedy,)), _never_there(remedy, like))
            wrong += [(like, cause.id)] * (seen == (cause.id in _cured_with_it(remedy, sound)))
    assert wrong == []


@cache
def _never_there(remedy: Remedy, like: str) -> Vehicle:
    """A sound vehicle after the same work."""
    sound = SOUND[like]
    return repaired(WorstDayCase(sound, sound, np.zeros((N, len(CAUSES))), {}, 380.0), (remedy,))


def _cured_with_it(remedy: Remedy, vehicle: Vehicle) -> set[str]:
    """What it cures itself, and by the work that it forces."""
    forced = [one for one in REMEDIES if one.id in remedy.forces and _can(one.fits(vehicle))]
    return {name for one in (remedy, *forced) for name in one.cures}


def test_every_cause_that_work_can_take_away_is_taken_away_by_some_remedy() -> None:
    names = {cause.id for cause in CAUSES}
    cured = {name for remedy in REMEDIES for name in (*remedy.cures, *remedy.makes_up_for)}
    assert cured <= names
    assert names - cured == set()


@each_remedy
def test_a_remedy_that_mends_a_fault_of_several_causes_mends_all_of_them(remedy: Remedy) -> None:
    """One line of a work order: causes that share a repair need not be told apart."""
    answered = {*remedy.cures, *remedy.makes_up_for}
    for repair in {cause.repair for cause in CAUSES if cause.id in answered}:
        alike = {cause.id for cause in CAUSES if cause.repair == repair}
        assert alike <= answered or repair == "replace_fan"


IDLE = Duty(ambient=308.0, air_conditioning=1.0, in_gear=1.0)
CLIMB = Duty(ambient=308.0, speed=18.0, grade=0.05, air_conditioning=1.0)


@pytest.mark.parametrize(
    ("work", "cause", "hurts"),
    [
        ("clear_exhaust", "mixture_lean", CLIMB),
        ("top_up_bleed", "coolant_low", CLIMB),
        ("drain_fill_bleed", "coolant_low", CLIMB),
        ("flush_block", "gasket_blocks_passages", CLIMB),
        ("fan_with_more_blades", "fan_clutch_slips", IDLE),
        ("seal_core", "shroud_leaks", IDLE),
        ("recore_as_it_was", "core_too_small", CLIMB),
        ("replace_water_pump", "belt_slips", CLIMB),
    ],
)
def test_work_beside_the_fault_leaves_most_of_what_the_fault_costs(work: str, cause: str, hurts: Duty) -> None:
    """Half of the rise or more, measured against the same work on a vehicle without the fault."""
    sound = SOUND["pickup-1970s-v8-air"]
    remedy = next(one for one in REMEDIES if one.id == work)
    case = _case(next(one for one in CAUSES if one.id == cause), sound, 0.7)
    clean = case._replace(vehicle=sound, severity=np.zeros_like(case.severity))
    crowds = [sound, case.vehicle, repaired(clean, (remedy,)), repaired(case, (remedy,))]
    hot = [np.median(np.asarray(rows[0].T_engine_out, float)) for rows in solve_ensembles(crowds, [hurts])]
    assert hot[1] - hot[0] > 1.0
    assert hot[3] - hot[2] > 0.5 * (hot[1] - hot[0])
