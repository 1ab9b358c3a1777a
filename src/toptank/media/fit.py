"""The fits that tools/fit_media.py wrote: loaded once, kept as plain tuples, evaluated by Horner's rule."""

import json
from collections.abc import Mapping
from importlib import resources
from typing import Any, TypeAlias

from toptank.units.arrays import Real, namespace

Coefficients: TypeAlias = tuple[float, ...]
"""From the constant upwards."""

Surface: TypeAlias = tuple[Coefficients, ...]
"""A row for each power of the temperature, in each the coefficients of the powers of the share."""

CENTRE, SCALE = 335.0, 60.0
"""Temperatures enter as (T - 335) / 60, or as 335 / T - 1 where a logarithm is fitted [K]."""

LOWEST, HIGHEST = 233.15, 398.15
"""Temperatures between which properties of liquids are evaluated; beyond, they stay as they are there [K]."""


def load(name: str) -> Mapping[str, Any]:
    """Read the fits of one medium."""
    text = resources.files("toptank.media").joinpath("fits", f"{name}.json").read_text(encoding="utf-8")
    fits: Mapping[str, Any] = json.loads(text)
    return fits


def coefficients(listed: list[float]) -> Coefficients:
    """Freeze a list of coefficients."""
    return tuple(float(c) for c in listed)


def surface(listed: list[list[float]]) -> Surface:
    """Freeze the coefficients of a surface."""
    return tuple(coefficients(row) for row in listed)


def polynomial(x: Real, terms: tuple[Real, ...]) -> Real:
    """Evaluate terms[0] + terms[1] x + terms[2] x² + ..."""
    total = terms[-1]
    for term in reversed(terms[:-1]):
        total = total * x + term
    return total


def blended(x: Real, v: Real, weight: Real, first: Surface, second: Surface) -> Real:
    """Evaluate first + weight (second - first) at x and v.

    The coefficients of the powers of x come first: they hold no temperature, so that a compiler can lift them out of
    the loop over temperatures.
    """
    terms = tuple(
        a + weight * (b - a)
        for a, b in ((polynomial(v, p), polynomial(v, q)) for p, q in zip(first, second, strict=True))
    )
    return polynomial(x, terms)


def plain(T: Real, lowest: float = LOWEST, highest: float = HIGHEST) -> Real:
    """Turn a temperature, kept between its limits, into the variable of a plain fit."""
    return (namespace(T).clip(T, lowest, highest) - CENTRE) / SCALE


def inverse(T: Real, lowest: float = LOWEST, highest: float = HIGHEST) -> Real:
    """Turn a temperature, kept between its limits, into the variable of a logarithmic fit."""
    return CENTRE / namespace(T).clip(T, lowest, highest) - 1.0
