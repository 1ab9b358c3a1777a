"""The coolant temperature that a condition may reach: at a short stop more than on the road.

Source   common practice, no source: at a stop after a hill a sound vehicle's gauge rises by 5 to 15 °F and is back
         within 5 to 10 minutes; 220 to 230 °F idling in heat is nothing to act on while no coolant is pushed out
Range    stops of some minutes that follow a drive; whoever idles on, or in stop and go, stays under the limit itself
Scatter  the rise of sound vehicles is 5 to 15 °F: the upper end is what a mechanic lets pass; docs/decisions/stops.md
"""

import numpy as np

from toptank.system.condition_batch import COLD, Condition
from toptank.system.sides.heat_side import STANDING_SPEED

RISE_AT_A_STOP = 15.0 / 1.8
"""What the coolant may rise beyond the customer's limit at a short stop [K], as long as it does not boil."""

SHORT = 900.0
"""Longest stop that counts as short, in the middle [s]: by then a sound vehicle's gauge is back; common practice."""


def is_short_stop(condition: Condition) -> bool:
    """Whether a condition is a stop of some minutes after something that was driven."""
    stands = np.all(np.asarray(condition.duty.speed, float) < STANDING_SPEED)
    driven = condition.after not in ("", COLD)
    return bool(stands and driven and not condition.halting() and np.median(condition.timing.duration) <= SHORT)


def limit_in(condition: Condition, limit: float) -> float:
    """Coolant temperature that a condition may reach [K], from the limit of the road."""
    return limit + RISE_AT_A_STOP if is_short_stop(condition) else limit
