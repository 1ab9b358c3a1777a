"""The cap: what is stamped on it, what it holds, and the limits in which it is believed."""

from collections.abc import Callable

import pytest

from toptank.parts.cap import Cap
from toptank.units.declaration import declarations

PSI = 6894.757


def test_a_cap_holds_its_share_of_what_is_stamped_on_it() -> None:
    assert Cap(pressure=15.0 * PSI, holds=0.8).held_pressure() == pytest.approx(12.0 * PSI)


def test_an_open_system_and_a_dead_cap_hold_nothing() -> None:
    assert Cap(pressure=0.0).held_pressure() == 0.0
    assert Cap(pressure=15.0 * PSI, holds=0.0).held_pressure() == 0.0


def test_a_typical_cap_of_7_psi_passes_the_test_of_the_service_manual() -> None:
    """Engine service manual: a 7 psi cap is good if it opens at 6.25 to 7.5 psi."""
    assert 6.25 <= Cap(pressure=7.0 * PSI).held_pressure() / PSI <= 7.5


def test_a_racing_cap_is_accepted_and_a_pressure_of_a_tyre_is_not() -> None:
    """Caps of 25 to 30 psi are sold for racing (web text, no source)."""
    low, high = dict(declarations(Cap))["pressure"].hard
    assert low == 0.0
    assert 29.9 * PSI < high < 32.0 * PSI


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    same_one_by_one(
        lambda pressure, holds: Cap(pressure=pressure, holds=holds).held_pressure(),
        pressure=[0.0, 48e3, 103e3], holds=[1.0, 0.5, 1.1],
    )  # fmt: skip
