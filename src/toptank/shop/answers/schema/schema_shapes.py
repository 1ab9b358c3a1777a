"""The few shapes that every JSON schema here is built of: texts, figures with their unit, tables."""

from typing import Any, TypeAlias

from toptank.shop.answers.as_json import keyed
from toptank.units.conversion import System, unit_of
from toptank.units.dimension import Dimension

Schema: TypeAlias = dict[str, Any]

DRAFT = "https://json-schema.org/draft/2020-12/schema"
SYSTEMS: tuple[System, ...] = ("us", "metric")
TEXT: Schema = {"type": "string"}
TEXTS: Schema = {"type": "array", "items": TEXT}
PERCENT: Schema = {"type": "number", "minimum": 0, "maximum": 100}
COUNT: Schema = {"type": "integer", "minimum": 0}


def headed(title: str, schema: Schema) -> Schema:
    """Return a schema with its draft and its title."""
    return {"$schema": DRAFT, "title": title, **schema}


def table(properties: Schema, *, required: list[str] | None = None) -> Schema:
    """Return the schema of a table that may leave out what is not required."""
    needed = {"required": required} if required else {}
    return {"type": "object", "properties": properties, **needed, "additionalProperties": False}


def table_of_all(properties: Schema) -> Schema:
    """Return the schema of a table that has every one of its keys."""
    return table(properties, required=list(properties))


def many(one: Schema, *, least: int = 0) -> Schema:
    """Return the schema of a list of at least so many of one kind."""
    return {"type": "array", "items": one, **({"minItems": least} if least else {})}


def words(known: Any, description: str = "") -> Schema:
    """Return the schema of one word out of those that are known."""
    return {"enum": list(known), **({"description": description} if description else {})}


def figure(name: str, dimension: Dimension, system: System) -> Schema:
    """Return the one property of a figure: its key carries the unit."""
    unit = unit_of(dimension, system)
    return {keyed(name, dimension, system): {"type": "number", **({"description": f"in {unit}"} if unit else {})}}


def told(description: str) -> Schema:
    """Return the schema of a free text."""
    return {**TEXT, "description": description}


def quantity(description: str = "") -> Schema:
    """Return the schema of a number, bare or with its unit."""
    return {"type": ["string", "number"], **({"description": description} if description else {})}
