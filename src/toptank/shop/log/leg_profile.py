"""From typed legs to a profile: one second a step, altitude from the grades."""

import dataclasses
from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from toptank.shop.log.legs import Leg
from toptank.system.duty import HEATER_FULL, Duty
from toptank.system.profile import Profile
from toptank.units.refusal import Refusal

STEP = 1.0
"""Length of a step [s]."""

LOWEST, HIGHEST = -450.0, 5400.0
"""Altitudes between which a drive must stay [m]; those of a duty."""

Floats = NDArray[np.float64]


def profile_of(legs: Sequence[Leg], *, duty: Duty, ambient: Callable[[Floats], Floats]) -> Profile:
    """Profile of a drive in legs.

    Parameters
    ----------
    legs : one after the other
    duty : all that a leg does not say, as numbers; altitude is that of the start
    ambient : air temperature outside [K] at times from the start [s]

    Raises
    ------
    Refusal : if the road leads below or above any road
    """
    counts = [max(round(leg.seconds / STEP), 1) for leg in legs]
    place = np.repeat(np.arange(len(legs)), counts)
    place = np.append(place, place[-1])
    time: Floats = STEP * np.arange(len(place), dtype=float)

    def along(values: Sequence[float]) -> Floats:
        return np.asarray(values, float)[place]

    # A leg's length is kept although its time is rounded to a step.
    speed = along([leg.speed * leg.seconds / (STEP * n) for leg, n in zip(legs, counts, strict=True)])
    grade = along([leg.grade for leg in legs])
    rise = np.cumsum(speed * STEP * grade / np.hypot(1.0, grade))
    altitude = float(duty.altitude) + np.concatenate([[0.0], rise[:-1]])
    for height in (float(altitude.min()), float(altitude.max())):
        if not LOWEST <= height <= HIGHEST:
            limit = f"lead to {height:,.0f} m above the sea, where no road is"
            fix = "check grades and distances, and the altitude of the start"
            raise Refusal(field="legs", value=f"{len(legs)} legs", limit=limit, fix=fix)
    return Profile.of(
        time=time,
        running=along([1.0 if leg.running else 0.0 for leg in legs]),
        duty=dataclasses.replace(
            duty,
            speed=speed,
            grade=grade,
            altitude=altitude,
            ambient=ambient(time),
            air_conditioning=along(_held([leg.air_conditioning for leg in legs], duty.air_conditioning)),
            heater=along(
                _held([None if leg.heater is None else HEATER_FULL * leg.heater for leg in legs], duty.heater)
            ),
            in_gear=along([1.0 if leg.in_gear else 0.0 for leg in legs]),
            engine_speed=along([leg.engine_speed for leg in legs]),
        ),
    )


def _held(switched: Sequence[float | None], first: float) -> list[float]:
    """What is switched leg by leg, on from where it was."""
    state, states = float(first), list[float]()
    for on in switched:
        state = state if on is None else float(on)
        states.append(state)
    return states
