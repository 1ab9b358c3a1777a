"""Water: saturation by IAPWS-IF97, the liquid by fits to IAPWS.

Source   iapws_if97, region 4, equations 30 and 31; iapws_95 through CoolProp for the liquid
Range    saturation 273.15 to 640 K, carried on for undercooled water to 233.15 K; liquid 273.15 to 398.15 K
         at a few bar; arguments beyond are taken at the limit
Scatter  fits within 0.003 % (density), 0.03 % (heat capacity), 0.1 % (conductivity, viscosity); undercooled 1 %
"""

from toptank.media.fit import coefficients, inverse, load, plain, polynomial
from toptank.units.arrays import Real, namespace

ICE = 273.15
"""Below it liquid water is taken as it is here [K]."""

_N = (
    0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7,
    0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
)  # fmt: skip
_COLDEST_SATURATED, _HOTTEST_SATURATED = 233.15, 640.0
_LOWEST_PRESSURE, _HIGHEST_PRESSURE = 19.0, 20e6

_FITS = load("water")
_DENSITY = coefficients(_FITS["density"])
_HEAT_CAPACITY = coefficients(_FITS["heat_capacity"])
_CONDUCTIVITY = coefficients(_FITS["conductivity"])
_LOG_VISCOSITY = coefficients(_FITS["log_viscosity"])


def saturation_pressure(T: Real) -> Real:
    """Pressure at which water of a temperature boils (IAPWS-IF97, equation 30).

    Parameters
    ----------
    T : temperature [K]

    Returns
    -------
    p : saturation pressure [Pa]
    """
    xp = namespace(T)
    held = xp.clip(T, _COLDEST_SATURATED, _HOTTEST_SATURATED)
    x = held + _N[8] / (held - _N[9])
    a = (x + _N[0]) * x + _N[1]
    b = (_N[2] * x + _N[3]) * x + _N[4]
    c = (_N[5] * x + _N[6]) * x + _N[7]
    root = 2.0 * c / (-b + xp.sqrt(b * b - 4.0 * a * c))
    squared = root * root
    return 1e6 * squared * squared


def boiling_temperature(p: Real) -> Real:
    """Temperature at which water under a pressure boils (IAPWS-IF97, equation 31).

    Parameters
    ----------
    p : absolute pressure [Pa]

    Returns
    -------
    T : saturation temperature [K]
    """
    xp = namespace(p)
    b = xp.sqrt(xp.sqrt(xp.clip(p, _LOWEST_PRESSURE, _HIGHEST_PRESSURE) * 1e-6))
    e = (b + _N[2]) * b + _N[5]
    f = (_N[0] * b + _N[3]) * b + _N[6]
    g = (_N[1] * b + _N[4]) * b + _N[7]
    d = 2.0 * g / (-f - xp.sqrt(f * f - 4.0 * e * g))
    half = 0.5 * (_N[9] + d)
    # (n10 + D)²/4 - n9 - n10 D, the root taken of what does not cancel
    return half - xp.sqrt(half * half - _N[8] - _N[9] * d)


def density(T: Real) -> Real:
    """Density of the liquid.

    Parameters
    ----------
    T : temperature [K]

    Returns
    -------
    rho : density [kg/m3]
    """
    return polynomial(plain(T, ICE), _DENSITY)


def heat_capacity(T: Real) -> Real:
    """Specific heat capacity of the liquid.

    Parameters
    ----------
    T : temperature [K]

    Returns
    -------
    c_p : specific heat capacity [J/(kg K)]
    """
    return polynomial(plain(T, ICE), _HEAT_CAPACITY)


def conductivity(T: Real) -> Real:
    """Thermal conductivity of the liquid.

    Parameters
    ----------
    T : temperature [K]

    Returns
    -------
    k : thermal conductivity [W/(m K)]
    """
    return polynomial(plain(T, ICE), _CONDUCTIVITY)


def viscosity(T: Real) -> Real:
    """Dynamic viscosity of the liquid.

    Parameters
    ----------
    T : temperature [K]

    Returns
    -------
    mu : dynamic viscosity [Pa s]
    """
    return namespace(T).exp(polynomial(inverse(T, ICE), _LOG_VISCOSITY))
