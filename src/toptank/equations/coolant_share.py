r"""Share of the fuel's heat that reaches the coolant.

Source   heywood1988, table 12.1 (full load, from memory), with an assumed fall from idle to full load
Range    0 <= x <= 1; petrol s_idle 0.40, s_full 0.25, x_0 0.33
Scatter  5 points of share
"""

from toptank.units.arrays import Real, namespace


def coolant_share(x: Real, s_idle: Real, s_full: Real, x_0: Real) -> Real:
    r"""Share of the fuel's heat that reaches the coolant at a load.

    .. math:: s = s_{full} + (s_{idle} - s_{full}) e^{-x/x_0}

    Parameters
    ----------
    x : load, brake mean effective pressure over that at full load [1]
    s_idle : share without load [1]
    s_full : share that high load approaches [1]
    x_0 : load over which the excess falls to 1/e [1]

    Returns
    -------
    s : share of the fuel's heat that reaches the coolant [1]
    """
    xp = namespace(x, s_idle, s_full, x_0)
    return s_full + (s_idle - s_full) * xp.exp(-x / x_0)
