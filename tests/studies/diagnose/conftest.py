"""Vehicles, duties and questions for the tests of diagnosis."""

from collections.abc import Callable, Sequence

import pytest

from toptank.knowledge.sheet import DutySheet, Fact, Provenance, duty_sheet
from toptank.knowledge.typical import typical_sheet
from toptank.studies.diagnose.evidence import Changed, Evidence, Finding, History, Reading
from toptank.studies.diagnose.posterior import Question, known_shares

MPH = 0.44704
PICKUP = "pickup-1970s-v8-air"


def _known(value: float) -> Fact:
    return Fact(value=value, how=Provenance.MEASURED, spread=0.0, origin="here")


def _duty(name: str, **values: float) -> DutySheet:
    ambient = Fact(value=(90.0 + 459.67) / 1.8, how=Provenance.MEASURED, spread=1.5, origin="here")
    return duty_sheet(name, {"ambient": ambient, **{key: _known(value) for key, value in values.items()}})


DUTIES = (
    _duty("idle", speed=0.0, air_conditioning=1.0),
    _duty("climb", speed=45.0 * MPH, grade=0.05),
    _duty("flat", speed=65.0 * MPH),
)
"""A hot idle with air conditioning, a 5 % climb at 45 mph, the flat at 65 mph; 90 °F."""

Asked = Callable[..., Question]


@pytest.fixture(scope="session")
def asked() -> Asked:
    """Make a question of readings, findings, changes and history; a pickup with a viscous clutch if not another."""

    def make(
        readings: Sequence[Reading] = (),
        findings: Sequence[Finding] = (),
        changes: Sequence[Changed] = (),
        history: History | None = None,
        like: str = PICKUP,
    ) -> Question:
        evidence = Evidence(
            readings=tuple(readings),
            findings=tuple(findings),
            changes=tuple(changes),
            history=history or History(),
        )
        return Question(sheet=typical_sheet(like), duties=DUTIES, evidence=evidence, shares=known_shares())

    return make
