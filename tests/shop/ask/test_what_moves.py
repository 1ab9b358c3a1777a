"""Every field of a sheet moves a figure of a forecast somewhere, but for those that are said to move none."""

import functools
from collections.abc import Iterable
from dataclasses import fields as attributes
from typing import Any

import numpy as np
import pytest

from toptank.knowledge.sheet import declaration_of, fields, vehicle_of
from toptank.knowledge.typical import typical_names, typical_sheet
from toptank.shop.answers.words.figures import MOVES_NOTHING
from toptank.system.balance import Balance
from toptank.system.duty import Duty
from toptank.system.population import solve

DUTIES = (
    # All that can be on is on, up a slope on a hot day: heater, condenser, converter, trailer.
    Duty(ambient=310.0, speed=20.0, grade=0.05, air_conditioning=1.0, heater=1.0, trailer_mass=800.0),
    Duty(ambient=310.0, speed=8.0, grade=0.08, gear=3.0),
    Duty(ambient=316.0, air_conditioning=1.0, in_gear=1.0),
    Duty(ambient=300.0, speed=32.0, gear=2.0),
)
MOVED = 1e-6
"""Share by which a figure must move; equal vehicles of one batch differ by nothing at all."""


def _other_value(path: str, value: float) -> float:
    """The end of what is usual that lies further away; another word of a choice."""
    low, high = declaration_of(path).plausible
    return low if value - low > high - value else high


@functools.cache
def _moved(name: str, paths: tuple[str, ...], duty: int) -> frozenset[str]:
    """The paths whose change moves a figure of a typical vehicle at one of the duties."""
    values = {path: fact.value for path, fact in typical_sheet(name).facts.items()}
    drawn = {
        path: np.array([value, *(_other_value(path, value) if path == one else value for one in paths)])
        for path, value in values.items()
    }
    balance = solve(vehicle_of(drawn), DUTIES[duty])
    moved: set[str] = set()
    for attribute in attributes(Balance):
        figures: Any = np.asarray(getattr(balance, attribute.name))
        if attribute.name == "heat_imbalance":  # what is left over when the search ends: no figure
            continue
        far = np.abs(figures[1:] - figures[0]) > MOVED * max(abs(figures[0]), 1e-9)
        moved |= {path for path, one in zip(paths, far, strict=True) if one}
    return frozenset(moved)


def _never_moved(paths: Iterable[str]) -> set[str]:
    left = {*paths}
    for name in typical_names():
        for duty in range(len(DUTIES)):
            if left:
                left -= _moved(name, tuple(sorted(left)), duty)
    return left


def test_every_field_moves_a_figure_but_for_those_named() -> None:
    assert _never_moved(path for path, _ in fields()) == set(MOVES_NOTHING)


@pytest.mark.parametrize("path", MOVES_NOTHING)
def test_what_moves_nothing_says_what_it_is_for(path: str) -> None:
    assert path in typical_sheet(typical_names()[0]).facts
    assert MOVES_NOTHING[path].startswith("it tells")
