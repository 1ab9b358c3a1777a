r"""Laminar flow in flat ducts: plain fins on the air side, tubes on the coolant side.

Source   shah1978, polynomials for the rectangular duct; stephan1959, developing Nusselt number between plates;
         shah1978a, developing friction
Range    0 <= alpha <= 1, Re < 2300; 0.1 < Pr < 1000 where the flow develops
Scatter  polynomials within 0.1 % of the exact series; the developing terms are those of parallel plates, within 10 %
"""

from toptank.units.arrays import Real, namespace


def nusselt_rectangular(alpha: Real) -> Real:
    r"""Nusselt number of developed laminar flow in a rectangular duct, walls of one temperature.

    .. math:: Nu = 7.541 (1 - 2.610 \alpha + 4.970 \alpha^2 - 5.119 \alpha^3 + 2.702 \alpha^4 - 0.548 \alpha^5)

    Parameters
    ----------
    alpha : aspect ratio of the duct, short over long side [1]

    Returns
    -------
    Nu : Nusselt number on hydraulic diameter [1]
    """
    series = -5.119 + alpha * (2.702 - 0.548 * alpha)
    return 7.541 * (1.0 + alpha * (-2.610 + alpha * (4.970 + alpha * series)))


def friction_rectangular(alpha: Real) -> Real:
    r"""Friction of developed laminar flow in a rectangular duct: Fanning factor times Reynolds number.

    .. math:: f Re = 24 (1 - 1.3553 \alpha + 1.9467 \alpha^2 - 1.7012 \alpha^3 + 0.9564 \alpha^4 - 0.2537 \alpha^5)

    Parameters
    ----------
    alpha : aspect ratio of the duct, short over long side [1]

    Returns
    -------
    fRe : Fanning friction factor times Reynolds number [1]
    """
    series = -1.7012 + alpha * (0.9564 - 0.2537 * alpha)
    return 24.0 * (1.0 + alpha * (-1.3553 + alpha * (1.9467 + alpha * series)))


def nusselt_developing(Nu_inf: Real, x_star: Real, Pr: Real) -> Real:
    r"""Mean Nusselt number of a laminar flow that develops from the inlet on.

    .. math:: Nu = Nu_\infty + 0.024 x_*^{-1.14} / (1 + 0.0358 x_*^{-0.64} Pr^{0.17})

    The length is held at 1e-7 from below.

    Parameters
    ----------
    Nu_inf : Nusselt number of the developed flow [1]
    x_star : length over hydraulic diameter, Reynolds and Prandtl number [1]
    Pr : Prandtl number [1]

    Returns
    -------
    Nu : mean Nusselt number over the length [1]
    """
    xp = namespace(Nu_inf, x_star, Pr)
    log_x = xp.log(xp.maximum(x_star, 1e-7))
    return Nu_inf + 0.024 * xp.exp(-1.14 * log_x) / (1.0 + 0.0358 * xp.exp(0.17 * xp.log(Pr) - 0.64 * log_x))


def friction_developing(fRe: Real, x_plus: Real) -> Real:
    r"""Apparent friction of a laminar flow that develops from the inlet on, with its gain of momentum.

    .. math:: f_{app} Re = \frac{3.44}{\sqrt{x_+}}
              + \frac{f Re + 0.674 / (4 x_+) - 3.44 / \sqrt{x_+}}{1 + 2.9 \cdot 10^{-5} / x_+^2}

    The length is held at 1e-7 from below.

    Parameters
    ----------
    fRe : Fanning friction factor times Reynolds number [1]
    x_plus : length over hydraulic diameter and Reynolds number [1]

    Returns
    -------
    fRe : apparent Fanning friction factor times Reynolds number [1]
    """
    xp = namespace(fRe, x_plus)
    x = xp.maximum(x_plus, 1e-7)
    entry = 3.44 / xp.sqrt(x)
    return entry + (fRe + 0.1685 / x - entry) * x * x / (x * x + 2.9e-5)
