r"""Heat transfer and friction of the coolant inside the tubes.

Source   gnielinski1976, with the friction of konakov1954; gnielinski2013, linear between laminar and turbulent;
         churchill1977, friction in all regimes
Range    turbulent above about 3000 to 1e6, 0.6 < Pr < 1000; Re_tr 1200 to 3500 stands for doubt of where it trips
Scatter  10 % turbulent; between laminar and turbulent a factor of 2, carried by Re_tr
"""

from toptank.equations.duct import nusselt_developing, nusselt_rectangular
from toptank.units.arrays import Real, namespace

END_OF_TRANSITION = 4000.0 / 2300.0
"""Reynolds number where flow is fully turbulent over that where it leaves laminar flow [1] (gnielinski2013)."""

TWO_THIRDS = 2.0 / 3.0
LOG_10 = 2.302585092994046


def nusselt_turbulent(Re: Real, Pr: Real, D_h: Real, L: Real) -> Real:
    r"""Mean Nusselt number of turbulent flow in a tube of finite length.

    .. math:: Nu = \frac{(f/8)(Re - 1000) Pr}{1 + 12.7 \sqrt{f/8} (Pr^{2/3} - 1)} [1 + (D_h/L)^{2/3}],
              \quad f = (1.8 \lg Re - 1.5)^{-2}

    The Reynolds number is held at 1000 from below, where the relation vanishes.

    Parameters
    ----------
    Re : Reynolds number on hydraulic diameter [1]
    Pr : Prandtl number [1]
    D_h : hydraulic diameter [m]
    L : tube length [m]

    Returns
    -------
    Nu : mean Nusselt number over the length [1]
    """
    xp = namespace(Re, Pr, D_h, L)
    Re = xp.maximum(Re, 1000.0)
    root = 1.0 / (1.8 / LOG_10 * xp.log(Re) - 1.5)
    friction = root * root / 8.0
    film = 1.0 + 12.7 * 0.3535533905932738 * root * (xp.exp(TWO_THIRDS * xp.log(Pr)) - 1.0)
    entry = 1.0 + xp.exp(TWO_THIRDS * xp.log(D_h / L))
    return friction * (Re - 1000.0) * Pr / film * entry


def nusselt_tube(Re: Real, Pr: Real, alpha: Real, D_h: Real, L: Real, Re_tr: Real) -> Real:
    r"""Mean Nusselt number of a flat tube: laminar and developing, transition, turbulent.

    .. math:: Nu = (1 - w) Nu_{lam} + w Nu_{turb}, \quad w = \frac{Re - Re_{tr}}{1.739 Re_{tr} - Re_{tr}}

    with w held between 0 and 1, the laminar value taken at Re_tr and the turbulent one at 1.739 Re_tr in between. The
    turbulent value is held at the laminar one of Re_tr from below, so that more flow never means less heat.

    Parameters
    ----------
    Re : Reynolds number on hydraulic diameter [1]
    Pr : Prandtl number [1]
    alpha : aspect ratio of the duct, short over long side [1]
    D_h : hydraulic diameter [m]
    L : tube length [m]
    Re_tr : Reynolds number where the flow leaves laminar flow [1]

    Returns
    -------
    Nu : mean Nusselt number over the length [1]
    """
    xp = namespace(Re, Pr, alpha, D_h, L, Re_tr)
    Re_end = END_OF_TRANSITION * Re_tr
    Re_laminar = xp.clip(Re, 1.0, Re_tr)
    laminar = nusselt_developing(nusselt_rectangular(alpha), L / (D_h * Re_laminar * Pr), Pr)
    turbulent = xp.maximum(nusselt_turbulent(xp.maximum(Re, Re_end), Pr, D_h, L), laminar)
    w = xp.clip((Re - Re_tr) / (Re_end - Re_tr), 0.0, 1.0)
    return laminar + w * (turbulent - laminar)


def friction_darcy(Re: Real, epsilon_D: Real) -> Real:
    r"""Darcy friction factor in all regimes.

    .. math:: f_D = 8 \left[(8/Re)^{12} + (A + B)^{-1.5}\right]^{1/12}, \quad
              A = \left[-2.457 \ln((7/Re)^{0.9} + 0.27 \epsilon_D)\right]^{16}, \quad B = (37530/Re)^{16}

    The Reynolds number is held at 1 from below.

    Parameters
    ----------
    Re : Reynolds number on hydraulic diameter [1]
    epsilon_D : height of the wall's roughness over hydraulic diameter [1]

    Returns
    -------
    f_D : Darcy friction factor [1]
    """
    xp = namespace(Re, epsilon_D)
    Re = xp.maximum(Re, 1.0)
    A = _to_the_16th(2.457 * xp.log(xp.exp(0.9 * xp.log(7.0 / Re)) + 0.27 * epsilon_D))
    B = _to_the_16th(37530.0 / Re)
    laminar = 8.0 / Re
    laminar = laminar * laminar * laminar
    laminar = laminar * laminar
    both = A + B
    return 8.0 * xp.exp(xp.log(laminar * laminar + 1.0 / (both * xp.sqrt(both))) / 12.0)


def _to_the_16th(value: Real) -> Real:
    value = value * value
    value = value * value
    value = value * value
    return value * value
