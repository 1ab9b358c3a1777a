"""cengel2015: a radiator of forty tubes, and a core of given conductance."""

from math import pi
from typing import Any

from scipy.optimize import brentq

from toptank.equations.effectiveness import crossflow
from toptank.equations.heat_gain import temperature_change


def test_the_radiator_of_forty_tubes_has_the_printed_film_coefficient(published: Any) -> None:
    # 40 tubes of 5 mm bore, 0.65 m long; water 0.6 kg/s (4195 J/(kg K)) 90 to 65 C; air 20 to 40 C
    water = 0.6 * 4195.0
    air = water * 25.0 / 20.0
    C_r, epsilon = water / air, 25.0 / 70.0
    NTU = brentq(lambda units: crossflow(units, C_r) - epsilon, 0.01, 5.0)
    published(
        source="cengel2015", where="example 11-6, solution", unit="W/(m2 K)",
        quantity="overall coefficient of a radiator of forty tubes", value=3347.0,
        # within: correction factor read as 0.97; the exact integral agrees to 0.2 %
        within=0.002 * 3347.0, because="inverse from temperatures: 0.2 %",
        computed=NTU * water / (40.0 * pi * 5e-3 * 0.65),
    )  # fmt: skip


def test_the_radiator_of_forty_tubes_gives_off_the_printed_heat(published: Any) -> None:
    rise = temperature_change(62_930.0, 0.6, 4195.0)
    published(
        source="cengel2015", where="example 11-6, solution", unit="K", value=25.0,
        quantity="water cooled by 62.93 kW in the radiator of forty tubes",
        # within: heat printed to four digits
        within=0.02, because="heat printed to four digits", computed=rise,
    )  # fmt: skip


def test_a_core_of_given_conductance_has_the_printed_transfer_units(published: Any) -> None:
    # UA 10 kW/K; coolant 5 kg/s of 4.0 kJ/(kg K) at 80 C, air 10 kg/s of 1.0 kJ/(kg K) at 30 C. The book assumes an
    # effectiveness of 0.4 there and prints 200 kW; the exact crossflow value, as the libraries have it, is 0.5475.
    published(
        source="cengel2015", where="problem 11-92, inputs; effectiveness by the library ht", unit="kW",
        quantity="heat of a core of 10 kW/K at 10 kg/s of air", value=273.7,
        # within: printed to four digits
        within=0.002 * 273.7, because="exact crossflow: 0.2 %",
        computed=crossflow(1.0, 0.5) * 10.0 * (80.0 - 30.0),
    )  # fmt: skip
    published(
        source="cengel2015", where="problem 11-92, inputs; effectiveness by the library ht", unit="kW",
        quantity="heat of a core of 10 kW/K at 12 kg/s of air", value=289.9,
        # within: printed to four digits
        within=0.002 * 289.9, because="exact crossflow: 0.2 %",
        computed=crossflow(10.0 / 12.0, 12.0 / 20.0) * 12.0 * (80.0 - 30.0),
    )  # fmt: skip
