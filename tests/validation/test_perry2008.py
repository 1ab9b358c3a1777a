"""perry2008: ethylene glycol and water boiling by Raoult's law, with the vapour pressures of the handbook."""

from collections.abc import Callable
from typing import Any

from toptank.media.coolant import boiling_temperature
from toptank.media.mixture import GLYCOL_SHARES

PSI = 6894.757
SEA_LEVEL = 101325.0

# °F a psi adds at sea level: cap from, cap to, 50 % of pure ethylene glycol by volume
WORTH = ((0.0, 4.0, 3.239), (4.0, 7.0, 2.764), (7.0, 13.0, 2.349), (13.0, 16.0, 2.043), (16.0, 22.0, 1.821))


def _fahrenheit(p: float, v: float) -> float:
    return float(boiling_temperature(p, v / GLYCOL_SHARES[0], 0.0)) * 1.8 - 459.67


def test_mixes_boil_where_the_law_of_raoult_says(published: Any, table: Callable[[str], list[dict[str, str]]]) -> None:
    for row in table("perry2008_boiling.csv"):
        v = float(row["vol_frac"])
        published(
            source="perry2008", where="Raoult's law, evaluated independently with open libraries", unit="°F",
            quantity=f"{100 * v:g} % pure ethylene glycol boils under {row['cap_psig']} psi"
            f" at {float(row['altitude_ft']):g} ft",
            value=float(row["T_F"]), within=0.1, because="shows the arithmetic; the law itself is good for 4 °F",
            computed=_fahrenheit(1e3 * float(row["P_abs_kPa"]), v),
        )  # fmt: skip


def test_a_psi_on_the_cap_raises_the_boiling_point_of_a_mix(published: Any) -> None:
    for low, high, worth in WORTH:
        risen = _fahrenheit(SEA_LEVEL + high * PSI, 0.5) - _fahrenheit(SEA_LEVEL + low * PSI, 0.5)
        published(
            source="perry2008", where="Raoult's law, evaluated independently with open libraries", unit="°F/psi",
            quantity=f"50 % pure ethylene glycol, a psi between {low:g} and {high:g} psi", value=worth,
            within=0.01, because="shows the arithmetic; given to a thousandth", computed=risen / (high - low),
        )  # fmt: skip
