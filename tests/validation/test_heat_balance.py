"""joel1996 and gupta2013: heat balances of engines on the bench, the share that the coolant took.

The sheets print no swept volume. The load is found back from the printed efficiency by the Willans line:
brake power over fuel power = eta_i bmep / (bmep + tfmep).
"""

from collections.abc import Callable
from typing import Any

from toptank.equations.coolant_share import coolant_share

SHEETS = {"T1": "joel1996", "T2": "joel1996", "T5": "gupta2013"}
ETA_I, TFMEP, FULL_LOAD = 0.35, 1.5e5, 8.0e5
S_IDLE, S_FULL, X_0 = 0.40, 0.25, 0.33


def test_the_coolant_takes_the_share_of_the_trial_sheet(
    published: Any, table: Callable[[str], list[dict[str, str]]]
) -> None:
    for row in table("heat_balance.csv"):
        fuel, brake, coolant = (float(row[column]) for column in ("fuel_kW", "brake_kW", "coolant_kW"))
        efficiency = brake / fuel
        load = TFMEP * efficiency / (ETA_I - efficiency) / FULL_LOAD
        published(
            source=SHEETS[row["trial"]], where=f"trial {row['trial']}", unit="%", value=100.0 * coolant / fuel,
            quantity=f"coolant's share of the fuel, brake efficiency {100.0 * efficiency:.1f} %",
            # within: the scatter of the shares in heywood1988, table 12.1, is 5 points either way
            within=5.0, because="shares of like engines differ by 5 points",
            computed=100.0 * coolant_share(load, S_IDLE, S_FULL, X_0),
        )  # fmt: skip
