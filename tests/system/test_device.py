"""The batched way of a device, on whatever JAX works on here: the same answer as one at a time."""

import dataclasses

import numpy as np
import pytest

from toptank.knowledge.draws import draws
from toptank.knowledge.typical import typical_sheet
from toptank.system.balance import Balance
from toptank.system.device import SETTLED_TO, Settled, on_device, settle, single_precision
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jax
from toptank.system.population import solve
from toptank.system.steady import HOTTEST
from toptank.system.vehicle import Vehicle

N = 384


@pytest.fixture(scope="module")
def crowd() -> tuple[Vehicle, Duty]:
    """Vehicles of three kinds on climbs of many days, the hottest beyond what any bears."""
    kinds = ("minibus-1970s-v8-air", "wagon-1990s-v6-air", "saloon-1950s-six")
    some = [draws(typical_sheet(kind), N // 3, 7) for kind in kinds]
    vehicles = jax.tree.map(
        lambda *leaves: np.concatenate([np.broadcast_to(leaf, (N // 3,)) for leaf in leaves]), *some
    )
    ambient = np.tile(np.linspace(280.0, 325.0, N // 3), 3)
    duty = Duty(ambient=ambient, speed=20.0, grade=0.05, air_conditioning=1.0)
    return vehicles, jax.tree.map(lambda leaf: np.broadcast_to(np.asarray(leaf, float), (N,)), duty)


@pytest.fixture(scope="module", params=["double", "mixed"])
def settled(request: pytest.FixtureRequest, crowd: tuple[Vehicle, Duty]) -> Settled:
    return settle(on_device(*crowd), mixed=request.param == "mixed")


def test_every_draw_settles_and_none_is_lost(settled: Settled) -> None:
    balance = settled.balance()
    assert settled.left == 0
    assert not np.isnan(balance.T_engine_out).any()
    beyond = (balance.T_engine_out >= HOTTEST) & (balance.heat_imbalance < 0.0)
    off = np.abs(balance.heat_imbalance) / balance.engine_heat
    assert np.all((off <= SETTLED_TO) | beyond)


def test_it_is_the_answer_of_the_processor(settled: Settled, crowd: tuple[Vehicle, Duty]) -> None:
    balance, plain = settled.balance(), solve(*crowd)
    # The mixed way may be 0.02 K off where it has settled; two roots near boiling: one in thousands.
    apart = np.abs(balance.T_engine_out - plain.T_engine_out)
    assert np.quantile(apart, 0.99) < 0.02
    assert np.mean(balance.status == plain.status) > 0.99


def test_draws_that_are_taken_up_again_go_back_to_their_own_places(crowd: tuple[Vehicle, Duty]) -> None:
    order = np.random.default_rng(3).permutation(N)
    mixed_up: tuple[Vehicle, Duty] = jax.tree.map(lambda leaf: np.asarray(leaf)[order], crowd)
    one, other = settle(on_device(*crowd)).balance(), settle(on_device(*mixed_up)).balance()
    assert other.T_engine_out == pytest.approx(one.T_engine_out[order], abs=1e-6)


def test_a_balance_has_every_figure(settled: Settled) -> None:
    balance = settled.balance()
    assert isinstance(balance, Balance)
    assert all(np.shape(getattr(balance, field.name)) == (N,) for field in dataclasses.fields(balance))


def test_single_precision_finds_every_root_within_a_hundredth_of_a_kelvin(crowd: tuple[Vehicle, Duty]) -> None:
    some = on_device(*crowd)
    temperature = np.asarray(single_precision(some))
    plain = solve(*crowd).T_engine_out
    assert temperature.dtype == np.float32
    assert not np.isnan(temperature).any()
    # Quick steps leave one draw in ten or so open, in whatever precision.
    assert np.quantile(np.abs(temperature - plain), 0.8) < 0.01
