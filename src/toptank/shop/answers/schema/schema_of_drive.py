"""JSON schema of a drive."""

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
from toptank.shop.ask.drive import FEWEST, MOST, WITH_EVIDENCE
from toptank.units.conversion import System, unit_of
from toptank.units.dimension import ALTITUDE, DISTANCE, SPEED, TEMPERATURE, TEMPERATURE_RISE, Dimension

YES_NO: Schema = {"type": "boolean"}
MINUTES: Schema = {"type": "number", "minimum": 0, "description": "from the start"}


def drive_answer(system: System) -> Schema:
    """Return the schema of a drive."""
    band = table_of_all({point: {"type": "number"} for point in ("p10", "p50", "p90")})
    stretch: Schema = {
        "name": TEXT,
        "until_minutes": MINUTES,
        **figure("until_distance", DISTANCE, system),
        **figure("altitude", ALTITUDE, system),
        keyed("gauge_at_its_hottest", TEMPERATURE, system): band,
    }
    ease: Schema = {
        "air_conditioning_off": YES_NO,
        **figure("speed_on_the_climbs", SPEED, system),
        "speed_kept_pct": PERCENT,
        keyed("peak", TEMPERATURE, system): band,
        **figure("cooler", TEMPERATURE_RISE, system),
        "longer_minutes": {"type": "number"},
        "over_limit_pct": PERCENT,
        "boils_pct": PERCENT,
        "holds": {**YES_NO, "description": "it then stays under limit and boiling in 9 of 10 possible vehicles"},
    }
    return {
        "title": TEXT,
        "invented": YES_NO,
        "equations_version": TEXT,
        "draws": {**COUNT, "minimum": FEWEST, "maximum": MOST},
        "seed": COUNT,
        **figure("limit", TEMPERATURE, system),
        "duty": told("duty of the job that stands behind what the drive does not say"),
        "starts_cold": YES_NO,
        "known_by": words(("sheet", WITH_EVIDENCE), "what the possible vehicles rest on"),
        "done": {**TEXTS, "description": "work that is taken as done; empty: the vehicle as it is"},
        "says": {**TEXTS, "minItems": 3, "description": "peak, chances, what would ease it, in sentences"},
        "minutes": MINUTES,
        **figure("distance", DISTANCE, system),
        keyed("peak", TEMPERATURE, system): {**band, "description": "highest reading of the gauge"},
        "peak_minutes": {**MINUTES, "description": "where the middle vehicle is hottest"},
        **figure("peak_distance", DISTANCE, system),
        keyed("transmission_peak", TEMPERATURE, system): band,
        "over_limit_pct": PERCENT,
        "boils_pct": PERCENT,
        "coolant_lost_pct": {**PERCENT, "description": "gone past the cap, middle one of the vehicles that boil"},
        "short_of_power_pct": PERCENT,
        "holds_pct": PERCENT,
        "stretches": many(table_of_all(stretch), least=1),
        "what_would_ease_it": {**many(table_of_all(ease)), "description": "empty where it holds as it is"},
        "along": table_of_all(_along(system)),
        "remarks": TEXTS,
        "assumed_units": TEXTS,
    }


def _along(system: System) -> Schema:
    """One list a figure, one entry a point of the drive."""

    def listed(name: str, dimension: Dimension) -> Schema:
        described = {"description": f"in {unit_of(dimension, system)}"}
        return {keyed(name, dimension, system): {**many({"type": "number"}, least=2), **described}}

    return {
        "minutes": many({"type": "number"}, least=2),
        **listed("distance", DISTANCE),
        **listed("altitude", ALTITUDE),
        **listed("gauge_p10", TEMPERATURE),
        **listed("gauge_p50", TEMPERATURE),
        **listed("gauge_p90", TEMPERATURE),
        **listed("boiling_point", TEMPERATURE),
    }
