r"""Heat transfer and friction of air in louvered fins on flat tubes.

Source   chang1997, general correlation of j; chang2000, f in two branches; chang2006, blend between them
Range    100 < Re_Lp < 3000 (j), 130 to 5000 (f); F_p 0.51 to 3.33 mm, L_p 0.5 to 3 mm, F_l 2.8 to 20 mm,
         T_d 15.6 to 57.4 mm, T_p 7.5 to 25 mm, L_l 2.1 to 18.5 mm, delta_f 0.025 to 0.16 mm, theta 8.4 to 35 degrees
Scatter  89 % of the samples of j and 83 % of those of f lie within 15 % (from memory); for an old core carry 20 % and
         30 %
"""

from math import log, pi

from toptank.units.arrays import Real, namespace

DEGREES = 180.0 / pi
LOG_130, LOG_230 = log(130.0), log(230.0)
LOG_2, LOG_0_3 = log(2.0), log(0.3)
LOG_14_39, LOG_4_97 = log(14.39), log(4.97)


def colburn_j_louvered(
    Re_Lp: Real, theta: Real, F_p: Real, L_p: Real, F_l: Real, T_d: Real, L_l: Real, T_p: Real, delta_f: Real
) -> Real:
    r"""Colburn factor of louvered fins.

    .. math:: j = Re_{Lp}^{-0.49} (\theta/90)^{0.27} (F_p/L_p)^{-0.14} (F_l/L_p)^{-0.29} (T_d/L_p)^{-0.23}
              (L_l/L_p)^{0.68} (T_p/L_p)^{-0.28} (\delta_f/L_p)^{-0.05}

    with the angle in degrees. The Reynolds number is held at 1 from below.

    Parameters
    ----------
    Re_Lp : Reynolds number on louver pitch, at the smallest free area [1]
    theta : louver angle [rad]
    F_p : fin pitch [m]
    L_p : louver pitch [m]
    F_l : fin length from tube to tube [m]
    T_d : depth of the tubes in the direction of the air [m]
    L_l : louver length [m]
    T_p : tube pitch across the face [m]
    delta_f : fin thickness [m]

    Returns
    -------
    j : Colburn factor [1]
    """
    xp = namespace(Re_Lp, theta, F_p, L_p, F_l, T_d, L_l, T_p, delta_f)
    flow = -0.49 * xp.log(xp.maximum(Re_Lp, 1.0)) + 0.27 * xp.log(theta * (DEGREES / 90.0))
    fin = -0.14 * xp.log(F_p) - 0.29 * xp.log(F_l) - 0.05 * xp.log(delta_f)
    tube = -0.23 * xp.log(T_d) - 0.28 * xp.log(T_p)
    louver = 0.68 * xp.log(L_l) + 0.31 * xp.log(L_p)
    return xp.exp(flow + fin + tube + louver)


def fanning_f_louvered(
    Re_Lp: Real,
    theta: Real,
    F_p: Real,
    L_p: Real,
    F_l: Real,
    F_d: Real,
    L_l: Real,
    T_p: Real,
    delta_f: Real,
    D_m: Real,
) -> Real:
    r"""Fanning friction factor of louvered fins.

    .. math:: f = \sqrt{\tfrac12 [(1 + w) f_{low}^2 + (1 - w) f_{high}^2]}, \quad w = 3.6 - 0.02 Re_{Lp}

    with w held between -1 and 1, so that the low branch rules below 130 and the high branch above 230. The Reynolds
    number is held at 10 from below, where the logarithm of the low branch would vanish; the ratio of fin thickness to
    fin pitch is held at 0.015 from below, where another would.

    Parameters
    ----------
    Re_Lp : Reynolds number on louver pitch, at the smallest free area [1]
    theta : louver angle [rad]
    F_p : fin pitch [m]
    L_p : louver pitch [m]
    F_l : fin length from tube to tube [m]
    F_d : depth of the fins in the direction of the air [m]
    L_l : louver length [m]
    T_p : tube pitch across the face [m]
    delta_f : fin thickness [m]
    D_m : tube thickness across the face [m]

    Returns
    -------
    f : Fanning friction factor [1]
    """
    xp = namespace(Re_Lp, theta, F_p, L_p, F_l, F_d, L_l, T_p, delta_f, D_m)
    log_Re = xp.log(xp.maximum(Re_Lp, 10.0))
    low_Re = xp.minimum(log_Re, LOG_130)
    high_Re = xp.maximum(log_Re, LOG_230)
    D_h = 2.0 * (F_l - delta_f) * (F_p - delta_f) / (F_l + F_p - 2.0 * delta_f)
    log_theta = xp.log(theta * DEGREES)
    log_thin = xp.log(xp.maximum(delta_f / F_p, 0.015))
    log_D_h = xp.log(D_h / L_p)
    log_F_p = xp.log(F_p / L_l)
    low = (
        LOG_14_39
        - 0.805 * F_p / F_l * low_Re
        + 3.04 * xp.log(xp.log1p(F_p / L_p))
        - 1.435 * xp.log(xp.log(xp.exp(0.48 * log_thin) + 0.9))
        - 3.01 * (log_D_h + xp.log(low_Re - LOG_2))
        - 0.308 * (log_F_p + xp.log(F_d / L_l))
        - 0.1167 * T_p / D_m
        + 0.35 * log_theta
    )
    high = (
        LOG_4_97
        + (0.6049 - 1.064 * xp.exp(-0.2 * log_theta)) * high_Re
        - 0.527 * xp.log(xp.log(xp.exp(0.5 * log_thin) + 0.9))
        - 2.966 * (log_D_h + xp.log(high_Re + LOG_0_3))
        - 0.7931 * T_p / (T_p - D_m) * log_F_p
        - 0.0446 * xp.log(T_p / D_m)
        - 3.553 * xp.log(xp.log(1.2 + xp.exp(1.4 * xp.log(L_p / F_p))))
        - 0.477 * log_theta
    )
    w = xp.clip(3.6 - 0.02 * Re_Lp, -1.0, 1.0)
    return xp.sqrt(0.5 * ((1.0 + w) * xp.exp(2.0 * low) + (1.0 - w) * xp.exp(2.0 * high)))
