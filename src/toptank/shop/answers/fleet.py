"""The answer to `fleet`: every vehicle of a fleet on one day, ranked, and what it comes to."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal

from toptank.knowledge.sheet import Provenance
from toptank.shop.answers.answer import Amount, Answer, Band, Count, Percent, Text, Texts, band, degC, filled, pct
from toptank.shop.answers.words import naming
from toptank.units.dimension import DISTANCE
from toptank.units.sentence import Quantity, Sentence, sentence

if TYPE_CHECKING:
    from toptank.catalogue.remedies.remedy import Remedy
    from toptank.shop.ask.fleet.item import FleetItem
    from toptank.shop.job.job import Job
    from toptank.studies.fleet.fleet_forecast import VehicleForecast
    from toptank.units.refusal import Refusal

SURE, DOUBTFUL = 90.0, 50.0
"""Chance to hold from which a vehicle counts as one that holds, and below which as one that does not [%]."""

EASES = {
    "air_conditioning_off": "A/C off",
    "without_trailer": "leave the trailer",
    "slower_uphill": "20 % slower uphill",
}
"""What is asked less of a vehicle, in words."""


class FleetHour(Answer):
    """One hour of leaving.

    Parameters
    ----------
    leave_at : hour of the day, by the sun
    outside_degC : hottest air outside while the drive lasts
    """

    leave_at: str
    outside_degC: float
    holds_pct: Percent


class FleetEase(Answer):
    """What would ease it, and the chance to hold then."""

    what: Literal["air_conditioning_off", "without_trailer", "slower_uphill"]
    holds_pct: Percent


class FleetWork(Answer):
    """The cheapest work that holds.

    Parameters
    ----------
    remedies : ids of what is done
    work : the same in words
    cost : in the money of the price book
    """

    remedies: tuple[str, ...]
    work: Text
    cost: Amount
    currency: str
    holds_pct: Percent


class FleetVehicleAnswer(Answer):
    """One vehicle on the day.

    Parameters
    ----------
    id : its own name in the fleet
    file, line : where it stands; the line of a table, 0 where it is a file or a job of its own
    like : typical vehicle that stands in for what is not known
    known : facts of the vehicle that were measured or read off a plate
    rests_on : whether the simulations follow the sheet alone, or what was seen of it too
    holds_pct : chance that the coolant stays under the limit and does not boil, all day
    hottest_place : condition or place on the road where it is least likely to hold
    gauge_degC, coolant_degC : highest there
    bears_degC : air outside at which the coolant reaches its limit; nine in ten of the simulations bear p10
    by_hour : leaving at each hour
    leave_until, leave_from : last hour in the morning and first in the evening at which it holds 9 times in 10; null
        where there is none, or where it holds all day
    eases : what would ease it, where it does not hold
    work : the cheapest work that holds, where that was asked and is needed; null where none is found
    """

    id: str
    title: str
    file: str
    line: Count
    like: str
    known: Count
    rests_on: Literal["sheet", "sheet and evidence"]
    limit_degC: float
    holds_pct: Percent
    chance_to_boil_pct: Percent
    hottest_place: Text
    gauge_degC: Band
    coolant_degC: Band
    bears_degC: Band
    by_hour: tuple[FleetHour, ...]
    leave_until: str | None
    leave_from: str | None
    eases: tuple[FleetEase, ...]
    work: FleetWork | None
    remarks: Texts


class FleetLeftOut(Answer):
    """A vehicle that could not be asked about: where it stands, and what is wrong with it.

    Parameters
    ----------
    file, line : where it stands; the line of a table, 0 where it is a file or a job of its own
    field, value, limit, fix : what cannot be used, which rule it breaks, what to do about it
    """

    id: str
    file: str
    line: Count
    field: str
    value: str
    limit: str
    fix: str


class FleetAnswer(Answer):
    """A fleet on one day.

    Parameters
    ----------
    equations_version : names the equations that gave these figures
    day_degC, coolest_degC : hottest and coolest air of the day
    road : file of the road; empty: the long climb, the flat and the stop of each vehicle's own worst day
    draws, seed : simulations of each vehicle, and what they start from
    hold, doubtful, do_not_hold : vehicles that hold in 9 simulations of 10 and more, in half of them and more, in less
    hold_at_some_hour : vehicles that hold 9 times in 10 at some hour of leaving
    expected_to_hold : sum of all chances
    work_cost : of all work that is named, in the money of the price book
    vehicles : the surest first
    left_out : what could not be used
    """

    equations_version: str
    day_degC: float
    coolest_degC: float
    road: str
    draws: Count
    seed: Count
    hold: Count
    doubtful: Count
    do_not_hold: Count
    hold_at_some_hour: Count
    expected_to_hold: Amount
    work_cost: Amount
    currency: str
    vehicles: tuple[FleetVehicleAnswer, ...]
    left_out: tuple[FleetLeftOut, ...]
    remarks: Texts


FleetLine = FleetVehicleAnswer | FleetLeftOut
"""What one vehicle of the source comes to."""


def left_out(item: FleetItem, refusal: Refusal) -> FleetLeftOut:
    """Return a vehicle that could not be asked about."""
    return filled(FleetLeftOut, refusal, {"id": item.identity, "file": item.file, "line": item.line})


def vehicle_line(
    item: FleetItem,
    job: Job,
    found: VehicleForecast,
    hours: Sequence[tuple[int, float, float]],
    *,
    day: float,
    evidence: bool,
    work: FleetWork | None,
) -> FleetVehicleAnswer:
    """Return one vehicle.

    Parameters
    ----------
    item, job : where it stands, what is known of it
    found : its forecast
    hours : (hour, hottest air outside [K], chance to hold [1]) of each hour of leaving
    day : hottest air [K]
    evidence : whether the simulations follow what was seen of it
    work : the cheapest that holds
    """
    sure = [hour for hour, _, chance in hours if pct(chance) >= SURE]
    all_day = len(sure) == len(hours)
    hottest = max(hours, key=lambda one: one[1])[0] if hours else 0
    morning, evening = [hour for hour in sure if hour < hottest], [hour for hour in sure if hour > hottest]
    return filled(
        FleetVehicleAnswer,
        found,
        {
            "id": item.identity,
            "title": job.title,
            "file": item.file,
            "line": item.line,
            "like": job.sheet.like,
            "limit_degC": degC(job.limit),
            "chance_to_boil_pct": pct(found.boils),
            "hottest_place": _place(found),
            "gauge_degC": _tenths(band(found.gauge, degC)),
            "coolant_degC": _tenths(band(found.coolant, degC)),
            "bears_degC": _tenths(band(found.bears, lambda warmer: degC(day + warmer))),
            "by_hour": tuple(
                FleetHour(leave_at=_clock(hour), outside_degC=round(degC(outside), 1), holds_pct=pct(chance))
                for hour, outside, chance in hours
            ),
            "leave_until": _clock(max(morning)) if morning and not all_day else None,
            "leave_from": _clock(min(evening)) if evening and not all_day else None,
            "eases": tuple(filled(FleetEase, ease, {"what": ease.kind}) for ease in found.eases),
            "rests_on": "sheet and evidence" if evidence else "sheet",
            "known": sum(fact.how != Provenance.ASSUMED for fact in job.sheet.facts.values()),
            "work": work,
            "remarks": (*job.remarks, *(f"Taken as: {text}" for text in job.assumed_units)),
        },
    )


def _clock(hour: int) -> str:
    return f"{hour:02}:00"


def work_answer(remedies: Sequence[Remedy], cost: float, currency: str, holds: float) -> FleetWork:
    """Return the work of a plan."""
    ids = tuple(remedy.id for remedy in remedies)
    return FleetWork(
        remedies=ids,
        work=Sentence(naming.plan, (ids,)),
        cost=round(cost, 2),
        currency=currency,
        holds_pct=pct(holds),
    )


def _tenths(ends: Band) -> Band:
    """A band to a tenth of a degree: what a last digit of a machine moves is not told."""
    return Band(p10=round(ends.p10, 1), p50=round(ends.p50, 1), p90=round(ends.p90, 1))


def _place(found: VehicleForecast) -> str | Sentence:
    if found.hottest_at is None:
        return found.hottest
    return sentence("after {distance}", {"distance": Quantity(found.hottest_at, DISTANCE, 1)})


def ranked(lines: Sequence[FleetLine]) -> tuple[tuple[FleetVehicleAnswer, ...], tuple[FleetLeftOut, ...]]:
    """Return the vehicles, the surest first, and what was left out as it stands in the source."""
    vehicles = [one for one in lines if isinstance(one, FleetVehicleAnswer)]
    vehicles.sort(key=lambda one: (-one.holds_pct, -one.bears_degC.p10, one.id))
    return tuple(vehicles), tuple(one for one in lines if isinstance(one, FleetLeftOut))


def at_some_hour(one: FleetVehicleAnswer) -> bool:
    """Whether a vehicle holds 9 times in 10, at the hottest hour or at another."""
    return one.holds_pct >= SURE or any(hour.holds_pct >= SURE for hour in one.by_hour)


def eased(one: FleetVehicleAnswer) -> str:
    """Return in a few words what would let a vehicle hold: an hour, or the ease that helps most."""
    if one.holds_pct >= SURE:
        return ""
    found: list[str] = []
    if one.leave_until is not None:
        found.append(f"leave by {one.leave_until}")
    if one.leave_from is not None:
        found.append(f"after {one.leave_from}")
    best = max(one.eases, key=lambda ease: ease.holds_pct, default=None)
    if best is not None and best.holds_pct > one.holds_pct + 2.0:
        found.append(f"{EASES[best.what]}: {best.holds_pct:.0f} %")
    return ", ".join(found)
