r"""The water pump: pressure by similarity.

Source   karassik2008, affinity laws, with a curve of assumed shape (parabola)
Range    speeds and flows of a running pump without cavitation
Scatter  flow within 10 % from 1000 to 2000 1/min with one constant (car_reports1920)
"""

from toptank.units.arrays import Real, namespace


def pump_pressure(N: Real, Q: Real, p_0: Real, N_0: Real, Q_0: Real) -> Real:
    r"""Pressure rise over a pump; a pump that stands is a resistance.

    .. math:: \Delta p = p_0 [(N/N_0)^2 - (Q/Q_0) |Q/Q_0|]

    Parameters
    ----------
    N : rotational speed [1/s]
    Q : volume flow [m3/s]
    p_0 : pressure rise without flow at the stated speed [Pa]
    N_0 : stated speed [1/s]
    Q_0 : volume flow without pressure rise at the stated speed [m3/s]

    Returns
    -------
    dp : pressure rise [Pa]
    """
    xp = namespace(N, Q, p_0, N_0, Q_0)
    speed = N / N_0
    flow = Q / Q_0
    return p_0 * (speed * speed - flow * xp.abs(flow))
