"""chang2000 with the amendment of 2006: friction of louvered fins, three cores."""

from collections.abc import Callable
from math import radians
from typing import Any

import pytest

from toptank.equations.louvered_fin import fanning_f_louvered

CORES: dict[str, dict[str, float]] = {
    "A": {
        "theta": radians(25), "F_p": 0.0254 / 14, "L_p": 1.1e-3, "F_l": 8.7e-3, "F_d": 53.4e-3, "L_l": 7.395e-3,
        "T_p": 11.1e-3, "delta_f": 0.076e-3, "D_m": 2.4e-3,
    },
    "B": {
        "theta": radians(28), "F_p": 0.0254 / 18, "L_p": 1.2e-3, "F_l": 8.0e-3, "F_d": 22e-3, "L_l": 6.9e-3,
        "T_p": 9.9e-3, "delta_f": 0.08e-3, "D_m": 1.9e-3,
    },
    "C": {
        "theta": radians(27), "F_p": 0.0254 / 14, "L_p": 1.4e-3, "F_l": 9.5e-3, "F_d": 55e-3, "L_l": 8.0e-3,
        "T_p": 11.5e-3, "delta_f": 0.1e-3, "D_m": 2.0e-3,
    },
}  # fmt: skip


@pytest.mark.parametrize("core", CORES)
def test_three_cores_have_the_published_friction_factor(
    published: Any, table: Callable[[str], list[dict[str, str]]], core: str
) -> None:
    for row in table("chang_louver_jf.csv"):
        if row["geometry"] == core:
            # chang2006 blends the two branches of chang2000 between Re_Lp 130 and 230
            blended = 130.0 < float(row["Re_Lp"]) < 230.0
            published(
                source="chang2006" if blended else "chang2000", unit="1",
                where=f"core {core}, formula evaluated independently",
                quantity=f"Fanning factor f, core {core}, Re_Lp {row['Re_Lp']}", value=float(row["f"]),
                # within: the same formula in another program; half a percent of the inputs' round-off
                within=0.005 * float(row["f"]), because="same formula, other program: 0.5 %",
                computed=fanning_f_louvered(float(row["Re_Lp"]), **CORES[core]),
            )  # fmt: skip
