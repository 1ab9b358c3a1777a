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
            within=2.0 if code == 0.0 else 3.5,
            because="whole degrees, and concentrate holds 93 to 96 % glycol (1.5 K)" if code == 0.0
            else "the manual's figures are those of pure propylene glycol, ours of concentrate: warmer by 3 K",
            computed=float(freeze_point(v, code)) - 273.15,
        )  # fmt: skip
