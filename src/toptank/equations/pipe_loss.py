r"""Loss of pressure in hoses, ports and passages.

Source   idelchik2008, loss coefficients on dynamic pressure
Range    turbulent flow; K belongs to the area it is stated for
Scatter  10 to 30 %, that of K
"""

from toptank.units.arrays import Real, namespace


def minor_loss(K: Real, rho: Real, Q: Real, A: Real) -> Real:
    r"""Loss of pressure at a fitting, with the sign of the flow.

    .. math:: \Delta p = K \rho Q |Q| / (2 A^2)

    Parameters
    ----------
    K : loss coefficient [1]
    rho : density [kg/m3]
    Q : volume flow [m3/s]
    A : area [m2]

    Returns
    -------
    dp : pressure drop [Pa]
    """
    xp = namespace(K, rho, Q, A)
    velocity = Q / A
    return 0.5 * K * rho * velocity * xp.abs(velocity)
