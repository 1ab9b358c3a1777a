"""Readings that no engine gives: a thermometer that is not plugged in, a unit that is another than its head says."""

import numpy as np

from toptank.knowledge.drives.stretches import Mask
from toptank.knowledge.drives.track import Floats
from toptank.shop.log.log_columns import CHANNELS
from toptank.units.conversion import from_si, unit_of
from toptank.units.dimension import TEMPERATURE

RAILS, NEAR = (233.15, 488.15), 0.3
"""Ends of the scale on which engines tell temperatures, one byte less 40: -40 °C, which is -40 °F too, and 215 °C [K];
how near to them a cell shows a wire that is off or shorted. From memory."""

WORKING, LONG = (313.0, 400.0), 300.0
"""Where the engine's temperature may well stand still in a logger's whole degrees [K], and from which length of a log
on it moves elsewhere [s]; judgement."""

WARM_AFTER, STAYS_COLD, TOO_HOT = 600.0, 318.15, 408.15
"""Time after which an engine that is driven is warmer than so much [s] [K], and what none bears for half a log [K]:
88 °C under a head of °F is 31 °C, 190 °F under a head of °C is far above; judgement."""

LEVEL_AFTER, WARMS = 180.0, 0.3 / 60.0
"""From which length on a cold engine that runs is seen to get warmer [s], and how fast at least [K/s]; judgement: the
slowest of 14 logged cold starts, a turbo diesel in frost, rose by 2 K in its slowest three minutes."""

ENDS = "-40 (°C or °F), 215 °C or 419 °F"
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


def wrong_unit(time: Floats, read: Floats) -> str:
    """What makes the unit of an engine's temperature [K] doubtful, as a sentence's end; empty where nothing does."""
    known = np.isfinite(read)
    if not known.any():
        return ""
    top, middle = float(read[known].max()), float(np.median(read[known]))
    if middle > TOO_HOT:
        return f"is above {_in_both(middle - 0.5)} half of the time, which no engine bears"
    if top >= STAYS_COLD:
        return ""
    if float(time[known][-1]) >= WARM_AFTER:
        return f"stays below {_in_both(top + 0.5)}, where an engine that is driven gets warmer"
    level = _stands_still(time[known], read[known])
    return f"stands still near {_in_both(middle)}, where an engine that runs gets warmer" if level else ""


def cold_all_along(read: Floats) -> str:
    """What is odd about an engine's temperature [K] that never gets warm, in a log too short to be sure; or nothing."""
    known = np.isfinite(read)
    top = float(read[known].max()) if known.any() else STAYS_COLD
    return f"stays below {_in_both(top + 0.5)}" if top < STAYS_COLD else ""


def _stands_still(time: Floats, read: Floats) -> bool:
    """Whether a cold engine gets no warmer from the first third of a log to the last."""
    length = float(time[-1] - time[0])
    if length < LEVEL_AFTER:
        return False
    first, last = (float(read[part].mean()) for part in (time <= time[0] + length / 3, time >= time[-1] - length / 3))
    return last - first < WARMS * length * 2.0 / 3.0


def _in_both(kelvin: float) -> str:
    celsius, fahrenheit = (float(from_si(kelvin, TEMPERATURE, unit_of(TEMPERATURE, own))) for own in ("metric", "us"))
    return f"{celsius:.0f} °C ({fahrenheit:.0f} °F)"
