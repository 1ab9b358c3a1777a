"""Possible vehicles: as many as wanted, drawn from a sheet.

Every field has its own stream, seeded by its name, so that its draws stay the same whatever else becomes known. Each
stream is stratified (a Latin hypercube over all fields): one draw in each of n equally likely slices, in random order.
"""

import math
import zlib
from collections.abc import Iterable, Mapping, Sequence
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr, ndtri

from toptank.knowledge.calibrated import CALIBRATED, Calibration, calibration
from toptank.knowledge.made_to_hold import tied
from toptank.knowledge.sheet import TIMING_KEYS, DutySheet, Fact, Sheet, declaration_of, duty_fields, vehicle_of
from toptank.system.condition import Timing
from toptank.system.duty import Duty
from toptank.system.vehicle import Vehicle
from toptank.units.declaration import Declaration
from toptank.units.dimension import CHOICE, COUNT, YES_NO

UnitSamples: TypeAlias = Mapping[str, NDArray[np.float64]]
"""For every doubtful field its place among all that it may be: 0.1 is the value that a tenth lies below [1]."""


def draws(sheet: Sheet, n: int, seed: int, learnt: Calibration | None = None, *, made_to_hold: bool = True) -> Vehicle:
    """Draw n possible vehicles; every field is an array of length n.

    Parameters
    ----------
    sheet, n, seed : what is known, how many, same seed same draws
    learnt : a calibration in place of the shipped one
    made_to_hold : only sound ones, as their kind is (`made_to_hold.py`); otherwise any that the spreads allow
    """
    return vehicle_at(sheet, unit_samples(doubtful(sheet), n, seed), n, learnt, made_to_hold=made_to_hold)


def draw_duty(sheet: DutySheet, n: int, seed: int) -> Duty:
    """Draw n possible days of one duty; two duties share their draws, as they share thermometer and map."""
    return duty_at(sheet, unit_samples(doubtful_of_duties([sheet]), n, seed), n)


def doubtful(sheet: Sheet) -> dict[str, Declaration]:
    """Fields of a vehicle that are not certain, by section and key."""
    declared = {path: declaration_of(path) for path in sheet.facts}
    return {path: declared[path] for path, fact in sheet.facts.items() if _in_doubt(fact, declared[path])}


def doubtful_of_duties(sheets: Sequence[DutySheet]) -> dict[str, Declaration]:
    """Fields of the duties that are not certain in at least one of them."""
    keys = duty_fields()
    return {
        f"duty.{key}": declaration
        for key, declaration in keys.items()
        if any(key in sheet.facts and _in_doubt(sheet.facts[key], declaration) for sheet in sheets)
    }


def unit_samples(paths: Iterable[str], n: int, seed: int) -> UnitSamples:
    """Draw n places of every field named."""
    return {path: _slices(path, n, seed) for path in paths}


def vehicle_at(
    sheet: Sheet, chances: UnitSamples, n: int, learnt: Calibration | None = None, *, made_to_hold: bool = True
) -> Vehicle:
    """The n possible vehicles at these places; fields without places are certain.

    Places are independent; what makes a sound vehicle of its kind, and what the calibration has found to hang together,
    is tied here. Without `made_to_hold` any vehicle counts that the spreads of a sheet allow.
    """
    places = {**chances, **(tied(sheet, chances) if made_to_hold else {})}
    open_ones = [path for path, fact in sheet.facts.items() if path in chances and fact.origin.endswith(CALIBRATED)]
    places |= (learnt or calibration()).tied(open_ones, places)
    return vehicle_of(
        {path: _at(fact, declaration_of(path), places.get(path), n) for path, fact in sheet.facts.items()}
    )


def duty_at(sheet: DutySheet, chances: UnitSamples, n: int) -> Duty:
    """The n possible days of a duty at these places."""
    return Duty(**{key: _of_duty(sheet, key, chances, n) for key in sheet.facts if key not in TIMING_KEYS})


def timing_at(sheet: DutySheet, chances: UnitSamples, n: int) -> Timing:
    """How long a duty lasts on the n days at these places."""
    return Timing(**{field: _of_duty(sheet, key, chances, n) for key, field in TIMING_KEYS.items()})


def _of_duty(sheet: DutySheet, key: str, chances: UnitSamples, n: int) -> NDArray[np.float64]:
    return _at(sheet.facts[key], duty_fields()[key], chances.get(f"duty.{key}"), n)


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
    return _at(fact, declaration, _slices(path, n, seed), n)


def steps(declaration: Declaration) -> bool:
    """Whether a field takes separate values only: a count or a choice."""
    return declaration.dimension in (CHOICE, YES_NO, COUNT)


def _slices(path: str, n: int, seed: int) -> NDArray[np.float64]:
    rng = np.random.default_rng((seed, zlib.crc32(path.encode())))
    return (rng.permutation(n) + rng.random(n)) / n


def _in_doubt(fact: Fact, declaration: Declaration) -> bool:
    return fact.spread > 0.0 and not (declaration.relative and fact.value == 0.0)


def _at(fact: Fact, declaration: Declaration, u: NDArray[np.float64] | None, n: int) -> NDArray[np.float64]:
    """Values of a field at its places u."""
    if u is None or not _in_doubt(fact, declaration):
        return np.full(n, fact.value, float)
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
