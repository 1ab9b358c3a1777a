"""Page and commands give one answer on the coolant of a job, whatever is asked of them."""

import dataclasses

import pytest

from toptank.knowledge.sheet import Provenance
from toptank.shop.ask import service
from toptank.shop.ask.coolant import coolant, job_coolant
from toptank.shop.job.job import Job
from toptank.units.refusal import Refusal


@pytest.fixture(scope="module")
def job() -> Job:
    return service.demo_job()


@pytest.mark.parametrize(("part", "at"), [("", ""), ("soldered core made for 7 psi", ""), ("", "240 F")])
def test_the_page_says_of_the_cap_what_the_command_says(part: str, at: str, job: Job) -> None:
    page = job_coolant.coolant_of(job, want="50 %", drained_by=job_coolant.ways_to_drain()[0], part=part, at=at)
    parts = (part,) if part else ()
    assert page.cap == coolant.cap(job, parts=parts, bottle=None, hottest=at or None, system=job.system)
    assert page.cap.assumed_parts == (not part)
    assert (page.bleeding,) == coolant.bleed(page.bleeding.layout)


def test_a_part_that_bears_less_and_a_cap_that_somebody_read_bound_the_pressure(job: Job) -> None:
    how = job_coolant.ways_to_drain()[0]
    old = job_coolant.coolant_of(job, want="50 %", drained_by=how, part="soldered core made for 4 psi")
    assert all(row.forbidden_by for row in old.cap.cap.rows if row.pressure > 27_600.0)  # 4 psi
    fact = dataclasses.replace(job.sheet.facts["cap.pressure"], value=27_580.0, how=Provenance.MEASURED)
    sheet = dataclasses.replace(job.sheet, facts={**job.sheet.facts, "cap.pressure": fact})
    stamped = job_coolant.coolant_of(dataclasses.replace(job, sheet=sheet), want="50 %", drained_by=how)
    assert all(row.forbidden_by for row in stamped.cap.cap.rows if row.pressure > 27_600.0)
    with pytest.raises(Refusal, match="no way to drain"):
        job_coolant.coolant_of(job, want="50 %", drained_by="turning it over")
