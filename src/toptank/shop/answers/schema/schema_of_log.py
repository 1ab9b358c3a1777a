"""JSON schemas of logs and of check drives."""

from toptank.catalogue.causes.all_causes import CAUSE_NAMES
from toptank.shop.answers.as_json import keyed
from toptank.shop.answers.schema.schema_shapes import (
    COUNT,
    PERCENT,
    TEXT,
    TEXTS,
    Schema,
    figure,
    many,
    table_of_all,
    told,
    words,
)
from toptank.shop.log.log_columns import CHANNELS
from toptank.shop.log.log_mapping import TIME
from toptank.studies.verify.verdict import LACKS, WORDS
from toptank.units.conversion import System, unit_of
from toptank.units.dimension import ALTITUDE, DISTANCE, GRADE, SPEED, TEMPERATURE, TEMPERATURE_RISE

YES_NO: Schema = {"type": "boolean"}
AMOUNT: Schema = {"type": "number", "minimum": 0}
MINUTES: Schema = {**AMOUNT, "description": "from the start"}
FIGURES: Schema = many({"type": "number"}, least=1)


def _or_null(schema: Schema) -> Schema:
    return {"anyOf": [schema, {"type": "null"}]}


def _file() -> Schema:
    means = {"enum": [*CHANNELS, TIME, None], "description": "null: left out"}
    column = table_of_all({"head": TEXT, "means": means, "unit": TEXT, "note": TEXT})
    return {
        "file": TEXT,
        "rows": COUNT,
        "minutes": AMOUNT,
        "noted_by_hand": YES_NO,
        "columns": many(column, least=2),
    }


def log_answer(system: System) -> Schema:
    """Return the schema of a log as evidence."""
    rate = _or_null(
        table_of_all(
            {
                "from_minutes": MINUTES,
                "seconds": AMOUNT,
                **figure("change", TEMPERATURE_RISE, system),
                "standing": YES_NO,
                "engine_on": YES_NO,
            }
        )
    )
    swings = table_of_all(
        {
            "from_minutes": MINUTES,
            "to_minutes": MINUTES,
            **figure("height", TEMPERATURE_RISE, system),
            "seconds": {**AMOUNT, "description": "of one swing"},
        }
    )
    settled = table_of_all(
        {"from_minutes": MINUTES, "to_minutes": MINUTES, **figure("temperature", TEMPERATURE, system)}
    )
    shows = table_of_all(
        {
            "settled": many(settled),
            "fastest_rise": rate,
            "fastest_fall": rate,
            "swings": _or_null(swings),
            keyed("thermostat_seen_to_open_at", TEMPERATURE, system): {"type": ["number", "null"]},
        }
    )
    cause = table_of_all({"cause": words(CAUSE_NAMES), "before_pct": PERCENT, "with_the_log_pct": PERCENT})
    return {
        "title": TEXT,
        "invented": YES_NO,
        "equations_version": TEXT,
        "seed": COUNT,
        **_file(),
        "shows": shows,
        "says": {**TEXTS, "description": "what the log shows by itself, in sentences"},
        "independent_readings": {**AMOUNT, "description": "that the log is worth, however many rows it has"},
        "causes": many(cause, least=1),
        "none_of_these_pct": PERCENT,
        "draws": COUNT,
        "worth": AMOUNT,
        "remarks": TEXTS,
        "assumed_units": TEXTS,
    }


def verify_answer(system: System) -> Schema:
    """Return the schema of a check drive with its verdict."""
    band = table_of_all({point: {"type": "number"} for point in ("p10", "p50", "p90")})
    day = table_of_all(
        {
            "hardest": told("hardest duty"),
            "holds_forecast_pct": {**PERCENT, "description": "if the work does what was forecast"},
            "holds_before_pct": {**PERCENT, "description": "before this drive, work that does nothing counted"},
            "holds_now_pct": PERCENT,
            keyed("gauge_forecast", TEMPERATURE, system): band,
            keyed("gauge_now", TEMPERATURE, system): band,
        }
    )
    better = table_of_all(
        {
            **figure("grade", GRADE, system),
            "climb_minutes": AMOUNT,
            **figure("speed", SPEED, system),
            "air_conditioning": YES_NO,
            "idle_minutes": AMOUNT,
            **figure("ambient", TEMPERATURE, system),
            "would_show_nothing_done_pct": PERCENT,
            **figure("stays_under", TEMPERATURE, system),
        }
    )
    back = table_of_all({"cause": words(CAUSE_NAMES), "expected_pct": PERCENT, "now_pct": PERCENT})
    return {
        "title": TEXT,
        "invented": YES_NO,
        "equations_version": TEXT,
        "draws": COUNT,
        "seed": COUNT,
        "done": {**TEXTS, "minItems": 1},
        "log": {**_or_null(table_of_all(_file())), "description": "null: a simulated drive"},
        "verdict": words(WORDS),
        "proves": {**YES_NO, "description": "false: too easy, or it has too little of something"},
        "lacks": {**words(LACKS), "description": "what it has too little of to prove anything, whatever it shows"},
        "says": {**TEXTS, "minItems": 2, "description": "the verdict in words, its headline first"},
        "better_drive_says": {**TEXT, "description": "empty where this drive proves enough"},
        **figure("limit", TEMPERATURE, system),
        "would_show_nothing_done_pct": PERCENT,
        **figure("hotter_than_forecast", TEMPERATURE_RISE, system),
        keyed("if_as_forecast", TEMPERATURE_RISE, system): band,
        keyed("if_nothing_done", TEMPERATURE_RISE, system): band,
        "place_in_forecast_pct": PERCENT,
        "only_weather_or_road_pct": PERCENT,
        "nothing_done_pct": PERCENT,
        "beyond_both": {**YES_NO, "description": "neither work done as forecast nor work left undone would show it"},
        "telling_from_minutes": MINUTES,
        "telling_to_minutes": MINUTES,
        "independent_readings": AMOUNT,
        "worst_day": day,
        "causes_back": many(back),
        "better_drive": _or_null(better),
        "along": table_of_all(_along(system)),
        "readings": table_of_all({"minutes": FIGURES, keyed("read", TEMPERATURE, system): FIGURES}),
        "remarks": TEXTS,
        "assumed_units": TEXTS,
    }


def _along(system: System) -> Schema:
    unit = {"description": f"in {unit_of(TEMPERATURE, system)}"}
    names = ("forecast_low", "forecast_middle", "forecast_high", "boiling_point")
    read = many({"type": ["number", "null"]}, least=1)
    return {
        "minutes": FIGURES,
        keyed("distance", DISTANCE, system): {**FIGURES, "description": f"in {unit_of(DISTANCE, system)}"},
        keyed("altitude", ALTITUDE, system): {**FIGURES, "description": f"in {unit_of(ALTITUDE, system)}"},
        **{keyed(name, TEMPERATURE, system): {**FIGURES, **unit} for name in names},
        keyed("read", TEMPERATURE, system): {**read, **unit},
    }
