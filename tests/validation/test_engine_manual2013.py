"""engine_manual2013: freeze limits as a shop mixes them, by volume of concentrate."""

from collections.abc import Callable
from typing import Any

from toptank.media.coolant import freeze_point


def test_freeze_limits_of_shop_mixes(published: Any, table: Callable[[str], list[dict[str, str]]]) -> None:
    for row in table("engine_manual2013.csv"):
        code = 0.0 if row["glycol"] == "EG" else 1.0
        v = float(row["vol_frac"])
        published(
            source="engine_manual2013", where="table of mixes", unit="°C", value=float(row["T_freeze_C"]),
            quantity=f"freeze limit of {100 * v:g} % concentrate, {row['glycol']}",
            within=1.5, because="whole degrees, and concentrates differ: what is asked of shop mixes",
            computed=float(freeze_point(v, code)) - 273.15,
        )  # fmt: skip
