"""The form of the complaint: words, conditions (duties) and the readings taken at them, history."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

from toptank.shop.answers.words.wording import as_typed
from toptank.shop.edit.form import Field, duty_form, typed_text
from toptank.shop.job.write_up import PLATE, WAITING
from toptank.studies.diagnose.evidence import EFFECTS, NEEDLE, ONSETS, PLACES, WORDS, WORK
from toptank.units.conversion import unit_of
from toptank.units.dialect import dialect_of
from toptank.units.dimension import DISTANCE, TEMPERATURE
from toptank.units.display import show

if TYPE_CHECKING:
    from toptank.shop.job.job import Job

READING_WORDS = (("words", "Or in words", WORDS), ("needle", "Or where the needle stood", NEEDLE))
"""What may be said of a gauge without figures."""

FIRST = 8
"""Fields of a condition that are shown at once: its name, then what bears most on the gauge."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """A duty and what was seen at it.

    Parameters
    ----------
    place : in the list of duties
    name : of the duty
    first, more : its fields, those that are always asked and those that seldom matter
    readings : place in the list of readings and its fields
    """

    place: int
    name: str
    first: tuple[Field, ...]
    more: tuple[Field, ...]
    readings: tuple[tuple[int, tuple[Field, ...]], ...]

    def fields(self) -> Iterator[Field]:
        """Yield every field, in the order of the page."""
        yield from self.first
        for _, fields in self.readings:
            yield from fields
        yield from self.more


def told_form(document: Mapping[str, object], job: Job) -> tuple[Field, ...]:
    """Return the fields of the complaint itself."""
    head = _mapping(document.get("job"))
    limit = show(job.limit, TEMPERATURE, job.system)
    return (
        Field(path="job.title", label="What is it called?", kind="plain", typed=typed_text(head.get("title"))[0]),
        Field(
            path="job.complaint",
            label="The driver's own words",
            kind="words",
            typed=typed_text(head.get("complaint"))[0].strip(),
            hint="where, when, how far up the gauge, what was switched on",
        ),
        Field(
            path="job.limit",
            label="The customer wants to stay under",
            unit=unit_of(TEMPERATURE, job.system),
            typed=typed_text(head.get("limit"))[0],
            hint=f"taken: {limit}",
        ),
    )


def write_up_form(document: Mapping[str, object], job: Job) -> tuple[Field, ...]:
    """Return the fields of who came with what: they head the work order."""
    table = _mapping(document.get("write_up"))

    def plain(key: str, label: str, hint: str = "") -> Field:
        typed = typed_text(table.get(key))[0]
        return Field(path=f"write_up.{key}", label=label, kind="plain", typed=typed, hint=hint)

    waiting = typed_text(table.get("waiting_for"))[0]
    return (
        plain("customer", "Customer"),
        plain("phone", "Phone"),
        plain("registration", PLATE[dialect_of(job.system)]),
        _odometer(document, job),
        plain("vin", "VIN"),
        plain("mechanic", "Mechanic"),
        plain("promised", "Promised for", "such as Friday noon"),
        Field(
            path="write_up.waiting_for", label="Waiting for", kind="choice", typed=waiting, choices=WAITING,
            hint="nothing: in work",
        ),
    )  # fmt: skip


def _odometer(document: Mapping[str, object], job: Job) -> Field:
    """The odometer: the head of the order and the history of the trouble are one entry."""
    return Field(
        path="history.distance",
        label="Odometer",
        unit=unit_of(DISTANCE, job.system),
        typed=typed_text(_mapping(document.get("history")).get("distance"))[0],
    )


def conditions(document: Mapping[str, object], job: Job) -> tuple[Condition, ...]:
    """Return every duty with the readings taken at it."""
    readings = list(enumerate(_tables(document.get("reading"))))
    found: list[Condition] = []
    for place, (table, duty) in enumerate(zip(_tables(document.get("duty")), job.duties, strict=True)):
        name = Field(path=f"duty.{place}.name", label="What is it doing?", kind="plain", typed=duty.name)
        fields = (name, *duty_form(table, f"duty.{place}", duty.facts, job, job.system))
        own = tuple((at, _reading(row, at, job)) for at, row in readings if row.get("duty") == duty.name)
        said = tuple(one for one in fields[FIRST:] if one.typed)
        more = tuple(one for one in fields[FIRST:] if not one.typed)
        found.append(Condition(place=place, name=duty.name, first=(*fields[:FIRST], *said), more=more, readings=own))
    return tuple(found)


def history_form(document: Mapping[str, object], job: Job) -> tuple[Field, ...]:
    """Return the fields of how it began."""
    table = _mapping(document.get("history"))
    return (
        Field(
            path="history.onset",
            label="How did it begin?",
            kind="choice",
            typed=typed_text(table.get("onset"))[0],
            choices=tuple(ONSETS),
            hint="nobody knows",
        ),
    )


def every_field(document: Mapping[str, object], job: Job) -> Iterator[Field]:
    """Yield every field of the page, in its order."""
    yield from told_form(document, job)
    yield from write_up_form(document, job)
    for condition in conditions(document, job):
        yield from condition.fields()
    yield from history_form(document, job)


def degrees_unit(job: Job) -> str:
    """Return the unit of a bare temperature in a job."""
    return unit_of(TEMPERATURE, job.system)


def rows_of(document: Mapping[str, object], key: str) -> list[dict[str, str]]:
    """Return the rows of one of a job's lists as they were typed."""
    return [{name: typed_text(value)[0] for name, value in row.items()} for row in _tables(document.get(key))]


def parts_and_effects() -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the parts that may have been changed, and what came of it."""
    return tuple(WORK), tuple(EFFECTS)


def _reading(row: Mapping[str, object], at: int, job: Job) -> tuple[Field, ...]:
    def choice(key: str, label: str, words: tuple[str, ...], hint: str) -> Field:
        typed = typed_text(row.get(key))[0]
        return Field(path=f"reading.{at}.{key}", label=label, kind="choice", typed=typed, choices=words, hint=hint)

    return (
        Field(
            path=f"reading.{at}.gauge",
            label="Temperature read",
            unit=unit_of(TEMPERATURE, job.system),
            typed=typed_text(row.get("gauge"))[0],
            hint="such as {}, {} to {}, over {}".format(*(as_typed(one, job.system) for one in (215, 210, 215, 240))),
        ),
        choice("words", "In words", tuple(WORDS), "not said"),
        choice("needle", "The needle", tuple(NEEDLE), "nothing special"),
        choice("thermometer", "Read where", tuple(PLACES), "the vehicle's own gauge"),
    )


def _tables(value: object) -> list[Mapping[str, object]]:
    return cast("list[Mapping[str, object]]", value) if isinstance(value, list) else []


def _mapping(value: object) -> Mapping[str, object]:
    return cast("Mapping[str, object]", value) if isinstance(value, dict) else {}
