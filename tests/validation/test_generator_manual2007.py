"""generator_manual2007: freeze limits by shares of antifreeze and water, a second maker's beside engine_manual2013."""

from typing import Any

import pytest

from toptank.media.coolant import freeze_point

PRINTED = {"ethylene": (-23.0, -36.0, -54.0), "propylene": (-21.0, -33.0, -49.0)}


@pytest.mark.parametrize("glycol", sorted(PRINTED))
def test_freeze_limits_by_antifreeze_and_water(published: Any, glycol: str) -> None:
    code = float(glycol == "propylene")
    for share, printed in zip((0.4, 0.5, 0.6), PRINTED[glycol], strict=True):
        # two manuals differ by 2 K at 60 % of ethylene, where ours holds the figure for 60 % of glycol by mass
        apart = share > 0.55 and code == 0.0
        published(
            source="generator_manual2007", where="table of mixture percentages, antifreeze and water", unit="°C",
            value=printed, quantity=f"freeze limit of {100 * share:g} % antifreeze, {glycol}",
            within=4.0 if apart else 1.5,
            because="manuals differ by 2 K here: another prints -52 °C" if apart
            else "whole degrees, and concentrates differ",
            computed=float(freeze_point(share, code)) - 273.15,
        )  # fmt: skip
