"""us_std_1976: pressure and temperature of the standard atmosphere."""

from collections.abc import Callable
from typing import Any

from toptank.equations.atmosphere import pressure_at_altitude, temperature_at_altitude


def test_the_standard_atmosphere_is_the_printed_one(
    published: Any, table: Callable[[str], list[dict[str, str]]]
) -> None:
    for row in table("us_std_1976.csv"):
        z = float(row["altitude_m"])
        published(
            source="us_std_1976", where="table I, geometric altitude (from memory)", unit="Pa",
            quantity=f"pressure at {z:g} m", value=float(row["p"]),
            # within: a tenth of a percent, ten metres of altitude
            within=1e-3 * float(row["p"]), because="0.1 % is 10 m of altitude", computed=pressure_at_altitude(z),
        )  # fmt: skip
        published(
            source="us_std_1976", where="table I, geometric altitude (from memory)", unit="K",
            quantity=f"temperature at {z:g} m", value=float(row["T"]),
            # within: printed to a millikelvin; a hundredth is enough
            within=0.01, because="printed to 0.001 K", computed=temperature_at_altitude(z),
        )  # fmt: skip
