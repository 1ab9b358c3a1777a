"""A cause: something wrong with a vehicle, told as a change of the vehicle and graded by a severity from 0 to 1."""

from collections.abc import Callable
from dataclasses import dataclass

from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real

ONSETS = ("suddenly", "crept up", "always so", "right after work")
"""How a trouble can have begun."""

JUDGEMENT = "judgement"
PRACTICE = "common practice, no source"
TRADE = "common practice, no source: what the trade sees of it at its worst; a test asks the model for that"
"""Where the size of an effect comes from: what a gauge shows, not how much scale or wear that is."""

Onset = tuple[float, float, float]
"""Shares of `ONSETS` but the last, which depends on what was worked on [1]."""

BREAKS: Onset = (0.75, 0.15, 0.1)
WEARS: Onset = (0.15, 0.75, 0.1)
BUILT_IN: Onset = (0.05, 0.1, 0.85)
EITHER: Onset = (0.45, 0.4, 0.15)


def _even(vehicle: Vehicle) -> Real:
    return 0.0 * vehicle.core.rows + 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """Something that can be wrong.

    Parameters
    ----------
    id : never changes; its words stand under it in `catalogue/words`
    size : where it comes from how much its effect changes the vehicle at severity 1
    repair : id of what must be done about it; causes with one repair need not be told apart
    mended_by : work (`catalogue.work`) that puts it right when it was done
    mended_by_the_way : work that often puts it right though it was done for something else
    prior_weight : how often it is the reason among vehicles that come in hot, before anything is known [1]; only
        ratios count
    origin : where that comes from
    onset : how it usually begins
    effect : vehicle and severity -> vehicle; severity 0 leaves the vehicle as it is
    prior_factor : vehicle -> how much likelier this cause is than on others; 0 where it cannot have it [1]
    begun_by : work that may bring it about
    wears : likelier with every mile
    kind_of : id of a wider cause that it is a kind of, or empty: who names the wider one has named it too
    severity : the two numbers of its beta distribution [1]: what is named as the reason is mostly bad enough to be
        felt; judgement
    """

    id: str
    size: str
    repair: str
    mended_by: tuple[str, ...]
    prior_weight: float
    onset: Onset
    effect: Callable[[Vehicle, Real], Vehicle]
    origin: str = JUDGEMENT
    prior_factor: Callable[[Vehicle], Real] = _even
    begun_by: tuple[str, ...] = ()
    mended_by_the_way: tuple[str, ...] = ()
    wears: bool = False
    kind_of: str = ""
    severity: tuple[float, float] = (2.4, 1.4)


def lerp(value: Real, target: float, share: Real) -> Real:
    """Go a share of the way from a value to a target [1]."""
    return value + (target - value) * share
