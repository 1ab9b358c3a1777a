"""How a drive would go: the band of the gauge along it, where it peaks, what asking less of the vehicle would do."""

import dataclasses
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from toptank.knowledge.forecast import Band, band_of
from toptank.knowledge.model_discrepancy import off_along
from toptank.studies.route.shifting import ShiftsDown, shifts_down
from toptank.system.balance import EQUATIONS_VERSION
from toptank.system.drive_batch import Unsure, drive_all
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jax
from toptank.system.profile import Profile
from toptank.system.vehicle import Vehicle
from toptank.units.cancellation import CancelCheck, never_cancelled

POINTS = 240
"""Points of a drive at which its bands are given, at most."""

SEARCHED = 128
"""Possible vehicles with which a slower speed is searched for."""

HOLDS = 0.9
"""Chance to stay under limit and boiling from which nothing need be asked less of the vehicle [1]."""

SLOWEST, FINENESS = 0.5, 0.05
"""Least share of the speed looked at, and steps in which it is searched [1]."""

CLIMB = 0.015
"""Grade from which a stretch counts as a climb [1]."""

ALIKE = 1.0
"""Speeds that differ by less are told as one [m/s]."""

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ease:
    """What asking less of the vehicle would do to its hottest moment.

    Parameters
    ----------
    share : of the speed on the climbs that is kept [1]
    cooled : the air conditioning stays as it was
    peak : highest reading of the gauge [K]
    cooler : by how much the middle vehicle's highest reading falls [K]
    over_limit, boils : chances [1]
    longer : what it costs [s]
    enough : it then holds
    """

    share: float
    cooled: bool
    peak: Band
    cooler: float
    over_limit: float
    boils: float
    longer: float
    enough: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DriveForecast:
    """A drive as possible vehicles would go through it.

    Arrays have the shape (point,): time [s], distance and altitude [m], bands of the gauge, boiling point [K].
    `peak_time`, `peak_distance` : where the middle vehicle is hottest [s, m]. Chances in [1], `lost` in shares of the
    system's volume, of those vehicles that boil; `shifts_down` : where a lower gear is taken for a climb.
    """

    profile: Profile
    time: Floats
    distance: Floats
    altitude: Floats
    gauge_p10: Floats
    gauge_p50: Floats
    gauge_p90: Floats
    boiling: Floats
    peak: Band
    peak_time: float
    peak_distance: float
    transmission_peak: Band
    over_limit: float
    boils: float
    lost: float
    short_of_power: float
    shifts_down: ShiftsDown | None
    eases: tuple[Ease, ...]
    draws: int
    equations_version: str = EQUATIONS_VERSION

    @property
    def climbs(self) -> bool:
        """Whether the road climbs somewhere."""
        return bool(np.any(np.asarray(self.profile.grade)[np.asarray(self.profile.speed) > 0.0] >= CLIMB))

    @property
    def climbing_speed(self) -> float:
        """Usual speed on the climb that ends in the peak, one of those that a slower drive would slow [m/s].

        A stop after a climb is hot from that climb, so it is the last one before the peak that counts; where none is
        before it, the first one.
        """
        slowed, at = climbs(self.profile), np.asarray(self.profile.time) <= self.peak_time
        places = np.flatnonzero(slowed & at) if (slowed & at).any() else np.flatnonzero(slowed)[:1]
        if not len(places):
            return 0.0
        whole = np.flatnonzero(np.diff(slowed.astype(int), prepend=0, append=0))
        begin, end = next((a, b) for a, b in zip(whole[::2], whole[1::2], strict=True) if a <= places[-1] < b)
        return float(np.median(np.asarray(self.profile.speed)[begin:end]))

    @property
    def climbs_alike(self) -> bool:
        """Whether every stretch that a slower drive would slow is driven at that speed."""
        speeds = np.asarray(self.profile.speed)[climbs(self.profile)]
        return bool(np.all(np.abs(speeds - self.climbing_speed) < ALIKE))

    @property
    def holds(self) -> float:
        """Chance to stay under limit and boiling all the way, at the least [1]."""
        return 1.0 - max(self.over_limit, self.boils)


def drive_forecast(
    vehicles: Vehicle,
    profile: Profile,
    *,
    limit: float,
    before: Duty | None,
    unsure: Unsure | None = None,
    go_on: CancelCheck = never_cancelled,
) -> DriveForecast:
    """Drive possible vehicles along a profile, and look for what would help where it gets too hot.

    Parameters
    ----------
    vehicles : fields are arrays (draw,)
    profile : the drive
    limit : gauge temperature that the customer wants to stay under [K]
    before : duty at which the vehicle has settled before the start; None: it starts cold
    unsure : what the day of each draw differs by
    go_on : is called between pieces of a drive, and may stop the work
    """
    every = max(-(-len(profile.time) // POINTS), 1)
    drives = drive_all(vehicles, profile, before=before, unsure=unsure, every=every, go_on=go_on)
    drives = off_along(drives, profile)
    middle = np.median(drives.gauge, axis=0)
    hottest = int(middle.argmax()) * every
    low, mid, high = np.percentile(drives.gauge, (10, 50, 90), axis=0)
    boiled = drives.boiled()
    answer = DriveForecast(
        profile=profile,
        time=np.asarray(profile.time)[::every],
        distance=np.asarray(profile.distance)[::every],
        altitude=np.asarray(profile.altitude)[::every],
        gauge_p10=low,
        gauge_p50=mid,
        gauge_p90=high,
        boiling=np.median(drives.boiling, axis=0),
        peak=band_of(drives.peak),
        peak_time=float(profile.time[hottest]),
        peak_distance=float(profile.distance[hottest]),
        transmission_peak=band_of(drives.transmission.max(axis=1)),
        over_limit=float(np.mean(drives.peak > limit)),
        boils=float(np.mean(boiled)),
        lost=float(np.median(drives.lost[boiled])) if boiled.any() else 0.0,
        short_of_power=float(np.mean(drives.short_of_power > 0.0)),
        shifts_down=shifts_down(vehicles, profile),
        eases=(),
        draws=len(drives.peak),
    )
    if answer.holds >= HOLDS:
        return answer
    asked = _Asked(
        vehicles, unsure or Unsure(), profile=profile, limit=limit, before=before, peak=drives.peak, go_on=go_on
    )
    return dataclasses.replace(answer, eases=_eased(asked))


class _Asked(NamedTuple):
    """A drive that is too hot, of which less is asked: its draws, and the highest reading of each [K]."""

    vehicles: Vehicle
    unsure: Unsure
    profile: Profile
    limit: float
    before: Duty | None
    peak: Floats
    go_on: CancelCheck

    def few(self) -> "_Asked":
        """The first draws, for searching; what is found is told of all of them, as the drive itself is."""
        vehicles, unsure = jax.tree.map(_first, (self.vehicles, self.unsure))
        return self._replace(vehicles=vehicles, unsure=unsure, peak=self.peak[:SEARCHED])

    def ease(self, share: float, *, cooled: bool) -> Ease:
        """What a share of the speed on the climbs, with or without air conditioning, would do."""
        eased = self.profile.slowed(share, climbs(self.profile)) if share < 1.0 else self.profile
        if not cooled:
            off = np.zeros(len(eased.time))
            eased = dataclasses.replace(eased, duty=dataclasses.replace(eased.duty, air_conditioning=off))
        drives = drive_all(
            self.vehicles, eased, before=self.before, unsure=self.unsure, every=len(eased.time), go_on=self.go_on
        )
        drives = off_along(drives, eased)
        over, boils = float(np.mean(drives.peak > self.limit)), float(np.mean(drives.boiled()))
        return Ease(
            share=share,
            cooled=cooled,
            peak=band_of(drives.peak),
            cooler=float(np.median(self.peak) - np.median(drives.peak)),
            over_limit=over,
            boils=boils,
            longer=float(eased.time[-1] - self.profile.time[-1]),
            enough=1.0 - max(over, boils) >= HOLDS,
        )


def climbs(profile: Profile) -> NDArray[np.bool_]:
    """Where the road climbs and the vehicle moves; without a climb, wherever it moves."""
    moving = np.asarray(profile.speed) > 0.0
    steep = moving & (np.asarray(profile.grade) >= CLIMB)
    return steep if steep.any() else moving


def _eased(asked: _Asked) -> tuple[Ease, ...]:
    """Air conditioning off; the highest speed on the climbs that holds, or the best there is; both together."""
    found: list[Ease] = []
    cooling = bool((np.asarray(asked.profile.air_conditioning) > 0.5).any())
    if cooling:
        found.append(asked.ease(1.0, cooled=False))
    if (np.asarray(asked.profile.speed) > 0.0).any():
        found.append(_slower(asked, cooled=True))
        if cooling and not any(one.enough for one in found):
            found.append(_slower(asked, cooled=False))
    return tuple(found)


def _slower(asked: _Asked, *, cooled: bool) -> Ease:
    """The highest share of the speed that holds, found with few draws and made sure of with all; else the best one."""
    found = _searched(asked.few(), cooled=cooled)
    told = asked.ease(found.share, cooled=cooled)
    if found.enough:
        while not told.enough and told.share > SLOWEST + 1e-9:
            told = asked.ease(round(max(told.share - FINENESS, SLOWEST), 3), cooled=cooled)
    return told


def _searched(few: _Asked, *, cooled: bool) -> Ease:
    """The highest share of the speed that holds, by halving; where none does, the one with the lowest peak."""
    shares = np.round(np.arange(SLOWEST, 1.0 - 1e-9, FINENESS), 3)
    tried = {place: few.ease(float(shares[place]), cooled=cooled) for place in (0, len(shares) - 1)}
    low, high = 0, len(shares) - 1
    if tried[0].enough and not tried[high].enough:
        while high - low > 1:
            middle = (low + high) // 2
            tried[middle] = few.ease(float(shares[middle]), cooled=cooled)
            low, high = (middle, high) if tried[middle].enough else (low, middle)
        return tried[low]
    if tried[high].enough:
        return tried[high]
    middle = len(shares) // 2
    tried[middle] = few.ease(float(shares[middle]), cooled=cooled)
    enough = [one for one in tried.values() if one.enough]
    return max(enough, key=_share) if enough else max(tried.values(), key=_gain)


def _share(one: Ease) -> float:
    return one.share


def _gain(one: Ease) -> float:
    return one.cooler


def _first(leaf: Any) -> Any:
    return np.asarray(leaf)[:SEARCHED] if np.ndim(leaf) else leaf
