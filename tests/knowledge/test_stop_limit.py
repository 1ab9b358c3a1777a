"""At a short stop after a drive the coolant may rise further than on the road, nowhere else."""

import numpy as np
import pytest

from toptank.knowledge.sheet import Fact, Provenance, duty_sheet
from toptank.knowledge.stop_limit import limit_in
from toptank.knowledge.stop_rise import rise_allowed
from toptank.system.condition import Timing
from toptank.system.condition_batch import COLD, Condition
from toptank.system.duty import Duty
from toptank.units.dimension import STEADY

LIMIT = 377.6
MINUTE = 60.0


def _condition(minutes: float, *, speed: float = 0.0, after: str = "hill", moving: float = 0.0) -> Condition:
    duration = minutes * MINUTE * np.array([0.6, 1.0, 1.9])
    timing = Timing(duration=duration, moving=np.full(3, moving), standing=np.full(3, moving))
    return Condition(duty=Duty(ambient=305.0, speed=np.full(3, speed)), timing=timing, after=after)


def test_a_stop_of_minutes_after_a_hill_may_rise_by_what_sound_vehicles_do() -> None:
    """Common practice: 5 to 15 °F, back within 5 to 10 minutes."""
    assert limit_in(_condition(5.0), LIMIT) == pytest.approx(LIMIT + 15.0 / 1.8)


@pytest.mark.parametrize(
    "condition",
    [
        _condition(10.0, speed=18.0),
        _condition(40.0),
        _condition(5.0, after=COLD),
        _condition(5.0, moving=20.0),
        Condition.steady(Duty(ambient=305.0)),
        Condition(duty=Duty(ambient=305.0), timing=Timing(duration=STEADY), after="hill"),
    ],
    ids=["a hill", "idling on", "from cold", "stop and go", "steady", "steady after a hill"],
)
def test_everywhere_else_the_limit_is_that_of_the_road(condition: Condition) -> None:
    assert limit_in(condition, LIMIT) == LIMIT


@pytest.mark.parametrize(("told", "after", "rise"), [
    ({"speed": 0.0}, "", 15.0),
    ({"speed": 0.0, "for": 300.0}, "hill", 15.0),
    ({"speed": 0.0, "for": 2400.0}, "hill", 0.0),
    ({"speed": 0.0, "for": 300.0}, COLD, 0.0),
    ({"speed": 5.0, "moving": 20.0, "standing": 40.0}, "", 0.0),
    ({"speed": 25.0}, "", 0.0),
])  # fmt: skip
def test_the_sheet_of_a_condition_says_the_same(told: dict[str, float], after: str, rise: float) -> None:
    """A stop of which nobody says how long it lasts is the usual one, of some minutes after a run on the level."""
    facts = {key: Fact(value=value, how=Provenance.MEASURED, spread=0.0, origin="told") for key, value in told.items()}
    assert rise_allowed(duty_sheet("a condition", facts, after)) == pytest.approx(rise / 1.8)
