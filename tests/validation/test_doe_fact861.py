"""doe_fact861: fuel burnt at idle, with the inputs of the Willans line stated in the table.

Friction and efficiency are those that parts/engine.py takes when nothing is known; speed and accessories are judgement.
"""

from collections.abc import Callable
from typing import Any

from scipy.constants import gallon, hour

from toptank.equations.willans import fuel_power

# Heat of a litre by lower heating value: petrol 43.5 MJ/kg at 0.745 kg/L, diesel 42.6 MJ/kg at 0.840 kg/L
HEAT = {"petrol": 43.5e6 * 745.0, "diesel": 42.6e6 * 840.0}


def test_idle_burns_the_printed_fuel(published: Any, table: Callable[[str], list[dict[str, str]]]) -> None:
    for row in table("doe_fact861.csv"):
        truck = "truck" in row["vehicle"]
        power = fuel_power(
            P_b=float(row["accessories_kW"]) * 1e3,
            tfmep=float(row["tfmep_bar"]) * 1e5,
            V_d=float(row["litres"]) * 1e-3,
            N=float(row["rev_per_min"]) / 60.0,
            eta_i=float(row["eta_i"]),
        )
        value = float(row["gal_per_hour"])
        published(
            source="doe_fact861", where="table", unit="gal/h", value=value,
            quantity=f"idle, {row['vehicle']}, {row['fuel']}, {row['printed_litres']} L",
            # within: idle speed and accessories are judgement; a truck's size is printed as a range of a third
            within=(0.30 if truck else 0.15) * value,
            because="size printed as a range, load unknown: 30 %" if truck else "idle speed and load assumed: 15 %",
            computed=power / HEAT[row["fuel"]] * hour / gallon,
        )  # fmt: skip
