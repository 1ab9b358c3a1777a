r"""Axial fans: pressure, moment and power by the fan laws, and the speed that drive and wind leave them.

Source   bleier1998, fan laws, with a pressure curve of assumed shape (parabola, stall not modelled)
Range    Mach number at the tips below 0.3; forward turning blades; flow of either sign
Scatter  10 to 15 % once the two ends of the curve are known; stall lifts the moment and drops the pressure there
"""

from math import pi

from toptank.units.arrays import Real, namespace

FULL_TURN = 2.0 * pi


def pressure_coefficient(phi: Real, psi_0: Real, phi_0: Real) -> Real:
    r"""Pressure coefficient of a fan.

    .. math:: \psi = \psi_0 (1 - \phi |\phi| / \phi_0^2), \quad \psi = \Delta p / (\rho N^2 D^2),
              \quad \phi = Q / (N D^3)

    Parameters
    ----------
    phi : flow coefficient [1]
    psi_0 : pressure coefficient without flow [1]
    phi_0 : flow coefficient without pressure [1]

    Returns
    -------
    psi : pressure coefficient [1]
    """
    xp = namespace(phi, psi_0, phi_0)
    return psi_0 * (1.0 - phi * xp.abs(phi) / (phi_0 * phi_0))


def fan_pressure(rho: Real, N: Real, D: Real, Q: Real, psi_0: Real, phi_0: Real) -> Real:
    r"""Pressure rise over a fan; a fan that stands is a resistance.

    .. math:: \Delta p = \rho \psi_0 \left(N^2 D^2 - \frac{Q |Q|}{\phi_0^2 D^4}\right)

    Parameters
    ----------
    rho : density [kg/m3]
    N : rotational speed [1/s]
    D : diameter over the blade tips [m]
    Q : volume flow [m3/s]
    psi_0 : pressure coefficient without flow [1]
    phi_0 : flow coefficient without pressure [1]

    Returns
    -------
    dp : pressure rise [Pa]
    """
    xp = namespace(rho, N, D, Q, psi_0, phi_0)
    disc = D * D
    tip = N * D
    through = phi_0 * disc
    return rho * psi_0 * (tip * tip - Q * xp.abs(Q) / (through * through))


def fan_torque(rho: Real, N: Real, D: Real, c_P: Real) -> Real:
    r"""Moment that turns a fan.

    .. math:: M = c_P \rho N^2 D^5 / (2 \pi)

    Parameters
    ----------
    rho : density [kg/m3]
    N : rotational speed [1/s]
    D : diameter over the blade tips [m]
    c_P : power coefficient, power over density, speed cubed and diameter to the fifth [1]

    Returns
    -------
    M : moment [N m]
    """
    disc = D * D
    return c_P * rho * N * N * disc * disc * D / FULL_TURN


def wind_torque(rho: Real, D: Real, c_w: Real, U: Real) -> Real:
    r"""Moment by which air that is pushed through a fan helps to turn it.

    .. math:: M = c_w \rho D^3 U^2 / (2 \pi)

    It is taken off the moment of the blades: they need less of it the more flow they see, none in the wind that turns
    them by itself, as the moment of axial blades does beyond their best point.

    Parameters
    ----------
    rho : density [kg/m3]
    D : diameter over the blade tips [m]
    c_w : wind-milling coefficient, in the unit of the power coefficient [1]
    U : air speed [m/s]

    Returns
    -------
    M : moment [N m]
    """
    return c_w * rho * D * D * D * U * U / FULL_TURN


def fan_power(rho: Real, N: Real, D: Real, c_P: Real) -> Real:
    r"""Shaft power of a fan.

    .. math:: P = c_P \rho N^3 D^5

    Parameters
    ----------
    rho : density [kg/m3]
    N : rotational speed [1/s]
    D : diameter over the blade tips [m]
    c_P : power coefficient, power over density, speed cubed and diameter to the fifth [1]

    Returns
    -------
    P : shaft power [W]
    """
    return FULL_TURN * N * fan_torque(rho, N, D, c_P)


def driven_speed(N_in: Real, k: Real, rho: Real, D: Real, c_P: Real, c_w: Real, U: Real) -> Real:
    r"""Speed of a fan behind a drive whose moment grows with its slip, in air that helps to turn the blades.

    .. math:: k (N_{in} - N) = c N^2 - w U^2, \quad c = c_P \rho D^5 / (2 \pi), \quad w = c_w \rho D^3 / (2 \pi)

    Without a drive the fan turns with the wind, N = U sqrt(w/c); behind a stiff one at the speed of the drive.

    Parameters
    ----------
    N_in : speed of the drive [1/s]
    k : moment of the drive per slip speed [N m s]
    rho : density [kg/m3]
    D : diameter over the blade tips [m]
    c_P : power coefficient, power over density, speed cubed and diameter to the fifth [1]
    c_w : wind-milling coefficient, in the unit of the power coefficient [1]
    U : air speed [m/s]

    Returns
    -------
    N : rotational speed [1/s]
    """
    xp = namespace(N_in, k, rho, D, c_P, c_w, U)
    c = fan_torque(rho, 1.0, D, c_P)
    d = k * N_in + wind_torque(rho, D, c_w, U)
    return 2.0 * d / (k + xp.sqrt(xp.maximum(k * k + 4.0 * c * d, 1e-30)))
