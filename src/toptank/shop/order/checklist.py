"""The checks to do next, on a page to take along: together what is done cold, at a hot idle, and on the road."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from toptank.catalogue.checks.check import MEASURED, checks
from toptank.shop.answers.words.wording import time
from toptank.shop.order.contents import INVENTED
from toptank.shop.order.head import head
from toptank.units.dialect import spoken
from toptank.units.sentence import said

if TYPE_CHECKING:
    from toptank.shop.answers.diagnosis import DiagnosisAnswer, NextCheck
    from toptank.shop.job.job import Job
    from toptank.shop.order.record import HeadLine
    from toptank.shop.record.shop_settings import Shop
    from toptank.units.conversion import System

MOST = 5
"""Checks on the page."""

STATES = {
    "ask": "Ask the driver",
    "cold": "Engine cold, stopped",
    "idling": "Engine hot, at idle",
    "road": "On the road, and right after",
}
"""States in which checks are done, in the order in which nobody has to wait for the engine twice."""

STATE_OF_GROUP = {
    "ask": "ask", "look_and_feel": "cold", "fact": "cold", "taken_apart": "cold", "engine_running": "idling",
    "instruments": "idling", "on_the_road": "road",
}  # fmt: skip

STATE_OF_CHECK = {
    **dict.fromkeys(
        ("gauge_at_key_on", "sender_wire_off", "gauge_against_fuel_gauge", "pressure_test", "cap_tester",
         "refractometer", "bubbles_belt_off"),
        "cold",
    ),
    **dict.fromkeys(("transmission_fluid_hot", "manifold_and_plug_color"), "road"),
}  # fmt: skip
"""Checks that are done in another state than most of their group: judgement, after how each is described."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckLine:
    """A check: what it is called, how it is done, what can hurt, what may be seen with a box for each."""

    name: str
    time: str
    tools: str
    hazard: str
    how: str
    boxes: tuple[str, ...]
    figure: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """Checks that are done in one state of the engine."""

    heading: str
    checks: tuple[CheckLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Checklist:
    """The page."""

    title: str
    complaint: str
    invented: str
    shop: tuple[str, ...]
    head: tuple[HeadLine, ...]
    batches: tuple[Batch, ...]
    time: str


def checklist(job: Job, answer: DiagnosisAnswer, system: System, shop: Shop) -> Checklist:
    """Gather the page from a diagnosis: its first checks, those of one state together, the most telling first."""
    first = answer.next_checks[:MOST]
    batches = [(heading, [one for one in first if state_of(one.check) == state]) for state, heading in STATES.items()]
    return Checklist(
        title=job.title,
        complaint=" ".join(job.complaint.split()),
        invented=INVENTED if job.invented else "",
        shop=shop.lines,
        head=head(job, system),
        batches=tuple(
            Batch(heading=heading, checks=tuple(_line(one, system) for one in found))
            for heading, found in batches
            if found
        ),
        time=time(sum(one.minutes for one in first)),
    )


def state_of(check: str) -> str:
    """Return the state in which a check is done."""
    if check.startswith(MEASURED):
        return STATE_OF_GROUP["fact"]
    return STATE_OF_CHECK.get(check, STATE_OF_GROUP[checks()[check].group])


def _line(one: NextCheck, system: System) -> CheckLine:
    def told(words: object) -> str:
        return spoken(said(words, system), system)  # pyright: ignore[reportArgumentType]  # a text or a sentence

    return CheckLine(
        name=told(one.name),
        time=time(one.minutes),
        tools=told(one.tools),
        hazard=told(one.hazard),
        how=told(one.how),
        boxes=tuple(told(outcome.seen) for outcome in one.outcomes if outcome.outcome is not None),
        figure=any(outcome.outcome is None for outcome in one.outcomes),
    )
