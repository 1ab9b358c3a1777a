"""A cap tester shows a pressure; the job keeps the share of what is stamped on the cap."""

import pytest

from toptank.shop.ask import service
from toptank.shop.edit import check_figure
from toptank.units.dimension import FRACTION, PRESSURE
from toptank.units.quantity import parse
from toptank.units.refusal import Refusal


def test_a_pressure_that_a_cap_held_is_kept_as_a_share_of_its_stamp() -> None:
    job = service.demo_job()
    stamped = job.sheet.facts["cap.pressure"].value
    kept = check_figure.figure_kept("cap_tester", "10 psi", job)
    held = parse("10 psi", PRESSURE, system="us", field="x").value
    assert parse(kept, FRACTION, system="us", field="x").value == pytest.approx(held / stamped, abs=0.005)
    assert check_figure.figure_kept("cap_tester", "95 %", job) == "95 %"


@pytest.mark.parametrize(
    ("typed", "says"), [("14", "pressure or a share"), ("40 psi", "more than a cap"), ("?", "number")]
)
def test_a_figure_of_a_cap_that_may_mean_two_things_is_refused(typed: str, says: str) -> None:
    with pytest.raises(Refusal, match=says):
        check_figure.figure_kept("cap_tester", typed, service.demo_job())


def test_every_other_figure_is_kept_as_it_was_typed_and_told_with_its_unit() -> None:
    job = service.demo_job()
    assert check_figure.figure_kept("second_thermometer", "-12", job) == "-12"
    assert check_figure.asked_figure("second_thermometer", job).unit == "°F"
    assert check_figure.asked_figure("cap_tester", job).unit == ""
