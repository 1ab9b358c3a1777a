"""chang1997: Colburn factor of louvered fins, a worked geometry and three cores."""

from collections.abc import Callable
from math import radians
from typing import Any

import pytest

from toptank.equations.louvered_fin import colburn_j_louvered

Table = Callable[[str], list[dict[str, str]]]

WORKED = {
    "theta": radians(28),
    "F_p": 1.8e-3,
    "L_p": 1.534e-3,
    "F_l": 19e-3,
    "T_d": 26e-3,
    "L_l": 16.07e-3,
    "T_p": 19.7e-3,
    "delta_f": 0.1e-3,
}
CORES: dict[str, dict[str, float]] = {
    "A": {
        "theta": radians(25), "F_p": 0.0254 / 14, "L_p": 1.1e-3, "F_l": 8.7e-3, "T_d": 53.4e-3, "L_l": 7.395e-3,
        "T_p": 11.1e-3, "delta_f": 0.076e-3,
    },
    "B": {
        "theta": radians(28), "F_p": 0.0254 / 18, "L_p": 1.2e-3, "F_l": 8.0e-3, "T_d": 22e-3, "L_l": 6.9e-3,
        "T_p": 9.9e-3, "delta_f": 0.08e-3,
    },
    "C": {
        "theta": radians(27), "F_p": 0.0254 / 14, "L_p": 1.4e-3, "F_l": 9.5e-3, "T_d": 55e-3, "L_l": 8.0e-3,
        "T_p": 11.5e-3, "delta_f": 0.1e-3,
    },
}  # fmt: skip

# within: the worked geometry prints four digits, its inputs three; half a percent is the round-off of the inputs
ROUND_OFF = "inputs printed to three digits: 0.5 %"
MU, RHO, C_P, PR = 18.24e-6, 1.188, 1007.0, 0.715


def test_the_worked_geometry_gives_the_printed_colburn_factor(published: Any, table: Table) -> None:
    for row in table("chang1997_flat_tube.csv"):
        Re = RHO * float(row["channel_velocity"]) * WORKED["L_p"] / MU
        published(
            source="chang1997", where="worked geometry, open Modelica library", unit="1",
            quantity=f"Colburn factor j at Re_Lp {row['Re_Lp']}", value=float(row["j"]),
            within=0.005 * float(row["j"]), because=ROUND_OFF, computed=colburn_j_louvered(Re, **WORKED),
        )  # fmt: skip


def test_the_worked_geometry_gives_the_printed_film_coefficient(published: Any, table: Table) -> None:
    for row in table("chang1997_flat_tube.csv"):
        velocity = float(row["channel_velocity"])
        j = colburn_j_louvered(RHO * velocity * WORKED["L_p"] / MU, **WORKED)
        published(
            source="chang1997", where="worked geometry, open Modelica library", unit="W/(m2 K)",
            quantity=f"film coefficient at {velocity:g} m/s in the channels", value=float(row["h"]),
            within=0.005 * float(row["h"]), because=ROUND_OFF,
            computed=j * RHO * velocity * C_P * PR ** (-2 / 3),
        )  # fmt: skip


@pytest.mark.parametrize("core", CORES)
def test_three_cores_have_the_published_colburn_factor(published: Any, table: Table, core: str) -> None:
    for row in table("chang_louver_jf.csv"):
        if row["geometry"] == core:
            published(
                source="chang1997", where=f"core {core}, formula evaluated independently", unit="1",
                quantity=f"Colburn factor j, core {core}, Re_Lp {row['Re_Lp']}", value=float(row["j"]),
                within=0.005 * float(row["j"]), because="same formula, other program: 0.5 %",
                computed=colburn_j_louvered(float(row["Re_Lp"]), **CORES[core]),
            )  # fmt: skip
