"""iapws_if97: water boiling under caps and at altitude."""

from collections.abc import Callable
from typing import Any

from toptank.media.water import boiling_temperature, saturation_pressure

# °F a psi adds at sea level: cap from, cap to, water
WORTH = ((0.0, 4.0, 3.099), (4.0, 7.0, 2.643), (7.0, 13.0, 2.246), (13.0, 16.0, 1.953), (16.0, 22.0, 1.740))


def _fahrenheit(T: float) -> float:
    return T * 1.8 - 459.67


def test_water_boils_where_the_formulation_says(published: Any, table: Callable[[str], list[dict[str, str]]]) -> None:
    for row in table("iapws_boiling.csv"):
        published(
            source="iapws_if97", where="evaluated independently with the open library iapws", unit="°F",
            quantity=f"water boils under {row['cap_psig']} psi at {float(row['altitude_ft']):g} ft",
            value=float(row["T_F"]), within=0.1, because="a tenth of a degree is more than a gauge shows",
            computed=_fahrenheit(float(boiling_temperature(1e3 * float(row["P_abs_kPa"])))),
        )  # fmt: skip


def test_a_psi_on_the_cap_raises_the_boiling_point_of_water(published: Any) -> None:
    for low, high, worth in WORTH:
        ends = [_fahrenheit(float(boiling_temperature(101325.0 + cap * 6894.757))) for cap in (low, high)]
        published(
            source="iapws_if97", where="evaluated independently with the open library iapws", unit="°F/psi",
            quantity=f"water, a psi between {low:g} and {high:g} psi", value=worth, within=0.01,
            because="given to a thousandth", computed=(ends[1] - ends[0]) / (high - low),
        )  # fmt: skip


def test_the_printed_check_values_come_out(published: Any) -> None:
    for T, p in ((300.0, 3536.58941), (500.0, 2638897.76), (600.0, 12344314.6)):
        published(
            source="iapws_if97", where="table 35 (from memory)", unit="Pa",
            quantity=f"saturation pressure at {T:g} K", value=p, within=1e-6 * p,
            because="printed to nine digits", computed=float(saturation_pressure(T)),
        )  # fmt: skip
    for p, T in ((1e5, 372.755919), (1e6, 453.035632), (1e7, 584.149488)):
        published(
            source="iapws_if97", where="table 36 (from memory)", unit="K",
            quantity=f"saturation temperature at {p / 1e6:g} MPa", value=T, within=1e-5,
            because="printed to a microkelvin", computed=float(boiling_temperature(p)),
        )  # fmt: skip
