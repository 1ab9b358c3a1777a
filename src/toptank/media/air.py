"""Moist air at the pressures of the road.

Source   ashrae_fundamentals2017, chapter 1 (ideal mixture); CoolProp for conductivity and viscosity of dry air
Range    233.15 to 473.15 K, 60 to 105 kPa; arguments beyond are taken at the limit
Scatter  density and heat capacity 0.5 %; humidity lowers viscosity by up to 3 % at 35 °C, conductivity by 1 %: left out
"""

from toptank.media import water
from toptank.media.fit import coefficients, load, plain, polynomial
from toptank.units.arrays import Real, namespace

R_DRY = 287.042
"""Gas constant of dry air [J/(kg K)]."""

VAPOUR_RATIO = 0.621945
"""Molar mass of water over that of dry air [1]."""

_HEAT_CAPACITY_DRY, _HEAT_CAPACITY_VAPOUR = 1006.5, 1875.0
_COLDEST, _HOTTEST = 233.15, 473.15
_ENHANCEMENT = 1.0045  # of the vapour pressure by the air around it, at a shop's pressures and temperatures
_FITS = load("air")
_CONDUCTIVITY = coefficients(_FITS["conductivity"])
_VISCOSITY = coefficients(_FITS["viscosity"])


def density(T: Real, p: Real, humidity_ratio: Real) -> Real:
    """Density of moist air: rho = (p / R T) (1 + w) / (1 + w / 0.622).

    Parameters
    ----------
    T : temperature [K]
    p : absolute pressure [Pa]
    humidity_ratio : mass of vapour to a mass of dry air [1]

    Returns
    -------
    rho : density of the moist air [kg/m3]
    """
    held = namespace(T).clip(T, _COLDEST, _HOTTEST)
    return p * (1.0 + humidity_ratio) / (R_DRY * held * (1.0 + humidity_ratio / VAPOUR_RATIO))


def heat_capacity(humidity_ratio: Real) -> Real:
    """Specific heat capacity of moist air, to a mass of moist air.

    Parameters
    ----------
    humidity_ratio : mass of vapour to a mass of dry air [1]

    Returns
    -------
    c_p : specific heat capacity [J/(kg K)]
    """
    return (_HEAT_CAPACITY_DRY + humidity_ratio * _HEAT_CAPACITY_VAPOUR) / (1.0 + humidity_ratio)


def conductivity(T: Real) -> Real:
    """Thermal conductivity.

    Parameters
    ----------
    T : temperature [K]

    Returns
    -------
    k : thermal conductivity [W/(m K)]
    """
    return polynomial(plain(T, _COLDEST, _HOTTEST), _CONDUCTIVITY)


def viscosity(T: Real) -> Real:
    """Dynamic viscosity.

    Parameters
    ----------
    T : temperature [K]

    Returns
    -------
    mu : dynamic viscosity [Pa s]
    """
    return polynomial(plain(T, _COLDEST, _HOTTEST), _VISCOSITY)


def humidity_ratio(T: Real, relative_humidity: Real, p: Real) -> Real:
    """Mass of vapour to a mass of dry air: w = 0.622 p_v / (p - p_v).

    Humidity is over water at every temperature, as weather reports give it, never over ice.

    Parameters
    ----------
    T : temperature [K]
    relative_humidity : 0 dry, 1 saturated [1]
    p : absolute pressure [Pa]

    Returns
    -------
    w : humidity ratio [1]
    """
    xp = namespace(T, relative_humidity, p)
    p_vapour = relative_humidity * _ENHANCEMENT * water.saturation_pressure(T)
    p_vapour = xp.minimum(p_vapour, 0.5 * p)
    return VAPOUR_RATIO * p_vapour / (p - p_vapour)
