"""coolprop: refrigerant cycle and humid air, evaluated with the open library."""

from collections.abc import Callable
from typing import Any

from CoolProp.CoolProp import HAPropsSI

from toptank.media import air
from toptank.media.refrigerant import rejection_ratio_coefficients, saturation_pressure

CODES = {"R134a": 0.0, "R12": 1.0}


def test_the_refrigerant_cycle_gives_the_heat_of_the_state_points(
    published: Any, table: Callable[[str], list[dict[str, str]]]
) -> None:
    for row in table("refrigerant_cycle.csv"):
        code, T_evap, T_cond = (
            CODES[row["refrigerant"]],
            float(row["T_evap_C"]) + 273.15,
            float(row["T_cond_C"]) + 273.15,
        )
        r_0, r_1, r_2 = (float(r) for r in rejection_ratio_coefficients(T_evap, code))
        x, told = T_cond - 328.15, float(row["Qcond_over_Qevap"])
        named = f"{row['refrigerant']}, {row['T_evap_C']} to {row['T_cond_C']} °C"
        published(
            source="coolprop", where="state points of the cycle", unit="1", value=told,
            quantity=f"condenser heat over cooling, {named}", within=0.012 * told,
            because="1.2 %: one parabola over all condensing temperatures", computed=r_0 + r_1 * x + r_2 * x * x,
        )  # fmt: skip
        if row["T_evap_C"] == "5":
            pressure = 1e3 * float(row["P_cond_kPa"])
            published(
                source="coolprop", where="saturation", unit="Pa", value=pressure, within=0.005 * pressure,
                quantity=f"condensing pressure, {row['refrigerant']}, {row['T_cond_C']} °C",
                because="0.5 %: fitted in the logarithm", computed=float(saturation_pressure(T_cond, code)),
            )  # fmt: skip


def test_humid_air_has_the_density_of_the_library(published: Any) -> None:
    for T, R, p in ((305.4, 0.4, 101325.0), (313.15, 0.8, 101325.0), (303.15, 0.3, 75262.0)):
        told = 1.0 / HAPropsSI("Vha", "T", T, "P", p, "R", R)
        published(
            source="coolprop", where="HAPropsSI, run here", unit="kg/m3", value=told, within=0.003 * told,
            quantity=f"density of air at {T - 273.15:.1f} °C, {100 * R:g} % humid, {p / 1e3:.1f} kPa",
            because="0.3 %: ideal mixture", computed=float(air.density(T, p, air.humidity_ratio(T, R, p))),
        )  # fmt: skip


def test_humid_air_holds_the_vapour_and_the_heat_of_the_library(published: Any) -> None:
    for T, R, p in ((293.15, 0.5, 101325.0), (313.15, 0.8, 101325.0), (303.15, 0.3, 75262.0)):
        named = f"air at {T - 273.15:g} °C, {100 * R:g} % humid, {p / 1e3:.1f} kPa"
        told = HAPropsSI("W", "T", T, "P", p, "R", R)
        published(
            source="coolprop", where="HAPropsSI, run here", unit="1", value=told, within=0.005 * told,
            quantity=f"humidity ratio, {named}", because="0.5 %: one enhancement factor for all",
            computed=float(air.humidity_ratio(T, R, p)),
        )  # fmt: skip
        heat = HAPropsSI("cp_ha", "T", T, "P", p, "R", R)
        published(
            source="coolprop", where="HAPropsSI, run here", unit="J/(kg K)", value=heat, within=0.005 * heat,
            quantity=f"heat capacity, {named}", because="0.5 %: the same at all temperatures",
            computed=float(air.heat_capacity(told)),
        )  # fmt: skip
