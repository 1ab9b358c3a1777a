r"""Warming of a stream that takes up heat.

Source   incropera2007, section 1.3 (steady-flow energy balance)
Range    one phase, heat capacity of the mean temperature
Scatter  that of the flow and of the heat capacity
"""

from toptank.units.arrays import Real


def temperature_change(Q_dot: Real, m_dot: Real, c_p: Real) -> Real:
    r"""Rise of temperature of a stream.

    .. math:: \Delta T = \dot Q / (\dot m c_p)

    Parameters
    ----------
    Q_dot : heat flow [W]
    m_dot : mass flow [kg/s]
    c_p : heat capacity at constant pressure [J/(kg K)]

    Returns
    -------
    dT : rise of temperature [K]
    """
    return Q_dot / (m_dot * c_p)
