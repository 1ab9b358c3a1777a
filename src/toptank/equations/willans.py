r"""From brake power to fuel: the Willans line.

Source   heywood1988, chapter 13 (friction) and section 2.7 (mean pressures); pachernegg1969, the line itself
Range    four-stroke engines, steady, warm; eta_i 0.33 to 0.36 petrol, 0.42 to 0.46 diesel
Scatter  7 % of fuel over twelve vehicles with one pair of constants (epa_testcar)
"""

from toptank.units.arrays import Real, namespace


def fuel_power(P_b: Real, tfmep: Real, V_d: Real, N: Real, eta_i: Real) -> Real:
    r"""Power of the burnt fuel of a four-stroke engine, on its lower heating value.

    .. math:: P_f = (P_b + tfmep\, V_d N / 2) / \eta_i

    Held at zero from below: an engine that the vehicle turns burns nothing.

    Parameters
    ----------
    P_b : brake power [W]
    tfmep : mean pressure lost to friction and pumping [Pa]
    V_d : swept volume [m3]
    N : rotational speed [1/s]
    eta_i : share of the fuel's heat turned into work on the pistons [1]

    Returns
    -------
    P_f : fuel power [W]
    """
    xp = namespace(P_b, tfmep, V_d, N, eta_i)
    return xp.maximum(P_b + 0.5 * tfmep * V_d * N, 0.0) / eta_i


def brake_mean_pressure(P_b: Real, V_d: Real, N: Real) -> Real:
    r"""Brake mean effective pressure of a four-stroke engine.

    .. math:: bmep = 2 P_b / (V_d N)

    Parameters
    ----------
    P_b : brake power [W]
    V_d : swept volume [m3]
    N : rotational speed [1/s]

    Returns
    -------
    bmep : brake mean effective pressure [Pa]
    """
    return 2.0 * P_b / (V_d * N)
