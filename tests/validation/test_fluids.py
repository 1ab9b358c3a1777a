"""fluids: friction in all regimes and the standard atmosphere, in an independent open library."""

from typing import Any

import pytest
from fluids.atmosphere import ATMOSPHERE_1976
from fluids.friction import Churchill_1977

from toptank.equations.atmosphere import pressure_at_altitude, temperature_at_altitude
from toptank.equations.tube import friction_darcy


@pytest.mark.parametrize("roughness", [0.0, 0.002, 0.02])
def test_friction_in_all_regimes(published: Any, roughness: float) -> None:
    for Re in (500.0, 1500.0, 2000.0, 2300.0, 3000.0, 5000.0, 10_000.0, 100_000.0):
        value = float(Churchill_1977(Re, roughness))
        published(
            source="fluids", where="Churchill_1977", unit="1",
            quantity=f"Darcy factor, Re {Re:g}, roughness {roughness:g}", value=value,
            # within: the same relation in another program
            within=1e-3 * value, because="same relation, other program: 0.1 %",
            computed=friction_darcy(Re, roughness),
        )  # fmt: skip


def test_the_air_at_the_altitudes_of_mountain_roads(published: Any) -> None:
    for feet in (0, 2000, 5000, 7000, 10_000):
        air = ATMOSPHERE_1976(feet * 0.3048)
        published(
            source="fluids", where="ATMOSPHERE_1976", unit="Pa", quantity=f"pressure at {feet} ft", value=float(air.P),
            # within: a tenth of a percent is 30 ft of altitude
            within=1e-3 * float(air.P), because="0.1 % is 30 ft of altitude",
            computed=pressure_at_altitude(feet * 0.3048),
        )  # fmt: skip
        published(
            source="fluids", where="ATMOSPHERE_1976", unit="K", quantity=f"temperature at {feet} ft",
            value=float(air.T),
            # within: no thermometer of the trade shows it
            within=0.05, because="below any thermometer", computed=temperature_at_altitude(feet * 0.3048),
        )  # fmt: skip
