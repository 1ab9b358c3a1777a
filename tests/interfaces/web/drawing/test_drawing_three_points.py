"""What more money buys: a name is never set over a letter, a point or another name."""

from collections.abc import Callable

import pytest

from toptank.interfaces.web.drawing.three_points import three_points
from toptank.shop.answers.answers import Chosen
from toptank.shop.answers.choice import ChoiceAnswer, choice_answer
from toptank.shop.answers.summaries.three_plans import NamedPlan


def _named(choice: ChoiceAnswer, plans: list[tuple[str, float, float]]) -> tuple[ChoiceAnswer, list[NamedPlan]]:
    """The choice with three plans at these prices and chances."""
    first = choice.plans[0]
    made = [
        first.model_copy(update={"plan": (letter,), "cost": cost, "holds_pct": holds, "name": f"work {letter}"})
        for letter, cost, holds in plans
    ]
    names = {"A": "Repair what broke", "B": "Hold the worst day", "C": "Belt and braces"}
    named = [
        NamedPlan(letter=one.plan[0], called=names[one.plan[0]], plan=one, recommended=False, does_not="")
        for one in made
    ]
    return choice.model_copy(update={"plans": (first, *made)}), named


@pytest.mark.parametrize(
    "plans",
    [
        [("A", 355.0, 70.0), ("B", 535.0, 88.0), ("C", 612.0, 91.0)],
        [("A", 355.0, 70.0), ("B", 360.0, 71.0), ("C", 365.0, 72.0)],
        [("A", 900.0, 50.0), ("B", 950.0, 52.0), ("C", 1000.0, 50.0)],
    ],
)
def test_no_name_lies_on_anything(
    demo_chosen: Chosen, crowded: Callable[[str], list[str]], plans: list[tuple[str, float, float]]
) -> None:
    choice, named = _named(choice_answer(demo_chosen), plans)
    assert crowded(three_points(choice, named, "us")) == []


def test_names_stand_there_where_there_is_room(demo_chosen: Chosen) -> None:
    choice, named = _named(choice_answer(demo_chosen), [("A", 100.0, 20.0), ("B", 400.0, 60.0), ("C", 900.0, 95.0)])
    drawing = three_points(choice, named, "us")
    assert all(one.called in drawing for one in named)


def test_a_plan_that_asks_the_customer_to_go_without_is_a_ring_with_a_bar(demo_chosen: Chosen) -> None:
    """A dearer ring that held better beside a recommended plan that held worse had no reason in the picture."""
    choice, named = _named(choice_answer(demo_chosen), [("A", 230.0, 45.0)])
    ring = choice.plans[1].model_copy(update={"plan": ("other",), "cost": 240.0, "holds_pct": 75.0})
    bare, asking = (ring.model_copy(update={"asks_the_customer": asks}) for asks in (None, "the A/C"))
    drawn = [
        three_points(choice.model_copy(update={"plans": (*choice.plans, one)}), named, "us") for one in (bare, asking)
    ]
    assert drawn[1].count('class="thin"') == drawn[0].count('class="thin"') + 1
