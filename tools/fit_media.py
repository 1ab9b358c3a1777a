"""Write the fits under src/toptank/media/fits/ anew from CoolProp and chemicals, and print their largest errors.

Both libraries are development dependencies: they are slow to import, and CoolProp refuses coolants above 100 °C.
Run it with `python tools/fit_media.py` after either has changed.
"""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import chemicals
import CoolProp
import numpy as np
from chemicals.dippr import EQ101
from chemicals.vapor_pressure import Psat_data_Perrys2_8
from chemicals.viscosity import mu_data_Perrys_8E_2_313
from CoolProp.CoolProp import PropsSI
from numpy.typing import NDArray
from scipy.optimize import linprog

Array = NDArray[np.float64]

FITS = Path(__file__).parents[1] / "src" / "toptank" / "media" / "fits"
LIBRARIES = f"CoolProp {CoolProp.__version__}, chemicals {chemicals.__version__}"
ETHYLENE, PROPYLENE = "107-21-1", "57-55-6"
CENTRE, SCALE = 335.0, 60.0
"""Temperatures are fitted as s = (T - 335) / 60, or as u = 335 / T - 1 where a logarithm is fitted."""

CLOSED = 3e5  # [Pa] keeps every liquid liquid to 125 °C; liquids hardly feel pressure
COLDEST, HOTTEST = 233.15, 398.15


def plain(T: Array) -> Array:
    return (T - CENTRE) / SCALE


def inverse(T: Array) -> Array:
    return CENTRE / T - 1.0


def perry(table: Any, cas: str, T: Array) -> Array:
    """Equation 101 of DIPPR with the constants of Perry's handbook."""
    row = table.loc[cas]
    return np.array([EQ101(t, row["C1"], row["C2"], row["C3"], row["C4"], row["C5"]) for t in T])


def ask(fluid: str, output: str, T: Array, p: float = CLOSED) -> Array:
    return np.array([PropsSI(output, "T", float(t), "P", p, fluid) for t in T])


def saturated(fluid: str, output: str, T: Array) -> Array:
    return np.array([PropsSI(output, "T", float(t), "Q", 0, fluid) for t in T])


def curve(x: Array, y: Array, degree: int, weight: Array | None = None) -> list[float]:
    """Least squares of the relative error, coefficients from the constant upwards."""
    w = 1.0 / np.abs(y) if weight is None else weight
    terms = np.vander(x, degree + 1, increasing=True)
    found, *_ = np.linalg.lstsq(terms * w[:, None], y * w, rcond=None)
    return [float(f"{c:.9g}") for c in found]


def value(x: Array, coefficients: list[float]) -> Array:
    return np.asarray(np.polynomial.polynomial.polyval(x, coefficients), dtype=np.float64)


def write(name: str, origin: str, reach: str, largest: dict[str, float], fitted: dict[str, Any]) -> None:
    errors = {key: f"{100 * error:.2g} %" for key, error in largest.items()}
    head = {"origin": f"{origin} ({LIBRARIES})", "range": reach, "largest_error": errors}
    (FITS / f"{name}.json").write_text(json.dumps(head | fitted, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    print(f"{name:12s} {errors}")


def water() -> None:
    T = np.linspace(273.2, HOTTEST, 126)
    outputs = (("density", "D", 5), ("heat_capacity", "C", 5), ("conductivity", "L", 4))
    fitted: dict[str, Any] = {}
    errors: dict[str, float] = {}
    for name, output, degree in outputs:
        y = ask("Water", output, T)
        fitted[name] = curve(plain(T), y, degree)
        errors[name] = float(np.max(np.abs(value(plain(T), fitted[name]) / y - 1)))
    log_mu = np.log(ask("Water", "V", T))
    fitted["log_viscosity"] = curve(inverse(T), log_mu, 4, np.ones_like(T))
    errors["viscosity"] = float(np.max(np.abs(np.expm1(value(inverse(T), fitted["log_viscosity"]) - log_mu))))
    write("water", "IAPWS-95 and the transport releases of IAPWS at 3 bar", "273.15 to 398.15 K", errors, fitted)


def air() -> None:
    T = np.linspace(COLDEST, 473.15, 121)
    fitted: dict[str, Any] = {}
    errors: dict[str, float] = {}
    for name, output in (("conductivity", "L"), ("viscosity", "V")):
        y = ask("Air", output, T, 101325.0)
        fitted[name] = curve(plain(T), y, 3)
        errors[name] = float(np.max(np.abs(value(plain(T), fitted[name]) / y - 1)))
    write("air", "dry air at 101325 Pa, Lemmon and Jacobsen 2004", "233.15 to 473.15 K", errors, fitted)


def glycol() -> None:
    T = np.linspace(313.15, 473.15, 81)
    pressures = {
        "ethylene": perry(Psat_data_Perrys2_8, ETHYLENE, T),
        "propylene": saturated("PropyleneGlycol", "P", T),
    }
    masses = np.linspace(0.0, 0.6, 61)
    freezing = {
        "ethylene": [PropsSI("T_FREEZE", "T", 300, "P", CLOSED, f"INCOMP::MEG[{m:.6f}]") for m in masses],
        "propylene": [PropsSI("T_FREEZE", "T", 300, "P", CLOSED, f"INCOMP::MPG[{m:.6f}]") for m in masses],
    }
    fitted: dict[str, Any] = {"log_saturation_pressure": {}, "freezing_depression": {}}
    errors: dict[str, float] = {}
    for name, p in pressures.items():
        fitted["log_saturation_pressure"][name] = found = curve(inverse(T), np.log(p), 3, np.ones_like(T))
        errors[f"saturation pressure, {name}"] = float(np.max(np.abs(np.expm1(value(inverse(T), found) - np.log(p)))))
    for name, T_freeze in freezing.items():
        depression = 273.15 - np.array(T_freeze)
        tail = curve(masses[1:], depression[1:] / masses[1:], 5, np.ones(60) * masses[1:])
        fitted["freezing_depression"][name] = found = [0.0, *tail]
        largest = float(np.max(np.abs(value(masses, found) - depression)))
        print(f"{'':12s} freezing point, {name}: {largest:.2f} K")
    origin = "vapour: Perry's handbook 8th ed. table 2-8 (ethylene), CoolProp (propylene); freezing: Melinder 2010"
    write("glycol", origin, "vapour 313.15 to 473.15 K, freezing to 60 % glycol by mass", errors, fitted)


def coolant_points(name: str, cas: str) -> tuple[Array, Array, Array]:
    """Volume fraction, temperature and the four properties, viscosity as its logarithm.

    CoolProp answers for 10 to 60 % and to 100 °C. Above 100 °C each mix is carried on by the low-order fit of its own
    40 to 100 °C; above 60 % the parabola through the stronger mixes is followed, for viscosity through the pure glycol.
    """
    known: dict[tuple[float, float], Array] = {}
    shares = [round(0.05 * i, 2) for i in range(2, 13)]
    cold, warm, hot = np.arange(238.16, 373.1, 5.0), np.linspace(313.15, 373.1, 25), np.arange(378.15, 398.2, 5.0)
    for v in shares:
        fluid = f"INCOMP::{name}[{v}]"
        for T in (*cold, 373.1):
            try:
                known[v, T] = np.array([PropsSI(output, "T", float(T), "P", CLOSED, fluid) for output in "DCLV"])
            except ValueError:  # frozen
                continue
            known[v, T][3] = np.log(known[v, T][3])
        rows = [ask(fluid, output, warm) for output in "DCLV"]
        rho, c_p, k = (np.polyval(np.polyfit(warm, rows[i], degree), hot) for i, degree in enumerate((2, 1, 2)))
        log_mu = np.polyval(np.polyfit(1 / warm, np.log(rows[3]), 2), 1 / hot)
        known |= {(v, T): np.array(row) for T, *row in zip(hot, rho, c_p, k, log_mu, strict=True)}
    for T in sorted({T for v, T in known if v == 0.6 and (0.5, T) in known}):
        strong = [v for v in shares if v >= 0.3 and (v, T) in known]
        anchor = np.log(perry(mu_data_Perrys_8E_2_313, cas, np.array([T])))[0]
        line = np.polyfit([0.5, 0.6, 1.0], [known[0.5, T][3], known[0.6, T][3], anchor], 2)
        for v in (0.65, 0.7):
            thermal = [np.polyval(np.polyfit(strong, [known[u, T][i] for u in strong], 2), v) for i in range(3)]
            known[v, T] = np.array([*thermal, np.polyval(line, v)], dtype=np.float64)
    for T in (273.2, *np.arange(278.15, 398.2, 5.0)):
        row = [PropsSI(output, "T", float(T), "P", CLOSED, "Water") for output in "DCLV"]
        known[0.0, T] = np.array([*row[:3], np.log(row[3])])
    places = np.array(list(known))
    return places[:, 0], places[:, 1], np.array(list(known.values()))


def surface(x: Array, v: Array, y: Array, weight: Array, degree_v: int) -> tuple[list[list[float]], Array]:
    """Cubic in the temperature, `degree_v` in the share; rows by power of temperature. Also the fitted values."""
    terms = np.stack([x**i * v**j for i in range(4) for j in range(degree_v + 1)], axis=1)
    found, *_ = np.linalg.lstsq(terms * weight[:, None], y * weight, rcond=None)
    rows = found.reshape(4, degree_v + 1)
    return [[float(f"{c:.9g}") for c in row] for row in rows], terms @ found


def coolant() -> None:
    fitted: dict[str, Any] = {}
    errors: dict[str, float] = {}
    for glycol_name, fluid, cas in (("ethylene", "AEG", ETHYLENE), ("propylene", "APG", PROPYLENE)):
        v, T, rows = coolant_points(fluid, cas)
        heavy = np.where(v == 0.0, 2.0, 1.0)
        for i, name in enumerate(("density", "heat_capacity", "conductivity")):
            found, fit = surface(plain(T), v, rows[:, i], heavy / rows[:, i], 4)
            fitted.setdefault(name, {})[glycol_name] = found
            errors[f"{name}, {glycol_name}"] = float(np.max(np.abs(fit / rows[:, i] - 1)))
        found, fit = surface(inverse(T), v, rows[:, 3], heavy, 5)
        fitted.setdefault("log_viscosity", {})[glycol_name] = found
        errors[f"viscosity, {glycol_name}"] = float(np.max(np.abs(np.expm1(fit - rows[:, 3]))))
    origin = "AEG and APG of CoolProp (ASHRAE tables by volume), carried on above 100 °C and above 60 %; water: IAPWS"
    write("coolant", origin, "233.15 to 398.15 K where liquid, 0 to 70 % by volume", errors, fitted)


def rejection_ratio(fluid: str, T_evap: float, T_cond: float) -> float:
    """Heat rejected over cooling of a cycle with 10 K superheat, 5 K subcooling and 0.65 isentropic efficiency."""
    p_low, p_high = (PropsSI("P", "T", T, "Q", 1, fluid) for T in (T_evap, T_cond))
    h_1, s_1 = (PropsSI(output, "T", T_evap + 10.0, "P", p_low, fluid) for output in "HS")
    h_2 = h_1 + (PropsSI("H", "P", p_high, "S", s_1, fluid) - h_1) / 0.65
    h_3 = PropsSI("H", "T", T_cond - 5.0, "P", p_high, fluid)
    return (h_2 - h_3) / (h_1 - h_3)


def smallest_largest(terms: Array, y: Array) -> tuple[Array, float]:
    """Coefficients with the smallest largest relative error, by linear programming."""
    rows = np.vstack([np.c_[terms, -y], np.c_[-terms, -y]])
    free: list[tuple[float | None, float | None]] = [(None, None)] * terms.shape[1]
    found = linprog(np.r_[np.zeros(terms.shape[1]), 1.0], rows, np.r_[y, -y], bounds=[*free, (0.0, None)])
    best = np.asarray(found.x, dtype=np.float64)
    return best[:-1], float(best[-1])


def refrigerant() -> None:
    T = np.linspace(250.0, 368.15, 119)
    fitted: dict[str, Any] = {"log_saturation_pressure": {}, "rejection_ratio": {}}
    errors: dict[str, float] = {}
    for fluid in ("R134a", "R12"):
        log_p = np.log(saturated(fluid, "P", T))
        fitted["log_saturation_pressure"][fluid] = found = curve(inverse(T), log_p, 3, np.ones_like(T))
        errors[f"saturation pressure, {fluid}"] = float(np.max(np.abs(np.expm1(value(inverse(T), found) - log_p))))
        grid = [(a, b) for a in np.linspace(265.0, 290.0, 11) for b in np.linspace(300.0, 358.15, 30)]
        y = np.array([rejection_ratio(fluid, a, b) for a, b in grid])
        e, x = np.array([[(a - 278.15) / 10.0, (b - 328.15) / 10.0] for a, b in grid]).T
        terms = np.stack([x**i * e**j for i in range(3) for j in range(3)], axis=1)
        c, errors[f"rejection ratio, {fluid}"] = smallest_largest(terms, y)
        fitted["rejection_ratio"][fluid] = [[float(f"{a:.6g}") for a in row] for row in c.reshape(3, 3)]
    reach = "pressure 250 to 368 K; ratio: evaporating 265 to 290 K, condensing 300 to 358.15 K"
    write("refrigerant", "equations of state of CoolProp", reach, errors, fitted)


FLUIDS: tuple[Callable[[], None], ...] = (water, air, glycol, coolant, refrigerant)

if __name__ == "__main__":
    FITS.mkdir(exist_ok=True)
    for fluid in FLUIDS:
        fluid()
