"""The answer to `forecast`: every duty of a job with its bands."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.answers.answer import (
    Answer,
    Band,
    Count,
    Headed,
    OpenBand,
    Percent,
    Remarked,
    Text,
    band,
    degC,
    filled,
    headed,
    minutes,
    pct,
    rounded,
)
from toptank.shop.answers.diagnosis import DiagnosisAnswer
from toptank.shop.answers.words.figures import STATUS_WORDS
from toptank.system.balance import Status
from toptank.units.sentence import sentence

if TYPE_CHECKING:
    from toptank.knowledge.forecast import DutyForecast
    from toptank.shop.answers.answers import Forecast
    from toptank.studies.diagnose.evidence import Reading


class Assumption(Answer):
    """An assumption that widens the band of the top tank.

    Parameters
    ----------
    field : of the sheet
    means : what it is
    share_pct : of the variance
    measure : how to find it
    measurable : a tape, an instrument or a look can tell it
    """

    field: str
    means: str
    share_pct: float
    measure: str
    measurable: bool


class SeenReading(Answer):
    """What was seen at a duty.

    Parameters
    ----------
    gauge_degC : the figure; null where there was none
    words : what the driver said; null where nothing
    """

    gauge_degC: float | None
    words: str | None
    note: str


class Statuses(Answer):
    """How the possible vehicles settle, in percent of them."""

    thermostat_holds: Percent
    wide_open: Percent
    short_of_power: Percent
    boils: Percent
    no_balance: Percent
    not_found: Percent


class DutyAnswer(Answer):
    """The forecast of one duty: figures as they stand at its end, unless they say otherwise.

    Parameters
    ----------
    came_before : what it comes after; empty where it is steady
    lasts_minutes : how long it lasts, in the middle; null where it is steady
    limit_degC : that holds in it: at a short stop it is higher than on the road
    gauge_peak_degC : highest reading of the gauge in it
    boils_after_minutes : time after its beginning at which those that boil do; null where few do, or it is steady
    top_tank_degC : temperature of the coolant in the top tank
    gauge_degC : what the gauge shows
    bottom_hose_degC : temperature of the coolant in the bottom hose
    boiling_point_degC : boiling point of this mix under this cap at this altitude
    margin_to_boiling_K : boiling point less the hottest coolant in it; 0 or less: it boils
    air_to_boil_degC : ambient temperature at which this duty would boil; null beyond all that was looked at
    limiting_ambient_degC : ambient temperature at which this duty would reach the limit
    transmission_degC : temperature of the transmission fluid
    condensing_degC : condensing temperature of the refrigerant
    core_air_in_degC : air temperature ahead of the core
    core_heat_kW : heat given up by the core
    engine_heat_kW : heat given to the coolant by the engine
    engine_power_kW : brake power, fan and air conditioning counted
    engine_speed_rpm : speed of the crankshaft
    core_flow_L_per_min : coolant through the core
    face_velocity_m_per_s : air velocity ahead of the core, under the fan
    fan_speed_rpm : speed of the blades
    thermostat_opening_pct : opening of the thermostat over full
    chance_to_boil_pct : possible vehicles that boil or find no balance
    status_pct : how the possible vehicles settle
    reason : one sentence on the central vehicle
    widest : what widens the band most
    readings : what was seen there
    """

    name: str
    came_before: str
    lasts_minutes: float | None
    limit_degC: float
    gauge_peak_degC: OpenBand
    boils_after_minutes: Band | None
    top_tank_degC: OpenBand
    gauge_degC: OpenBand
    bottom_hose_degC: OpenBand
    boiling_point_degC: OpenBand
    margin_to_boiling_K: OpenBand
    air_to_boil_degC: OpenBand
    limiting_ambient_degC: OpenBand
    transmission_degC: OpenBand
    condensing_degC: OpenBand
    core_air_in_degC: OpenBand
    core_heat_kW: OpenBand
    engine_heat_kW: OpenBand
    engine_power_kW: OpenBand
    engine_speed_rpm: OpenBand
    core_flow_L_per_min: OpenBand
    face_velocity_m_per_s: OpenBand
    fan_speed_rpm: OpenBand
    thermostat_opening_pct: OpenBand
    chance_to_boil_pct: Percent
    status_pct: Statuses
    reason: Text
    widest: tuple[Assumption, ...]
    readings: tuple[SeenReading, ...]


class Facts(Answer):
    """Number of facts of vehicle and duties by how they were found."""

    measured: Count
    plate: Count
    assumed: Count


class ForecastAnswer(Headed, Remarked):
    """The forecast of a job.

    Parameters
    ----------
    like : the typical vehicle that stands in for what is not known
    equations_version : names the equations that gave these figures
    draws : possible vehicles
    seed : same seed, same answer
    limit_degC : what the customer wants to stay under
    duties : in the order of the job
    """

    like: str
    equations_version: str
    draws: Count
    seed: Count
    limit_degC: float
    facts: Facts
    duties: tuple[DutyAnswer, ...]


class DemoAnswer(ForecastAnswer):
    """The forecast of the built-in example, with its diagnosis."""

    diagnosis: DiagnosisAnswer


def forecast_answer(found: Forecast) -> ForecastAnswer:
    """Return the answer of a forecast."""
    job = found.job
    untold = (
        sentence("duty {duty}: widest is empty: {why}", {"duty": repr(duty.name), "why": why})
        for duty, why in zip(found.duties, found.untold, strict=True)
        if why
    )
    return filled(
        ForecastAnswer,
        found,
        headed(job)
        | {
            "like": job.sheet.like,
            "equations_version": found.duties[0].equations_version,
            "limit_degC": degC(job.limit),
            "facts": Facts(**found.known),
            "duties": tuple(_duty(found, place) for place in range(len(found.duties))),
            "remarks": (*found.remarks, *untold),
            "assumed_units": job.assumed_units,
        },
    )


def demo_answer(forecast: ForecastAnswer, diagnosis: DiagnosisAnswer) -> DemoAnswer:
    """Return the answer of the built-in example."""
    return DemoAnswer(**dict(forecast), diagnosis=diagnosis)


def _duty(found: Forecast, place: int) -> DutyAnswer:
    duty: DutyForecast = found.duties[place]
    shares = {word: pct(duty.shares.get(Status(code), 0.0)) for code, word in STATUS_WORDS.items()}
    return filled(
        DutyAnswer,
        duty.bands,
        {
            "name": duty.name,
            "came_before": duty.came_before,
            "lasts_minutes": rounded(duty.sheet.facts["for"].value / 60.0) if duty.came_before else None,
            "limit_degC": degC(duty.limit),
            "boils_after_minutes": None if duty.boils_after is None else band(duty.boils_after, minutes),
            "chance_to_boil_pct": round(shares["boils"] + shares["no_balance"], 2),
            "status_pct": Statuses(**shares),
            "reason": duty.reason,
            "widest": tuple(filled(Assumption, one, {"field": one.path}) for one in found.widest[place]),
            "readings": tuple(_reading(one) for one in found.job.evidence.readings if one.duty == duty.name),
        },
    )


def _reading(reading: Reading) -> SeenReading:
    figure = None if reading.figure is None else degC(reading.figure)
    return SeenReading(gauge_degC=figure, words=reading.words, note=reading.note)
