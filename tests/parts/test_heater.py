"""The cabin heater: a valve and a temperature difference."""

from collections.abc import Callable

import pytest

from toptank.parts.heater import Heater


def test_shut_it_takes_nothing() -> None:
    assert Heater(conductance=75.0).heat(on=0.0, T_coolant=370.0, T_ambient=270.0) == 0.0


def test_open_it_takes_its_conductance_a_kelvin() -> None:
    assert Heater(conductance=75.0).heat(on=1.0, T_coolant=360.0, T_ambient=300.0) == pytest.approx(4500.0)  # 75 x 60
    assert Heater(conductance=75.0).heat(on=0.5, T_coolant=360.0, T_ambient=300.0) == pytest.approx(2250.0)


def test_coolant_as_cold_as_the_day_gives_nothing_and_a_colder_one_takes() -> None:
    assert Heater().heat(on=1.0, T_coolant=280.0, T_ambient=280.0) == 0.0
    assert Heater().heat(on=1.0, T_coolant=270.0, T_ambient=280.0) < 0.0


def test_the_typical_heater_gives_4_to_6_kilowatts_on_a_cold_day() -> None:
    """From memory: 4 to 6 kW on a cold day; here 5 °C outside and coolant at 80 °C."""
    assert 4e3 < Heater().heat(on=1.0, T_coolant=353.15, T_ambient=278.15) < 6e3


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    same_one_by_one(
        lambda on, conductance, T: Heater(conductance=conductance).heat(on=on, T_coolant=T, T_ambient=300.0),
        on=[0.0, 1.0, 0.5], conductance=[50.0, 75.0, 100.0], T=[360.0, 370.0, 380.0],
    )  # fmt: skip
