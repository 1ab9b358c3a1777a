"""What came before a condition and for how long: what is said, what is usual for its kind, what is refused."""

import numpy as np
import pytest

from toptank.knowledge.conditions import (
    came_before,
    central_conditions,
    draw_conditions,
    is_steady,
    refuse_wrong_order,
    with_runs_before,
)
from toptank.knowledge.draws import draw_duty
from toptank.knowledge.sheet import DutySheet, duty, kind_of_duty, timing
from toptank.knowledge.sheet_file import read_duty
from toptank.knowledge.sheet_text import render_duty
from toptank.knowledge.typical import typical, typical_names, typical_sheet
from toptank.system.condition_batch import COLD
from toptank.units.refusal import Refusal

PICKUP = "pickup-1970s-v8-air"


def _duty(name: str, **table: object) -> DutySheet:
    return read_duty({"ambient": "90 F", **table}, name=name, system="us")[0]


HILL = _duty("hill", speed="40 mph", grade="6 %")
STOP = _duty("stop", speed="0 mph")
FLAT = _duty("flat", speed="55 mph")
PUMPING = _duty("pumping", speed="0 mph", shaft_load="20 hp")


@pytest.mark.parametrize(
    ("sheet", "kind", "minutes"),
    [(HILL, "hill", 10.0), (STOP, "stop", 5.0), (FLAT, "steady", 1440.0), (PUMPING, "steady", 1440.0)],
)
def test_a_condition_that_nobody_timed_lasts_as_long_as_its_kind_does(
    sheet: DutySheet, kind: str, minutes: float
) -> None:
    """The requirement: a hill ten minutes, a stop five; level road and work at standstill are settled."""
    assert kind_of_duty(sheet.facts) == kind
    assert sheet.facts["for"].value == pytest.approx(60.0 * minutes)
    assert is_steady(sheet) == (kind == "steady")


def test_a_time_that_nobody_said_is_in_doubt_by_a_factor_of_two() -> None:
    seconds = np.asarray(draw_conditions(typical_sheet(PICKUP), [HILL], 4000, 1)["hill"].timing.duration)
    assert np.median(seconds) == pytest.approx(600.0, rel=0.02)
    assert np.std(np.log(seconds)) == pytest.approx(np.log(2.0), rel=0.03)


def test_a_time_that_was_said_is_in_much_less_doubt_and_steady_in_none() -> None:
    timed = _duty("hill", speed="40 mph", grade="6 %", **{"for": "12 min"})
    seconds = np.asarray(draw_conditions(typical_sheet(PICKUP), [timed], 4000, 1)["hill"].timing.duration)
    assert np.median(seconds) == pytest.approx(720.0, rel=0.02)
    assert np.std(np.log(seconds)) < 0.2
    steady = _duty("hill", speed="40 mph", grade="6 %", **{"for": "steady"})
    assert is_steady(steady)
    assert steady.facts["for"].spread == 0.0
    assert draw_conditions(typical_sheet(PICKUP), [steady], 8, 1)["hill"].settled()


def test_a_bare_time_is_minutes_and_what_is_written_is_read_again() -> None:
    ten = _duty("stop", speed="0 mph", after="hill", **{"for": 10})
    assert timing(ten).duration == pytest.approx(600.0)
    for sheet in (ten, FLAT):
        written = render_duty(sheet, "us")
        assert ("after" in written) == bool(sheet.after)
        assert ('for = { value = "steady"' in written) == is_steady(sheet)


@pytest.mark.parametrize("name", typical_names())
def test_who_names_a_hill_comes_from_a_settled_run_as_such_a_vehicle_is_driven(name: str) -> None:
    conditions = central_conditions(typical_sheet(name), [HILL])
    before = conditions[conditions["hill"].after]
    usual = typical(name).usual.facts
    assert before.settled()
    assert before.duty.grade == 0.0
    assert (before.duty.speed, before.duty.shaft_load) == (usual["speed"].value, usual["shaft_load"].value)
    assert before.duty.ambient == conditions["hill"].duty.ambient


def test_two_conditions_of_one_day_share_the_run_before_them() -> None:
    other = _duty("other hill", speed="30 mph", grade="4 %")
    runs = [
        name for name in with_runs_before(typical_sheet(PICKUP), [HILL, other]) if name not in ("hill", "other hill")
    ]
    assert len(runs) == 1


def test_what_came_before_is_told_in_words() -> None:
    assert came_before(FLAT) == ""
    assert came_before(HILL) == "after a run on the level"
    assert came_before(_duty("gate", speed="0 mph", after="hill")) == "after hill"
    assert came_before(_duty("start", speed="0 mph", after=COLD)) == "from cold"


def test_what_came_before_must_be_there_and_must_not_come_round_again() -> None:
    gate = _duty("gate", speed="0 mph", after="hil")
    with pytest.raises(Refusal, match=r"hil.*is no condition of this job.*hill"):
        refuse_wrong_order([HILL, gate], "duty")
    first = _duty("first", speed="0 mph", after="second")
    second = _duty("second", speed="0 mph", after="first")
    with pytest.raises(Refusal, match="leads back to itself"):
        refuse_wrong_order([first, second], "duty")
    with pytest.raises(Refusal, match="leads back to itself"):
        refuse_wrong_order([_duty("alone", speed="0 mph", after="alone")], "duty")
    refuse_wrong_order([HILL, _duty("gate", speed="0 mph", after="hill"), _duty("start", after=COLD)], "duty")


def test_stop_and_go_is_said_by_its_two_times() -> None:
    traffic = _duty("traffic", speed="25 mph", moving="30 s", standing="40 s")
    assert kind_of_duty(traffic.facts) == "stop and go"
    assert not is_steady(traffic)
    assert central_conditions(typical_sheet(PICKUP), [traffic])["traffic"].halting()


def test_stop_and_go_is_among_cars_on_hot_asphalt_unless_somebody_says_otherwise() -> None:
    """Measured in a queue: 3 to 8 K above the shade. A stop or a road of which nobody says so is not in one."""
    words = {"speed": "15 mph", "moving": "20 s", "standing": "20 s"}
    traffic, free = _duty("traffic", **words), _duty("free", **words, among_cars=False)
    assert duty(traffic).among_cars == 1.0
    assert 0.7 < np.mean(np.asarray(draw_duty(traffic, 400, 3).among_cars)) < 0.9
    assert duty(free).among_cars == duty(STOP).among_cars == duty(FLAT).among_cars == 0.0
