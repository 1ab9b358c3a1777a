"""What a shop's own closed jobs say of how often each cause is the reason: a Dirichlet update of the prior shares."""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.catalogue.causes.told_cases import prior_weights
from toptank.studies.diagnose.cause_sets import Floats

STRENGTH = 60.0
"""Closed jobs that the known shares are worth [1]; judgement: a shop's own year outweighs them slowly."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Learnt:
    """Shares of `CAUSES` after so many closed jobs, and how much of each share comes from them [1]."""

    shares: Floats
    jobs: int
    own: float


def learn(confirmed: Iterable[tuple[str, ...]], strength: float = STRENGTH) -> Learnt:
    """Update the known shares with the causes that were confirmed in closed jobs.

    Parameters
    ----------
    confirmed : causes of every closed job; several of one job share its count, names that are no cause count nothing
    strength : closed jobs that the known shares are worth [1]
    """
    names = [cause.id for cause in CAUSES]
    counts = np.zeros(len(CAUSES))
    jobs = 0
    for causes in confirmed:
        places = [names.index(cause) for cause in causes if cause in names]
        if places:
            counts[places] += 1.0 / len(places)
            jobs += 1
    alpha = strength * np.array(prior_weights()) + counts
    return Learnt(shares=alpha / alpha.sum(), jobs=jobs, own=jobs / (jobs + strength))
