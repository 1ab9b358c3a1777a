"""The coolant temperature that a condition may reach: at a short stop more than on the road.

Source   common practice, no source: at a stop after a hill a sound vehicle's gauge rises by 5 to 15 °F and is back
         within 5 to 10 minutes; 220 to 230 °F idling in heat is nothing to act on while no coolant is pushed out
Range    stops of some minutes that follow a drive; whoever idles on, or in stop and go, stays under the limit itself
Scatter  the rise of sound vehicles is 5 to 15 °F: the upper end is what a mechanic lets pass; docs/decisions/stops.md
"""

import numpy as np
from numpy.typing import NDArray

from toptank.knowledge.stop_rise import RISE_AT_A_STOP, SHORT
from toptank.system.condition import Passage
from toptank.system.condition_batch import COLD, Condition
from toptank.system.sides.heat_side import STANDING_SPEED
from toptank.system.trajectory import AT_THE_BOIL


def is_short_stop(condition: Condition) -> bool:
    """Whether a condition is a stop of some minutes after something that was driven."""
    stands = np.all(np.asarray(condition.duty.speed, float) < STANDING_SPEED)
    driven = condition.after not in ("", COLD)
    return bool(stands and driven and not condition.halting() and np.median(condition.timing.duration) <= SHORT)


def limit_in(condition: Condition, limit: float) -> float:
    """Coolant temperature that a condition may reach [K], from the limit of the road."""
    return limit + RISE_AT_A_STOP if is_short_stop(condition) else limit


def holds(passage: Passage, limit: float, boils_within: NDArray[np.float64] | float = 0.0) -> NDArray[np.bool_]:
    """Whether each draw stays under limit and boiling all the way; one without a balance stands at the hottest."""
    return np.asarray((passage.T_peak < limit) & stays_off_the_boil(passage, boils_within), bool)


def stays_off_the_boil(passage: Passage, boils_within: NDArray[np.float64] | float) -> NDArray[np.bool_]:
    """Whether each draw stays further under its boiling point than it is seen to boil at [K]."""
    return np.asarray(np.asarray(passage.least_margin, float) > np.maximum(boils_within, AT_THE_BOIL), bool)
