"""Refrigerants of vehicle air conditioning, and what their cycle rejects.

The cycle: 10 K superheat, 5 K subcooling, isentropic efficiency 0.65, no loss of pressure in the lines.

Source   CoolProp equations of state: tillner_roth1994 (R134a), marx1992 (R12)
Range    pressure 250 to 368.15 K; ratio: evaporating 265 to 290 K, condensing 300 to 358.15 K, below on a straight line
Scatter  pressure 0.3 %; ratio 1.1 % (R134a), 0.7 % (R12) at the hottest condensing: a parabola cannot follow
         the rise towards the critical point more closely; on the straight line 1 %
"""

from toptank.media.fit import coefficients, inverse, load, polynomial, surface
from toptank.units.arrays import Real, namespace

_NAMES = ("R134a", "R12")
_FITS = load("refrigerant")
_LOG_PRESSURE = tuple(coefficients(_FITS["log_saturation_pressure"][name]) for name in _NAMES)
_RATIO = tuple(surface(_FITS["rejection_ratio"][name]) for name in _NAMES)

COLDEST_CONDENSING = 300.0
"""Condensing temperature below which the parabola, which turns up again at 285 K, gives way to a straight line [K]."""

_COLDEST, _HOTTEST = 250.0, 368.15
_COLDEST_EVAPORATING, _HOTTEST_EVAPORATING = 265.0, 290.0


def saturation_pressure(T: Real, refrigerant: Real) -> Real:
    """Pressure at which a refrigerant of a temperature boils or condenses.

    Parameters
    ----------
    T : temperature [K]
    refrigerant : 0 R134a, 1 R12 [1]

    Returns
    -------
    p : saturation pressure, absolute [Pa]
    """
    u = inverse(T, _COLDEST, _HOTTEST)
    first, second = (polynomial(u, terms) for terms in _LOG_PRESSURE)
    log_p = first + refrigerant * (second - first)
    return namespace(log_p).exp(log_p)


def rejection_ratio_coefficients(T_evap: Real, refrigerant: Real) -> tuple[Real, Real, Real]:
    """Heat to the condenser over heat from the evaporator: r_0 + r_1 x + r_2 x² with x = T_cond - 328.15 K.

    The ratio less one is the compressor's work over the cooling.

    Parameters
    ----------
    T_evap : evaporating temperature [K]
    refrigerant : 0 R134a, 1 R12 [1]

    Returns
    -------
    r_0, r_1, r_2 : coefficients [1], [1/K], [1/K2]
    """
    T = namespace(T_evap).clip(T_evap, _COLDEST_EVAPORATING, _HOTTEST_EVAPORATING)
    e = (T - 278.15) / 10.0
    pairs = [(polynomial(e, a), polynomial(e, b)) for a, b in zip(*_RATIO, strict=True)]
    r_0, r_1, r_2 = (first + refrigerant * (second - first) for first, second in pairs)
    return r_0, r_1 / 10.0, r_2 / 100.0


def cold_ratio_coefficients(T_evap: Real, warm: tuple[Real, Real, Real]) -> tuple[Real, Real]:
    """Heat to the condenser over heat from the evaporator below 300 K: r_0 + r_1 x with x = T_cond - 328.15 K.

    A straight line from the parabola at 300 K to no work at all where nothing is lifted, T_cond = T_evap.

    Parameters
    ----------
    T_evap : evaporating temperature [K]
    warm : coefficients of the parabola at that temperature [1], [1/K], [1/K2]

    Returns
    -------
    r_0, r_1 : coefficients [1], [1/K]
    """
    x_evap, x = T_evap - 328.15, COLDEST_CONDENSING - 328.15
    r_1 = (warm[0] + x * (warm[1] + x * warm[2]) - 1.0) / (x - x_evap)
    return 1.0 - r_1 * x_evap, r_1
