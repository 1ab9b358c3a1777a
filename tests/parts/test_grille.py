"""The way of the ram air by hand: openings in the bonnet, and what they do to the bay."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from toptank.parts.grille import Grille

OLD = {
    "ram_coefficient": 0.35,
    "loss_coefficient": 1.0,
    "bay_loss_coefficient": 3.0,
    "leakage": 0.0,
    "vent_suction": 0.3,
}


def test_a_closed_bonnet_is_what_was_declared() -> None:
    grille = Grille(**OLD, vents=0.0)
    assert grille.ram_pressure(dynamic_pressure=100.0) == pytest.approx(35.0)
    assert grille.losses() == pytest.approx(4.0)


def test_openings_as_large_as_the_way_out_quarter_its_loss_and_suck_with_half_of_the_suction() -> None:
    """Two ways out of one bay share it by their areas: loss 3 / (1 + 1)^2, pressure lower by 0.3 x 1 / (1 + 1)."""
    grille = Grille(**OLD, vents=1.0)
    assert grille.ram_pressure(dynamic_pressure=100.0) == pytest.approx(50.0)
    assert grille.losses() == pytest.approx(1.75)


def test_more_openings_never_hinder_and_end_at_the_pressure_outside() -> None:
    vents = np.linspace(0.0, 5.0, 51)
    grille = Grille(**OLD, vents=vents)
    assert np.all(np.diff(grille.ram_pressure(dynamic_pressure=100.0)) > 0.0)
    assert np.all(np.diff(grille.losses()) < 0.0)
    assert np.all(grille.ram_pressure(dynamic_pressure=100.0) < 65.0)


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    def both(**grille: Any) -> tuple[Any, Any]:
        part = Grille(**grille)
        return part.ram_pressure(dynamic_pressure=80.0), part.losses()

    same_one_by_one(both, ram_coefficient=[0.3, 0.5], vents=[0.0, 1.5], leakage=[0.1, 0.3])
