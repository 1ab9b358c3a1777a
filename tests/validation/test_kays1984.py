"""kays1984: entry and exit losses of a core."""

from collections.abc import Callable
from typing import Any

import pytest

from toptank.equations.core_loss import contraction_loss, expansion_loss


@pytest.mark.parametrize(("column", "equation"), [("K_c", contraction_loss), ("K_e", expansion_loss)])
def test_end_losses_follow_the_momentum_theory(
    published: Any, table: Callable[[str], list[dict[str, str]]], column: str, equation: Any
) -> None:
    for row in table("kays1984_losses.csv"):
        published(
            source="kays1984", where="momentum theory evaluated independently", unit="1",
            quantity=f"{column}, sigma {row['sigma']}, K_d {row['K_d']}", value=float(row[column]),
            # within: half a percent of a dynamic pressure is a ten-thousandth of a core's pressure drop
            within=0.005, because="0.005 dynamic pressures are 0.1 % of a core's pressure drop",
            computed=equation(float(row["sigma"]), float(row["K_d"])),
        )  # fmt: skip
