"""What the gauge of a sound vehicle of each kind shows, and the conditions under which it is read.

The list is common practice, no source (`sound_readings.toml`): a check of the whole vehicle. A typical vehicle must
read inside it with its middle values.
"""

import functools
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from importlib import resources
from typing import Any

import numpy as np

from toptank.system.condition import Timing
from toptank.system.condition_batch import Condition
from toptank.system.duty import Duty
from toptank.system.profile import Profile
from toptank.units.conversion import to_si
from toptank.units.dimension import SPEED, TEMPERATURE, TEMPERATURE_RISE

CONDITIONS = ("idle", "traffic", "flat", "hill", "stop", "work")
"""What a list may have figures for; `stop` is a rise, the others are temperatures."""

DOUBT = 8.0 / 1.8
"""How far a figure of the list may be off [K]."""

FLAT_SPEED, HILL_SPEED = 58.0, 45.0
"""Speeds of level road and hill of most kinds [mph]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SoundReadings:
    """What a kind of vehicle reads when it is sound.

    Parameters
    ----------
    means : the kind, in words
    origin : where the figures come from
    flat_speed, hill_speed : speeds of its level road and of its hill [m/s]
    trailer : mass of the trailer that it pulls up the hill [kg]
    figures : condition -> from, to [K]; of `stop` a rise [K]
    condensing : where its air conditioning condenses at idle at 104 °F: from, to [K]; None where no maker tells
    """

    means: str
    origin: str
    flat_speed: float
    hill_speed: float
    trailer: float
    figures: Mapping[str, tuple[float, float]]
    condensing: tuple[float, float] | None


@functools.cache
def sound_readings(name: str) -> SoundReadings:
    """The list of a typical vehicle by its name."""
    document = _document()
    kind: dict[str, Any] = document["kinds"][document["vehicles"][name]]
    figures: dict[str, tuple[float, float]] = {}
    for condition in CONDITIONS:
        if condition in kind:
            dimension = TEMPERATURE_RISE if condition == "stop" else TEMPERATURE
            low, high = (float(to_si(value, dimension, "°F")) for value in kind[condition])
            figures[condition] = (low, high)
    return SoundReadings(
        means=str(kind["means"]),
        origin=str(document["origin"]),
        flat_speed=float(to_si(kind.get("flat_mph", FLAT_SPEED), SPEED, "mph")),
        hill_speed=float(to_si(kind.get("hill_mph", HILL_SPEED), SPEED, "mph")),
        trailer=float(kind.get("trailer_kg", 0.0)),
        figures=figures,
        condensing=(_kelvin(kind["condensing"][0]), _kelvin(kind["condensing"][1])) if "condensing" in kind else None,
    )


def idle() -> tuple[Duty, Profile]:
    """Ten minutes in neutral after an easy road, 80 °F: what came before, and the drive."""
    day = {"ambient": _kelvin(80.0)}
    return Duty(speed=13.0, **day), Profile.of(time=np.arange(600.0), duty=Duty(**day))


def traffic() -> tuple[Duty, Profile]:
    """Ten minutes of stop and go among cars, then five of standing in gear, 95 °F, air conditioning on."""
    day = {"ambient": _kelvin(95.0), "air_conditioning": 1.0}
    round_trip = np.repeat([0.0, 4.5, 9.0, 4.5], [40, 8, 30, 6])
    speed = np.concatenate([np.tile(round_trip, 7), np.zeros(300)])
    duty = Duty(speed=speed, in_gear=(speed == 0.0).astype(float), among_cars=1.0, **day)
    return Duty(speed=18.0, **day), Profile.of(time=np.arange(float(len(speed))), duty=duty)


def flat(speed: float) -> Duty:
    """Level road at 90 °F, air conditioning on, at a speed [m/s]."""
    return Duty(ambient=_kelvin(90.0), air_conditioning=1.0, speed=speed)


CONDENSING = "standing at 104 °F"
"""Condition under which makers print where the air conditioning condenses."""

HILL_SECONDS, STOP_SECONDS = 600, 300
"""How long hill and stop of the list last [s]."""


def hill_and_stop(speed: float, trailer: float) -> Profile:
    """Ten minutes of 6 % at 90 °F at a speed [m/s] with a trailer [kg], then a stop in gear; air conditioning on."""
    climbs = np.arange(HILL_SECONDS + STOP_SECONDS) < HILL_SECONDS
    duty = Duty(
        ambient=_kelvin(90.0),
        air_conditioning=1.0,
        speed=np.where(climbs, speed, 0.0),
        grade=np.where(climbs, 0.06, 0.0),
        in_gear=np.where(climbs, 0.0, 1.0),
        trailer_mass=trailer,
    )
    return Profile.of(time=np.arange(float(len(climbs))), duty=duty)


def conditions_of(name: str, usual: Duty) -> tuple[dict[str, Condition], dict[str, float]]:
    """The conditions of a typical vehicle's list, each after what came before it, and the most that it reads there [K].

    Coarser than the drives above, for many draws at once. `usual` is what the vehicle does all day.
    """
    listed = sound_readings(name)
    if "work" in listed.figures:
        return {"work": Condition.steady(usual)}, {"work": listed.figures["work"][1]}

    def after(before: str, seconds: float, duty: Duty) -> Condition:
        return Condition(duty=duty, timing=Timing(duration=seconds), after=before)

    mild = {"ambient": _kelvin(80.0)}
    hot = {"ambient": _kelvin(95.0), "air_conditioning": 1.0}
    warm = {"ambient": _kelvin(90.0), "air_conditioning": 1.0}
    climb = Duty(speed=listed.hill_speed, grade=0.06, trailer_mass=listed.trailer, **warm)
    found = {
        "easy road": Condition.steady(Duty(speed=13.0, **mild)),
        "idle": after("easy road", 600.0, Duty(**mild)),
        "road": Condition.steady(Duty(speed=18.0, **hot)),
        "queue": Condition(
            duty=Duty(speed=9.0, in_gear=1.0, among_cars=1.0, **hot),
            timing=Timing(duration=588.0, moving=44.0, standing=40.0),
            after="road",
        ),
        "traffic": after("queue", 300.0, Duty(in_gear=1.0, among_cars=1.0, **hot)),
        "flat": Condition.steady(flat(listed.flat_speed)),
        "hill": after("flat", float(HILL_SECONDS), climb),
        CONDENSING: Condition.steady(Duty(ambient=_kelvin(104.0), air_conditioning=1.0)),
    }
    return found, {place: listed.figures[place][1] for place in ("idle", "traffic", "flat", "hill")}


@functools.cache
def _document() -> dict[str, Any]:
    path = resources.files("toptank.knowledge").joinpath("sound_readings.toml")
    return tomllib.loads(path.read_text(encoding="utf-8"))


def _kelvin(degrees_F: float) -> float:
    return float(to_si(degrees_F, TEMPERATURE, "°F"))
