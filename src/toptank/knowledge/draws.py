"""Possible vehicles: as many as wanted, drawn from a sheet.

Every field has its own stream, seeded by its name, so that its draws stay the same whatever else becomes known. Each
stream is stratified (a Latin hypercube over all fields): one draw in each of n equally likely slices, in random order.
"""

import math
import zlib

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr, ndtri

from toptank.knowledge.sheet import DutySheet, Fact, Sheet, declaration_of, duty_fields, vehicle_of
from toptank.system.duty import Duty
from toptank.system.vehicle import Vehicle
from toptank.units.declaration import Declaration
from toptank.units.dimension import CHOICE, COUNT, YES_NO


def draws(sheet: Sheet, n: int, seed: int) -> Vehicle:
    """Draw n possible vehicles; every field is an array of length n."""
    return vehicle_of(
        {path: draw_fact(fact, declaration_of(path), path, n, seed) for path, fact in sheet.facts.items()}
    )


def draw_duty(sheet: DutySheet, n: int, seed: int) -> Duty:
    """Draw n possible days of one duty; two duties share their draws, as they share thermometer and map."""
    keys = duty_fields()
    return Duty(**{key: draw_fact(fact, keys[key], f"duty.{key}", n, seed) for key, fact in sheet.facts.items()})


def draw_fact(fact: Fact, declaration: Declaration, path: str, n: int, seed: int) -> NDArray[np.float64]:
    """Draw n values of one field: normal, log-normal where the spread is relative, a flip where it is a choice.

    Draws are truncated to the hard limits without piling up there. The median stays at the stated value unless a
    limit cuts the distribution.

    Parameters
    ----------
    fact : value and spread
    declaration : limits and kind of the field
    path : names the stream of random numbers
    n : number of draws
    seed : same seed, same draws
    """
    if fact.spread <= 0.0 or (declaration.relative and fact.value == 0.0):
        return np.full(n, fact.value, float)
    rng = np.random.default_rng((seed, zlib.crc32(path.encode())))
    u = (rng.permutation(n) + rng.random(n)) / n
    if declaration.dimension in (CHOICE, YES_NO):
        return _flipped(u, fact, len(declaration.choices))
    low, high = declaration.hard
    if declaration.relative:
        sigma = math.sqrt(math.log1p(fact.spread * fact.spread))
        centre = math.log(fact.value)
        lowest = math.log(low) if low > 0.0 else -math.inf
        values = np.exp(_truncated(u, centre, sigma, lowest, math.log(high)))
    else:
        values = _truncated(u, fact.value, fact.spread, low, high)
    if declaration.dimension == COUNT:
        values = np.rint(values)
    return np.clip(values, low, high)  # against rounding in the last digit only


def _truncated(u: NDArray[np.float64], centre: float, sigma: float, low: float, high: float) -> NDArray[np.float64]:
    """Quantiles u of a normal distribution cut at two limits."""
    a, b = ndtr((low - centre) / sigma), ndtr((high - centre) / sigma)
    return centre + sigma * ndtri(a + (b - a) * u)


def _flipped(u: NDArray[np.float64], fact: Fact, words: int) -> NDArray[np.float64]:
    """The stated word, or with the probability of the spread one of the others, each as likely as the next."""
    kept = 1.0 - fact.spread
    others = [code for code in range(words) if code != int(fact.value)]
    place = np.clip((u - kept) / fact.spread * len(others), 0, len(others) - 1).astype(int)
    return np.where(u < kept, fact.value, np.asarray(others, float)[place])
