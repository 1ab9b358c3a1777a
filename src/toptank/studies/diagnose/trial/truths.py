"""Vehicles with known causes, as they come in before anybody has looked: what answers are tried on."""

import numpy as np

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.studies.diagnose.cause_sets import drawn, prior, sets_of
from toptank.studies.diagnose.ensemble import (
    Ensemble,
    apply_causes,
    drawn_conditions,
    drawn_vehicles,
    severities,
    taken,
    unsettled,
)
from toptank.studies.diagnose.posterior import Question

POOL = 4000
"""Vehicles of which they are drawn, each as often as its causes fit it."""


def truths(question: Question, n: int, seed: int, rng: np.random.Generator) -> Ensemble:
    """Draw n vehicles with causes as believed before any evidence, settled nowhere yet.

    Parameters
    ----------
    question : vehicle, days and shares; its evidence is not looked at
    n : number of vehicles
    seed, rng : of the vehicles; of their causes
    """
    some = drawn_vehicles(question.sheet, 4096, seed + 1)
    odds = np.array([float(np.mean(np.asarray(cause.prior_factor(some), float))) for cause in CAUSES])
    shares = question.shares * odds
    fits = np.flatnonzero(shares > 0.0)
    causes = [CAUSES[place] for place in fits]
    present = sets_of(len(fits))[drawn(prior(shares[fits]), POOL, rng)]
    sound = drawn_vehicles(question.sheet, POOL, seed)
    severity = severities(causes, present, rng)
    vehicle, factor = apply_causes(sound, causes, severity, odds[fits])
    whole = np.zeros((POOL, len(CAUSES)))
    whole[:, fits] = severity
    conditions = drawn_conditions(question.sheet, question.duties, POOL, seed)
    return taken(unsettled(sound, vehicle, whole, conditions), drawn(factor / factor.sum(), n, rng))
