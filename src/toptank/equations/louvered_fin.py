r"""Heat transfer and friction of air in louvered fins on flat tubes.

Source   chang1997, general correlation of j; chang2000, f in two branches; chang2006, blend between them
Range    100 < Re_Lp < 3000 (j), 130 to 5000 (f); F_p 0.51 to 3.33 mm, L_p 0.5 to 3 mm, F_l 2.8 to 20 mm,
         T_d 15.6 to 57.4 mm, T_p 7.5 to 25 mm, L_l 2.1 to 18.5 mm, delta_f 0.025 to 0.16 mm, theta 8.4 to 35 degrees
Scatter  89 % of the samples of j and 83 % of those of f lie within 15 % (from memory); for an old core carry 20 % and
         30 %
"""

from math import log, pi
from typing import NamedTuple

from toptank.units.arrays import Real, namespace

DEGREES = 180.0 / pi
LAMINAR_BELOW = 80.0
"""Reynolds number on louver pitch below which f goes on as in laminar flow [1]; judgement."""

THINNEST, THINNEST_SLOW = 0.015, 0.0225
"""Fin thickness over fin pitch below which f stays as it is there [1], in the high branch and in the low one.

The published ranges tell thickness and pitch apart. From memory the thinnest fins among the samples are plates of 0.05
mm and folded ones of 0.075 mm, both on a pitch of 3.33 mm. The high branch reaches down to the plates. The low one,
nearly three times as steep, would add half from the folded fins to the plates: no foil does that to slow air."""

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
    by_flow = xp.exp(-0.49 * xp.log(xp.maximum(Re_Lp, 1.0)))
    return by_flow * colburn_j_of_fin(theta, F_p, L_p, F_l, T_d, L_l, T_p, delta_f)


def colburn_j_of_fin(
    theta: Real, F_p: Real, L_p: Real, F_l: Real, T_d: Real, L_l: Real, T_p: Real, delta_f: Real
) -> Real:
    r"""What the fin's shape gives to j: the same relation without its Reynolds number, for one fin at many velocities.

    .. math:: j_1 = j Re_{Lp}^{0.49}

    Parameters
    ----------
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
    j_1 : Colburn factor at a Reynolds number of 1 [1]
    """
    xp = namespace(theta, F_p, L_p, F_l, T_d, L_l, T_p, delta_f)
    fin = 0.27 * xp.log(theta * (DEGREES / 90.0)) - 0.14 * xp.log(F_p) - 0.29 * xp.log(F_l) - 0.05 * xp.log(delta_f)
    tube = -0.23 * xp.log(T_d) - 0.28 * xp.log(T_p)
    louver = 0.68 * xp.log(L_l) + 0.31 * xp.log(L_p)
    return xp.exp(fin + tube + louver)


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

    with w held between -1 and 1, so that the low branch rules below 130 and the high branch above 230.

    Below 80 the low branch, far outside its samples, would let the pressure drop hardly grow with the velocity: f goes
    on from there as in laminar flow, inversely to the Reynolds number. Where the high branch lies far below the low
    one, the published blend would let the pressure drop fall by up to a third as the velocity grows, which no core
    does: f stays at that of laminar flow from 130 on at the least, and the pressure drop falls by 1 % at the most.
    The ratio of fin thickness to fin pitch is held from below at that of the thinnest samples (0.015 in the high
    branch, 0.0225 in the low one): further down f runs away, and a logarithm vanishes at 0.008.

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
    return LouverFriction.of(theta, F_p, L_p, F_l, F_d, L_l, T_p, delta_f, D_m).fanning_f(Re_Lp)


class LouverFriction(NamedTuple):
    """What the fin's shape gives to both branches of f, worked out once for many velocities.

    ln f = constant + exponent * ln Re - power * ln(ln Re + shift), with one set of constant and exponent a branch [1].
    """

    low: Real
    low_exponent: Real
    high: Real
    high_exponent: Real

    @classmethod
    def of(
        cls, theta: Real, F_p: Real, L_p: Real, F_l: Real, F_d: Real, L_l: Real, T_p: Real, delta_f: Real, D_m: Real
    ) -> "LouverFriction":
        """Work it out for a fin; arguments as in `fanning_f_louvered`."""
        xp = namespace(theta, F_p, L_p, F_l, F_d, L_l, T_p, delta_f, D_m)
        D_h = 2.0 * (F_l - delta_f) * (F_p - delta_f) / (F_l + F_p - 2.0 * delta_f)
        log_theta = xp.log(theta * DEGREES)
        thin = delta_f / F_p
        log_thin, log_slow = xp.log(xp.maximum(thin, THINNEST)), xp.log(xp.maximum(thin, THINNEST_SLOW))
        log_D_h = xp.log(D_h / L_p)
        log_F_p = xp.log(F_p / L_l)
        low = (
            LOG_14_39
            + 3.04 * xp.log(xp.log1p(F_p / L_p))
            - 1.435 * xp.log(xp.log(xp.exp(0.48 * log_slow) + 0.9))
            - 3.01 * log_D_h
            - 0.308 * (log_F_p + xp.log(F_d / L_l))
            - 0.1167 * T_p / D_m
            + 0.35 * log_theta
        )
        high = (
            LOG_4_97
            - 0.527 * xp.log(xp.log(xp.exp(0.5 * log_thin) + 0.9))
            - 2.966 * log_D_h
            - 0.7931 * T_p / (T_p - D_m) * log_F_p
            - 0.0446 * xp.log(T_p / D_m)
            - 3.553 * xp.log(xp.log(1.2 + xp.exp(1.4 * xp.log(L_p / F_p))))
            - 0.477 * log_theta
        )
        return cls(low, -0.805 * F_p / F_l, high, 0.6049 - 1.064 * xp.exp(-0.2 * log_theta))

    def fanning_f(self, Re_Lp: Real) -> Real:
        """Fanning friction factor [1] at a Reynolds number on louver pitch [1]."""
        xp = namespace(Re_Lp, *self)
        held = xp.maximum(Re_Lp, LAMINAR_BELOW)
        log_Re = xp.log(held)
        low_Re, high_Re = xp.minimum(log_Re, LOG_130), xp.maximum(log_Re, LOG_230)
        low = xp.exp(self.low + self.low_exponent * low_Re - 3.01 * xp.log(low_Re - LOG_2))
        high = xp.exp(self.high + self.high_exponent * high_Re - 2.966 * xp.log(high_Re + LOG_0_3))
        w = xp.clip(3.6 - 0.02 * Re_Lp, -1.0, 1.0)
        blended = xp.sqrt(0.5 * ((1.0 + w) * low * low + (1.0 - w) * high * high))
        slowest_growth = low * xp.minimum(130.0 / held, 1.0)
        return xp.maximum(blended, slowest_growth) * (held / xp.maximum(Re_Lp, 1e-9))
