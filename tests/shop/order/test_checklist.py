"""The next checks on paper: five, those of one state of the engine together, with all that a hand needs."""

from typing import Any

import pytest

from toptank.catalogue.checks.check import checks
from toptank.shop.answers.answers import Diagnosed
from toptank.shop.answers.diagnosis import diagnosis_answer
from toptank.shop.order.checklist import MOST, STATES, checklist, state_of
from toptank.shop.order.setting.pdf import checklist_pdf
from toptank.shop.record.shop_settings import Shop
from toptank.units.sentence import said


def test_every_check_is_done_in_a_state_that_has_a_heading() -> None:
    states = {check: state_of(check) for check in checks()}
    assert set(states.values()) == set(STATES)
    assert states["level_cold"] == states["pressure_test"] == "cold"
    assert states["second_thermometer"] == states["paper_test"] == "idling"
    assert states["wheels_after_run"] == states["transmission_fluid_hot"] == "road"
    assert state_of("measure.core.rows") == "cold"


def test_the_page_holds_the_first_five_checks_once_with_time_warning_and_a_box_for_each_outcome(
    demo_diagnosed: Diagnosed,
) -> None:
    answer = diagnosis_answer(demo_diagnosed)
    page = checklist(demo_diagnosed.job, answer, "us", Shop(name="Ridge Road Garage"))
    lines = [line for batch in page.batches for line in batch.checks]
    first = answer.next_checks[:MOST]
    assert len(lines) == len(first) > 1
    assert {line.name for line in lines} == {said(one.name, "us") for one in first}
    for one in first:
        line = next(line for line in lines if line.name == said(one.name, "us"))
        assert line.hazard == said(one.hazard, "us")
        assert len(line.boxes) == sum(outcome.outcome is not None for outcome in one.outcomes)
        assert line.boxes or line.figure
    headings = [batch.heading for batch in page.batches]
    assert headings == [one for one in STATES.values() if one in headings]
    assert page.shop == ("Ridge Road Garage", "")
    assert page.invented


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_it_stands_on_one_sheet_and_twice_the_same(demo_diagnosed: Diagnosed, paper: Any) -> None:
    page = checklist(demo_diagnosed.job, diagnosis_answer(demo_diagnosed), "us", Shop())
    content = checklist_pdf(page, paper)
    assert content.startswith(b"%PDF")
    assert content.count(b"/Type/Page/Resources") == 1
    assert content == checklist_pdf(page, paper)
