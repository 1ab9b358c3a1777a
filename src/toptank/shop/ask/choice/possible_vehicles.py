"""Vehicles that the evidence leaves, as remedies are weighed with: each does what the customer told of his.

The diagnosis says which cause it is. How its vehicle behaves is the model's to say, and of the vehicles that have a
cause some never held that road when nothing was broken, though the customer's did. Within each cause those count that
did; how likely each cause is stays as the diagnosis has it.

Source   common practice, no source: a repair brings back what a vehicle did before it broke
Range    readings that say it ran hot; a vehicle that always ran so did not hold before, any other went
         through summers
Scatter  a vehicle that does otherwise counts little, not nothing: `SELDOM`
"""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.knowledge.model_discrepancy import missed_in
from toptank.knowledge.stop_rise import rise_allowed
from toptank.shop.ask.choice.worst_day import HOT_DAY, ran_hot
from toptank.studies.diagnose.cause_sets import drawn
from toptank.studies.diagnose.ensemble import taken
from toptank.studies.diagnose.evidence import WORDS
from toptank.studies.diagnose.heard import AS_TOLD, MISTAKEN, drawn_hot_spots, seen_of_the_model
from toptank.studies.diagnose.likelihood import reading_likelihoods
from toptank.studies.diagnose.posterior import resampled
from toptank.system.condition_batch import go_through

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from toptank.shop.job.job import Job
    from toptank.studies.diagnose.cause_sets import Flags, Floats
    from toptank.studies.diagnose.ensemble import Ensemble
    from toptank.studies.diagnose.evidence import Reading
    from toptank.studies.diagnose.posterior import PosteriorSample
    from toptank.system.condition import Passage
    from toptank.system.condition_batch import Condition

    Index = NDArray[np.intp]

WITHIN = 0.55 * AS_TOLD
"""How far beyond a limit what is told and a vehicle may differ before they disagree [K]: what a telling leaves open, as
the scale of a logistic; what the model misses is each vehicle's own."""

SELDOM = MISTAKEN / len(WORDS)
"""What a vehicle counts that does otherwise than was told [1]: as often as something is told by mistake."""

TIMES = 3
"""Days like that which it held before it broke, and on which it ran hot since [1]: more than one; judgement."""

ROUNDS = 60
"""Rounds in which vehicles change places until they lie as they must: twice as many move nothing [1]."""

SAMPLED = 48
"""Errors of the model over which what was told is averaged for each vehicle [1]."""

ALWAYS = "always so"


class _Told(NamedTuple):
    """A condition of the complaint: what was read in it, and how the vehicles come through it (draw,).

    readings : but that it boiled
    before : without what broke, where it ran hot and did not always; None elsewhere
    beyond : whether what was told is beyond the limit; a needle may stand lower at a stop and still be complained of
    limit : that the vehicle stayed under before [K]
    missed : what the model misses, by place and not by vehicle [K]
    """

    readings: tuple[Reading, ...]
    boiled: bool
    now: Passage
    before: Passage | None
    beyond: bool
    limit: float
    missed: Floats


def possible_vehicles(job: Job, weighed: PosteriorSample, draws: int, seed: int) -> Ensemble:
    """Draws of equal weight from what the evidence leaves, each as it was told to behave.

    The vehicle at each place goes with what the model misses at that place (`toptank.knowledge.model_discrepancy`).
    Where the cause was found, only vehicles that have it.
    """
    possible, rng = resampled(_as_confirmed(job, weighed), draws, seed), np.random.default_rng((seed, 1013))
    told = _told(job, possible)
    if not told:
        return possible
    if any(one.boiled for one in told):
        possible = possible._replace(boils_within=drawn_hot_spots(possible.n, rng))
    index = drawn(_as_told(told, possible, rng), draws, rng)
    return taken(possible, _with_what_is_missed(index, told, possible, rng))


def _told(job: Job, possible: Ensemble) -> list[_Told]:
    """The conditions of which a reading says how hot it ran."""
    readings = {
        duty.name: tuple(one for one in job.evidence.readings if one.duty == duty.name and one.place != "transmission")
        for duty in job.duties
    }
    names = [name for name, seen in readings.items() if seen]
    hot, always = ran_hot(job), job.evidence.history.onset == ALWAYS
    limits = {duty.name: job.judged_by + rise_allowed(duty) for duty in job.duties}
    now = go_through(possible.vehicle, possible.conditions, names, known=possible.passages)
    before = {} if always else go_through(possible.sound, _summer_before(possible.conditions), hot)
    return [
        _Told(
            readings=tuple(one for one in readings[name] if one.words != "boiled"),
            boiled=any(one.words == "boiled" for one in readings[name]),
            now=now[name],
            before=before.get(name),
            beyond=name in hot and all((one.figure or np.inf) >= limits[name] for one in readings[name]),
            limit=limits[name],
            missed=missed_in(possible.conditions[name], possible.n),
        )
        for name in names
    ]


def _summer_before(conditions: Mapping[str, Condition]) -> dict[str, Condition]:
    """The same conditions on the summer's day that it came through for years."""
    return {name: _on_hot_day(one) for name, one in conditions.items()}


def _on_hot_day(condition: Condition) -> Condition:
    hotter = np.maximum(np.asarray(condition.duty.ambient, float), HOT_DAY)
    return dataclasses.replace(condition, duty=dataclasses.replace(condition.duty, ambient=hotter))


def _as_told(told: list[_Told], possible: Ensemble, rng: np.random.Generator) -> Floats:
    """Weight of each vehicle by how well it does what was told, within its leading cause; sum 1 [1].

    What was read is in the weight of a vehicle already: it counts by how much better it is read where the vehicle did
    hold before, and where it is the model that must show it.
    """
    everyone = np.arange(possible.n)
    like = np.mean(
        [
            np.exp(_likely(told, possible, everyone, np.full(possible.n, place)))
            for place in rng.choice(possible.n, min(SAMPLED, possible.n), replace=False)
        ],
        axis=0,
    )
    counted = reading_likelihoods([one for place in told for one in place.readings], possible).sum(axis=0)
    like = np.maximum(like / np.exp(counted), SELDOM)
    weight = np.zeros(possible.n)
    leading = np.where(_broken(possible), possible.severity.argmax(axis=1), -1)
    for cause in np.unique(leading):
        there = leading == cause
        weight[there] = like[there] / like[there].sum() * there.mean()
    return weight / weight.sum()


def _likely(told: list[_Told], possible: Ensemble, vehicles: Index, places: Index) -> Floats:
    """Logarithm of the likelihood of all that was told, of vehicles at places: as it runs now, and ran before."""
    total = np.zeros(len(vehicles))
    broken = _broken(possible)[vehicles]
    opens = np.asarray(possible.sound.thermostat.starts_opening, float)[vehicles]
    within = possible.boils_within[vehicles]
    for one in told:
        missed = one.missed[places]
        now = taken(one.now, vehicles)
        for reading in one.readings:
            total += np.log(seen_of_the_model(reading, now, opens, missed))
        if one.boiled:
            total += _so(within - np.asarray(now.least_margin, float) + missed)
        elif one.beyond:
            total += _so(_excess(np.asarray(now.T_peak, float), now, one.limit, within) + missed)
        if one.before is not None:
            before = taken(one.before, vehicles)
            past = _excess(np.asarray(before.T_peak, float), before, one.limit, within) + missed
            total += np.where(broken, _so(-past), 0.0)
    return total


def _excess(peak: Floats, passage: Passage, limit: float, within: Floats) -> Floats:
    """How far a passage goes beyond its limit or to where it is seen to boil [K], whichever is further."""
    return np.maximum(peak - limit, within - np.asarray(passage.least_margin, float))


def _so(beyond: Floats) -> Floats:
    """Logarithm of the chance that something was so on all of some days, for how far beyond its edge it is [K]."""
    return -TIMES * np.logaddexp(0.0, -beyond / WITHIN)


def _broken(possible: Ensemble) -> Flags:
    return np.asarray(possible.present.any(axis=1), bool)


def _with_what_is_missed(index: Index, told: list[_Told], possible: Ensemble, rng: np.random.Generator) -> Index:
    """The same vehicles, each at a place whose error of the model goes with what was told of it.

    What is missed lasts (`toptank.knowledge.model_discrepancy`): of a vehicle that the model has hotter than it was
    read, it has missed that it is cooler. Pairs change places by Metropolis' rule, which leaves both as they are on
    the whole.
    """
    index, half = index.copy(), len(index) // 2
    everywhere = np.arange(len(index))
    stands = _likely(told, possible, index, everywhere)
    for _ in range(ROUNDS):
        places = rng.permutation(len(index))
        one, other = places[:half], places[half : 2 * half]
        swapped = index.copy()
        swapped[one], swapped[other] = index[other], index[one]
        would = _likely(told, possible, swapped, everywhere)
        gained = would - stands
        accepted = np.log(rng.random(half)) < gained[one] + gained[other]
        for side in (one, other):
            index[side[accepted]] = swapped[side[accepted]]
            stands[side[accepted]] = would[side[accepted]]
    return index


def _as_confirmed(job: Job, weighed: PosteriorSample) -> PosteriorSample:
    """Only vehicles that have what was found, where there are any."""
    if job.confirmed is None:
        return weighed
    found = [place for place, cause in enumerate(CAUSES) if cause.id in job.confirmed.causes]
    there = weighed.possible.present[:, found].any(axis=1) * weighed.weight
    total = float(there.sum())
    return weighed._replace(weight=there / total) if found and total > 0.0 else weighed
