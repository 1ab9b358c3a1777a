"""A drive as JSON: plain records whose keys carry their unit."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from toptank.shop.answers.as_json import keyed, number, pair
from toptank.shop.answers.diagnose_json import percent
from toptank.shop.answers.drive_words import chance_words, ease_words, gear_words, peak_words
from toptank.units.dimension import ALTITUDE, DISTANCE, FRACTION, SPEED, TEMPERATURE, TEMPERATURE_RISE, Dimension

if TYPE_CHECKING:
    from collections.abc import Iterable

    from toptank.shop.answers.answers import Driven, Stretch
    from toptank.studies.route.drive_forecast import Band, DriveForecast, Ease
    from toptank.units.conversion import System


def drive_json(answer: Driven, system: System) -> dict[str, Any]:
    """Return how a drive would go."""
    road = answer.outlook
    return {
        "title": answer.job.title,
        "invented": answer.job.invented,
        "units": system,
        "equations_version": road.equations_version,
        "draws": answer.draws,
        "seed": answer.seed,
        **pair("limit", answer.job.limit, TEMPERATURE, system),
        "duty": answer.duty,
        "starts_cold": answer.cold,
        "known_by": answer.known_by,
        "done": list(answer.done),
        "says": [
            peak_words(answer, system),
            chance_words(answer),
            *(one for one in (gear_words(answer, system),) if one),
            *ease_words(answer, system),
        ],
        "minutes": round(float(road.profile.time[-1]) / 60.0, 2),
        **pair("distance", float(road.profile.distance[-1]), DISTANCE, system),
        keyed("peak", TEMPERATURE, system): _band(road.peak, system),
        "peak_minutes": round(road.peak_time / 60.0, 2),
        **pair("peak_distance", road.peak_distance, DISTANCE, system),
        keyed("transmission_peak", TEMPERATURE, system): _band(road.transmission_peak, system),
        "over_limit_pct": percent(road.over_limit),
        "boils_pct": percent(road.boils),
        "coolant_lost_pct": number(road.lost, FRACTION, system),
        "short_of_power_pct": percent(road.short_of_power),
        "holds_pct": percent(road.holds),
        "stretches": [_stretch(one, system) for one in answer.stretches],
        "what_would_ease_it": [_ease(one, road, system) for one in road.eases],
        "along": _along(road, system),
        "remarks": list(answer.remarks),
        "assumed_units": list(answer.assumed_units),
    }


def _stretch(one: Stretch, system: System) -> dict[str, Any]:
    return {
        "name": one.name,
        "until_minutes": round(one.minutes, 2),
        **pair("until_distance", one.distance, DISTANCE, system),
        **pair("altitude", one.altitude, ALTITUDE, system),
        keyed("gauge_at_its_hottest", TEMPERATURE, system): _band(one.hottest, system),
    }


def _ease(one: Ease, road: DriveForecast, system: System) -> dict[str, Any]:
    return {
        "air_conditioning_off": not one.cooled,
        **pair("speed_on_the_climbs", one.share * road.climbing_speed, SPEED, system),
        "speed_kept_pct": percent(one.share),
        keyed("peak", TEMPERATURE, system): _band(one.peak, system),
        **pair("cooler", one.cooler, TEMPERATURE_RISE, system),
        "longer_minutes": round(one.longer / 60.0, 2),
        "over_limit_pct": percent(one.over_limit),
        "boils_pct": percent(one.boils),
        "holds": one.enough,
    }


def _along(road: DriveForecast, system: System) -> dict[str, Any]:
    """The strip: one list a figure, one entry a point."""

    def listed(name: str, values: Iterable[float], dimension: Dimension) -> dict[str, list[float]]:
        return {keyed(name, dimension, system): [number(float(one), dimension, system) for one in values]}

    return {
        "minutes": [round(float(one) / 60.0, 3) for one in road.time],
        **listed("distance", road.distance, DISTANCE),
        **listed("altitude", road.altitude, ALTITUDE),
        **listed("gauge_p10", road.gauge_p10, TEMPERATURE),
        **listed("gauge_p50", road.gauge_p50, TEMPERATURE),
        **listed("gauge_p90", road.gauge_p90, TEMPERATURE),
        **listed("boiling_point", road.boiling, TEMPERATURE),
    }


def _band(band: Band, system: System) -> dict[str, float]:
    return {point: number(value, TEMPERATURE, system) for point, value in band._asdict().items()}
