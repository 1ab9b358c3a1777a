"""Drives of the evidence, driven by many vehicles, and the figures that are read off them."""

import dataclasses
from itertools import pairwise
from typing import Any

import numpy as np

from calibrating.evidence import Drive, Figure, Floats
from toptank.equations.cold_friction import WARM
from toptank.system.drive_batch import Drives, Unsure, drive_all
from toptank.system.duty import HEATER_FULL, Duty
from toptank.system.numerics.jax_library import jax
from toptank.system.profile import Profile
from toptank.system.sides.heat_side import demand, engine_heat, weather
from toptank.system.vehicle import Vehicle

ICE = 273.15

RUNS = 1.0
"""Speed from which an electric fan counts as running [1/s]."""


CREEPS, EASY_ROAD = (0.3, 6.0), 13.0
"""Speeds between which a vehicle creeps, and that of an easy road [m/s]; judgement."""

COLD_FOR = 100.0
"""Time in which what the model misses of a warm-up comes to its full size: at the start it is known [s]."""


def readings(
    drive: Drive, central: Vehicle, vehicles: Vehicle, seed: int, missed: Floats, *, times: bool = True
) -> Floats:
    """What each vehicle would have shown (draw, figure), in the units of the evidence.

    `missed` (draw,) is what the model misses of a warm-up [K]; here only times to a temperature need it. For these the
    drive goes on as it went in its second half until it is twice as long: slow vehicles arrive late, not never. Without
    `times` they are not wanted, and it ends where it ended.
    """
    longer = times and any(figure.ask == "time to" for figure in drive.figures)
    profile = profile_of(drive, central, longer=longer)
    n = len(np.asarray(vehicles.engine.displacement))
    rng = np.random.default_rng((seed, len(drive.name), int(10 * drive.ambient_degC) % 997))
    unsure = Unsure(ambient=drive.ambient_error * rng.standard_normal(n), head_wind=np.zeros(n))
    if drive.start == "settled":
        drives = drive_all(vehicles, profile, before=_came_from(drive, profile), unsure=unsure)
    else:
        drives = drive_all(vehicles, profile, stood_at=drive.start_degC + ICE, unsure=unsure)
    time = np.asarray(profile.time, float)
    return np.stack([_read(figure, time, drives, missed) for figure in drive.figures], axis=1)


def _came_from(drive: Drive, profile: Profile) -> Duty:
    """What a vehicle had settled at that was warm when a log began: the first minute, where that was driven or stood.

    Nobody settles at creeping: there it comes from an easy road, as a condition of which nobody says what came before.
    """
    first: Duty = jax.tree.map(lambda leaf: float(np.mean(leaf[: max(int(60 / drive.step), 1)])), profile.duty)
    if not CREEPS[0] < float(first.speed) < CREEPS[1]:
        return first
    return dataclasses.replace(first, speed=EASY_ROAD, grade=0.0, engine_speed=0.0, shaft_load=0.0, in_gear=0.0)


def profile_of(drive: Drive, central: Vehicle, *, longer: bool = False) -> Profile:
    """The drive on an even grid; where fuel was logged, a load at the shaft makes the central vehicle burn it.

    A `longer` one goes on as it went in its second half, to twice its length.
    """
    ends = np.cumsum(drive.legs[:, 0])
    time = np.arange(0.0, (2.0 if longer else 1.0) * ends[-1], drive.step)
    half = 0.5 * ends[-1]
    seen = np.where(time < ends[-1], time, half + np.mod(time - half, half))
    leg = np.minimum(np.searchsorted(ends, seen, side="right"), len(ends) - 1)
    _, speed, rpm, share, grade, fuel = drive.legs[leg].T
    inside = seen - np.concatenate([[0.0], ends[:-1]])[leg]
    running = (inside < share * drive.legs[leg, 0]).astype(float)
    duty = Duty(
        ambient=drive.ambient_degC + ICE,
        speed=speed / 3.6,
        engine_speed=rpm / 60.0,
        grade=grade / 100.0,
        heater=HEATER_FULL * drive.heater,
        air_conditioning=drive.air_conditioning,
        in_gear=drive.in_gear,
        among_cars=drive.among_cars,
    )
    load = np.where(fuel > 0.0, _shaft_load(central, duty, 1e3 * fuel, _oil(drive, time)), 0.0)
    return Profile.of(time=time, duty=dataclasses.replace(duty, shaft_load=load), running=running)


OIL_BEHIND = 6.0
"""How far the oil is behind the coolant while an engine warms up [K]; only for what cold oil takes of a logged fuel."""


def _oil(drive: Drive, time: Floats) -> Floats:
    """Roughly the oil's temperature [K], from the coolant that was read; warm where the drive began settled."""
    if drive.start == "settled":
        return np.full(len(time), WARM)
    read = sorted((float(one.of["at"]), one.value) for one in drive.figures if one.ask == "temperature at")
    at, coolant = np.array([(0.0, drive.start_degC), *read]).T
    return np.minimum(np.interp(time, at, coolant) - OIL_BEHIND + ICE, WARM)


def _shaft_load(car: Vehicle, duty: Duty, fuel: Floats, T_oil: Floats) -> Floats:
    """Power at a shaft with which the engine burns this fuel [W]; negative where it burns less than the road asks."""
    car = jax.tree.map(float, car)
    day = weather(duty)
    asked = demand(car, duty, day)
    compressor = np.asarray(asked.cooling_load, float) / 3.0
    low, high = -0.5 * fuel - 2e4, np.asarray(asked.most_power, float) * 1.2
    free = asked._replace(most_power=1e9 + 0.0 * high)
    for _ in range(50):
        middle = 0.5 * (low + high)
        at = free._replace(drive_power=middle)
        burnt = np.asarray(
            engine_heat(car, at, day, fan_power=0.0 * middle, compressor_power=compressor, T_oil=T_oil).fuel, float
        )
        low, high = np.where(burnt < fuel, middle, low), np.where(burnt < fuel, high, middle)
    return 0.5 * (low + high) - np.asarray(asked.drive_power, float)


def _read(figure: Figure, time: Floats, drives: Drives, missed: Floats) -> Floats:
    """One figure for every vehicle."""
    of: dict[str, Any] = figure.of
    T = drives.engine_out - ICE
    if figure.ask == "temperature at":
        return _at(time, T, of["at"])
    if figure.ask == "time to":
        return _time_to(time, T + missed[:, None] * (1.0 - np.exp(-time / COLD_FOR)), of["degC"])
    if figure.ask == "highest after":
        return T[:, (time >= of["at"]) & (time <= of["until"])].max(axis=1) - _at(time, T, of["at"])
    if figure.ask == "rise between":
        return _at(time, T, of["until"]) - _at(time, T, of["since"])
    window = (time >= of["since"]) & (time <= of["until"])
    inside, fan = T[:, window], drives.fan_speed[:, window] > RUNS
    if figure.ask == "mean between":
        return inside.mean(axis=1)
    if figure.ask == "highest between":
        return inside.max(axis=1)
    if figure.ask == "lowest between":
        return inside.min(axis=1)
    step = time[1] - time[0]
    if figure.ask == "rate of rise":
        return np.array([_rise(row, runs, step) for row, runs in zip(inside, fan, strict=True)])
    if figure.ask in ("fan period", "fan on for"):
        return np.array([_cycle(runs, step)[figure.ask == "fan on for"] for runs in fan])
    raise ValueError(f"{figure.ask}: no figure of a drive")


def _at(time: Floats, T: Floats, moment: float) -> Floats:
    return np.array([np.interp(moment, time, row) for row in T])


def _time_to(time: Floats, T: Floats, degC: float) -> Floats:
    """When it is first reached [s]; not a number where it is not, though the drive went on to twice its length."""
    reached = degC <= T
    first = np.argmax(reached, axis=1)
    before = np.maximum(first - 1, 0)
    rows = np.arange(len(T))
    rise = np.maximum(T[rows, first] - T[rows, before], 1e-6)
    exact = time[before] + (degC - T[rows, before]) / rise * (time[first] - time[before])
    return np.where(reached.any(axis=1), np.where(first > 0, exact, 0.0), np.nan)


def _cycle(runs: Any, step: float) -> tuple[float, float]:
    """Period of a fan that comes and goes, and how long it runs each time [s]; not a number where it does not."""
    on = np.flatnonzero(~runs[:-1] & runs[1:])
    if len(on) < 2:
        return np.nan, np.nan
    period = float(np.mean(np.diff(on))) * step
    return period, float(np.mean(runs[on[0] + 1 : on[-1] + 1])) * period


def _rise(T: Floats, runs: Any, step: float) -> float:
    """Mean rate of the rising half of a cycle, from its lowest to its highest [K/min]; not a number without one."""
    on = np.flatnonzero(~runs[:-1] & runs[1:])
    if len(on) < 2:
        return np.nan
    rates: list[float] = []
    for begin, end in pairwise(on.tolist()):
        lowest = begin + int(np.argmin(T[begin : end + 1]))
        if end > lowest:
            rates.append((T[end] - T[lowest]) / ((end - lowest) * step) * 60.0)
    return float(np.mean(rates)) if rates else np.nan
