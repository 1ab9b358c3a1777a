"""Coolant temperature that a vehicle must stay under: the customer's limit, or clearly below what he complained of.

Source   common practice, no source: a needle that stands where it stood when he complained is not cured, though it
         stands below the usual limit
Range    complaints of which something ran hot: the hottest figure, without one where "hot" begins; of a short stop as
         much less as it may rise there
Scatter  a needle is read to 2 or 3 K: `CLEARLY` is the least that a driver sees
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from toptank.studies.diagnose.spoken_heat import hot_from

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from toptank.studies.diagnose.evidence import Reading

CLEARLY = 5.0 / 1.8
"""How far below what he complained of the needle must stay [K]: 5 degF; judgement."""

WARMED_UP = 11.0
"""How far above the start of its thermostat every vehicle runs at work [K]: no limit is lower; judgement."""


def wanted_limit(limit: float, readings: Iterable[Reading], opens: float, rises: Mapping[str, float]) -> float:
    """Return the limit that a repair is judged by on the road [K].

    Parameters
    ----------
    limit : the customer's, or the usual one [K]
    readings : what was read in the conditions of the complaint
    opens : temperature at which the thermostat starts to open [K]
    rises : how far beyond the limit of the road each condition may go, by its name [K]
    """
    starts = float(hot_from(np.array(opens))[1])
    hot = [(one.figure or starts) - rises.get(one.duty, 0.0) for one in readings if _called_hot(one, limit)]
    return min(limit, max(max(hot) - CLEARLY, opens + WARMED_UP)) if hot else limit


def _called_hot(reading: Reading, limit: float) -> bool:
    """Whether it ran hot by a word, by the red of the gauge or by a figure beyond the limit."""
    told = reading.words == "hot" or reading.needle == "red" or (reading.figure or 0.0) >= limit
    return reading.place != "transmission" and told
