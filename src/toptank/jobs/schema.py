"""JSON schemas (draft 2020-12) of the files that people write and of the answers, made from the declarations."""

from typing import Any, TypeAlias

from toptank.jobs import core_file, job_file
from toptank.jobs.as_json import keyed, slope_key
from toptank.jobs.figures import FIGURES, STATUS_WORDS
from toptank.jobs.job import WORDS
from toptank.jobs.service import GLYCOLS
from toptank.knowledge.sheet import How, duty_fields, sections
from toptank.knowledge.typical import typical_names
from toptank.units.conversion import System, unit_of
from toptank.units.declaration import Declaration
from toptank.units.dimension import (
    AIR_PRESSURE,
    ALTITUDE,
    CHOICE,
    CONDUCTANCE,
    FRACTION,
    HEAT,
    LENGTH,
    PRESSURE,
    TEMPERATURE,
    YES_NO,
    Dimension,
)
from toptank.units.display import show

Schema: TypeAlias = dict[str, Any]

DRAFT = "https://json-schema.org/draft/2020-12/schema"
SYSTEMS: tuple[System, ...] = ("us", "metric")
TEXT: Schema = {"type": "string"}
TEXTS: Schema = {"type": "array", "items": TEXT}
PERCENT: Schema = {"type": "number", "minimum": 0, "maximum": 100}


def schemas() -> dict[str, Schema]:
    """Return every schema by the name of its file, less the ending."""
    return {
        "job": job_schema(),
        "core": core_schema(),
        "answer-forecast": _by_system("forecast and demo", forecast_answer),
        "answer-core": _by_system("core", core_answer),
        "answer-boil": _by_system("boil", boil_answer),
        "answer-freeze": _by_system("freeze", freeze_answer),
        "answer-vehicles": _headed("Answer of `toptank vehicles --json`", vehicles_answer()),
        "answer-explain": _headed("Answer of `toptank explain --json`", explain_answer()),
        "answer-sheet-new": _headed("Answer of `toptank sheet new --json`", sheet_answer()),
    }


def limits_in_words(declaration: Declaration, limits: tuple[float, float], system: System) -> str:
    """Write two limits of a field in the units of the shop."""
    low, high = (show(limit, declaration.dimension, system) for limit in limits)
    return f"{low} to {high}"


def job_schema() -> Schema:
    """Return the schema of a job file, as it stands once TOML has been read."""
    job = _table(
        {
            "title": _told("the vehicle in a few words"),
            "complaint": _told("the driver's own words"),
            "invented": {"type": "boolean", "description": "true: the figures are made up"},
            "limit": {**_quantity(), "description": "coolant temperature to stay under; 225 degF if not said"},
        }
    )
    vehicle = _table({"like": {"enum": list(typical_names())}}, required=["like"])
    duty = _table({"name": TEXT, **_fields(duty_fields())}, required=["name"])
    reading = _table(
        {
            "duty": _told("name of a duty of this job"),
            "gauge": {**_quantity(), "description": "what the gauge showed"},
            "words": {"enum": list(WORDS), "description": "what the driver said"},
            "note": _told("anything else"),
        },
        required=["duty"],
    )
    duties = {"type": "array", "items": duty, "minItems": 1, "maxItems": job_file.MOST_DUTIES}
    properties: Schema = {
        **_file_head(job_file.FORMAT),
        "job": job,
        "vehicle": vehicle,
        **{section: _table(_fields(keys)) for section, keys in sections().items()},
        "duty": duties,
        "reading": {"type": "array", "items": reading},
    }
    whole = _table(properties, required=["format", "vehicle", "duty"])
    return _headed("Job file of toptank", {**whole, "$defs": _kinds()})


def core_schema() -> Schema:
    """Return the schema of a core file, as it stands once TOML has been read."""
    parts = {section: _table(_fields(sections()[section])) for section in core_file.SECTIONS}
    whole = _table({**_file_head(core_file.FORMAT), **parts}, required=["format", "core"])
    return _headed("Core file of toptank", {**whole, "$defs": _kinds()})


def forecast_answer(system: System) -> Schema:
    """Return the schema of a forecast."""
    counts = {"type": "integer", "minimum": 0}
    band = {"type": "object", **_all({percentile: {"type": "number"} for percentile in ("p10", "p50", "p90")})}
    widest = {"field": TEXT, "means": TEXT, "share_pct": PERCENT, "measure": TEXT}
    seen = {"words": {"enum": [*WORDS, None]}, "note": TEXT}
    gauge = _figure("gauge", TEMPERATURE, system)
    reading = _table({**gauge, **seen}, required=list(seen))
    duty: Schema = {
        "name": TEXT,
        **{keyed(figure.name, figure.dimension, system): {**band, "description": figure.means} for figure in FIGURES},
        "chance_to_boil_pct": {**PERCENT, "description": "share of the draws that boil or find no balance"},
        "status_pct": _table_of_all(dict.fromkeys(STATUS_WORDS.values(), PERCENT)),
        "reason": _told("one sentence on the central vehicle"),
        "widest": {"type": "array", "items": _table_of_all(widest), "description": "what widens the band most"},
        "readings": {"type": "array", "items": reading},
    }
    return {
        "title": TEXT,
        "like": TEXT,
        "invented": {"type": "boolean"},
        "equations_version": TEXT,
        "draws": counts,
        "seed": counts,
        **_figure("limit", TEMPERATURE, system),
        "facts": _table_of_all({how.value: counts for how in How}),
        "assumed_units": TEXTS,
        "remarks": TEXTS,
        "duties": {"type": "array", "items": _table_of_all(duty), "minItems": 1},
    }


def core_answer(system: System) -> Schema:
    """Return the schema of the rating of a core."""
    return {
        "name": TEXT,
        **_figure("heat", HEAT, system),
        **_figure("coolant_out", TEMPERATURE, system),
        **_figure("air_out", TEMPERATURE, system),
        **_figure("air_pressure_drop", AIR_PRESSURE, system),
        **_figure("coolant_pressure_drop", PRESSURE, system),
        **_figure("conductance", CONDUCTANCE, system),
        **_figure("effectiveness", FRACTION, system),
        **_figure("air_share_of_resistance", FRACTION, system),
        **_figure("depth", LENGTH, system),
        "tube_reynolds": {"type": "number"},
        "regime": {"enum": ["laminar", "transition", "turbulent"]},
        "remarks": TEXTS,
        "assumed_units": TEXTS,
    }


def boil_answer(system: System) -> Schema:
    """Return the schema of a boiling point and its table of caps."""
    gain = {"type": ["number", "null"], "description": "degrees per pressure since the cap before; null for the first"}
    cap = {
        **_figure("cap", PRESSURE, system),
        **_figure("boiling_point", TEMPERATURE, system),
        slope_key("gain", system): gain,
    }
    return {
        "glycol": {"enum": list(GLYCOLS)},
        **_figure("mix", FRACTION, system),
        **_figure("cap", PRESSURE, system),
        **_figure("altitude", ALTITUDE, system),
        **_figure("boiling_point", TEMPERATURE, system),
        **_figure("open_boiling_point", TEMPERATURE, system),
        slope_key("gain_at_this_cap", system): {"type": "number"},
        slope_key("mean_gain", system): {"type": "number"},
        "caps": {"type": "array", "items": _table_of_all(cap), "minItems": 1},
        "assumed_units": TEXTS,
    }


def freeze_answer(system: System) -> Schema:
    """Return the schema of a freeze point."""
    return {
        "glycol": {"enum": list(GLYCOLS)},
        **_figure("mix", FRACTION, system),
        **_figure("freeze_point", TEMPERATURE, system),
        "remarks": TEXTS,
        "assumed_units": TEXTS,
    }


def vehicles_answer() -> Schema:
    """Return the schema of the list of typical vehicles."""
    row = {"name": TEXT, "title": TEXT, "where": TEXT, "own_facts": {"type": "integer", "minimum": 0}}
    return _table_of_all({"vehicles": {"type": "array", "items": _table_of_all(row), "minItems": 1}})


def explain_answer() -> Schema:
    """Return the schema of an explanation."""
    lists = dict.fromkeys(("equations", "sources", "assumptions", "files"), TEXTS)
    return _table_of_all({"name": TEXT, "means": TEXT, **lists})


def sheet_answer() -> Schema:
    """Return the schema of a starting file."""
    return _table_of_all({"like": TEXT, "file": {"type": ["string", "null"]}, "text": TEXT})


def _headed(title: str, schema: Schema) -> Schema:
    return {"$schema": DRAFT, "title": title, **schema}


def _by_system(command: str, answer: Any) -> Schema:
    """Both forms of an answer: its keys carry the units of the shop."""
    forms = [_table_of_all({"units": {"const": system}, **answer(system)}) for system in SYSTEMS]
    return _headed(f"Answer of `toptank {command} --json`", {"oneOf": forms})


def _all(properties: Schema) -> Schema:
    return {"properties": properties, "required": list(properties), "additionalProperties": False}


def _table_of_all(properties: Schema) -> Schema:
    return {"type": "object", **_all(properties)}


def _table(properties: Schema, *, required: list[str] | None = None) -> Schema:
    needed = {"required": required} if required else {}
    return {"type": "object", "properties": properties, **needed, "additionalProperties": False}


def _figure(name: str, dimension: Dimension, system: System) -> Schema:
    unit = unit_of(dimension, system)
    return {keyed(name, dimension, system): {"type": "number", **({"description": f"in {unit}"} if unit else {})}}


def _told(description: str) -> Schema:
    return {**TEXT, "description": description}


def _quantity() -> Schema:
    return {"type": ["string", "number"]}


def _file_head(written: str) -> Schema:
    units = {"enum": list(SYSTEMS), "default": "us", "description": "unit system of a bare number"}
    return {"format": {"const": written}, "units": units}


def _fields(keys: Any) -> Schema:
    return {key: _field(declaration) for key, declaration in keys.items()}


def _field(declaration: Declaration) -> Schema:
    """A plain value, which counts as measured, or a table that says how it was found."""
    kind = "quantity"
    if declaration.dimension == CHOICE:
        kind, limits = "choice", "one of: " + ", ".join(declaration.choices)
    elif declaration.dimension == YES_NO:
        kind, limits = "yes_no", "yes or no"
    else:
        both = dict.fromkeys(limits_in_words(declaration, declaration.hard, system) for system in SYSTEMS)
        limits = " = ".join(both)
    return {"description": f"{declaration.means}; {limits}", "$ref": f"#/$defs/{kind}"}


def _kinds() -> Schema:
    """The three ways in which the value of a field is written."""
    plain: Schema = {"quantity": _quantity(), "choice": TEXT, "yes_no": {"type": ["boolean", "string"]}}
    how = {"enum": [how.value for how in How]}
    return {
        kind: {"anyOf": [value, _table({"value": value, "how": how, "spread": _quantity()}, required=["value"])]}
        for kind, value in plain.items()
    }
