r"""The viscous clutch: its moment grows with slip, the fan's with the square of its speed.

Source   bleier1998, fan laws for the moment of the blades, with a moment of the fluid that by assumption
         grows with slip
Range    0 < r < 1 (held at 0.9999 above); fluid of one viscosity
Scatter  none known: r of one type and make differs by 10 % of shaft speed (common practice, no source)
"""

from math import pi

from toptank.units.arrays import Real, namespace

FULL_TURN = 2.0 * pi
MOST_RATIO = 0.9999


def slip_torque_gain(r: Real, N_ref: Real, rho: Real, D: Real, c_P: Real) -> Real:
    r"""Moment per slip speed of a clutch that turns its fan at a known share of a known shaft speed.

    .. math:: k = c N_{ref} r^2 / (1 - r), \quad c = c_P \rho D^5 / (2 \pi)

    Parameters
    ----------
    r : fan speed over shaft speed [1]
    N_ref : shaft speed where that ratio was seen [1/s]
    rho : density [kg/m3]
    D : diameter over the blade tips [m]
    c_P : power coefficient, power over density, speed cubed and diameter to the fifth [1]

    Returns
    -------
    k : moment of the drive per slip speed [N m s]
    """
    xp = namespace(r, N_ref, rho, D, c_P)
    r = xp.clip(r, 0.0, MOST_RATIO)
    disc = D * D
    return c_P * rho * disc * disc * D / FULL_TURN * N_ref * r * r / (1.0 - r)
