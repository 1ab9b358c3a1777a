r"""How much of a fin's surface is as good as the tube's.

Source   incropera2007, section 3.6 (straight fin, tip without heat flow)
Range    thin fins of one thickness; heat enters at both ends, so L_f is half the way from tube to tube
Scatter  exact for that case; bond and thickness of a real fin are doubts of the part
"""

from toptank.units.arrays import Real, namespace


def fin_efficiency(h: Real, k_f: Real, delta_f: Real, L_f: Real) -> Real:
    r"""Efficiency of a straight fin.

    .. math:: \eta_f = \tanh(m L_f) / (m L_f), \quad m = \sqrt{2 h / (k_f \delta_f)}

    Parameters
    ----------
    h : heat transfer coefficient [W/(m2 K)]
    k_f : conductivity of the fin [W/(m K)]
    delta_f : fin thickness [m]
    L_f : length of the fin from its root to where no heat flows [m]

    Returns
    -------
    eta_f : fin efficiency [1]
    """
    xp = namespace(h, k_f, delta_f, L_f)
    mL = xp.sqrt(xp.maximum(2.0 * h * L_f * L_f / (k_f * delta_f), 1e-12))
    return xp.tanh(mL) / mL
