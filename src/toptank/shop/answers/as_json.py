"""Answers as JSON: plain records whose keys carry their unit, e.g. `top_tank_degF: {p10, p50, p90}`."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from toptank.shop.answers.answers import Boiling, CoreRating, Explanation, Forecast, Freezing, TypicalRow
from toptank.shop.answers.figures import FIGURES, STATUS_WORDS
from toptank.units.conversion import System, from_si, unit_of
from toptank.units.dimension import (
    AIR_PRESSURE,
    ALTITUDE,
    CONDUCTANCE,
    FRACTION,
    HEAT,
    LENGTH,
    PRESSURE,
    TEMPERATURE,
    TEMPERATURE_RISE,
    Dimension,
)
from toptank.units.display import key_suffix

if TYPE_CHECKING:
    from toptank.knowledge.forecast import DutyForecast

DIGITS = 6


def keyed(name: str, dimension: Dimension, system: System) -> str:
    """Return a key with its unit."""
    suffix = key_suffix(dimension, system)
    return f"{name}_{suffix}" if suffix else name


def number(value: float, dimension: Dimension, system: System) -> float:
    """Return a value in SI in the unit of the shop, to six figures."""
    return float(f"{float(from_si(value, dimension, unit_of(dimension, system))):.{DIGITS}g}")


def pair(name: str, value: float, dimension: Dimension, system: System) -> dict[str, float]:
    """Return one key and its figure."""
    return {keyed(name, dimension, system): number(value, dimension, system)}


def forecast_json(answer: Forecast, system: System) -> dict[str, Any]:
    """Return a forecast."""
    job = answer.job
    return {
        "title": job.title,
        "like": job.sheet.like,
        "invented": job.invented,
        "units": system,
        "equations_version": answer.duties[0].equations_version,
        "draws": answer.draws,
        "seed": answer.seed,
        **pair("limit", job.limit, TEMPERATURE, system),
        "facts": answer.known,
        "assumed_units": list(job.assumed_units),
        "remarks": [*answer.remarks, *_untold(answer)],
        "duties": [_duty(answer, i, system) for i in range(len(answer.duties))],
    }


def _untold(answer: Forecast) -> list[str]:
    """Why `widest` is empty, duty by duty."""
    named = zip(answer.duties, answer.untold, strict=True)
    return [f"duty {duty.name!r}: widest is empty: {why}" for duty, why in named if why]


def _duty(answer: Forecast, i: int, system: System) -> dict[str, Any]:
    from toptank.system.balance import Status

    duty: DutyForecast = answer.duties[i]
    bands = {
        keyed(figure.name, figure.dimension, system): {
            percentile: None if math.isnan(value) else number(value, figure.dimension, system)
            for percentile, value in getattr(duty.bands, figure.name)._asdict().items()
        }
        for figure in FIGURES
    }
    shares = {word: 100.0 * duty.shares.get(Status(code), 0.0) for code, word in STATUS_WORDS.items()}
    return {
        "name": duty.name,
        **bands,
        "chance_to_boil_pct": round(shares["boils"] + shares["no balance"], 4),
        "status_pct": {word: round(share, 4) for word, share in shares.items()},
        "reason": duty.reason,
        "widest": [
            {"field": one.path, "means": one.means, "share_pct": round(100.0 * one.share, 2), "measure": one.measure}
            for one in answer.widest[i]
        ],
        "readings": [
            _reading(reading, system) for reading in answer.job.evidence.readings if reading.duty == duty.name
        ],
    }


def _reading(reading: Any, system: System) -> dict[str, Any]:
    said: dict[str, Any] = {"words": reading.words, "note": reading.note}
    return said if reading.figure is None else {**pair("gauge", reading.figure, TEMPERATURE, system), **said}


def core_json(answer: CoreRating, system: System) -> dict[str, Any]:
    """Return the rating of a core."""
    return {
        "name": answer.name,
        "units": system,
        **pair("heat", answer.heat, HEAT, system),
        **pair("coolant_out", answer.T_coolant_out, TEMPERATURE, system),
        **pair("air_out", answer.T_air_out, TEMPERATURE, system),
        **pair("air_pressure_drop", answer.air_pressure_drop, AIR_PRESSURE, system),
        **pair("coolant_pressure_drop", answer.coolant_pressure_drop, PRESSURE, system),
        **pair("conductance", answer.conductance, CONDUCTANCE, system),
        **pair("effectiveness", answer.effectiveness, FRACTION, system),
        **pair("air_share_of_resistance", answer.air_share_of_resistance, FRACTION, system),
        **pair("depth", answer.depth, LENGTH, system),
        "tube_reynolds": round(answer.tube_reynolds, 1),
        "regime": answer.regime,
        "remarks": list(answer.remarks),
        "assumed_units": list(answer.assumed_units),
    }


def slope_key(name: str, system: System) -> str:
    """Return the key of a temperature change per cap pressure."""
    return f"{name}_{key_suffix(TEMPERATURE_RISE, system)}_per_{key_suffix(PRESSURE, system)}"


def slope(value: float, system: System) -> float:
    """Return kelvin per pascal in the units of the shop."""
    degrees = from_si(value, TEMPERATURE_RISE, unit_of(TEMPERATURE_RISE, system))
    return float(f"{float(degrees) / float(from_si(1.0, PRESSURE, unit_of(PRESSURE, system))):.{DIGITS}g}")


def boil_json(answer: Boiling, system: System) -> dict[str, Any]:
    """Return a boiling point and its table of caps."""
    return {
        "units": system,
        "glycol": answer.glycol,
        **pair("mix", answer.concentrate, FRACTION, system),
        **pair("cap", answer.cap, PRESSURE, system),
        **pair("altitude", answer.altitude, ALTITUDE, system),
        **pair("boiling_point", answer.boiling_point, TEMPERATURE, system),
        **pair("open_boiling_point", answer.open_boiling_point, TEMPERATURE, system),
        slope_key("gain_at_this_cap", system): slope(answer.slope, system),
        slope_key("mean_gain", system): slope(answer.mean_slope, system),
        "caps": [
            {
                **pair("cap", row.pressure, PRESSURE, system),
                **pair("boiling_point", row.boiling_point, TEMPERATURE, system),
                slope_key("gain", system): None if row.slope is None else slope(row.slope, system),
            }
            for row in answer.rows
        ],
        "assumed_units": list(answer.assumed_units),
    }


def freeze_json(answer: Freezing, system: System) -> dict[str, Any]:
    """Return a freeze point."""
    return {
        "units": system,
        "glycol": answer.glycol,
        **pair("mix", answer.concentrate, FRACTION, system),
        **pair("freeze_point", answer.freeze_point, TEMPERATURE, system),
        "remarks": list(answer.remarks),
        "assumed_units": list(answer.assumed_units),
    }


def vehicles_json(rows: tuple[TypicalRow, ...]) -> dict[str, Any]:
    """Return the list of typical vehicles."""
    return {
        "vehicles": [
            {"name": row.name, "title": row.title, "where": row.where, "own_facts": row.own_facts} for row in rows
        ]
    }


def explain_json(answer: Explanation) -> dict[str, Any]:
    """Return an explanation."""
    return {
        "name": answer.name,
        "means": answer.means,
        "equations": list(answer.equations),
        "sources": list(answer.sources),
        "assumptions": list(answer.assumptions),
        "files": list(answer.files),
    }
