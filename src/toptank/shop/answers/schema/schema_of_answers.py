"""JSON schemas of the answers of a forecast, a core, boiling and freezing points, lists, starting files."""

from toptank.knowledge.sheet import Provenance
from toptank.shop.answers.as_json import keyed, slope_key
from toptank.shop.answers.figures import FIGURES, STATUS_WORDS
from toptank.shop.answers.schema.schema_shapes import (
    COUNT,
    PERCENT,
    TEXT,
    TEXTS,
    Schema,
    figure,
    many,
    table,
    table_of_all,
    told,
    words,
)
from toptank.shop.ask.service import GLYCOLS
from toptank.studies.diagnose.evidence import WORDS
from toptank.units.conversion import System
from toptank.units.dimension import AIR_PRESSURE, ALTITUDE, CONDUCTANCE, FRACTION, HEAT, LENGTH, PRESSURE, TEMPERATURE

PERCENTILES = ("p10", "p50", "p90")


def forecast_answer(system: System) -> Schema:
    """Return the schema of a forecast."""
    band = table_of_all({percentile: {"type": "number"} for percentile in PERCENTILES})
    widest = {"field": TEXT, "means": TEXT, "share_pct": PERCENT, "measure": TEXT}
    seen = {"words": words([*WORDS, None]), "note": TEXT}
    gauge = figure("gauge", TEMPERATURE, system)
    reading = table({**gauge, **seen}, required=list(seen))
    duty: Schema = {
        "name": TEXT,
        **{keyed(one.name, one.dimension, system): {**band, "description": one.means} for one in FIGURES},
        "chance_to_boil_pct": {**PERCENT, "description": "share of the draws that boil or find no balance"},
        "status_pct": table_of_all(dict.fromkeys(STATUS_WORDS.values(), PERCENT)),
        "reason": told("one sentence on the central vehicle"),
        "widest": {"type": "array", "items": table_of_all(widest), "description": "what widens the band most"},
        "readings": many(reading),
    }
    return {
        "title": TEXT,
        "like": TEXT,
        "invented": {"type": "boolean"},
        "equations_version": TEXT,
        "draws": COUNT,
        "seed": COUNT,
        **figure("limit", TEMPERATURE, system),
        "facts": table_of_all({how.value: COUNT for how in Provenance}),
        "assumed_units": TEXTS,
        "remarks": TEXTS,
        "duties": many(table_of_all(duty), least=1),
    }


def core_answer(system: System) -> Schema:
    """Return the schema of the rating of a core."""
    return {
        "name": TEXT,
        **figure("heat", HEAT, system),
        **figure("coolant_out", TEMPERATURE, system),
        **figure("air_out", TEMPERATURE, system),
        **figure("air_pressure_drop", AIR_PRESSURE, system),
        **figure("coolant_pressure_drop", PRESSURE, system),
        **figure("conductance", CONDUCTANCE, system),
        **figure("effectiveness", FRACTION, system),
        **figure("air_share_of_resistance", FRACTION, system),
        **figure("depth", LENGTH, system),
        "tube_reynolds": {"type": "number"},
        "regime": words(("laminar", "transition", "turbulent")),
        "remarks": TEXTS,
        "assumed_units": TEXTS,
    }


def boil_answer(system: System) -> Schema:
    """Return the schema of a boiling point and its table of caps."""
    gain = {"type": ["number", "null"], "description": "degrees per pressure since the cap before; null for the first"}
    cap = {
        **figure("cap", PRESSURE, system),
        **figure("boiling_point", TEMPERATURE, system),
        slope_key("gain", system): gain,
    }
    return {
        "glycol": words(GLYCOLS),
        **figure("mix", FRACTION, system),
        **figure("cap", PRESSURE, system),
        **figure("altitude", ALTITUDE, system),
        **figure("boiling_point", TEMPERATURE, system),
        **figure("open_boiling_point", TEMPERATURE, system),
        slope_key("gain_at_this_cap", system): {"type": "number"},
        slope_key("mean_gain", system): {"type": "number"},
        "caps": many(table_of_all(cap), least=1),
        "assumed_units": TEXTS,
    }


def freeze_answer(system: System) -> Schema:
    """Return the schema of a freeze point."""
    return {
        "glycol": words(GLYCOLS),
        **figure("mix", FRACTION, system),
        **figure("freeze_point", TEMPERATURE, system),
        "remarks": TEXTS,
        "assumed_units": TEXTS,
    }


def vehicles_answer() -> Schema:
    """Return the schema of the list of typical vehicles."""
    row = {"name": TEXT, "title": TEXT, "where": TEXT, "own_facts": COUNT}
    return table_of_all({"vehicles": many(table_of_all(row), least=1)})


def explain_answer() -> Schema:
    """Return the schema of an explanation."""
    lists = dict.fromkeys(("equations", "sources", "assumptions", "files"), TEXTS)
    return table_of_all({"name": TEXT, "means": TEXT, **lists})


def sheet_answer() -> Schema:
    """Return the schema of a starting file."""
    return table_of_all({"like": TEXT, "file": {"type": ["string", "null"]}, "text": TEXT})
