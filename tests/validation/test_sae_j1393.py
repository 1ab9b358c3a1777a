"""sae_j1393: air-to-boil and limiting ambient temperature, the arithmetic of the definitions."""

from typing import Any

from toptank.equations.capability import air_to_boil, limiting_ambient


def _kelvin(degF: float) -> float:
    return (degF + 459.67) / 1.8


def test_air_to_boil_is_the_definition_of_the_standard(published: Any) -> None:
    # 100 C - 93 C + 30 C, with the boiling point that the standard writes
    published(
        source="sae_j1393", where="definition of ATB", quantity="air-to-boil, coolant 93 C on a day of 30 C",
        unit="K", value=310.15,
        # within: arithmetic
        within=1e-6, because="arithmetic", computed=air_to_boil(373.15, 366.15, 303.15),
    )  # fmt: skip


def test_a_reading_of_213_on_a_day_of_90_boils_at_141(published: Any) -> None:
    published(
        source="sae_j1393", where="definition of ATB, true boiling point 264 F",
        quantity="air-to-boil, 213 F in the top tank on a day of 90 F", unit="degF", value=141.0,
        # within: arithmetic
        within=1e-6, because="arithmetic",
        computed=1.8 * air_to_boil(_kelvin(264.0), _kelvin(213.0), _kelvin(90.0)) - 459.67,
    )  # fmt: skip


def test_a_limit_of_225_is_reached_on_a_day_of_102(published: Any) -> None:
    published(
        source="sae_j1393", where="definition of LAT, limit 225 F",
        quantity="limiting ambient, 213 F in the top tank on a day of 90 F", unit="degF", value=102.0,
        # within: arithmetic
        within=1e-6, because="arithmetic",
        computed=1.8 * limiting_ambient(_kelvin(225.0), _kelvin(213.0), _kelvin(90.0)) - 459.67,
    )  # fmt: skip
