"""Coolant temperature that a vehicle must stay under: the customer's limit, or clearly below what he complained of.

Source   common practice, no source: a needle that stands where it stood when he complained is not cured, though it
         stands below the usual limit
Range    complaints with a figure that the driver calls hot; where several are, the hottest
Scatter  a needle is read to 2 or 3 K: `CLEARLY` is the least that a driver sees
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from toptank.studies.diagnose.evidence import Reading

CLEARLY = 5.0 / 1.8
"""How far below what he complained of the needle must stay [K]: 5 degF; judgement."""

WARMED_UP = 11.0
"""How far above the start of its thermostat every vehicle runs at work [K]: no limit is lower; judgement."""


def wanted_limit(limit: float, readings: Iterable[Reading], opens: float) -> float:
    """Return the limit that a repair is judged by [K].

    Parameters
    ----------
    limit : the customer's, or the usual one [K]
    readings : what was read in the conditions of the complaint
    opens : temperature at which the thermostat starts to open [K]
    """
    hot = [one.figure for one in readings if one.figure is not None and called_hot(one)]
    return min(limit, max(max(hot) - CLEARLY, opens + WARMED_UP)) if hot else limit


def called_hot(reading: Reading) -> bool:
    """Whether the driver calls what he read hot: by a word or by the red of the gauge, and it did not boil."""
    return reading.place != "transmission" and (reading.words == "hot" or reading.needle == "red")
