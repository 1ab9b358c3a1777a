"""Margins agree with the balance that they are margins of."""

import dataclasses

import numpy as np
import pytest

from toptank.knowledge.draws import draws
from toptank.knowledge.typical import typical_sheet
from toptank.system.balance import Status
from toptank.system.duty import Duty
from toptank.system.population import margins, settle

N = 256
CLIMB = Duty(ambient=300.0, speed=20.0, grade=0.05, gear=2.0)
NAMES = ("pickup-1970s-v8-air", "saloon-1950s-six", "van-1980s-rear-four", "pickup-1990s-diesel-air")


@pytest.mark.parametrize("name", NAMES)
def test_settling_at_the_limiting_ambient_gives_the_limit(name: str) -> None:
    """T_limit within 0.05 K, wherever the ambient is one that the model covers."""
    vehicles = draws(typical_sheet(name), N, 5)
    _, limiting = margins(vehicles, CLIMB, 376.0)
    inside = (limiting > 250.0) & (limiting < 350.0)
    assert inside.mean() > 0.5
    balance = settle(vehicles, dataclasses.replace(CLIMB, ambient=np.clip(limiting, 250.0, 350.0)))
    np.testing.assert_allclose(balance.T_engine_out[inside], 376.0, atol=0.05)


@pytest.mark.parametrize("name", NAMES)
def test_it_boils_just_beyond_the_air_to_boil_and_not_before(name: str) -> None:
    """All but a few draws: near boiling a starved and a fed pump can both balance, some kelvins apart."""
    vehicles = draws(typical_sheet(name), N, 5)
    boil, _ = margins(vehicles, CLIMB, 376.0)
    inside = (boil > 250.0) & (boil < 350.0)
    held = np.clip(boil, 250.0, 350.0)
    before, beyond = (settle(vehicles, dataclasses.replace(CLIMB, ambient=held + step)) for step in (-0.5, 0.5))
    assert np.mean(before.status[inside] < Status.BOILS) > 0.93
    assert np.mean(beyond.status[inside] >= Status.BOILS) > 0.97


def test_a_lower_limit_and_a_weaker_cap_leave_less() -> None:
    vehicles = draws(typical_sheet("pickup-1970s-v8-air"), N, 5)
    boil, warm = margins(vehicles, CLIMB, 376.0)
    weak = dataclasses.replace(vehicles, cap=dataclasses.replace(vehicles.cap, holds=np.full(N, 0.3)))
    boil_weak, cool = margins(weak, CLIMB, 371.0)
    assert np.all(cool < warm)
    assert np.all(boil_weak < boil)


@pytest.mark.parametrize("name", NAMES[:3])
def test_degree_for_degree_arithmetic_is_near_the_solved_air_to_boil(name: str) -> None:
    """SAE J1393 adds degree for degree: exact where nothing but the air changes, here by thermostat, clutch and pump.

    Over draws with the thermostat wide open the two differ by a fifth of the margin in the median, three fifths at most.
    """
    vehicles = draws(typical_sheet(name), N, 5)
    balance, (boil, _) = settle(vehicles, CLIMB), margins(vehicles, CLIMB, 376.0)
    wide = (balance.status == Status.SETTLED) & (balance.margin_to_boiling() > 3.0) & (balance.pump_head_left > 0.99)
    solved, added = (boil - CLIMB.ambient)[wide], balance.margin_to_boiling()[wide]
    assert len(solved) > 30
    off = np.abs(solved / added - 1.0)
    assert np.median(off) < 0.2
    assert off.max() < 0.6
