"""The one place where the bases of a mix are turned into each other.

A shop mixes *concentrate* and water by volume. Ethylene concentrate counts for 95 % of its volume as glycol and for
the rest, inhibitors and water, as water: so 50 % of it freezes at -37 °C, as makers print, and not at -39.8 °C as 50 %
of pure glycol would. Propylene concentrate counts for 98 %: its inhibitors, salts for the most part, lower the freeze
point about as much as the glycol whose room they take, and manuals print -21, -33 and -49 °C for 40, 50 and 60 % of it.

Source   crc_handbook102 for densities and molar masses; what concentrate counts for: engine_manual2013 and
         generator_manual2007 read as shares of concentrate, which is what both call them
Range    concentrate 0 to 70 % by volume, 20 °C
Scatter  ethylene 0.93 to 0.96, propylene 0.965 (the least that astm_d3306 lets pass) to 1
"""

from toptank.units.arrays import Real

GLYCOL_SHARES = (0.95, 0.98)
"""Volume of glycol that a volume of concentrate counts for [1], ethylene and propylene: gives printed freeze points."""

_WATER_DENSITY = 998.2
_GLYCOL_DENSITY = (1113.2, 1036.1)
_WATER_MOLAR_MASS = 18.0153e-3
_GLYCOL_MOLAR_MASS = (62.0678e-3, 76.0944e-3)


def glycol_share(glycol: Real) -> Real:
    """Volume of glycol that a volume of concentrate counts for.

    Parameters
    ----------
    glycol : 0 ethylene, 1 propylene [1]

    Returns
    -------
    share : volume of glycol over that of concentrate [1]
    """
    return _of(glycol, GLYCOL_SHARES)


def glycol_volume_fraction(concentrate: Real, glycol: Real) -> Real:
    """Volume of pure glycol in a volume of the mix.

    Parameters
    ----------
    concentrate : share of concentrate by volume [1]
    glycol : 0 ethylene, 1 propylene [1]

    Returns
    -------
    v : volume fraction of glycol, volumes before mixing [1]
    """
    return glycol_share(glycol) * concentrate


def glycol_mass_fraction(v: Real, glycol: Real) -> Real:
    """Mass of glycol in a mass of the mix, from volumes measured at 20 °C.

    Parameters
    ----------
    v : volume fraction of glycol, volumes before mixing [1]
    glycol : 0 ethylene, 1 propylene [1]

    Returns
    -------
    x : mass fraction of glycol [1]
    """
    mass = v * _of(glycol, _GLYCOL_DENSITY)
    return mass / (mass + (1.0 - v) * _WATER_DENSITY)


def water_mole_fraction(x: Real, glycol: Real) -> Real:
    """Moles of water in a mole of the mix.

    Parameters
    ----------
    x : mass fraction of glycol [1]
    glycol : 0 ethylene, 1 propylene [1]

    Returns
    -------
    y : mole fraction of water [1]
    """
    water = (1.0 - x) / _WATER_MOLAR_MASS
    return water / (water + x / _of(glycol, _GLYCOL_MOLAR_MASS))


def _of(glycol: Real, pair: tuple[float, float]) -> Real:
    return pair[0] + glycol * (pair[1] - pair[0])
