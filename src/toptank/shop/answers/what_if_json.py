"""The answer to a what-if as JSON, and its schema: plain records whose keys carry their unit."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING, Any

from toptank.shop.answers.as_json import keyed, number, pair
from toptank.shop.answers.schema.schema_shapes import (
    COUNT,
    PERCENT,
    TEXT,
    TEXTS,
    Schema,
    figure,
    table_of_all,
    told,
    words,
)
from toptank.shop.ask.loop import COOLER_PLACES, FAN_DRIVES
from toptank.units.conversion import System
from toptank.units.dimension import (
    AIR_SPEED,
    FLOW,
    FRACTION,
    GRADE,
    HEAT,
    POWER,
    ROTATION,
    SPEED,
    TEMPERATURE,
    Dimension,
)

if TYPE_CHECKING:
    from toptank.shop.ask.loop import Loop
    from toptank.shop.ask.what_if import WhatIf

ASKED: dict[str, Dimension] = {"ambient": TEMPERATURE, "grade": GRADE, "speed": SPEED}
BANDS = ("gauge", "top_tank", "boiling_point", "gauge_before")
LOOP_FIGURES: dict[str, tuple[str, Dimension]] = {
    "T_engine_out": ("engine_out", TEMPERATURE),
    "T_bottom_hose": ("bottom_hose", TEMPERATURE),
    "T_engine_in": ("engine_in", TEMPERATURE),
    "T_gauge": ("gauge", TEMPERATURE),
    "T_boiling": ("boiling_point", TEMPERATURE),
    "T_ambient": ("ambient", TEMPERATURE),
    "T_core_air_in": ("core_air_in", TEMPERATURE),
    "T_core_air_out": ("core_air_out", TEMPERATURE),
    "T_transmission": ("transmission", TEMPERATURE),
    "T_condensing": ("condensing", TEMPERATURE),
    "core_flow": ("core_flow", FLOW),
    "bypass_flow": ("bypass_flow", FLOW),
    "opening": ("thermostat_opening", FRACTION),
    "V_fan_zone": ("face_velocity", AIR_SPEED),
    "V_ram_zone": ("ram_velocity", AIR_SPEED),
    "fan_zone": ("fan_zone", FRACTION),
    "fan_speed": ("fan_speed", ROTATION),
    "engine_speed": ("engine_speed", ROTATION),
    "fan_power": ("fan_power", POWER),
    "engine_power": ("engine_power", POWER),
    "engine_heat": ("engine_heat", HEAT),
    "core_heat": ("core_heat", HEAT),
    "surface_heat": ("surface_heat", HEAT),
    "heater_heat": ("heater_heat", HEAT),
    "transmission_heat": ("transmission_heat", HEAT),
    "condenser_heat": ("condenser_heat", HEAT),
}
"""Attribute of a loop -> its key less the unit, and its kind of quantity; what is left of a loop has no unit."""

_YES_NO: Schema = {"type": "boolean"}


def what_if_json(answer: WhatIf, system: System) -> dict[str, Any]:
    """Return the answer to a what-if."""
    facts = answer.duty.facts
    return {
        "title": answer.job.title,
        "invented": answer.job.invented,
        "units": system,
        "equations_version": answer.equations_version,
        "draws": answer.draws,
        "rests_on": answer.rests_on,
        "duty": answer.duty.name,
        **{
            key: value
            for name, kind in ASKED.items()
            for key, value in pair(name, facts[name].value, kind, system).items()
        },
        "air_conditioning": facts["air_conditioning"].value > 0.5,
        "changed": list(answer.changed),
        **pair("limit", answer.job.limit, TEMPERATURE, system),
        **{
            keyed(name, TEMPERATURE, system): {
                point: number(value, TEMPERATURE, system) for point, value in getattr(answer, name)._asdict().items()
            }
            for name in BANDS
        },
        "over_limit_pct": round(100.0 * answer.over_limit, 2),
        "chance_to_boil_pct": round(100.0 * answer.boils, 2),
        "reason": answer.reason,
        "loop": _loop(answer.loop, system),
        "remarks": list(answer.remarks),
        "assumed_units": list(answer.assumed_units),
    }


def _loop(loop: Loop, system: System) -> dict[str, Any]:
    record: dict[str, Any] = {}
    for attribute in dataclasses.fields(loop):
        value = getattr(loop, attribute.name)
        named = LOOP_FIGURES.get(attribute.name)
        record |= {attribute.name: value} if named is None else pair(named[0], value, named[1], system)
    return record


def what_if_answer(system: System) -> Schema:
    """Return the schema of the answer to a what-if."""
    band = table_of_all({point: {"type": "number"} for point in ("p10", "p50", "p90")})
    means = {
        "gauge": "what the gauge shows",
        "top_tank": "coolant in the top tank",
        "boiling_point": "where this mix boils under this cap",
        "gauge_before": "the gauge at the duty as the job has it",
    }
    return {
        "title": TEXT,
        "invented": _YES_NO,
        "equations_version": TEXT,
        "draws": COUNT,
        "rests_on": words(("diagnosis", "sheet"), "where the possible vehicles come from"),
        "duty": TEXT,
        **{key: shape for name, kind in ASKED.items() for key, shape in figure(name, kind, system).items()},
        "air_conditioning": _YES_NO,
        "changed": {"type": "array", "items": words((*ASKED, "air_conditioning"))},
        **figure("limit", TEMPERATURE, system),
        **{keyed(name, TEMPERATURE, system): {**band, "description": means[name]} for name in BANDS},
        "over_limit_pct": PERCENT,
        "chance_to_boil_pct": PERCENT,
        "reason": told("one sentence on the vehicle in the middle"),
        "loop": {**table_of_all(_loop_schema(system)), "description": "of the vehicle in the middle"},
        "remarks": TEXTS,
        "assumed_units": TEXTS,
    }


def _loop_schema(system: System) -> Schema:
    flags = ("boils", "short_of_power", "unbalanced", "heater_on", "air_conditioning_on", "has_shroud", "has_condenser")
    return {
        **{key: shape for name, kind in LOOP_FIGURES.values() for key, shape in figure(name, kind, system).items()},
        **dict.fromkeys((*flags, "crossflow"), _YES_NO),
        "passes": COUNT,
        "fans": COUNT,
        "fan_drive": words(FAN_DRIVES),
        "cooler": words(COOLER_PLACES),
    }
