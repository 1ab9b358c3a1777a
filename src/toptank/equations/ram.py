r"""Pressure of the air that a moving vehicle meets.

Source   gillespie1992, chapter 4 (Bernoulli)
Range    speeds below a third of that of sound
Scatter  exact; what of it reaches the core is a coefficient of the grille
"""

from toptank.units.arrays import Real


def dynamic_pressure(rho: Real, U: Real) -> Real:
    r"""Dynamic pressure.

    .. math:: q = \tfrac12 \rho U^2

    Parameters
    ----------
    rho : density [kg/m3]
    U : air speed [m/s]

    Returns
    -------
    q : dynamic pressure [Pa]
    """
    return 0.5 * rho * U * U
