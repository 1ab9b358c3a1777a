"""The road of a fleet: read once, driven by many, in steps that are as long as the temperatures allow."""

from __future__ import annotations

import dataclasses
from functools import lru_cache
from typing import TYPE_CHECKING, Any

import numpy as np

from toptank.shop.log.route_file import read_limits, read_route
from toptank.shop.log.weather import Weather
from toptank.system.numerics.jax_library import jax
from toptank.system.profile import Profile

if TYPE_CHECKING:
    from pathlib import Path

    from toptank.system.duty import Duty
    from toptank.units.conversion import System

STEP = 4
"""Seconds of a road that are driven in one step: the peak moves by less than 0.3 K against steps of one second."""


def road_profile(path: Path, start: Duty, speed: str | None, system: System) -> Profile:
    """The profile of a GPX file on the day of a duty; the air is taken as that of the duty all the way.

    Raises
    ------
    Refusal : as for a drive along a route
    """
    figures = tuple(float(np.asarray(value)) for value in jax.tree.leaves(start))
    return _profile(path, path.stat().st_mtime_ns, figures, _Frozen(start), speed, system)


class _Frozen:
    """A duty that a cache need not compare: its figures stand beside it."""

    def __init__(self, duty: Duty) -> None:
        self.duty = duty

    def __hash__(self) -> int:
        return 0

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Frozen)


@lru_cache(maxsize=64)
def _profile(
    path: Path, _changed: int, _figures: tuple[float, ...], start: _Frozen, speed: str | None, system: System
) -> Profile:
    limits = read_limits(speed, system=system, notes=[]) if speed else ()
    weather = Weather(at=(0.0,), ambient=(float(start.duty.ambient),), timed=False)
    return coarser(read_route(path, duty=start.duty, weather=weather, limits=limits).profile, STEP)


def coarser(profile: Profile, every: int) -> Profile:
    """The same road in steps so many times as long: each has the mean of the ones that it stands for."""
    n = len(profile.time) // every * every
    if n < 2 * every:
        return profile

    def mean(leaf: Any) -> Any:
        return np.asarray(leaf, float)[:n].reshape(-1, every).mean(axis=1)

    return dataclasses.replace(
        profile,
        time=np.asarray(profile.time)[:n:every],
        distance=np.asarray(profile.distance)[:n:every],
        running=np.asarray(profile.running)[:n:every],
        duty=jax.tree.map(mean, profile.duty),
    )
