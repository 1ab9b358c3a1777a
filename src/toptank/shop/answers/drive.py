"""The answer to `drive`: how a vehicle would go through a drive."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from toptank.shop.answers.answer import (
    Amount,
    Answer,
    Band,
    Count,
    Headed,
    Percent,
    Remarked,
    Text,
    Texts,
    degC,
    filled,
    headed,
    km,
    km_per_h,
    minutes,
    pct,
)
from toptank.shop.answers.words.drive_words import chance_words, ease_words, gear_words, peak_words
from toptank.units.sentence import Sentence, Sentences

if TYPE_CHECKING:
    from collections.abc import Sequence

    from toptank.shop.job.job import Job
    from toptank.studies.route.drive_forecast import DriveForecast, Ease
    from toptank.system.vehicle import Vehicle


class StretchAnswer(Answer):
    """One stretch of a drive.

    Parameters
    ----------
    until_minutes, until_km : where it ends, from the start
    altitude_m : at its end
    gauge_at_its_hottest_degC : where the middle vehicle is hottest on it
    """

    name: Text
    until_minutes: Amount
    until_km: Amount
    altitude_m: float
    gauge_at_its_hottest_degC: Band


class EaseAnswer(Answer):
    """What asking less of it would do.

    Parameters
    ----------
    speed_kept_pct : of the speed on the climbs
    cooler_K : at the peak
    longer_minutes : that the drive takes longer
    holds : it then stays under limit and boiling in 9 of 10 possible vehicles
    """

    air_conditioning_off: bool
    speed_on_the_climbs_km_per_h: Amount
    speed_kept_pct: Percent
    peak_degC: Band
    cooler_K: float
    longer_minutes: float
    over_limit_pct: Percent
    boils_pct: Percent
    holds: bool


class DriveStrip(Answer):
    """The strip: one list a figure, one entry a point of the drive."""

    minutes: tuple[float, ...]
    distance_km: tuple[float, ...]
    altitude_m: tuple[float, ...]
    gauge_p10_degC: tuple[float, ...]
    gauge_p50_degC: tuple[float, ...]
    gauge_p90_degC: tuple[float, ...]
    boiling_point_degC: tuple[float, ...]


class DriveAnswer(Headed, Remarked):
    """How a vehicle would go through a drive.

    Parameters
    ----------
    equations_version : names the equations that gave these figures
    draws : possible vehicles
    seed : same seed, same answer
    limit_degC : what the customer wants to stay under
    duty : duty of the job that stands behind what the drive does not say
    known_by : what the possible vehicles rest on
    done : work that is taken as done; empty: the vehicle as it is
    ambient_from_degC, ambient_to_degC : coldest and hottest air on the way
    peak_says, chances_says : peak and chances in a sentence each
    gear_says : where it shifts down for a climb; null where it does not
    ease_says : what would ease it; that nothing need be asked less is said too
    peak_degC : highest reading of the gauge
    peak_minutes, peak_km : where the middle vehicle is hottest
    coolant_lost_pct : gone past the cap, middle one of the vehicles that boil
    what_would_ease_it : empty where it holds as it is
    """

    equations_version: str
    draws: Count
    seed: Count
    limit_degC: float
    duty: str
    starts_cold: bool
    known_by: str
    done: tuple[str, ...]
    ambient_from_degC: float
    ambient_to_degC: float
    peak_says: Text
    chances_says: Text
    gear_says: Text | None
    ease_says: Texts
    minutes: Amount
    distance_km: Amount
    peak_degC: Band
    peak_minutes: Amount
    peak_km: Amount
    transmission_peak_degC: Band
    over_limit_pct: Percent
    boils_pct: Percent
    coolant_lost_pct: Percent
    short_of_power_pct: Percent
    holds_pct: Percent
    stretches: tuple[StretchAnswer, ...]
    what_would_ease_it: tuple[EaseAnswer, ...]
    along: DriveStrip


class PossibleVehicles(NamedTuple):
    """Vehicles that are driven: how many, what they rest on, the work that is taken as done (ids; none: as it is)."""

    vehicle: Vehicle
    draws: int
    known_by: str
    done: tuple[str, ...]


def drive_answer(
    job: Job,
    road: DriveForecast,
    stretches: tuple[StretchAnswer, ...],
    *,
    duty: str,
    cold: bool,
    vehicles: PossibleVehicles,
    remarks: Sequence[Text],
    assumed_units: Sequence[Text],
    seed: int,
) -> DriveAnswer:
    """Return how a drive would go."""
    return filled(
        DriveAnswer,
        road,
        headed(job)
        | {
            "draws": vehicles.draws,
            "seed": seed,
            "limit_degC": degC(job.limit),
            "duty": duty,
            "starts_cold": cold,
            "known_by": vehicles.known_by,
            "done": vehicles.done,
            "ambient_from_degC": degC(road.profile.ambient.min()),
            "ambient_to_degC": degC(road.profile.ambient.max()),
            "peak_says": Sentence(peak_words, (road,)),
            "chances_says": chance_words(road),
            "gear_says": None if road.shifts_down is None else Sentence(gear_words, (road.shifts_down,)),
            "ease_says": Sentences(ease_words, (road,)),
            "minutes": minutes(road.profile.time[-1]),
            "distance_km": km(road.profile.distance[-1]),
            "peak_minutes": minutes(road.peak_time),
            "peak_km": km(road.peak_distance),
            "coolant_lost_pct": pct(road.lost),
            "stretches": stretches,
            "what_would_ease_it": tuple(_ease(one, road) for one in road.eases),
            "along": _along(road),
            "remarks": (*job.remarks, *remarks),
            "assumed_units": (*job.assumed_units, *assumed_units),
        },
    )


def _ease(one: Ease, road: DriveForecast) -> EaseAnswer:
    given = {
        "air_conditioning_off": not one.cooled,
        "speed_on_the_climbs_km_per_h": km_per_h(one.share * road.climbing_speed),
        "speed_kept_pct": pct(one.share),
        "holds": one.enough,
    }
    return filled(EaseAnswer, one, given)


def _along(road: DriveForecast) -> DriveStrip:
    given = {
        "minutes": tuple(round(float(one) / 60.0, 3) for one in road.time),
        "boiling_point_degC": tuple(map(degC, road.boiling)),
    }
    return filled(DriveStrip, road, given)
