"""What it was in the told cases: counts beside the judged weights of the causes, any case left out at will."""

import tomllib
from collections import defaultdict
from collections.abc import Mapping
from functools import cache
from importlib import resources
from types import MappingProxyType

from toptank.catalogue.causes.all_causes import CAUSES

JUDGED = 600.0
"""Told cases that the judged weights are worth [1]: from 100 to 600 the told cases come out alike; they were told
because they were hard, so that the largest figure is taken; judgement."""


@cache
def told_cases() -> Mapping[str, tuple[str, ...]]:
    """Keys of the causes that were confirmed, by the name of the case; several are one answer."""
    declared = resources.files("toptank.catalogue.causes").joinpath("told_cases.toml").read_text(encoding="utf-8")
    return MappingProxyType({name: tuple(causes) for name, causes in tomllib.loads(declared).items()})


@cache
def prior_weights(without: str = "") -> tuple[float, ...]:
    """Prior weight of every cause of `CAUSES` [1], summing to 1: as judged, and as often as in the told cases.

    Parameters
    ----------
    without : name of a case that does not count, because it is to be diagnosed itself
    """
    counts: defaultdict[str, float] = defaultdict(float)
    for name, causes in told_cases().items():
        for cause in causes if name != without else ():
            counts[cause] += 1.0 / len(causes)
    judged = sum(cause.prior_weight for cause in CAUSES)
    weights = [JUDGED * cause.prior_weight / judged + counts[cause.id] for cause in CAUSES]
    total = sum(weights)
    return tuple(weight / total for weight in weights)
