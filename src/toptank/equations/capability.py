r"""Cooling capability in the words of the trade: how hot a day may get.

Source   sae_j1393, definitions of air-to-boil and limiting ambient temperature
Range    near the ambient temperature of the reading: one kelvin of ambient is taken as one kelvin of coolant
Scatter  1 K of the thermometers; more the farther the day is from the reading
"""

from toptank.units.arrays import Real


def air_to_boil(T_boil: Real, T_top: Real, T_amb: Real) -> Real:
    r"""Ambient temperature at which the coolant would boil.

    .. math:: T_{ATB} = T_{boil} - T_{top} + T_{amb}

    Parameters
    ----------
    T_boil : boiling point of the coolant under its cap [K]
    T_top : temperature of the coolant that leaves the engine, in the top tank [K]
    T_amb : ambient temperature [K]

    Returns
    -------
    T_ATB : air-to-boil temperature [K]
    """
    return T_boil - T_top + T_amb


def limiting_ambient(T_limit: Real, T_top: Real, T_amb: Real) -> Real:
    r"""Ambient temperature at which the coolant would reach a limit.

    .. math:: T_{LAT} = T_{limit} - T_{top} + T_{amb}

    Parameters
    ----------
    T_limit : highest temperature allowed to the coolant that leaves the engine [K]
    T_top : temperature of the coolant that leaves the engine, in the top tank [K]
    T_amb : ambient temperature [K]

    Returns
    -------
    T_LAT : limiting ambient temperature [K]
    """
    return T_limit - T_top + T_amb
