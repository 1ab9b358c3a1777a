r"""Scale on a wall.

Source   incropera2007, section 11.2 (fouling adds its resistance)
Range    even film, thin against the bore
Scatter  conductivity 0.5 to 2.9 W/(m K) by density of the scale (from memory): a factor of 3
"""

from toptank.units.arrays import Real


def fouling_resistance(t_s: Real, k_s: Real) -> Real:
    r"""Thermal resistance of a film, per area.

    .. math:: R_f = t_s / k_s

    Parameters
    ----------
    t_s : thickness of the scale [m]
    k_s : conductivity of the scale [W/(m K)]

    Returns
    -------
    R_f : fouling resistance [m2 K/W]
    """
    return t_s / k_s
