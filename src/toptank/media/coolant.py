"""Coolant: water with a share of concentrate, ethylene or propylene glycol.

The tables behind the fits are by volume of *inhibited* glycol. They are read here as volumes of concentrate: 50 % of
their ethylene freezes at -37.1 °C, as 50 % of concentrate does and 50 % of pure glycol (-39.8 °C) does not, 50 % of
their propylene at -33.7 °C, as manuals print it for concentrate; and they are denser by what inhibitors weigh.

Above 100 °C and above 60 % the fits hold what tools/fit_media.py carried on; at 0 % they meet water. Vapour pressures
follow Raoult's law for water and glycol, on the bases of `toptank.media.mixture`.

Source   ashrae_glycol2009 through CoolProp (AEG, APG); perry2008 and CoolProp for vapour; melinder2010 for freezing
Range    233.15 to 398.15 K where liquid, 0 to 70 % concentrate; arguments beyond are taken at the limit
Scatter  against the tables to 60 % and from -20 to 125 °C: density 0.1 %, heat capacity 0.3 %, conductivity 0.5 %,
         viscosity 9 %, below -20 °C 16 %; boiling 2 K. Tables against measurements: density 1 %, heat capacity 1.5 %,
         conductivity 3 %, viscosity 6 %
"""

from toptank.media import mixture, water
from toptank.media.fit import blended, coefficients, inverse, load, plain, polynomial, surface
from toptank.units.arrays import Real, namespace

RICHEST = 0.7
"""Largest share of concentrate by volume [1]."""

STRONGEST_FREEZING = 0.6
"""Mass fraction of glycol beyond which the freeze point is no longer followed [1]."""

_GLYCOLS = ("ethylene", "propylene")
_FITS = load("coolant")
_DENSITY = tuple(surface(_FITS["density"][name]) for name in _GLYCOLS)
_HEAT_CAPACITY = tuple(surface(_FITS["heat_capacity"][name]) for name in _GLYCOLS)
_CONDUCTIVITY = tuple(surface(_FITS["conductivity"][name]) for name in _GLYCOLS)
_LOG_VISCOSITY = tuple(surface(_FITS["log_viscosity"][name]) for name in _GLYCOLS)

_GLYCOL_FITS = load("glycol")
_LOG_GLYCOL_PRESSURE = tuple(coefficients(_GLYCOL_FITS["log_saturation_pressure"][name]) for name in _GLYCOLS)
_FREEZING_DEPRESSION = tuple(coefficients(_GLYCOL_FITS["freezing_depression"][name]) for name in _GLYCOLS)

_BOILING_STEPS = 4
"""Each gains one and a half digits; the first guess is within 2 K."""


def density(T: Real, concentrate: Real, glycol: Real) -> Real:
    """Density.

    Parameters
    ----------
    T : temperature [K]
    concentrate : share of concentrate by volume [1]
    glycol : 0 ethylene, 1 propylene [1]

    Returns
    -------
    rho : density [kg/m3]
    """
    return blended(plain(T), _share(concentrate), glycol, *_DENSITY)


def heat_capacity(T: Real, concentrate: Real, glycol: Real) -> Real:
    """Specific heat capacity.

    Parameters
    ----------
    T : temperature [K]
    concentrate : share of concentrate by volume [1]
    glycol : 0 ethylene, 1 propylene [1]

    Returns
    -------
    c_p : specific heat capacity [J/(kg K)]
    """
    return blended(plain(T), _share(concentrate), glycol, *_HEAT_CAPACITY)


def conductivity(T: Real, concentrate: Real, glycol: Real) -> Real:
    """Thermal conductivity.

    Parameters
    ----------
    T : temperature [K]
    concentrate : share of concentrate by volume [1]
    glycol : 0 ethylene, 1 propylene [1]

    Returns
    -------
    k : thermal conductivity [W/(m K)]
    """
    return blended(plain(T), _share(concentrate), glycol, *_CONDUCTIVITY)


def viscosity(T: Real, concentrate: Real, glycol: Real) -> Real:
    """Dynamic viscosity.

    Parameters
    ----------
    T : temperature [K]
    concentrate : share of concentrate by volume [1]
    glycol : 0 ethylene, 1 propylene [1]

    Returns
    -------
    mu : dynamic viscosity [Pa s]
    """
    log_mu = blended(inverse(T), _share(concentrate), glycol, *_LOG_VISCOSITY)
    return namespace(log_mu).exp(log_mu)


def saturation_pressure(T: Real, concentrate: Real, glycol: Real) -> Real:
    """Pressure under which the mix boils: p = y p_water + (1 - y) p_glycol (Raoult).

    Parameters
    ----------
    T : temperature [K]
    concentrate : share of concentrate by volume [1]
    glycol : 0 ethylene, 1 propylene [1]

    Returns
    -------
    p : absolute pressure at the bubble point [Pa]
    """
    y = _water_moles(concentrate, glycol)
    return y * water.saturation_pressure(T) + (1.0 - y) * _glycol_pressure(T, glycol)


def boiling_temperature(p: Real, concentrate: Real, glycol: Real) -> Real:
    """Temperature at which the mix boils under a pressure: the inverse of `saturation_pressure`.

    Water boils at the pressure that the glycol leaves to it; four rounds of this settle to 0.001 K.

    Parameters
    ----------
    p : absolute pressure [Pa]
    concentrate : share of concentrate by volume [1]
    glycol : 0 ethylene, 1 propylene [1]

    Returns
    -------
    T : bubble point [K]
    """
    y = _water_moles(concentrate, glycol)
    boiling = water.boiling_temperature(p / y)
    for _ in range(_BOILING_STEPS):
        boiling = water.boiling_temperature((p - (1.0 - y) * _glycol_pressure(boiling, glycol)) / y)
    return boiling


def freeze_point(concentrate: Real, glycol: Real) -> Real:
    """Temperature at which the first ice forms.

    Beyond 60 % glycol by mass (about 60 % concentrate) the figure for 60 % is given: mixes a little stronger turn to a
    glassy slush instead of ice, and beyond about 67 % the freeze point rises again, to -13 °C for pure ethylene glycol.

    Parameters
    ----------
    concentrate : share of concentrate by volume [1]
    glycol : 0 ethylene, 1 propylene [1]

    Returns
    -------
    T : freeze point [K]
    """
    x = mixture.glycol_mass_fraction(mixture.glycol_volume_fraction(_share(concentrate), glycol), glycol)
    x = namespace(x).minimum(x, STRONGEST_FREEZING)
    first, second = (polynomial(x, terms) for terms in _FREEZING_DEPRESSION)
    return water.ICE - (first + glycol * (second - first))


def _share(concentrate: Real) -> Real:
    return namespace(concentrate).clip(concentrate, 0.0, RICHEST)


def _water_moles(concentrate: Real, glycol: Real) -> Real:
    v = mixture.glycol_volume_fraction(_share(concentrate), glycol)
    return mixture.water_mole_fraction(mixture.glycol_mass_fraction(v, glycol), glycol)


def _glycol_pressure(T: Real, glycol: Real) -> Real:
    u = inverse(T, 273.15, 473.15)
    first, second = (polynomial(u, terms) for terms in _LOG_GLYCOL_PRESSURE)
    log_p = first + glycol * (second - first)
    return namespace(log_p).exp(log_p)
