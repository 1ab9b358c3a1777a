"""crc_handbook102: freeze points of ethylene glycol and water by mass."""

from collections.abc import Callable
from typing import Any

from scipy.optimize import brentq

from toptank.media.coolant import freeze_point
from toptank.media.mixture import glycol_mass_fraction, glycol_volume_fraction


def _concentrate(mass_fraction: float) -> float:
    """Share of concentrate that holds this mass fraction of glycol."""
    return float(brentq(lambda v: glycol_mass_fraction(glycol_volume_fraction(v, 0.0), 0.0) - mass_fraction, 0.0, 0.7))


def test_freeze_points_follow_the_handbook(published: Any, table: Callable[[str], list[dict[str, str]]]) -> None:
    for row in table("crc_handbook102.csv"):
        x = float(row["mass_frac"])
        published(
            source="crc_handbook102", where="1,2-ethanediol", unit="°C", value=float(row["T_freeze_C"]),
            quantity=f"freeze point of {100 * x:g} % ethylene glycol by mass",
            within=0.3, because="0.3 K: a refractometer shows no less",
            computed=float(freeze_point(_concentrate(x), 0.0)) - 273.15,
        )  # fmt: skip
