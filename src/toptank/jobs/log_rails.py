"""Cells of a thermometer that is not plugged in: an end of its scale, or one figure that never moves."""

import numpy as np

from toptank.jobs.log_columns import CHANNELS
from toptank.knowledge.stretches import Mask
from toptank.knowledge.track import Floats
from toptank.units.dimension import TEMPERATURE

RAILS, NEAR = (233.15, 488.15), 0.3
"""Ends of the scale on which engines tell temperatures, one byte less 40: -40 °C, which is -40 °F too, and 215 °C [K];
how near to them a cell shows a wire that is off or shorted. From memory."""

WORKING, LONG = (313.0, 400.0), 300.0
"""Where the engine's temperature may well stand still in a logger's whole degrees [K], and from which length of a log
on it moves elsewhere [s]; judgement."""

UNPLUGGED = "is what a thermometer shows that is not plugged in, or shorted"


def rails(values: Floats, key: str) -> Mask:
    """Which figures of a channel, in SI, stand at an end of a thermometer's scale."""
    at_end = np.zeros(len(values), bool)
    if CHANNELS[key].dimension == TEMPERATURE:
        for end in RAILS:
            at_end |= np.abs(values - end) < NEAR
    return at_end


def never_moves(time: Floats, values: Floats, key: str) -> bool:
    """Whether a logger's engine temperature [K] is one figure for minutes, where no engine stands still."""
    known = np.isfinite(values)
    if key not in ("coolant", "gauge") or not known.any() or float(time[known][-1] - time[known][0]) < LONG:
        return False
    first = float(values[known][0])
    return float(np.ptp(values[known])) == 0.0 and not WORKING[0] <= first <= WORKING[1]
