"""Whether the repair did what was forecast: the check drive beside the forecast made before it."""

import dataclasses
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

from toptank.knowledge.drives.logged import LoggedDrive, beside, coarser, doubts_of_the_day, shown_at
from toptank.knowledge.drives.track import Floats
from toptank.knowledge.forecast import Band
from toptank.knowledge.model_discrepancy import APART, MISTAKEN, WILD, independent, off_by
from toptank.knowledge.stop_limit import holds
from toptank.studies.verify.better_drive import Proposal, better_drive
from toptank.studies.verify.telling import SURE, Telling, scatter_of_weather, telling
from toptank.system.condition_batch import Condition, go_through
from toptank.system.drive_batch import Unsure
from toptank.system.numerics.jax_library import jax
from toptank.system.vehicle import Vehicle
from toptank.units.cancellation import CancelCheck, never_cancelled

PROVES = 0.4
"""Chance to show a repair that has done nothing from which a drive proves something [1]: four times as often as it
accuses one that works; judgement."""

LEAST_TIME, LEAST_READINGS, LEAST_TELLING = 600.0, 3, 2
"""Time of the last reading below which no drive proves anything [s], twice what the coolant takes to follow and more;
least readings in all and where the work would show most [1]: one alone may be misread. Judgement."""

GRADE_DOUBT = 0.08
"""How far a grade out of smoothed heights or notes may be off, as a share of it [1]; judgement."""

SEEN_IN = 41
"""Steps between the middle of the forecast and the difference seen, in which the plainest is sought [1]."""

FOR_ROUTE = 64
"""Draws that are driven again on the steeper road."""

BACK, LEAST = 1.25, 0.04
"""How much likelier a cause must have become to come back up, and how likely it must be [1]."""

WORDS = ("as forecast", "better", "worse")

LACKS = ("", "time", "readings")
"""What a drive has too little of to prove anything, whatever else it shows; empty: nothing."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Repair:
    """The same possible vehicles before and after the work.

    Parameters
    ----------
    before, after : as driven, fields are arrays (draw,)
    before_then, after_then : the same on the worst day, where a plan may ask less of them
    present : which causes each has before the work (draw, cause)
    mended : which causes the work mends (cause,)
    names : of the causes
    fails : share of such work that does nothing: bad parts, wrong parts, work undone [1]
    days : conditions of the worst day (draw,), with what comes before them
    limit : coolant stays under on the road [K]
    limits : and in each of the days [K]
    asked : names of those that count; all of them where it is empty
    boils_within : how far under its boiling point each is seen to boil [K]; 0: as the stream does
    ordered : chance to hold the worst day that the choice gave for this work [1]; None where nothing was chosen
    """

    before: Vehicle
    after: Vehicle
    before_then: Vehicle
    after_then: Vehicle
    present: NDArray[np.bool_]
    mended: NDArray[np.bool_]
    names: Sequence[str]
    fails: float
    days: Mapping[str, Condition]
    limit: float
    limits: Mapping[str, float]
    asked: tuple[str, ...] = ()
    boils_within: Floats | float = 0.0
    ordered: float | None = None


class CauseBack(NamedTuple):
    """A cause after the work, without and with the check drive [1]."""

    name: str
    expected: float
    now: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WorstDay:
    """What the check drive implies for the worst day: chance to hold [1], gauge on its hardest duty [K].

    holds_forecast : if the work does what was forecast, as the choice has it where there was one
    holds_before : before this drive, with work that does nothing counted as often as that is
    holds_now : with what this drive says
    """

    hardest: str
    holds_forecast: float
    holds_before: float
    holds_now: float
    gauge_forecast: Band
    gauge_now: Band


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Verdict:
    """The answer.

    Parameters
    ----------
    word : one of `WORDS`
    proves : the drive would have shown a repair that has done nothing
    power : chance of that [1]
    lacks : one of `LACKS`
    telling_readings : readings in the telling part
    difference : by how much it was hotter than the middle of the forecast over the telling part [K]
    forecast, unrepaired : where that lies in 8 of 10 cases if the repair works as forecast, or does nothing [K]
    place : share of repaired vehicles that would have been cooler [1]
    by_weather : chance that weather and road alone make such a difference [1]
    not_taken : chance that the work has done nothing [1]
    beyond : neither work that does what was forecast nor work that does nothing would show such a difference
    telling_from, telling_to : times of the telling part [s]
    worth : independent readings that the log is worth [1]
    worst_day : what it implies
    back : causes that come back up, the likeliest first
    better : a drive that would prove more, where this one proves little; None where there is none
    time, low, middle, high, boiling : forecast of the reading along the drive, boiling point (point,) [s], [K]
    read_time, read : what was read (reading,) [s], [K]
    """

    word: str
    proves: bool
    power: float
    lacks: str
    telling_readings: int
    difference: float
    forecast: Band
    unrepaired: Band
    place: float
    by_weather: float
    not_taken: float
    beyond: bool
    telling_from: float
    telling_to: float
    worth: float
    worst_day: WorstDay
    back: tuple[CauseBack, ...]
    better: Proposal | None
    time: Floats
    low: Floats
    middle: Floats
    high: Floats
    boiling: Floats
    read_time: Floats
    read: Floats


def verdict(
    drive: LoggedDrive, repair: Repair, seed: int, *, propose: bool = True, go_on: CancelCheck = never_cancelled
) -> Verdict:
    """Hold a check drive beside the forecast that was made before it.

    Parameters
    ----------
    drive : the log and its profile
    repair : possible vehicles before and after the work
    seed : same seed, same answer
    propose : look for a better drive where this one proves little
    go_on : is called between pieces of drives, and may stop the work
    """
    n = len(repair.present)
    unsure = doubts_of_the_day(n, seed)
    after, before = (beside(drive, vehicles, unsure, go_on) for vehicles in (repair.after, repair.before))
    route = _steeper(drive, repair.after, unsure, after.shown, go_on)
    part = telling(after.time, after.shown, before.shown, after.spread)
    route_scatter = abs(float(route @ part.weights))
    part = dataclasses.replace(part, scatter=float(np.hypot(part.scatter, route_scatter)))
    difference = float((after.read - np.median(after.shown, axis=0)) @ part.weights)
    place = part.place(difference)
    outside = float(np.hypot(scatter_of_weather(part.repaired, unsure), route_scatter))
    weight = _weights(part, _counted(part, difference, repair.fails), repair.fails)
    hottest = float(part.unrepaired.max()) + 2.0 * part.scatter
    coolest = float(part.repaired.min()) - 2.0 * part.scatter
    grid = np.asarray(coarser(drive.profile).time, float)
    low, middle, high = np.percentile(shown_at(drive, after.drives, grid), (10, 50, 90), axis=0)
    inside = after.time[part.inside]
    shows = part.power >= PROVES
    lacks = _lacks(after.time, inside, shows=shows)
    proves = shows and not lacks
    return Verdict(
        word=WORDS[2] if place > SURE else WORDS[1] if place < 1.0 - SURE else WORDS[0],
        proves=proves,
        power=part.power,
        lacks=lacks,
        telling_readings=len(inside),
        difference=difference,
        forecast=_quantiles(part, repaired=True),
        unrepaired=_quantiles(part, repaired=False),
        place=place,
        by_weather=2.0 * float(ndtr(-abs(difference) / max(outside, 1e-6))),
        not_taken=float(weight[n:].sum()),
        beyond=not coolest <= difference <= hottest,
        telling_from=float(inside[0]),
        telling_to=float(inside[-1]),
        worth=independent(after.spread),
        worst_day=_worst_day(repair, weight),
        back=_back(repair, weight),
        better=better_drive(repair.before, repair.after, drive, repair.limit, seed, 0.0 if lacks else part.power, go_on)
        if propose and not proves
        else None,
        time=grid,
        low=low,
        middle=middle,
        high=high,
        boiling=np.median(after.drives.boiling, axis=0),
        read_time=after.time,
        read=after.read,
    )


def _lacks(time: Floats, telling_time: Floats, *, shows: bool) -> str:
    """What a drive with readings at these times, those of its telling part among them [s], has too little of.

    More readings help only where the work would show.
    """
    if float(time[-1]) + APART < LEAST_TIME:  # of a logger's readings one in so many seconds is looked at
        return "time"
    few = len(time) < LEAST_READINGS or len(telling_time) < LEAST_TELLING
    return "readings" if shows and few else ""


def _quantiles(part: Telling, *, repaired: bool) -> Band:
    return Band(*(part.quantile(share, repaired=repaired) for share in (0.1, 0.5, 0.9)))


def _steeper(drive: LoggedDrive, vehicles: Vehicle, unsure: Unsure, shown: Floats, go_on: CancelCheck) -> Floats:
    """By how much readings change on a road that is steeper by its doubt (reading,) [K]; `shown` as it is."""
    few, days = jax.tree.map(_first, (vehicles, unsure))
    profile = drive.profile
    duty = dataclasses.replace(profile.duty, grade=np.asarray(profile.grade, float) * (1.0 + GRADE_DOUBT))
    other = dataclasses.replace(drive, profile=dataclasses.replace(profile, duty=duty))
    again = beside(other, few, days, go_on).shown
    return np.asarray(np.mean(again - shown[: len(again)], axis=0), float)


def _first(leaf: Any) -> Any:
    return np.asarray(leaf)[:FOR_ROUTE] if np.ndim(leaf) else leaf


def _counted(part: Telling, difference: float, fails: float) -> float:
    """The difference that is counted [K]: up to the one seen, that which speaks the most plainly.

    Far beyond all that either could show, mistaken readings explain it, and they say nothing of the work. Without this
    a drive that came out hotter still would be better news.
    """
    seen = np.linspace(0.0, difference, SEEN_IN)
    undone = [float(_weights(part, one, fails)[len(part.repaired) :].sum()) for one in seen]
    return float(seen[int(np.argmax(undone) if difference > 0.0 else np.argmin(undone))])


def _weights(part: Telling, difference: float, fails: float) -> Floats:
    """Weight of every vehicle after the work, then of every one on which the work has done nothing; sum 1 [1].

    By the difference alone: the course of a drive tells more of the model than of the work.
    """
    z = (difference - np.concatenate([part.repaired, part.unrepaired])) / part.scatter
    likely = (1.0 - MISTAKEN) * np.exp(-0.5 * z * z) + MISTAKEN * part.scatter / WILD
    n = len(part.repaired)
    weight = likely * np.repeat([1.0 - fails, fails], [n, len(part.unrepaired)])
    return weight / weight.sum()


def _worst_day(repair: Repair, weight: Floats) -> WorstDay:
    """As the choice has it: what the model misses counts there and here."""
    n, names = len(repair.present), repair.asked or tuple(repair.days)
    gone = [go_through(vehicles, repair.days, names) for vehicles in (repair.after_then, repair.before_then)]
    after, before = ([off_by(passages[name], repair.days[name]) for name in names] for passages in gone)

    limits = [repair.limits[name] for name in names]
    held, held_then = (
        [holds(one, limit, repair.boils_within) for one, limit in zip(passages, limits, strict=True)]
        for passages in (after, before)
    )
    held_after, held_before = np.all(held, axis=0), np.all(held_then, axis=0)
    hardest = int(np.argmin([float(np.mean(one)) for one in held]))
    gauges = [np.asarray(one[hardest].T_gauge_peak, float) for one in (after, before)]
    return WorstDay(
        hardest=names[hardest],
        holds_forecast=float(held_after.mean()) if repair.ordered is None else repair.ordered,
        holds_before=float((1.0 - repair.fails) * held_after.mean() + repair.fails * held_before.mean()),
        holds_now=float(weight @ np.concatenate([held_after, held_before])),
        gauge_forecast=_band(gauges[0], np.full(n, 1.0 / n)),
        gauge_now=_band(np.concatenate(gauges), weight),
    )


def _band(values: Floats, weight: Floats) -> Band:
    order = np.argsort(values)
    reached: Floats = np.cumsum(weight[order])
    places: Floats = np.interp(np.array([0.1, 0.5, 0.9]), reached / reached[-1], values[order])
    p10, p50, p90 = places.tolist()
    return Band(p10, p50, p90)


def _back(repair: Repair, weight: Floats) -> tuple[CauseBack, ...]:
    """Causes that the drive has made likelier, among what the work leaves and what it may have left undone."""
    left = repair.present & ~repair.mended[None, :]
    expected = (1.0 - repair.fails) * left.mean(axis=0) + repair.fails * repair.present.mean(axis=0)
    now = weight @ np.concatenate([left, repair.present])
    found = [
        CauseBack(name, float(was), float(is_now))
        for name, was, is_now in zip(repair.names, expected, now, strict=True)
        if is_now >= LEAST and is_now >= BACK * was
    ]
    return tuple(sorted(found, key=_now, reverse=True))


def _now(one: CauseBack) -> float:
    return one.now
