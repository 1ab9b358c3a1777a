"""The same text of parts and equations, run by NumPy: an independent machine for the compiled one."""

import dataclasses
from typing import Any

import jax
import numpy as np

from toptank.knowledge.draws import draws
from toptank.knowledge.typical import typical_names, typical_sheet
from toptank.media import air, coolant
from toptank.parts.air_passage import AirPassage, Film
from toptank.parts.coolant_passage import CoolantPassage
from toptank.parts.core import Core
from toptank.system.balance import Balance, Status
from toptank.system.duty import Duty
from toptank.system.population import solve
from toptank.system.sides.heat_side import demand, engine_heat, weather
from toptank.system.vehicle import Vehicle
from toptank.units.declaration import declarations

N = 256
SEED = 20


def _air(core: Core, V: Any, T: Any) -> Any:
    rho, mu = air.density(T, 101325.0, 0.0), air.viscosity(T)
    passage, film = AirPassage.of(core), Film.of(mu=mu, k=air.conductivity(T), c_p=air.heat_capacity(0.0))
    heat = passage.conductance(film, V_open=V, rho=rho, heat_transfer=1.1)
    return heat, passage.pressure_drop(V_open=V, rho_in=rho, rho_out=0.9 * rho, mu=mu, friction=0.9)


def _coolant(core: Core, flow: Any, T: Any, mix: Any) -> Any:
    rho, mu = coolant.density(T, mix, 0.0), coolant.viscosity(T, mix, 0.0)
    k, c_p = coolant.conductivity(T, mix, 0.0), coolant.heat_capacity(T, mix, 0.0)
    tubes = CoolantPassage.of(core)
    conductance, Re = tubes.conductance(flow=flow, rho=rho, mu=mu, k=k, c_p=c_p, Re_transition=2300.0, enhancement=1.2)
    return conductance, Re, tubes.pressure_drop(flow=flow, rho=rho, mu=mu)


def _engine(vehicle: Vehicle, duty: Duty) -> Any:
    day = weather(duty)
    asked = demand(vehicle, duty, day)
    return day, asked, engine_heat(vehicle, asked, day, fan_power=900.0 + 0.0 * asked.drive_power, compressor_power=0.0)


def _agree(function: Any, *arguments: Any) -> None:
    by_numpy, by_jax = function(*arguments), jax.jit(function)(*arguments)
    for ours, theirs in zip(jax.tree.leaves(by_numpy), jax.tree.leaves(by_jax), strict=True):
        np.testing.assert_allclose(ours, np.asarray(theirs), rtol=1e-9, atol=1e-12)


def test_numpy_agrees_on_air_coolant_and_engine_of_random_vehicles() -> None:
    rng = np.random.default_rng(SEED)
    vehicle = draws(typical_sheet(str(rng.choice(typical_names()))), N, int(rng.integers(2**31)))
    _agree(_air, vehicle.core, rng.uniform(0.1, 15.0, N), rng.uniform(250.0, 380.0, N))
    _agree(_coolant, vehicle.core, rng.uniform(1e-5, 6e-3, N), rng.uniform(280.0, 390.0, N), rng.uniform(0.0, 0.6, N))
    duty = Duty(
        ambient=rng.uniform(260.0, 320.0, N), speed=rng.uniform(0.0, 30.0, N), grade=rng.uniform(-0.05, 0.08, N)
    )
    _agree(_engine, vehicle, duty)


def _corners(kind: Any, n: int, rng: np.random.Generator) -> Any:
    """A record with every field at one of its hard limits."""
    return kind(**{name: rng.choice(declared.hard, n) for name, declared in declarations(kind)})


def test_no_corner_of_the_hard_limits_gives_a_nan() -> None:
    n, rng = 4096, np.random.default_rng(SEED)
    parts = {part.name: _corners(part.default_factory, n, rng) for part in dataclasses.fields(Vehicle)}
    balance = solve(Vehicle(**parts), _corners(Duty, n, rng))
    for field in dataclasses.fields(Balance):
        assert np.all(np.isfinite(getattr(balance, field.name))), field.name
    found = balance.status < Status.NO_BALANCE
    assert np.all(np.abs(balance.heat_imbalance[found]) <= 1e-6 * balance.engine_heat[found])
    assert np.array_equal(found & (balance.T_engine_out > balance.T_boiling), balance.status == Status.BOILS)
