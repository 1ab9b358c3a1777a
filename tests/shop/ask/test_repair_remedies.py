"""What is said to mend a fault does: the remedies named for a repair take back most of what its causes cost."""

import numpy as np
import pytest

from toptank.catalogue.causes.all_causes import CAUSES, NOTHING_TO_REPAIR
from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.catalogue.repairs import MADE_BY, mends_of
from toptank.knowledge.draws import draws
from toptank.knowledge.typical import typical_names, typical_sheet
from toptank.shop.ask.choice.repair_remedies import loss_model_of, plain_repair
from toptank.shop.job.price_book import built_in
from toptank.studies.choose.worst_day_forecast import WorstDayCase, repaired
from toptank.studies.diagnose.ensemble import unsettled
from toptank.system.condition_batch import Condition
from toptank.system.duty import Duty
from toptank.system.population import solve_ensembles

N = 16
DAYS = {
    "climb": Duty(ambient=308.0, speed=18.0, grade=0.05, air_conditioning=1.0),
    "idle": Duty(ambient=308.0, speed=0.0, air_conditioning=1.0),
}
SHOWN_OTHERWISE = ("cap_weak", "gauge_reads_high", "gauge_reads_low", "coolant_too_weak", "thermostat_open")
"""Causes that do not heat the coolant: they lower its boiling point, or what is read."""

ANOTHER_CORE = ("core_too_small",)
"""Mended by what the vehicle never had."""


def test_every_repair_that_a_cause_asks_for_is_a_remedy() -> None:
    asked = {cause.repair for cause in CAUSES} - {NOTHING_TO_REPAIR}
    assert set(MADE_BY) == asked
    assert {name for names in MADE_BY.values() for name in names} <= {remedy.id for remedy in REMEDIES}
    assert all(MADE_BY.values())


@pytest.mark.parametrize("like", [typical_names()[0], "wagon-1990s-v6-air"])
def test_each_of_them_takes_back_half_of_what_the_cause_costs_at_its_worst_duty(like: str) -> None:
    sound = draws(typical_sheet(like), N, 5)
    heated: list[str] = []
    for cause in CAUSES:
        odds = float(np.mean(np.asarray(cause.prior_factor(sound), float)))
        if odds <= 0.0 or cause.id in (*SHOWN_OTHERWISE, *ANOTHER_CORE):
            continue
        severity = np.zeros((N, len(CAUSES)))
        severity[:, CAUSES.index(cause)] = 0.7
        days = {name: Condition.steady(day) for name, day in DAYS.items()}
        subjects = WorstDayCase(cause.effect(sound, np.full(N, 0.7)), sound, severity, days, 380.0)
        named = [remedy for remedy in REMEDIES if remedy.id in mends_of(cause.id)]
        able = [one for one in named if float(np.mean(np.asarray(one.fits(subjects.vehicle), float))) > 0.5]
        clean = subjects._replace(vehicle=sound, severity=np.zeros_like(severity))
        crowds = [sound, subjects.vehicle, *(repaired(case, (one,)) for one in able for case in (subjects, clean))]
        settled = solve_ensembles(crowds, list(DAYS.values()))
        hot = np.array([[np.median(np.asarray(one.T_engine_out, float)) for one in row] for row in settled])
        duty = int(np.argmax(hot[1] - hot[0]))
        rise = hot[1, duty] - hot[0, duty]
        if rise < 1.0:
            continue
        heated.append(cause.id)
        for remedy, after, never in zip(able, hot[2::2, duty], hot[3::2, duty], strict=True):
            # A denser core may itself cost air at idle: what is asked is what is left of the fault. What only makes up
            # for it must gain as much.
            left = after - (hot[0, duty] if cause.id in remedy.makes_up_for else never)
            assert left < 0.5 * rise, (cause.id, remedy.id)
    assert len(heated) >= 10


@pytest.mark.parametrize(
    ("like", "repairs"),
    [
        ("pickup-1970s-v8-air", {"rod_core", "recore_as_it_was"}),  # soldered: cleaned or recored as it was
        ("wagon-1990s-v6-air", {"aluminium_radiator_plastic_tanks"}),  # crimped tanks come off no more: another like it
    ],
)
def test_the_plain_repair_of_scaled_tubes_is_the_core_that_was_in(like: str, repairs: set[str]) -> None:
    """Common practice, no source: who repairs what broke does not sell a core of another kind."""
    sheet = typical_sheet(like)
    sound = draws(sheet, N, 5)
    severity = np.zeros((N, len(CAUSES)))
    column = [cause.id for cause in CAUSES].index("tubes_scaled")
    severity[:, column] = 0.7
    vehicle = CAUSES[column].effect(sound, severity[:, column])
    possible = unsettled(sound, vehicle, severity, {"climb": Condition.steady(DAYS["climb"])})
    plan = plain_repair(loss_model_of(possible, sheet, built_in(), first=""), possible, built_in())
    assert len(plan) == 1
    assert plan[0].id in repairs
