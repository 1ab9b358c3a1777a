r"""Friction of an engine whose oil is still cold.

Source   sandoval2003, the form: friction of oil films goes as the root of the viscosity (memory)
Range    250 <= T <= 400 K, multigrade oil about 10W-40
Scatter  a fifth of what is added; from 65 degC on nothing is added
"""

from toptank.units.arrays import Real, namespace

WARM = 338.15
"""Temperature of the oil from which friction counts as that of a warm engine [K]; judgement."""

STEEPNESS, POLE = 806.0, 180.0
"""Of ln viscosity over 1 / (T - pole) [K]: 95 mm2/s at 40 degC and 14.5 at 100, a common multigrade; from memory."""


def cold_friction(T: Real, a_oil: Real) -> Real:
    r"""Mean pressure of friction over that of a warm engine.

    .. math:: 1 + a \left(\sqrt{\mu(T) / \mu(T_w)} - 1\right) \quad \text{below } T_w = 65\,^\circ\mathrm{C}

    Parameters
    ----------
    T : temperature of the oil [K]
    a_oil : share of the friction of a warm engine that goes as the root of the oil's viscosity [1]

    Returns
    -------
    r_cold : friction over that of a warm engine [1]
    """
    xp = namespace(T, a_oil)
    cold = xp.clip(xp.asarray(T, float), 230.0, WARM)
    return 1.0 + a_oil * (xp.exp(0.5 * STEEPNESS * (1.0 / (cold - POLE) - 1.0 / (WARM - POLE))) - 1.0)
