"""Vehicles that the evidence leaves, as remedies are weighed with: each does what the customer told of his.

The diagnosis says which cause it is. How its vehicle behaves is the model's to say, and of the vehicles that have a
cause some never held that road when nothing was broken, though the customer's did. Within each cause those count that
did; how likely each cause is stays as the diagnosis has it.

Source   common practice, no source: a repair brings back what a vehicle did before it broke
Range    readings that say it ran hot; a vehicle that always ran so did not hold before
Scatter  a vehicle that does otherwise counts little, not nothing: `SELDOM`
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from scipy.special import expit

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.catalogue.causes.family import family_of
from toptank.knowledge.model_discrepancy import missed_in
from toptank.knowledge.stop_limit import limit_in
from toptank.shop.ask.worst_day import ran_hot
from toptank.studies.diagnose.cause_sets import drawn
from toptank.studies.diagnose.ensemble import taken
from toptank.studies.diagnose.posterior import resampled
from toptank.system.condition_batch import go_through
from toptank.system.trajectory import AT_THE_BOIL

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from toptank.shop.job.job import Job
    from toptank.studies.diagnose.cause_sets import Flags, Floats
    from toptank.studies.diagnose.ensemble import Ensemble
    from toptank.studies.diagnose.posterior import PosteriorSample
    from toptank.system.condition import Passage

    Index = NDArray[np.intp]
    Before = Mapping[str, tuple[Passage, float, Floats]]

WITHIN = 4.0
"""How far beyond a limit what is told and the model may differ before they disagree [K]; judgement."""

SELDOM = 0.02
"""What a vehicle counts that does otherwise than was told [1]; judgement."""

TIMES = 3
"""Days like that which it held before it broke [1]: nobody tells of them, and there were more; judgement."""

ROUNDS = 60
"""Rounds in which vehicles change places until they lie as they must: twice as many move nothing [1]."""

ALWAYS = "always so"


def possible_vehicles(job: Job, weighed: PosteriorSample, draws: int, seed: int) -> Ensemble:
    """Draws of equal weight from what the evidence leaves, each as it was told to behave.

    Where the cause was found, only vehicles that have it.
    """
    possible, rng = resampled(_as_confirmed(job, weighed), draws, seed), np.random.default_rng((seed, 1013))
    names = ran_hot(job)
    if not names:
        return possible
    before = {
        name: (passage, limit_in(possible.conditions[name], job.limit), missed_in(possible.conditions[name], draws))
        for name, passage in go_through(possible.sound, possible.conditions, names).items()
        if name in names
    }
    index = drawn(_as_told(job, possible, before), draws, rng)
    if job.evidence.history.onset != ALWAYS:
        index = _with_what_is_missed(index, before, _broken(possible), rng)
    return taken(possible, index)


def _as_told(job: Job, possible: Ensemble, before: Before) -> Floats:
    """Weight of each vehicle by how well it does what was told, within its leading cause; sum 1 [1].

    One with something broken held there before it broke; one with nothing broken runs hot there as it stands.
    """
    broken, always = _broken(possible), job.evidence.history.onset == ALWAYS
    like = np.ones(possible.n)
    for passage, limit, _ in before.values():
        hot = _hot(passage, limit)
        held = np.ones(possible.n) if always else (1.0 - hot) ** TIMES
        like *= np.maximum(np.where(broken, held, hot), SELDOM)
    weight = np.zeros(possible.n)
    leading = np.where(broken, possible.severity.argmax(axis=1), -1)
    for cause in np.unique(leading):
        there = leading == cause
        weight[there] = like[there] / like[there].sum() * there.mean()
    return weight / weight.sum()


def _broken(possible: Ensemble) -> Flags:
    return np.asarray(possible.present.any(axis=1), bool)


def _with_what_is_missed(index: Index, before: Before, broken: Flags, rng: np.random.Generator) -> Index:
    """The same vehicles, each beside what the model misses of it, so that it held before with that too.

    What is missed lasts (`toptank.knowledge.model_discrepancy`): of a vehicle that the model has hot, it has missed
    that it is cooler. Pairs change places by Metropolis' rule, which leaves both as they are on the whole.
    """

    def likely(vehicles: Index) -> Floats:
        total = np.zeros(len(vehicles))
        for passage, limit, missed in before.values():
            peak = np.asarray(passage.T_peak, float)[vehicles] + missed
            total -= TIMES * np.logaddexp(0.0, (peak - limit) / WITHIN)
        return np.where(broken[vehicles], total, 0.0)

    index, half = index.copy(), len(index) // 2
    for _ in range(ROUNDS):
        places = rng.permutation(len(index))
        one, other = places[:half], places[half : 2 * half]
        swapped = index.copy()
        swapped[one], swapped[other] = index[other], index[one]
        gained = likely(swapped) - likely(index)
        accepted = np.log(rng.random(half)) < gained[one] + gained[other]
        for side in (one, other):
            index[side[accepted]] = swapped[side[accepted]]
    return index


def runs_hot_untold(possible: Ensemble, held: Flags) -> Flags:
    """Vehicles that hold as they stand, though the customer's ran hot there: how, the model does not know (draw,).

    Of those only a repair of what they have can be said to help. A gauge that lies is no such thing.

    Parameters
    ----------
    held : which hold as they stand where it was told to run hot (`toptank.shop.ask.worst_day.told_hot`)
    """
    lying = [place for place, cause in enumerate(CAUSES) if family_of(cause.id) == "instruments"]
    others = np.delete(possible.present, lying, axis=1).any(axis=1) & ~possible.present[:, lying].any(axis=1)
    return np.asarray(held & others, bool)


def _hot(passage: Passage, limit: float) -> Floats:
    """How surely it passes a limit or boils, as the choice counts it [1]."""
    above = expit((np.asarray(passage.T_peak, float) - limit) / WITHIN)
    return np.where(np.asarray(passage.least_margin, float) <= AT_THE_BOIL, 1.0, above)


def _as_confirmed(job: Job, weighed: PosteriorSample) -> PosteriorSample:
    """Only vehicles that have what was found, where there are any."""
    if job.confirmed is None:
        return weighed
    found = [place for place, cause in enumerate(CAUSES) if cause.id in job.confirmed.causes]
    there = weighed.possible.present[:, found].any(axis=1) * weighed.weight
    total = float(there.sum())
    return weighed._replace(weight=there / total) if found and total > 0.0 else weighed
