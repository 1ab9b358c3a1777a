"""Eight complaints with a cause that any mechanic names: the plan is its repair, on the day that was complained of.

Source: common practice, no source; the complaints are invented.
"""

from functools import cache
from pathlib import Path

import pytest

from toptank.shop.answers.answers import Chosen
from toptank.shop.ask.choice.choose import choose
from toptank.shop.ask.choice.worst_day import HOT_DAY, worst_day, worst_day_says
from toptank.shop.job.job_file import read_job
from toptank.studies.choose.decision import CLEARLY, SURE
from toptank.units.sentence import said

JOBS = Path(__file__).parent / "mechanic_jobs"
REPAIRS = {
    "town_boiler": ({"replace_cap"}, ["town on a hot day"]),
    "clutch_van": ({"replace_fan_clutch", "severe_duty_fan_clutch"}, ["towing"]),
    "thermostat_stuck": ({"replace_thermostat"}, ["highway on a hot day"]),
    "low_coolant": ({"find_leak_and_fill"}, ["traffic on a hot day"]),
    "shroud_gone": ({"fit_shroud"}, ["idling on a hot day"]),
}
"""Job -> work of which one must be in the plan, the day that it is judged by."""


@cache
def _chosen(name: str) -> Chosen:
    return choose(read_job(JOBS / f"{name}.toml"), draws=600, seed=3)  # 200 scatter by 3 points


@pytest.mark.parametrize("name", REPAIRS)
def test_the_plan_repairs_what_broke(name: str) -> None:
    found = _chosen(name)
    assert found.recommended is not None
    assert REPAIRS[name][0] & set(found.recommended.ids)


@pytest.mark.parametrize("name", REPAIRS)
def test_no_plan_costs_ten_times_the_plain_repair_unless_that_holds_clearly_less(name: str) -> None:
    found = _chosen(name)
    plain = found.repair_alone
    assert plain is not None
    assert found.recommended is not None
    assert found.recommended.cost < 10.0 * plain.cost
    for plan in found.outlooks[1:]:
        if plan.cost > 10.0 * plain.cost and plain.holds >= SURE:
            assert plan.holds >= plain.holds + CLEARLY


@pytest.mark.parametrize("name", REPAIRS)
def test_a_repaired_vehicle_holds_the_day_that_it_held_for_years(name: str) -> None:
    """What broke is known to 7 in 10: its repair holds 6 in 10 at the least; as it stands it ran hot."""
    found = _chosen(name)
    assert found.repair_alone is not None
    assert found.repair_alone.holds >= 0.6
    assert found.outlooks[0].holds <= 0.3


@pytest.mark.parametrize("name", REPAIRS)
def test_the_day_is_the_one_complained_of(name: str) -> None:
    """Road, load and air conditioning as told; the weather as told, and 90 °F at the least."""
    job = read_job(JOBS / f"{name}.toml")
    days = worst_day(job)
    assert [day.name for day in days] == REPAIRS[name][1]
    hot = next(duty for duty in job.duties if days[0].name.startswith(duty.name))
    for key, fact in days[0].facts.items():
        if key == "ambient":
            assert fact.value == pytest.approx(max(fact.value, HOT_DAY))
        else:
            assert fact.value == hot.facts[key].value
    assert "complained of" in said(worst_day_says(job), "us")


def test_a_small_saloon_that_boils_in_town_gets_its_cap_and_no_radiator() -> None:
    """A cap that holds 45 % where 100 are stamped: 25 dollars and a road test, not 1,600."""
    found = _chosen("town_boiler")
    assert found.recommended is not None
    assert found.recommended.ids == ("replace_cap",)
    assert found.decisive is None, "what broke is known: no check stands before its repair"
