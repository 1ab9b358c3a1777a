"""The band of a recommended plan is honest: vehicles that agree with the evidence, so mended, lie in it as it says."""

import dataclasses
from typing import Any

import numpy as np
import pytest

from toptank.knowledge.model_discrepancy import off_by
from toptank.shop.ask import service
from toptank.shop.ask.choice import choose
from toptank.shop.ask.choice.possible_vehicles import possible_vehicles
from toptank.shop.ask.choice.worst_day import usual_worst_day
from toptank.shop.ask.diagnose import question_of
from toptank.studies.choose.worst_day_forecast import WorstDayCase, repaired
from toptank.studies.diagnose.posterior import infer_posterior
from toptank.system.condition_batch import go_through

SEED, OTHER_SEED = 1, 20_011
VEHICLES = 900
LEAST, MOST = 0.75, 0.90
"""The requirement says at least 75 % over 300 vehicles; over 900 the scatter of the count is 1.3 points.

A band from 10 to 90 % that holds more than 90 % is wider than it says."""


def _job() -> Any:
    """The example on a day that is named: climb, flat and the stop after the climb, each from the one before."""
    job = service.demo_job()
    return dataclasses.replace(job, worst_day=usual_worst_day(job))


@pytest.fixture(scope="module")
def forecast() -> Any:
    """Return the plans of the built-in example, with as many draws as a mechanic gets."""
    return choose.choose(_job(), seed=SEED)


@pytest.fixture(scope="module")
def others() -> WorstDayCase:
    """Return 900 other vehicles on the worst day, drawn as the product draws them, with another seed throughout."""
    job = _job()
    possible = possible_vehicles(job, infer_posterior(question_of(job), OTHER_SEED), VEHICLES, OTHER_SEED)
    return choose.subjects_of(job, possible, VEHICLES, OTHER_SEED)


@pytest.fixture(scope="module")
def found(forecast: Any, others: WorstDayCase) -> list[Any]:
    """Return the duties of the worst day as those vehicles go through them, repaired as recommended.

    Each is off by what the model misses, and taken through in short steps where the product takes long ones.
    """
    passages = go_through(repaired(others, forecast.recommended.remedies), others.days, closely=True)
    return [off_by(passages[day.name], others.days[day.name]) for day in forecast.worst_day]


def _inside(values: Any, band: Any) -> float:
    figures = np.broadcast_to(np.asarray(values, float), (VEHICLES,))
    return float(np.mean((figures >= band.p10) & (figures <= band.p90)))


def test_the_example_has_a_plan_to_recommend_and_it_cools(forecast: Any) -> None:
    nothing, plan = forecast.outlooks[0], forecast.recommended
    assert plan is not None
    assert plan.remedies
    assert plan.holds > nothing.holds


@pytest.mark.parametrize("figure", ["gauge", "coolant"])
def test_so_many_vehicles_lie_inside_the_band_as_it_says(forecast: Any, found: list[Any], figure: str) -> None:
    of = {"gauge": "T_gauge_peak", "coolant": "T_peak"}[figure]
    inside = [
        _inside(getattr(passage, of), getattr(duty, figure))
        for duty, passage in zip(forecast.recommended.duties, found, strict=True)
    ]
    assert len(inside) == 3
    assert all(LEAST <= share <= MOST for share in inside), inside


def test_the_chance_to_hold_is_kept_by_vehicles_of_another_draw(forecast: Any, found: list[Any]) -> None:
    """Within three standard errors of 300 vehicles at even odds: 0.087."""
    limits = [duty.limit for duty in forecast.recommended.duties]  # at a short stop another than on the road
    held = [
        (np.asarray(one.T_peak) < limit) & (np.asarray(one.least_margin) > 0.0)
        for one, limit in zip(found, limits, strict=True)
    ]
    assert float(np.mean(np.all(held, axis=0))) == pytest.approx(forecast.recommended.holds, abs=0.087)
