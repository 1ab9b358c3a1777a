"""A sound vehicle keeps within what its kind reads: its maker gave the engine a radiator that holds.

Drawn one by one from their spreads, a hot engine, a small core and a weak fan meet in vehicles that boil on the hill of
their kind on a usual summer's day. Nobody sold those. What is unknown of a vehicle is therefore tied: the heat of its
engine, its core, its air and its pump go together as far as the upper ends of `sound_readings.toml` ask, no further;
cooler than its kind may be any.

made_to_hold.toml, which `uv run poe hold` writes, has for every typical vehicle the few ways, across all that is
unknown of it, along which sound ones differ from any: by how much of each field's spread, where the sound ones lie
along them and how far they scatter, of what is standard normal before. Of what is of one kind or another (fins,
clutch) it has the shares of kinds among sound ones.

Source   common practice, no source: the lists of what sound vehicles read, each figure doubtful by 8 °F
Range    fields that are as its kind has them; what somebody measured, read off or guessed himself stays as he said, and
         speaks for nothing else: a core that was changed is no maker's choice
Scatter  the sound ones of a kind still differ along each way, by `spread`
"""

import functools
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from importlib import resources

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr, ndtri

from toptank.knowledge.calibrated import CALIBRATED
from toptank.knowledge.sheet import DECLARED, Fact, Provenance, Sheet

Floats = NDArray[np.float64]

CERTAIN = 1e-3
"""Least spread of sound vehicles along a way [1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way across all that is unknown of a kind, of length one.

    along : how far each field goes along it, by path, in its own spreads [1]
    middle : where sound vehicles lie on it, any being at 0 [1]
    spread : how far they scatter on it, any by 1 [1]
    """

    along: Mapping[str, float]
    middle: float
    spread: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Ties:
    """What sound vehicles of a kind have in common.

    ways : along which they differ from any that their sheet allows
    kinds : of what is of one kind or another, the shares that have what the sheet says, and each other, by path [1]
    """

    ways: tuple[Way, ...]
    kinds: Mapping[str, tuple[float, ...]]


@functools.cache
def ties_of(name: str) -> Ties:
    """The ties of a typical vehicle by its name; none where its sound ones are like any."""
    path = resources.files("toptank.knowledge").joinpath("made_to_hold.toml")
    found = tomllib.loads(path.read_text(encoding="utf-8")).get(name, {})
    return Ties(
        ways=tuple(Way(**way) for way in found.get("ways", [])),
        kinds={path: tuple(shares) for path, shares in found.get("kinds", {}).items()},
    )


def ends_of_kinds(fact: Fact, words: int) -> Floats:
    """Where, among places from 0 to 1, the kinds end: what the sheet says, then each other of so many words."""
    others = words - 1
    return np.asarray(1.0 - fact.spread * (1.0 - np.arange(others + 1) / others), np.float64)


def tied(sheet: Sheet, samples: Mapping[str, Floats]) -> dict[str, Floats]:
    """Places of the fields that are as the kind of a sheet has them, moved to where its sound vehicles are.

    Parameters
    ----------
    sheet : what is known of the vehicle
    samples : independent places (draw,), by path [1]

    Returns
    -------
    places : those that moved (draw,), by path [1]
    """
    ties = ties_of(sheet.like)
    return {**_along_ways(sheet, samples, ties.ways), **_of_kinds(sheet, samples, ties.kinds)}


def _along_ways(sheet: Sheet, samples: Mapping[str, Floats], ways: tuple[Way, ...]) -> dict[str, Floats]:
    wanted = dict.fromkeys(path for way in ways for path in way.along)
    paths = [path for path in wanted if path in samples and _is_of_its_kind(sheet, path)]
    if not paths:
        return {}
    scores = np.asarray(ndtri(np.stack([samples[path] for path in paths])), np.float64)
    moved = scores + 0.0
    for way in ways:
        along = np.array([way.along.get(path, 0.0) for path in paths])
        length = float(np.sqrt(along @ along))
        if length > CERTAIN:
            middle, spread = _left(way, length)
            along = along / length
            moved += np.outer(along, middle + (spread - 1.0) * (along @ scores))
    return dict(zip(paths, np.asarray(ndtr(moved), np.float64), strict=True))


def _of_kinds(sheet: Sheet, samples: Mapping[str, Floats], kinds: Mapping[str, tuple[float, ...]]) -> dict[str, Floats]:
    """Places of what is of one kind or another, so that each kind has its share of sound vehicles."""
    found: dict[str, Floats] = {}
    for path, shares in kinds.items():
        if path in samples and _is_of_its_kind(sheet, path):
            ends = ends_of_kinds(sheet.facts[path], len(shares))
            among_sound = np.cumsum(shares) / np.sum(shares)
            found[path] = np.asarray(np.interp(samples[path], [0.0, *among_sound], [0.0, *ends]), np.float64)
    return found


def _left(way: Way, length: float) -> tuple[float, float]:
    """Where sound vehicles lie along a way of which only this length is open [1], and how far they scatter [1].

    What all fields together say of a sum of which some are known: as a reading of that sum, with the known ones at
    the middle of their kind.
    """
    says = 1.0 / max(way.spread, CERTAIN) ** 2 - 1.0  # of the reading: one over its variance
    asks = way.middle / max(way.spread, CERTAIN) ** 2  # its value times that
    variance = 1.0 / (1.0 + says * length * length)
    return length * asks * variance, float(np.sqrt(variance))


def _is_of_its_kind(sheet: Sheet, path: str) -> bool:
    """Whether a fact is what its kind has, with the spread of its kind."""
    fact = sheet.facts[path]
    origin = fact.origin.removesuffix(CALIBRATED)
    return fact.how == Provenance.ASSUMED and (origin == DECLARED or origin.startswith("typical "))
