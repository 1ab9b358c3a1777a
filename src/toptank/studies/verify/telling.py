"""The part of a check drive that tells a repaired vehicle from an unrepaired one, and how surely it would.

Where both would show the same, a reading proves nothing. The difference of a drive from its forecast is therefore the
best estimate of a steady error over the part where they differ most (generalised least squares over its readings, those
that miss together counted as such). Readings outside of it are left alone: with them the estimate would hang on the
jump at the edge of the part. So are those of the first minutes: they show where the vehicle came from, which is taken
for granted and not logged.
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import ndtr

from toptank.knowledge.drives.track import Floats
from toptank.knowledge.model_discrepancy import mean_error
from toptank.system.drive_batch import Unsure

DIFFERS = 1.0
"""Difference between unrepaired and repaired below which a drive shows nothing of the repair [K]; judgement."""

MOST_OF_IT = 0.5
"""Share of the largest difference from which a reading belongs to the telling part [1]."""

FOLLOWS = 240.0
"""Time that engine and coolant take to follow what is driven [s]: the 200 to 250 s of their heat store. What was read
before says nothing, where anything was read later."""

HOTTEST = 80.0
"""Percentile of the forecast from which a reading belongs to it where nothing differs [%]."""

SURE = 0.9
"""Place of a drive in its forecast beyond which it is worse, and under one less that, better [1]."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Telling:
    """How to read a difference from the forecast out of a drive.

    Parameters
    ----------
    inside : which readings belong to the telling part (reading,)
    weights : of each reading in the difference [1] (reading,)
    scatter : what of the difference the right vehicle may still miss, as a standard deviation [K]
    repaired, unrepaired : difference of every draw [K] (draw,), that of the middle repaired one being 0
    """

    inside: np.ndarray
    weights: Floats
    scatter: float
    repaired: Floats
    unrepaired: Floats

    def place(self, difference: float) -> float:
        """Share of repaired vehicles that would show less than that [1]."""
        return float(np.mean(ndtr((difference - self.repaired) / self.scatter)))

    def quantile(self, share: float, *, repaired: bool = True) -> float:
        """Difference that a share of repaired, or of unrepaired, vehicles would stay under [K]."""
        draws = self.repaired if repaired else self.unrepaired
        low, high = float(draws.min()) - 5.0 * self.scatter, float(draws.max()) + 5.0 * self.scatter
        for _ in range(60):
            middle = 0.5 * (low + high)
            below = float(np.mean(ndtr((middle - draws) / self.scatter)))
            low, high = (middle, high) if below < share else (low, middle)
        return 0.5 * (low + high)

    @property
    def power(self) -> float:
        """Chance that the drive would have come out worse, had the repair done nothing [1]."""
        beyond = self.quantile(SURE)
        return float(np.mean(ndtr((self.unrepaired - beyond) / self.scatter)))


def telling(time: Floats, repaired: Floats, unrepaired: Floats, spread: Floats, *, more: float = 0.0) -> Telling:
    """Find the telling part of a drive.

    Parameters
    ----------
    time : from the start of the drive on (reading,) [s]
    repaired, unrepaired : what draws would show (draw, reading) [K]
    spread : covariance of what the right vehicle may miss (reading, reading) [K2]
    more : what else scatters the difference, such as a grade that is not well known [K]
    """
    middle = np.median(repaired, axis=0)
    differs = np.median(unrepaired, axis=0) - middle
    late = time >= min(FOLLOWS, float(time[-1]))
    most = float(differs[late].max())
    if most >= DIFFERS:
        inside = late & (differs >= MOST_OF_IT * most)
    else:
        inside = late & (middle >= float(np.percentile(middle[late], HOTTEST)))
    weights = np.zeros(len(middle))
    weights[inside], variance = mean_error(spread[np.ix_(inside, inside)], np.ones(int(inside.sum())))
    return Telling(
        inside=inside,
        weights=weights,
        scatter=float(np.hypot(np.sqrt(variance), more)),
        repaired=np.asarray((repaired - middle) @ weights, float),
        unrepaired=np.asarray((unrepaired - middle) @ weights, float),
    )


def scatter_of_weather(differences: Floats, unsure: Unsure) -> float:
    """Standard deviation that the day alone gives the difference [K]: a line through the draws."""
    days = np.stack([np.broadcast_to(np.asarray(part, float), differences.shape) for part in unsure], axis=1)
    days = days - days.mean(axis=0)
    slopes: Floats = np.asarray(np.linalg.lstsq(days, differences - differences.mean(), rcond=None)[0], np.float64)
    return float(np.std(days @ slopes))
