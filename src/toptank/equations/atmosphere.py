r"""Pressure and temperature of the standard atmosphere.

Source   us_std_1976, eqs. 18, 23 and 33a
Range    -500 m to 11 km (troposphere)
Scatter  defined, not measured; real barometers differ by 3 %
"""

from toptank.units.arrays import Real, namespace

EARTH_RADIUS = 6_356_766.0
LAPSE = 0.0065
SEA_LEVEL_T = 288.15
SEA_LEVEL_P = 101_325.0
EXPONENT = 5.255876


def temperature_at_altitude(z: Real) -> Real:
    r"""Temperature of the standard atmosphere.

    .. math:: T = 288.15 - 0.0065 H, \quad H = r z / (r + z)

    Parameters
    ----------
    z : altitude above the sea [m]

    Returns
    -------
    T : temperature [K]
    """
    return SEA_LEVEL_T - LAPSE * EARTH_RADIUS * z / (EARTH_RADIUS + z)


def pressure_at_altitude(z: Real) -> Real:
    r"""Pressure of the standard atmosphere.

    .. math:: p = 101325 (T / 288.15)^{5.255876}

    Parameters
    ----------
    z : altitude above the sea [m]

    Returns
    -------
    p : pressure [Pa]
    """
    xp = namespace(z)
    return SEA_LEVEL_P * xp.exp(EXPONENT * xp.log(temperature_at_altitude(z) * (1.0 / SEA_LEVEL_T)))
