"""The answer to `verify`: whether the work did what was forecast."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Literal

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
    band,
    degC,
    filled,
    km,
    minutes,
    pct,
    rounded,
)
from toptank.shop.answers.log import LogFileAnswer, file_answer
from toptank.shop.answers.words.verdict_words import better_drive_words, verdict_says
from toptank.system.balance import EQUATIONS_VERSION
from toptank.units.sentence import Sentence, Sentences

if TYPE_CHECKING:
    from toptank.shop.answers.log_answers import Verified
    from toptank.studies.verify.better_drive import Proposal

POINTS = 120
"""Points of a strip, at most."""


class WorstDayNow(Answer):
    """What the drive implies for the worst day.

    Parameters
    ----------
    hardest : duty
    holds_forecast_pct : if the work does what was forecast
    holds_before_pct : before this drive, work that does nothing counted
    """

    hardest: str
    holds_forecast_pct: Percent
    holds_before_pct: Percent
    holds_now_pct: Percent
    gauge_forecast_degC: Band
    gauge_now_degC: Band


class CauseBackAnswer(Answer):
    """A cause that comes back up."""

    cause: str
    expected_pct: Percent
    now_pct: Percent


class BetterDrive(Answer):
    """A drive that would prove more.

    Parameters
    ----------
    climb_minutes : of its climb
    idle_minutes : at the top, engine running
    would_show_nothing_done_pct : chance that it would show work that has done nothing
    stays_under_degC : highest reading that nine in ten repaired vehicles stay under
    """

    grade_pct: float
    climb_minutes: Amount
    speed_km_per_h: Amount
    air_conditioning: bool
    idle_minutes: Amount
    ambient_degC: float
    would_show_nothing_done_pct: Percent
    stays_under_degC: float


class VerdictStrip(Answer):
    """The strip: one list a figure, one entry a point; null where nothing was read."""

    minutes: tuple[float, ...]
    distance_km: tuple[float, ...]
    altitude_m: tuple[float, ...]
    forecast_low_degC: tuple[float, ...]
    forecast_middle_degC: tuple[float, ...]
    forecast_high_degC: tuple[float, ...]
    boiling_point_degC: tuple[float, ...]
    read_degC: tuple[float | None, ...]


class ReadAlong(Answer):
    """What was read, and when: of a logger's many rows some."""

    minutes: tuple[float, ...]
    read_degC: tuple[float, ...]


class VerdictAnswer(Headed, Remarked):
    """A check drive with its verdict.

    Parameters
    ----------
    equations_version : names the equations that gave these figures
    draws : possible vehicles
    seed : same seed, same answer
    done : work that was done
    log : null: a simulated drive
    proves : false: too easy, or it has too little of something
    lacks : what it has too little of to prove anything, whatever it shows
    says : the verdict in words, its headline first
    better_drive_says : empty where this drive proves enough
    limit_degC : what the customer wants to stay under
    would_show_nothing_done_pct : chance that this drive would show work that has done nothing
    hotter_than_forecast_K : than the middle of the forecast, where the work would show most
    if_as_forecast_K, if_nothing_done_K : where that lies in 8 of 10 cases
    place_in_forecast_pct : repaired vehicles that would have been cooler
    only_weather_or_road_pct : chance that these alone make such a difference
    nothing_done_pct : chance that the work has done nothing
    beyond_both : neither work done as forecast nor work left undone would show it
    telling_from_minutes, telling_to_minutes : where the work would show most, from the start
    independent_readings : that the log is worth [1]
    causes_back : causes that come back up, the likeliest first
    """

    equations_version: str
    draws: Count
    seed: Count
    done: tuple[str, ...]
    log: LogFileAnswer | None
    verdict: Literal["as forecast", "better", "worse"]
    proves: bool
    lacks: Literal["", "time", "readings"]
    says: Texts
    better_drive_says: Text
    limit_degC: float
    would_show_nothing_done_pct: Percent
    hotter_than_forecast_K: float
    if_as_forecast_K: Band
    if_nothing_done_K: Band
    place_in_forecast_pct: Percent
    only_weather_or_road_pct: Percent
    nothing_done_pct: Percent
    beyond_both: bool
    telling_from_minutes: Amount
    telling_to_minutes: Amount
    independent_readings: Amount
    worst_day: WorstDayNow
    causes_back: tuple[CauseBackAnswer, ...]
    better_drive: BetterDrive | None
    along: VerdictStrip
    readings: ReadAlong


def verdict_answer(found: Verified) -> VerdictAnswer:
    """Return a check drive with its verdict."""
    said = found.verdict
    return filled(
        VerdictAnswer,
        said,
        {
            "title": found.job.title,
            "invented": found.invented,
            "equations_version": EQUATIONS_VERSION,
            "draws": found.draws,
            "seed": found.seed,
            "done": found.done,
            "log": None if found.file is None else file_answer(found.file),
            "verdict": said.word,
            "says": Sentences(verdict_says, (found,)),
            "better_drive_says": Sentence(better_drive_words, (found,)),
            "limit_degC": degC(found.job.limit),
            "would_show_nothing_done_pct": pct(said.power),
            "hotter_than_forecast_K": rounded(said.difference),
            "if_as_forecast_K": band(said.forecast),
            "if_nothing_done_K": band(said.unrepaired),
            "place_in_forecast_pct": pct(said.place),
            "only_weather_or_road_pct": pct(said.by_weather),
            "nothing_done_pct": pct(said.not_taken),
            "beyond_both": said.beyond,
            "independent_readings": round(said.worth, 2),
            "worst_day": filled(WorstDayNow, said.worst_day),
            "causes_back": tuple(filled(CauseBackAnswer, one, {"cause": one.name}) for one in said.back),
            "better_drive": None if said.better is None else _better(said.better, cooled=found.cooled),
            "along": _along(found),
            "readings": _readings(found),
            "remarks": found.remarks,
            "assumed_units": found.assumed_units,
        },
    )


def _better(one: Proposal, *, cooled: bool) -> BetterDrive:
    given = {
        "climb_minutes": minutes(one.climb_time),
        "air_conditioning": cooled and one.air_conditioning,
        "idle_minutes": minutes(one.idle_time),
        "would_show_nothing_done_pct": pct(one.power),
        "stays_under_degC": degC(one.hottest),
    }
    return filled(BetterDrive, one, given)


def _along(found: Verified) -> VerdictStrip:
    said, profile, read = found.verdict, found.drive.profile, found.drive.read
    every = max(-(-len(said.time) // POINTS), 1)
    places = [min(round(float(moment)), len(read) - 1) for moment in said.time[::every]]
    return VerdictStrip(
        minutes=tuple(round(float(moment) / 60.0, 3) for moment in said.time[::every]),
        distance_km=tuple(km(profile.distance[place]) for place in places),
        altitude_m=tuple(rounded(profile.altitude[place]) for place in places),
        forecast_low_degC=tuple(map(degC, said.low[::every])),
        forecast_middle_degC=tuple(map(degC, said.middle[::every])),
        forecast_high_degC=tuple(map(degC, said.high[::every])),
        boiling_point_degC=tuple(map(degC, said.boiling[::every])),
        read_degC=tuple(None if math.isnan(read[place]) else degC(read[place]) for place in places),
    )


def _readings(found: Verified) -> ReadAlong:
    said = found.verdict
    every = max(-(-len(said.read_time) // POINTS), 1)
    return ReadAlong(
        minutes=tuple(round(float(moment) / 60.0, 3) for moment in said.read_time[::every]),
        read_degC=tuple(map(degC, said.read[::every])),
    )
