"""A vehicle of a fleet with the day that it is asked about: its draws, its conditions or its road, its limit."""

import dataclasses
from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from toptank.system.condition_batch import Condition, in_order
from toptank.system.drive_batch import Unsure
from toptank.system.duty import Duty
from toptank.system.profile import Profile
from toptank.system.vehicle import Vehicle

CLIMB = 0.015
"""Grade from which a stretch counts as a climb [1]."""

Floats = NDArray[np.float64]
Shape = tuple[object, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ConditionDay:
    """A day of conditions: those with what comes before them, by name, and the names of those that count."""

    conditions: Mapping[str, Condition]
    asked: tuple[str, ...]

    def changed(self, change: Callable[[Condition], Condition]) -> "ConditionDay":
        """The same day with every condition changed."""
        return dataclasses.replace(self, conditions={name: change(one) for name, one in self.conditions.items()})

    def shape(self) -> Shape:
        """What must be alike for vehicles to go through their days together: which condition follows which."""
        order = in_order(self.conditions, self.asked)
        place = {name: number for number, name in enumerate(order)}
        chain = [
            (place.get(one.after, one.after), one.settled(), one.halting())
            for one in (self.conditions[name] for name in order)
        ]
        return (*chain, tuple(place[name] for name in self.asked))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RoadDay:
    """A day on one road: its profile, what comes before it, and what the day of each draw differs by.

    road : names the profile: vehicles with the same name share it
    """

    road: str
    profile: Profile
    before: Duty
    unsure: Unsure

    def shape(self) -> Shape:
        """What must be alike for vehicles to be driven together."""
        return (self.road,)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FleetVehicle:
    """One vehicle of a fleet.

    Parameters
    ----------
    identity : its own name in the fleet
    vehicle : fields are arrays (draw,)
    limit : coolant stays under on the road [K]
    day : what it is asked about
    """

    identity: str
    vehicle: Vehicle
    limit: float
    day: ConditionDay | RoadDay

    def shape(self) -> Shape:
        """What must be alike for vehicles to share their kernels: the day, and whether a fan cycles."""
        cycles = bool(np.any(np.asarray(self.vehicle.fan.electric())))
        return (type(self.day).__name__, self.draws, cycles, *self.day.shape())

    @property
    def draws(self) -> int:
        """How many possible vehicles stand for it."""
        return int(np.size(self.vehicle.core.rows))


def without_cooling(one: FleetVehicle) -> FleetVehicle | None:
    """The same day with the air conditioning off; None where it is off anyway."""
    if isinstance(one.day, RoadDay):
        profile = one.day.profile
        if not np.any(np.asarray(profile.air_conditioning) > 0.5):
            return None
        off = dataclasses.replace(profile.duty, air_conditioning=np.zeros(len(profile.time)))
        before = dataclasses.replace(one.day.before, air_conditioning=0.0)
        day = dataclasses.replace(
            one.day, road=f"{one.day.road}, no cooling", before=before, profile=dataclasses.replace(profile, duty=off)
        )
        return dataclasses.replace(one, day=day)
    if not any(np.any(np.asarray(each.duty.air_conditioning) > 0.5) for each in one.day.conditions.values()):
        return None
    return dataclasses.replace(one, day=one.day.changed(_cooling_off))


def without_trailer(one: FleetVehicle) -> FleetVehicle | None:
    """The same day without the trailer; None where there is none."""
    if isinstance(one.day, RoadDay):
        duty = one.day.profile.duty
        if not np.any(np.asarray(duty.trailer_mass) > 0.0):
            return None
        none = np.zeros(len(one.day.profile.time))
        alone = dataclasses.replace(duty, trailer_mass=none, trailer_drag_area=none)
        before = dataclasses.replace(one.day.before, trailer_mass=0.0, trailer_drag_area=0.0)
        profile = dataclasses.replace(one.day.profile, duty=alone)
        day = dataclasses.replace(one.day, road=f"{one.day.road}, no trailer", before=before, profile=profile)
        return dataclasses.replace(one, day=day)
    if not any(np.any(np.asarray(each.duty.trailer_mass) > 0.0) for each in one.day.conditions.values()):
        return None
    return dataclasses.replace(one, day=one.day.changed(_trailer_off))


def slower_uphill(one: FleetVehicle, share: float) -> FleetVehicle | None:
    """The same day with a share of the speed [1] on the climbs, which then last longer; None where there is none."""
    if isinstance(one.day, RoadDay):
        profile = one.day.profile
        steep = (np.asarray(profile.grade) >= CLIMB) & (np.asarray(profile.speed) > 0.0)
        if not steep.any():
            return None
        day = dataclasses.replace(
            one.day, road=f"{one.day.road}, {share} of the speed uphill", profile=profile.slowed(share, steep)
        )
        return dataclasses.replace(one, day=day)
    if not any(_climbs(each) for each in one.day.conditions.values()):
        return None

    def slowed(condition: Condition) -> Condition:
        if not _climbs(condition):
            return condition
        duty, timing = condition.duty, condition.timing
        return dataclasses.replace(
            condition,
            duty=dataclasses.replace(duty, speed=share * np.asarray(duty.speed, float)),
            timing=dataclasses.replace(timing, duration=np.asarray(timing.duration, float) / share),
        )

    return dataclasses.replace(one, day=one.day.changed(slowed))


def _climbs(condition: Condition) -> bool:
    duty = condition.duty
    return bool(np.median(np.asarray(duty.grade, float)) >= CLIMB and np.median(np.asarray(duty.speed, float)) > 0.0)


def _cooling_off(condition: Condition) -> Condition:
    duty = condition.duty
    off = 0.0 * np.asarray(duty.air_conditioning, float)
    return dataclasses.replace(condition, duty=dataclasses.replace(duty, air_conditioning=off))


def _trailer_off(condition: Condition) -> Condition:
    duty = condition.duty
    none = 0.0 * np.asarray(duty.trailer_mass, float)
    return dataclasses.replace(condition, duty=dataclasses.replace(duty, trailer_mass=none, trailer_drag_area=none))
