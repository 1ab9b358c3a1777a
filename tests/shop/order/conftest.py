"""Answers of the built-in example that the tests of its order share."""

from typing import Any

import pytest

from toptank.shop.answers.answers import Chosen, Diagnosed
from toptank.shop.order import writing
from toptank.shop.order.record import Order
from toptank.shop.record import plan_taken as plan_verbs


@pytest.fixture(scope="session")
def answers(demo_diagnosed: Diagnosed, demo_chosen: Chosen) -> tuple[Any, Any]:
    """Return diagnosis and choice of the built-in example, with few draws."""
    return demo_diagnosed, demo_chosen


@pytest.fixture(scope="session")
def order(answers: tuple[Any, Any]) -> Order:
    """Return the order of the built-in example."""
    diagnosed, chosen = answers
    return writing.order(chosen.job, diagnosed=diagnosed, chosen=chosen)


@pytest.fixture(scope="session")
def drained(answers: tuple[Any, Any]) -> Order:
    """Return the order of the surest plan for which the coolant is drained."""
    diagnosed, chosen = answers
    plans = [one for one in chosen.outlooks if any(remedy.group == "coolant" for remedy in one.remedies)]
    surest = max(plans, key=lambda one: one.holds)
    return writing.order(chosen.job, plan=plan_verbs.written(surest.ids), diagnosed=diagnosed, chosen=chosen)


@pytest.fixture(scope="session")
def metric(answers: tuple[Any, Any]) -> Order:
    """Return the same order in metric units."""
    diagnosed, chosen = answers
    return writing.order(chosen.job, system="metric", diagnosed=diagnosed, chosen=chosen)
