"""A remedy: something done about a vehicle that runs hot, told as a change of the vehicle, with what it takes."""

import dataclasses
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real

AS_SOUND = "as it was when sound: the size is that of the sheet"
JUDGEMENT = "judgement"
"""Where it comes from how much an effect changes the vehicle."""

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
    size : where it comes from how much its effect changes the vehicle
    effect : what it changes beyond the causes that it cures; work that does not concern a vehicle leaves it as it is
    parts : what is bought, each an id of the price book
    minutes : working time [min]
    group : remedies of one group exclude each other
    forces : ids of other remedies that must be done with it
    includes : ids of other remedies that are done with it as it is
    cures : ids of the causes that it takes away; every other cause stays in the vehicle, whatever is done
    makes_up_for : ids of causes that it does not take away but answers: a bigger radiator for one that was too small
    fits : share of the vehicles that it can be done to [1]
    concession : whether the customer goes without something on the worst day that was asked for
    on_request : whether it is weighed only where somebody names it: a part that is made for the one vehicle
    source : where durability and minutes come from
    """

    id: str
    size: str
    effect: Effect
    parts: tuple[str, ...]
    minutes: float
    group: str
    forces: tuple[str, ...] = ()
    includes: tuple[str, ...] = ()
    cures: tuple[str, ...] = ()
    makes_up_for: tuple[str, ...] = ()
    fits: Callable[[Vehicle], Real] = _any_vehicle
    concession: bool = False
    on_request: bool = False
    source: str = "common practice, no source"


def like(value: float, draws: Real) -> Real:
    """Return a value in the shape of some draws."""
    return value + 0.0 * draws


def unchanged(vehicle: Vehicle, _sound: Vehicle) -> Vehicle:
    """Effect of work that does nothing but take causes away."""
    return vehicle


def put_right(part: str, fields: Mapping[str, float]) -> Effect:
    """Effect that sets fields of one part to what they are when nothing is wrong, whoever found them otherwise."""

    def effect(vehicle: Vehicle, _sound: Vehicle) -> Vehicle:
        owner = getattr(vehicle, part)
        right = {name: like(value, getattr(owner, name)) for name, value in fields.items()}
        return dataclasses.replace(vehicle, **{part: dataclasses.replace(owner, **right)})

    return effect


def one_after_the_other(*effects: Effect) -> Effect:
    """Effect of several effects in a row."""

    def effect(vehicle: Vehicle, sound: Vehicle) -> Vehicle:
        for each in effects:
            vehicle = each(vehicle, sound)
        return vehicle

    return effect
