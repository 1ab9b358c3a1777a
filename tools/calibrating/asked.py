"""Figures beside the drives: effects on a settled vehicle, and what an engine alone gives and burns."""

import dataclasses
from typing import Any, NamedTuple

import numpy as np

from calibrating.evidence import Figure, Floats
from toptank.knowledge.sheet import duty as duty_of
from toptank.knowledge.sheet_file import read_duty
from toptank.system.balance import Balance
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jax
from toptank.system.population import solve
from toptank.system.sides.heat_side import Demand, engine_heat, weather
from toptank.system.vehicle import Vehicle

STANDING_AIR, HEAT_OF_AIR = 1.2, 1006.0
"""Density [kg/m3] and heat capacity [J/(kg K)] of the air at which a face velocity is told."""


def figures(asked: tuple[Figure, ...], vehicles: Vehicle) -> Floats:
    """What each vehicle would have shown (draw, figure)."""
    n = len(np.asarray(vehicles.engine.displacement))
    columns = [_engine(one, vehicles) if "rpm" in one.of else _settled(one, vehicles) for one in asked]
    return np.stack(columns, axis=1) if columns else np.zeros((n, 0))


class Seen(NamedTuple):
    """What a settled vehicle tells: temperature over the air [K], conductance, air and coolant capacity rates [W/K]."""

    over: Floats
    conductance: Floats
    air: Floats
    flow: Floats


def _settled(figure: Figure, vehicles: Vehicle) -> Floats:
    """An effect: the vehicle at a duty, and again with something set, made so many times as much, or asked."""
    if figure.ask == "liquid carried out":
        return np.asarray(vehicles.doubts.carry_out_open, float)
    of = figure.of
    before = _duty(of["duty"])
    first = _seen(vehicles, before)
    if figure.ask == "face velocity":
        return first.air / (
            STANDING_AIR * HEAT_OF_AIR * np.asarray(vehicles.core.face_width * vehicles.core.face_height)
        )
    after = _duty({**of["duty"], **of.get("then", {})})
    then = _seen(_changed(vehicles, of), after)
    if figure.ask == "hotter by":
        ratio = first.conductance / then.conductance if of.get("equal_heat") else then.over / first.over
        return of["at_difference_K"] * (ratio - 1.0)
    if figure.ask == "exponent of conductance with air":
        return np.log(then.conductance / first.conductance) / np.log(then.air / first.air)
    if figure.ask == "exponent of flow with speed":
        return np.log(then.flow / first.flow) / float(np.log(after.engine_speed / before.engine_speed))
    quantity = figure.ask.removeprefix("ratio of ")
    return getattr(then, quantity) / getattr(first, quantity)


def _duty(words: dict[str, Any]) -> Duty:
    return duty_of(read_duty(words, name="asked", system="metric")[0])


def _seen(vehicles: Vehicle, duty: Duty) -> Seen:
    n = len(np.asarray(vehicles.engine.displacement))
    duties: Duty = jax.tree.map(lambda leaf: np.full(n, float(leaf)), duty)
    balance: Balance = solve(vehicles, duties)
    over = balance.T_top_tank - float(duty.ambient)
    return Seen(over, balance.core_heat / over, balance.air_capacity_rate, balance.core_flow)


def _changed(vehicles: Vehicle, of: dict[str, Any]) -> Vehicle:
    """The vehicles with fields set, multiplied or moved: `set`, `times`, `plus`, each by path."""
    for how, change in (("set", _set), ("times", _times), ("plus", _plus)):
        for path, amount in of.get(how, {}).items():
            section, key = path.split(".")
            part = getattr(vehicles, section)
            part = dataclasses.replace(part, **{key: change(np.asarray(getattr(part, key), float), amount)})
            vehicles = dataclasses.replace(vehicles, **{section: part})
    return vehicles


def _set(values: Floats, amount: float) -> Floats:
    return np.full_like(values, amount)


def _times(values: Floats, amount: float) -> Floats:
    return values * amount


def _plus(values: Floats, amount: float) -> Floats:
    return values + amount


def _engine(figure: Figure, vehicles: Vehicle) -> Floats:
    """Share of the fuel's heat that goes to the coolant, or fuel of an idling engine [kW/L]."""
    n = len(np.asarray(vehicles.engine.displacement))
    day = jax.tree.map(lambda leaf: np.full(n, float(leaf)), weather(Duty(ambient=293.15)))
    nothing, speed = np.zeros(n), np.full(n, figure.of["rpm"] / 60.0)
    power = np.full(n, 1e3 * figure.of.get("brake_kW", 0.0))
    drive = power - np.asarray(vehicles.engine.accessories, float) if "brake_kW" in figure.of else nothing
    most = np.full(n, 1e9)
    asked = Demand(speed, drive, nothing, most, nothing)
    heat = engine_heat(vehicles, asked, day, fan_power=nothing, compressor_power=nothing)
    if figure.ask == "share of the fuel to the coolant":
        return np.asarray(heat.coolant / heat.fuel, float)
    return np.asarray(heat.fuel, float) / (1e6 * np.asarray(vehicles.engine.displacement, float))
