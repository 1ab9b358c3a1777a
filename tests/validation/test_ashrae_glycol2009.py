"""ashrae_glycol2009: properties of ethylene glycol and water to 125 °C."""

from collections.abc import Callable
from typing import Any

from toptank.media import coolant

# within: what measurements of inhibited mixes scatter by; the tables themselves claim no better
LIMITS = (
    ("rho", "density", "kg/m3", 1.0, 0.01, coolant.density),
    ("cp", "heat capacity", "J/(kg K)", 1.0, 0.015, coolant.heat_capacity),
    ("k", "conductivity", "W/(m K)", 1.0, 0.03, coolant.conductivity),
    ("mu_mPas", "viscosity", "Pa s", 1e-3, 0.08, coolant.viscosity),
)


def test_properties_follow_the_table_to_125_degrees(
    published: Any, table: Callable[[str], list[dict[str, str]]]
) -> None:
    for row in table("ashrae_glycol2009.csv"):
        T, v = float(row["T_C"]) + 273.15, float(row["vol_frac"])
        for column, name, unit, scale, share, ours in LIMITS:
            value = scale * float(row[column])
            published(
                source="ashrae_glycol2009", where="table by volume", unit=unit, value=value,
                quantity=f"{name} of {100 * v:g} % at {row['T_C']} °C", within=share * value,
                because=f"{100 * share:g} %: scatter between tables and measurements",
                computed=float(ours(T, v, 0.0)),
            )  # fmt: skip
