"""Logs and check drives as JSON: plain records whose keys carry their unit."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from toptank.shop.answers.as_json import keyed, number, pair
from toptank.shop.answers.diagnose_json import percent
from toptank.shop.answers.log_words import shown_lines
from toptank.shop.answers.verdict_words import better_drive_words, headline, verdict_lines
from toptank.system.balance import EQUATIONS_VERSION
from toptank.units.dimension import ALTITUDE, DISTANCE, GRADE, SPEED, TEMPERATURE, TEMPERATURE_RISE

if TYPE_CHECKING:
    from toptank.knowledge.stretches import Rate
    from toptank.shop.answers.log_answers import Logged, Shown, Verified
    from toptank.shop.log.log_file import LogFile
    from toptank.studies.verify.verdict import Band
    from toptank.units.conversion import System

POINTS = 120
"""Points of a strip, at most."""


def log_json(answer: Logged, system: System) -> dict[str, Any]:
    """Return a log as evidence."""
    return {
        "title": answer.job.title,
        "invented": answer.job.invented,
        "units": system,
        "equations_version": EQUATIONS_VERSION,
        "seed": answer.seed,
        **_file(answer.file),
        "shows": _shown(answer.shown, system),
        "says": list(shown_lines(answer.shown, system)),
        "independent_readings": round(answer.worth, 2),
        "causes": [
            {"cause": one.cause, "before_pct": percent(one.before), "with_the_log_pct": percent(one.after)}
            for one in answer.moved
        ],
        "none_of_these_pct": percent(answer.unknown),
        "draws": answer.drawn,
        "worth": round(answer.draws_worth, 1),
        "remarks": list(answer.remarks),
        "assumed_units": list(answer.assumed_units),
    }


def _file(file: LogFile) -> dict[str, Any]:
    return {
        "file": file.name,
        "rows": file.rows,
        "minutes": round(file.log.length / 60.0, 2),
        "noted_by_hand": file.log.by_hand,
        "columns": [
            {"head": one.head, "means": one.key or None, "unit": one.unit, "note": one.note} for one in file.columns
        ],
    }


def _shown(shown: Shown, system: System) -> dict[str, Any]:
    swings = shown.swings
    return {
        "settled": [
            {
                "from_minutes": round(one.begin / 60.0, 2),
                "to_minutes": round(one.end / 60.0, 2),
                **pair("temperature", one.temperature, TEMPERATURE, system),
            }
            for one in shown.stretches
        ],
        "fastest_rise": _rate(shown.rise, system),
        "fastest_fall": _rate(shown.fall, system),
        "swings": None
        if swings is None
        else {
            "from_minutes": round(swings.begin / 60.0, 2),
            "to_minutes": round(swings.end / 60.0, 2),
            **pair("height", swings.height, TEMPERATURE_RISE, system),
            "seconds": round(swings.period, 1),
        },
        keyed("thermostat_seen_to_open_at", TEMPERATURE, system): None
        if shown.opening is None
        else number(shown.opening, TEMPERATURE, system),
    }


def _rate(rate: Rate | None, system: System) -> dict[str, Any] | None:
    if rate is None:
        return None
    return {
        "from_minutes": round(rate.begin / 60.0, 2),
        "seconds": round(rate.length, 1),
        **pair("change", rate.change, TEMPERATURE_RISE, system),
        "standing": rate.standing,
        "engine_on": rate.running,
    }


def verify_json(answer: Verified, system: System) -> dict[str, Any]:
    """Return a check drive with its verdict."""
    said, day = answer.verdict, answer.verdict.worst_day
    better = said.better
    return {
        "title": answer.job.title,
        "invented": answer.invented,
        "units": system,
        "equations_version": EQUATIONS_VERSION,
        "draws": answer.draws,
        "seed": answer.seed,
        "done": list(answer.done),
        "log": None if answer.file is None else _file(answer.file),
        "verdict": said.word,
        "proves": said.proves,
        "lacks": said.lacks,
        "says": [headline(said), *verdict_lines(answer, system)],
        "better_drive_says": better_drive_words(answer, system),
        **pair("limit", answer.job.limit, TEMPERATURE, system),
        "would_show_nothing_done_pct": percent(said.power),
        **pair("hotter_than_forecast", said.difference, TEMPERATURE_RISE, system),
        keyed("if_as_forecast", TEMPERATURE_RISE, system): _band(said.forecast, system, rise=True),
        keyed("if_nothing_done", TEMPERATURE_RISE, system): _band(said.unrepaired, system, rise=True),
        "place_in_forecast_pct": percent(said.place),
        "only_weather_or_road_pct": percent(said.by_weather),
        "nothing_done_pct": percent(said.not_taken),
        "beyond_both": said.beyond,
        "telling_from_minutes": round(said.telling_from / 60.0, 2),
        "telling_to_minutes": round(said.telling_to / 60.0, 2),
        "independent_readings": round(said.worth, 2),
        "worst_day": {
            "hardest": day.hardest,
            "holds_forecast_pct": percent(day.holds_forecast),
            "holds_before_pct": percent(day.holds_before),
            "holds_now_pct": percent(day.holds_now),
            keyed("gauge_forecast", TEMPERATURE, system): _band(day.gauge_forecast, system),
            keyed("gauge_now", TEMPERATURE, system): _band(day.gauge_now, system),
        },
        "causes_back": [
            {"cause": one.name, "expected_pct": percent(one.expected), "now_pct": percent(one.now)} for one in said.back
        ],
        "better_drive": None
        if better is None
        else {
            **pair("grade", better.grade, GRADE, system),
            "climb_minutes": round(better.climb_time / 60.0, 2),
            **pair("speed", better.speed, SPEED, system),
            "air_conditioning": answer.cooled and better.air_conditioning,
            "idle_minutes": round(better.idle_time / 60.0, 2),
            **pair("ambient", better.ambient, TEMPERATURE, system),
            "would_show_nothing_done_pct": percent(better.power),
            **pair("stays_under", better.hottest, TEMPERATURE, system),
        },
        "along": _along(answer, system),
        "readings": _readings(answer, system),
        "remarks": list(answer.remarks),
        "assumed_units": list(answer.assumed_units),
    }


def _along(answer: Verified, system: System) -> dict[str, Any]:
    """The strip: one list a figure, one entry a point; null where nothing was read."""
    said, profile = answer.verdict, answer.drive.profile
    every = max(-(-len(said.time) // POINTS), 1)
    read = answer.drive.read
    places = [min(round(float(moment)), len(read) - 1) for moment in said.time[::every]]
    lists = {"low": said.low, "middle": said.middle, "high": said.high, "boiling_point": said.boiling}
    return {
        "minutes": [round(float(moment) / 60.0, 3) for moment in said.time[::every]],
        keyed("distance", DISTANCE, system): [
            number(float(profile.distance[place]), DISTANCE, system) for place in places
        ],
        keyed("altitude", ALTITUDE, system): [
            number(float(profile.altitude[place]), ALTITUDE, system) for place in places
        ],
        **{
            keyed(f"forecast_{name}" if name != "boiling_point" else name, TEMPERATURE, system): [
                number(float(one), TEMPERATURE, system) for one in values[::every]
            ]
            for name, values in lists.items()
        },
        keyed("read", TEMPERATURE, system): [
            None if math.isnan(read[place]) else number(float(read[place]), TEMPERATURE, system) for place in places
        ],
    }


def _readings(answer: Verified, system: System) -> dict[str, list[float]]:
    """What was read, and when: of a logger's many rows some."""
    said = answer.verdict
    every = max(-(-len(said.read_time) // POINTS), 1)
    return {
        "minutes": [round(float(moment) / 60.0, 3) for moment in said.read_time[::every]],
        keyed("read", TEMPERATURE, system): [number(float(one), TEMPERATURE, system) for one in said.read[::every]],
    }


def _band(band: Band, system: System, *, rise: bool = False) -> dict[str, float]:
    dimension = TEMPERATURE_RISE if rise else TEMPERATURE
    return {point: number(value, dimension, system) for point, value in band._asdict().items()}
