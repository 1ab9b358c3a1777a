"""A remedy: something done about a vehicle that runs hot, told as a change of the vehicle, with what it takes."""

import dataclasses
from collections.abc import Callable
from dataclasses import dataclass

from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real

Effect = Callable[[Vehicle, Vehicle], Vehicle]
"""The vehicle as it stands and as it was when sound -> the vehicle afterwards."""


def _any_vehicle(vehicle: Vehicle) -> Real:
    return 0.0 * vehicle.core.rows + 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """Something that can be done.

    Parameters
    ----------
    id : never changes; its words stand under it in `catalogue/words`
    mends : ids of the repairs (`Cause.repair`) that it makes
    effect : what it does; work that does not concern a vehicle leaves it as it is
    parts : what is bought, each an id of the price book
    minutes : working time [min]
    group : remedies of one group exclude each other
    forces : ids of other remedies that must be done with it
    includes : ids of other remedies that are done with it as it is
    fits : share of the vehicles that it can be done to [1]
    concession : whether the customer goes without something on the worst day that was asked for
    source : where durability and minutes come from
    """

    id: str
    effect: Effect
    parts: tuple[str, ...]
    minutes: float
    group: str
    mends: tuple[str, ...] = ()
    forces: tuple[str, ...] = ()
    includes: tuple[str, ...] = ()
    fits: Callable[[Vehicle], Real] = _any_vehicle
    concession: bool = False
    source: str = "common practice, no source"


def like(value: float, draws: Real) -> Real:
    """Return a value in the shape of some draws."""
    return value + 0.0 * draws


def restored(part: str, *fields: str) -> Effect:
    """Effect that puts fields of one part back to what they were when the vehicle was sound."""

    def effect(vehicle: Vehicle, sound: Vehicle) -> Vehicle:
        owner = getattr(sound, part)
        mended = dataclasses.replace(getattr(vehicle, part), **{field: getattr(owner, field) for field in fields})
        return dataclasses.replace(vehicle, **{part: mended})

    return effect


def one_after_the_other(*effects: Effect) -> Effect:
    """Effect of several effects in a row."""

    def effect(vehicle: Vehicle, sound: Vehicle) -> Vehicle:
        for each in effects:
            vehicle = each(vehicle, sound)
        return vehicle

    return effect
