"""A day of every vehicle of a fleet: whether it holds, where it is hottest, what air it bears, what would ease it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

import numpy as np

from toptank.knowledge.forecast import Band, band_of
from toptank.studies.fleet.day_batch import BOILED_BY, Outcome, through_day
from toptank.studies.fleet.fleet_vehicle import (
    ConditionDay,
    FleetVehicle,
    Floats,
    slower_uphill,
    without_cooling,
    without_trailer,
)
from toptank.system.balance import EQUATIONS_VERSION
from toptank.units.cancellation import CancelCheck, never_cancelled

HOLDS = 0.9
"""Chance to hold from which nothing need be asked less of a vehicle [1]."""

FOR_AMBIENT, TRIED = 64, 4
"""Draws with which the air that a vehicle bears is sought, and days that are tried, its own included."""

FOR_EASE = 64
"""Draws with which it is tried what would ease it."""

SLOWER = 0.8
"""Share of the speed on the climbs that is tried [1]."""

SLOPES = (0.25, 2.0)
"""Least and most by which the coolant follows a hotter day [1]."""

STRIDE = 6.0
"""How much colder the next day is at the least where a draw boils [K]; twice that the next time, and on."""

COLDEST, HOTTEST = -90.0, 55.0
"""How much colder and hotter days are looked at [K]."""

EaseKind = Literal["air_conditioning_off", "without_trailer", "slower_uphill"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ease:
    """What is asked less of a vehicle, and its chance to hold then [1]."""

    kind: EaseKind
    holds: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class VehicleForecast:
    """One vehicle on the day.

    Parameters
    ----------
    identity : its own name in the fleet
    holds, boils : chance to stay under limit and boiling all day, and to boil [1]
    hottest : name of the condition where it is least likely to hold; empty on a road
    hottest_at : road behind it where it is hottest [m]; None without a road
    gauge, coolant : highest there [K]
    bears : by how much the day may be hotter (less than 0: must be colder) for the coolant to reach its limit [K]
    bears_by_draw : the same of each draw that it was sought with (draw,) [K]
    eases : what would ease it, where it does not hold
    equations_version : names the equations that gave these numbers
    """

    identity: str
    holds: float
    boils: float
    hottest: str
    hottest_at: float | None
    gauge: Band
    coolant: Band
    bears: Band
    bears_by_draw: Floats
    eases: tuple[Ease, ...]
    equations_version: str = EQUATIONS_VERSION

    def holds_when_hotter(self, hotter: float) -> float:
        """Chance to hold on a day that is hotter by so much [K], for colder ones never less than on the day [1]."""
        share = float(np.mean(self.bears_by_draw > hotter))
        return max(share, self.holds) if hotter <= 0.0 else min(share, self.holds)


def fleet_forecast(
    vehicles: Sequence[FleetVehicle], go_on: CancelCheck = never_cancelled
) -> tuple[VehicleForecast, ...]:
    """Forecast the day of every vehicle; `go_on` is called between lots, and may stop the work."""
    outcomes = through_day(vehicles, go_on=go_on)
    bears = _borne(vehicles, outcomes, go_on)
    eases = _eased(vehicles, outcomes, go_on)
    return tuple(
        _forecast(one, outcome, borne, tuple(eases[place]))
        for place, (one, outcome, borne) in enumerate(zip(vehicles, outcomes, bears, strict=True))
    )


def _forecast(one: FleetVehicle, outcome: Outcome, bears: Floats, eases: tuple[Ease, ...]) -> VehicleForecast:
    held = np.mean(outcome.over < 0.0, axis=1)
    worst = int(np.lexsort((-np.median(outcome.coolant, axis=1), held))[0])
    conditions = isinstance(one.day, ConditionDay)
    return VehicleForecast(
        identity=one.identity,
        holds=float(outcome.held().mean()),
        boils=float(outcome.boils.any(axis=0).mean()),
        hottest=one.day.asked[worst] if isinstance(one.day, ConditionDay) else "",
        hottest_at=None if conditions else outcome.hottest_at,
        gauge=band_of(outcome.gauge[worst]),
        coolant=band_of(outcome.coolant[worst]),
        bears=band_of(bears),
        bears_by_draw=bears,
        eases=eases,
    )


def _borne(vehicles: Sequence[FleetVehicle], outcomes: Sequence[Outcome], go_on: CancelCheck) -> list[Floats]:
    """By how much the day of each of the first draws may be hotter until the limit is reached (draw,) [K]."""
    searches = [_Search.begun(outcome.over.max(axis=0)[:FOR_AMBIENT]) for outcome in outcomes]
    for number in range(1, TRIED):
        tried = through_day(vehicles, [one.at for one in searches], first=FOR_AMBIENT, go_on=go_on)
        searches = [one.after(outcome.over.max(axis=0), number) for one, outcome in zip(searches, tried, strict=True)]
    return [one.at for one in searches]


class _Search(NamedTuple):
    """Secant steps to the air at which the limit is reached, held between what is known to hold and not to (draw,)."""

    at: Floats
    last: Floats
    last_over: Floats
    slope: Floats
    low: Floats
    high: Floats

    @classmethod
    def begun(cls, over: Floats) -> "_Search":
        """After the day itself."""
        nought = np.zeros(len(over))
        bare = cls(nought, nought, over, nought + 1.0, nought + COLDEST, nought + HOTTEST)
        return bare._stepped(nought, over, nought + 1.0, 0)

    def after(self, over: Floats, number: int) -> "_Search":
        """After one more day."""
        apart = np.where(self.at == self.last, 1.0, self.at - self.last)
        seen = (over != BOILED_BY) & (self.last_over != BOILED_BY)
        slope = np.where(seen, np.clip((over - self.last_over) / apart, *SLOPES), self.slope)
        return self._stepped(self.at, over, slope, number)

    def _stepped(self, at: Floats, over: Floats, slope: Floats, number: int) -> "_Search":
        holds = over < 0.0
        low, high = np.where(holds, at, self.low), np.where(holds, self.high, at)
        still = ~holds & (low <= COLDEST)
        back = np.where(still, np.maximum(over / slope, STRIDE * 2.0**number * (over <= BOILED_BY)), over / slope)
        return _Search(np.clip(at - back, low, high), at, over, slope, low, high)


def _eased(vehicles: Sequence[FleetVehicle], outcomes: Sequence[Outcome], go_on: CancelCheck) -> dict[int, list[Ease]]:
    """What would ease those that do not hold."""
    found: dict[int, list[Ease]] = {place: [] for place in range(len(vehicles))}
    hot = [place for place, outcome in enumerate(outcomes) if float(outcome.held().mean()) < HOLDS]
    changes: tuple[tuple[EaseKind, Callable[[FleetVehicle], FleetVehicle | None]], ...] = (
        ("air_conditioning_off", without_cooling),
        ("without_trailer", without_trailer),
        ("slower_uphill", lambda one: slower_uphill(one, SLOWER)),
    )
    for kind, change in changes:
        changed = {place: eased for place in hot if (eased := change(vehicles[place])) is not None}
        tried = through_day(list(changed.values()), first=FOR_EASE, go_on=go_on)
        for place, outcome in zip(changed, tried, strict=True):
            before = float(outcomes[place].held()[:FOR_EASE].mean())
            gain = float(outcome.held().mean()) - before
            # Told of all draws: as they hold, and what these few gained.
            found[place].append(Ease(kind=kind, holds=float(np.clip(outcomes[place].held().mean() + gain, 0.0, 1.0))))
    return found
