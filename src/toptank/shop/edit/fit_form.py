"""The form of the bay and of radiators on offer: what would settle an open question comes first."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, cast

from toptank.knowledge.sheet import declared
from toptank.shop.edit.form import Field, declared_field, typed_text
from toptank.studies.choose.fit.measures import bay_fields, offer_fields

if TYPE_CHECKING:
    from toptank.shop.ask.fit import Fitted
    from toptank.shop.job.job import Job


def bay_form(document: Mapping[str, object], job: Job, answer: Fitted) -> tuple[tuple[Field, ...], tuple[Field, ...]]:
    """Return the measures that would settle what is open, and the others."""
    table = _mapping(document.get("fit"))
    wanted = dict.fromkeys(path for one in answer.fits for path in one.to_measure() if path.startswith("fit."))
    fields = {
        f"fit.{key}": declared_field(f"fit.{key}", table.get(key), field, job.fit.facts[key], job.system)
        for key, field in bay_fields().items()
    }
    return (
        tuple(fields[path] for path in wanted if path in fields),
        tuple(field for path, field in fields.items() if path not in wanted),
    )


def offers_form(document: Mapping[str, object], job: Job) -> tuple[tuple[str, tuple[Field, ...]], ...]:
    """Return every radiator on offer with its fields."""
    rows = document.get("offer")
    tables = cast("list[Mapping[str, object]]", rows) if isinstance(rows, list) else []
    return tuple(
        (offer.name, _offer(table, place, job))
        for place, (table, offer) in enumerate(zip(tables, job.fit.offers, strict=True))
    )


def _offer(table: Mapping[str, object], place: int, job: Job) -> tuple[Field, ...]:
    def words(key: str, label: str) -> Field:
        return Field(path=f"offer.{place}.{key}", label=label, kind="plain", typed=typed_text(table.get(key))[0])

    stated: Mapping[str, Any] = job.fit.offers[place].facts
    return (
        words("name", "What it is"),
        words("price", "Price"),
        words("parts", "Parts that come with it"),
        *(
            declared_field(f"offer.{place}.{key}", table.get(key), field, stated.get(key, declared(field)), job.system)
            for key, field in offer_fields().items()
        ),
    )


def _mapping(value: object) -> Mapping[str, object]:
    return cast("Mapping[str, object]", value) if isinstance(value, dict) else {}
