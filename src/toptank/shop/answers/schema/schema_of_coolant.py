"""JSON schemas of the answers about the coolant."""

from dataclasses import fields

from toptank.shop.answers.schema.schema_shapes import TEXT, TEXTS, Schema, figure, many, table_of_all, words
from toptank.studies.choose.coolant.bleeding import Bleeding, layouts
from toptank.studies.choose.coolant.cap_choice import PART_LIMITS
from toptank.studies.choose.coolant.coolant_families import Action
from toptank.studies.choose.coolant.expansion import Bottle
from toptank.studies.choose.coolant.water_quality import Limit, Side, kinds
from toptank.units.conversion import System
from toptank.units.dimension import ALTITUDE, FRACTION, PRESSURE, TEMPERATURE, TEMPERATURE_RISE, VOLUME

YES_NO: Schema = {"type": "boolean"}
_NULL: Schema = {"type": "null"}


def strength_read(system: System) -> Schema:
    """Return the schema of what a reading means; null where none was given."""
    shares = {
        key: value for name in ("concentrate", "low", "high") for key, value in figure(name, FRACTION, system).items()
    }
    return {"anyOf": [table_of_all({**shares, **figure("freeze", TEMPERATURE, system), "remarks": TEXTS}), _NULL]}


def family_change() -> Schema:
    """Return the schema of what to do with the family that is in; null where none was named."""
    told = {"action": words(one.value for one in Action), "reason": TEXT, "cautions": TEXTS, "source": TEXT}
    return {"anyOf": [table_of_all(told), _NULL]}


def water_answer() -> Schema:
    """Return the schema of whether a water may go in."""
    number: Schema = {"type": "number"}
    limit = {one.name: number if one.name in ("least", "most") else TEXT for one in fields(Limit)}
    return table_of_all(
        {
            "kind": words(one.name for one in kinds()),
            "good": YES_NO,
            "reasons": TEXTS,
            "missing": TEXTS,
            "limits": many(table_of_all(limit), least=1),
            "argument": many(table_of_all({one.name: TEXT for one in fields(Side)}), least=2),
        }
    )


def bleed_answer() -> Schema:
    """Return the schema of how to fill and bleed."""
    own = {one.name: TEXTS if one.name in ("steps", "cautions") else TEXT for one in fields(Bleeding)}
    own["layout"] = words(one.layout for one in layouts())
    return table_of_all({"layouts": many(table_of_all(own), least=1)})


def cap_answer(system: System) -> Schema:
    """Return the schema of cap and bottle."""
    row = table_of_all(
        {
            **figure("pressure", PRESSURE, system),
            **figure("boils", TEMPERATURE, system),
            **figure("margin", TEMPERATURE_RISE, system),
            "enough": YES_NO,
            "forbidden_by": TEXT,
        }
    )
    volumes = {key: value for one in fields(Bottle) for key, value in figure(one.name, VOLUME, system).items()}
    return {
        "title": TEXT,
        "invented": YES_NO,
        **figure("worst", TEMPERATURE, system),
        **figure("altitude", ALTITUDE, system),
        "parts": many(words(PART_LIMITS), least=1),
        "assumed_parts": YES_NO,
        "caps": many(row, least=1),
        "chosen": {"anyOf": [row, _NULL]},
        "reason": TEXT,
        "asked": TEXTS,
        "smallest_bottle": table_of_all(volumes),
        "bottle": {"anyOf": [table_of_all(volumes), _NULL], "description": "marks in the one that is there"},
        "runs_over": YES_NO,
        "assumed": TEXTS,
        "remarks": TEXTS,
        "assumed_units": TEXTS,
    }
