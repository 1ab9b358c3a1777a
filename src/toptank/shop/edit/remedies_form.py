"""The form of the worst day, and which plans stand side by side."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, cast

from toptank.knowledge.sheet import duty_fields
from toptank.knowledge.sheet_text import BY_HAND, written_value
from toptank.shop.ask.choice.worst_day import worst_day, worst_day_says
from toptank.shop.edit.form import FIRST_OF_A_DUTY, Field, duty_form
from toptank.units.dimension import TEMPERATURE
from toptank.units.display import show
from toptank.units.sentence import joined, said

if TYPE_CHECKING:
    from toptank.shop.job.job import Job


def worst_day_words(job: Job) -> str:
    """Name the duties of the worst day, with their ambient."""
    days = worst_day(job)
    hottest = max(duty.facts["ambient"].value for duty in days)
    return f"{joined([duty.name for duty in days])}, at {show(hottest, TEMPERATURE, job.system)}"


def worst_day_taken(job: Job) -> str:
    """Say which day plans are judged by, and how to change it."""
    return said(worst_day_says(job), job.system)


def offered_rows(job: Job) -> list[dict[str, str]]:
    """Return the worst day that is offered as one would type it, so that it can be changed."""
    rows: list[dict[str, str]] = []
    for duty in worst_day(job):
        row = {"name": duty.name, **({"after": duty.after} if duty.after else {})}
        for key in (*FIRST_OF_A_DUTY, "trailer_mass", "trailer_drag_area", "head_wind"):
            declaration = duty_fields()[key]
            value = duty.facts[key].value
            if key in FIRST_OF_A_DUTY or value != declaration.typical:
                row[key] = written_value(value, declaration, job.system, within=BY_HAND).strip('"')
        rows.append(row)
    return rows


def worst_day_form(document: Mapping[str, object], job: Job) -> tuple[tuple[str, tuple[Field, ...]], ...]:
    """Return the fields of every duty of the worst day that the customer named."""
    rows = document.get("worst_day")
    tables = cast("list[Mapping[str, object]]", rows) if isinstance(rows, list) else []
    return tuple(
        (duty.name, duty_form(table, f"worst_day.{place}", duty.facts, job, job.system))
        for place, (table, duty) in enumerate(zip(tables, job.worst_day, strict=True))
    )


def next_name(job: Job) -> str:
    """Return a name for another duty of the worst day."""
    taken = {duty.name for duty in job.worst_day}
    return next(name for name in (f"worst condition {number}" for number in range(1, 99)) if name not in taken)
