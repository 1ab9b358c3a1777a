"""The steady balance: gradients, draws, batches, statuses, and no NaN anywhere inside the hard limits."""

import dataclasses
from functools import partial
from typing import Any

import jax
import numpy as np
import pytest

from toptank.knowledge.draws import draws
from toptank.knowledge.sheet import vehicle
from toptank.knowledge.typical import typical_sheet
from toptank.system import population
from toptank.system.balance import Balance, Status, reason
from toptank.system.duty import Duty
from toptank.system.margins import limiting_ambient
from toptank.system.numerics.jax_library import jit_quick_compile
from toptank.system.population import margins, solve
from toptank.system.steady import HOTTEST, steady

CLIMB = Duty(ambient=305.0, speed=20.0, grade=0.04, air_conditioning=1.0)
N = 256
SEED = 20


def test_nothing_inside_the_hard_limits_gives_a_nan(random_draws: Any) -> None:
    balance = solve(*random_draws(1024, SEED, "hard"))
    for field in dataclasses.fields(Balance):
        assert np.all(np.isfinite(getattr(balance, field.name))), field.name


@pytest.mark.parametrize("limits", ["hard", "plausible"])
def test_whatever_is_called_a_balance_is_one_to_a_millionth(limits: str, random_draws: Any) -> None:
    """Boiling and want of power included: heat made is heat shed, or the answer says that there is no balance."""
    balance = solve(*random_draws(16384, SEED, limits))
    found = balance.status < Status.NO_BALANCE
    assert np.any(balance.status[found] == Status.BOILS)
    assert np.all(np.abs(balance.heat_imbalance[found]) <= 1e-6 * balance.engine_heat[found])


def test_what_is_said_to_get_hotter_without_end_was_followed_to_the_end(random_draws: Any) -> None:
    """A search that stops short is told as such, not as heat that cannot be shed; it is one draw in a thousand."""
    balance = solve(*random_draws(16384, SEED, "hard"))
    endless, short = (balance.status == status for status in (Status.NO_BALANCE, Status.NOT_FOUND))
    assert np.all(balance.T_engine_out[endless] > HOTTEST - 1.0)
    assert np.all(balance.heat_imbalance[endless] < 0.0)
    assert np.mean(short) < 1e-3


DIALS = (
    ("core", "fin_density"),
    ("core", "blocked_face"),
    ("fan_clutch", "engaged_ratio"),
    ("water_pump", "free_flow"),
    ("engine", "displacement"),
    ("fill", "concentrate"),
    ("doubts", "transition_reynolds"),
)
"""Fields of the vehicle along which its balance is differentiated."""


def _top_tank(built: Any, values: Any) -> Any:
    """The top tank of a vehicle whose dials stand at other values: one function of all, compiled once."""
    for (part, name), value in zip(DIALS, values, strict=True):
        built = dataclasses.replace(built, **{part: dataclasses.replace(getattr(built, part), **{name: value})})
    return steady(built, CLIMB).T_top_tank


def _along(function: Any, at: Any, direction: Any) -> Any:
    return jax.jvp(function, (at,), (direction,))[1]


@pytest.fixture(scope="module")
def top_tank() -> Any:
    """Return a top tank and its change along a direction, as functions of the dials, and where these stand."""
    built = vehicle(typical_sheet("pickup-1970s-v8-air"))
    built = dataclasses.replace(built, core=dataclasses.replace(built.core, scale_thickness=1e-4, blocked_face=0.1))
    at = np.array([float(getattr(getattr(built, part), name)) for part, name in DIALS])
    function = partial(_top_tank, built)
    return jit_quick_compile(function), jit_quick_compile(partial(_along, function)), at


@pytest.mark.parametrize("place", range(len(DIALS)), ids=["-".join(dial) for dial in DIALS])
def test_the_gradient_of_the_top_tank_is_that_of_finite_differences(place: int, top_tank: Any) -> None:
    value, along, at = top_tank
    dial = (np.arange(len(DIALS)) == place).astype(float)
    step = 1e-5 * at[place]
    difference = float(value(at + step * dial) - value(at - step * dial)) / (2.0 * step)
    assert float(along(at, dial)) == pytest.approx(difference, rel=2e-3, abs=1e-6 / at[place])


def test_a_batch_gives_what_single_vehicles_give() -> None:
    vehicles = draws(typical_sheet("saloon-1950s-six"), 4, 3)
    together = solve(vehicles, CLIMB).T_engine_out
    one = jax.jit(steady)
    for i in range(4):
        alone = one(jax.tree.map(lambda field, i=i: float(field[i]), vehicles), CLIMB)
        assert together[i] == pytest.approx(float(alone.T_engine_out), abs=1e-4)


def test_padding_and_pieces_change_nothing() -> None:
    vehicles = draws(typical_sheet("pickup-1970s-v8-air"), 600, 3)
    whole = solve(vehicles, CLIMB).T_engine_out
    few = solve(jax.tree.map(lambda field: field[:5], vehicles), CLIMB).T_engine_out
    np.testing.assert_allclose(whole[:5], few, atol=1e-4)


def test_only_two_lengths_are_ever_compiled() -> None:
    vehicles = draws(typical_sheet("pickup-1970s-v8-air"), 300, 3)
    for n in (1, 3, 200, 256, 257, 300):
        solve(jax.tree.map(lambda field, n=n: field[:n], vehicles), CLIMB)
    assert population.kernel(population._quick).compilations <= 2


def test_statuses_say_how_it_ended() -> None:
    built = vehicle(typical_sheet("pickup-1970s-v8-air"))
    flat = solve(built, Duty(ambient=290.0, speed=22.0))
    hot = solve(built, Duty(ambient=325.0, speed=22.0, grade=0.10, air_conditioning=1.0))
    no_fan = dataclasses.replace(built, core=dataclasses.replace(built.core, blocked_face=0.9))
    stuck = solve(no_fan, Duty(ambient=325.0, speed=22.0, grade=0.08))
    weak = solve(built, Duty(ambient=280.0, speed=35.0, grade=0.12))
    assert int(flat.status[0]) == Status.REGULATED
    assert int(hot.status[0]) == Status.BOILS
    assert int(stuck.status[0]) in (Status.BOILS, Status.NO_BALANCE)
    assert weak.power_short[0] > 0.0
    for balance in (flat, hot, stuck, weak):
        assert reason(jax.tree.map(lambda field: field[0], balance)).endswith(".")


def test_a_duty_at_its_limiting_ambient_reaches_the_limit() -> None:
    built = vehicle(typical_sheet("pickup-1970s-v8-air"))
    ambient = float(limiting_ambient(built, CLIMB, 380.0))
    assert solve(built, dataclasses.replace(CLIMB, ambient=ambient)).T_engine_out[0] == pytest.approx(380.0, abs=0.05)
    boil, limit = margins(built, CLIMB, 380.0)
    assert limit[0] == pytest.approx(ambient, abs=0.05)
    assert boil[0] > limit[0]


def test_degree_for_degree_arithmetic_is_near_the_solved_margin_with_the_fan_engaged() -> None:
    """SAE J1393 adds degree for degree; with clutch and thermostat at their ends that is true within a fifth."""
    built = vehicle(typical_sheet("pickup-1970s-v8-air"))
    hot = dataclasses.replace(CLIMB, grade=0.08)  # where the thermostat is wide open
    balance, solved = solve(built, hot), margins(built, hot, 380.0)[0][0]
    assert balance.thermostat_opening[0] > 0.99
    arithmetic = balance.T_boiling[0] - balance.T_top_tank[0]
    assert solved - 305.0 == pytest.approx(arithmetic, rel=0.25)
