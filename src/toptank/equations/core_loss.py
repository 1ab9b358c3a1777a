r"""Pressure drop of the air through a core: entry, acceleration, friction, exit.

Source   kays1984, chapter 2 (pressure drop) and chapter 5 (entry and exit); kays1950, the theory behind
Range    0 < sigma < 1; K_d 1.0 for interrupted (louvered) fins, 1.2 for laminar flow between plates, 1.33 in tubes
Scatter  end losses below 3 % of a louvered core's pressure drop; friction decides
"""

from toptank.units.arrays import Real, namespace


def contraction_loss(sigma: Real, K_d: Real) -> Real:
    r"""Loss coefficient at the inlet of a core, on the dynamic pressure inside it.

    .. math:: K_c = [1 - 2 C_c + C_c^2 (2 K_d - 1)] / C_c^2,
              \quad C_c = 4.374 \cdot 10^{-4} e^{6.737 \sqrt\sigma} + 0.621

    Parameters
    ----------
    sigma : free area over face area [1]
    K_d : momentum of the stream over that of an even one [1]

    Returns
    -------
    K_c : loss coefficient of the inlet [1]
    """
    xp = namespace(sigma, K_d)
    jet = 1.0 / (4.374e-4 * xp.exp(6.737 * xp.sqrt(sigma)) + 0.621)
    return jet * (jet - 2.0) + 2.0 * K_d - 1.0


def expansion_loss(sigma: Real, K_d: Real) -> Real:
    r"""Loss coefficient at the outlet of a core, on the dynamic pressure inside it.

    .. math:: K_e = 1 - 2 K_d \sigma + \sigma^2 (2 K_d - 1)

    Parameters
    ----------
    sigma : free area over face area [1]
    K_d : momentum of the stream over that of an even one [1]

    Returns
    -------
    K_e : loss coefficient of the outlet [1]
    """
    return 1.0 - 2.0 * K_d * sigma + sigma * sigma * (2.0 * K_d - 1.0)


def core_pressure_drop(
    G: Real, rho_1: Real, rho_2: Real, sigma: Real, K_c: Real, K_e: Real, f: Real, A_over_A_c: Real
) -> Real:
    r"""Pressure drop through a core.

    .. math:: \Delta p = \frac{G^2}{2 \rho_1} \left[K_c + 1 - \sigma^2 + 2 \left(\frac{\rho_1}{\rho_2} - 1\right)
              + f \frac{A}{A_c} \frac{\rho_1}{\rho_m} - (1 - \sigma^2 - K_e) \frac{\rho_1}{\rho_2}\right]

    with 1/rho_m the mean of 1/rho_1 and 1/rho_2.

    Parameters
    ----------
    G : mass flow per smallest free area [kg/(m2 s)]
    rho_1 : density ahead of the core [kg/m3]
    rho_2 : density behind the core [kg/m3]
    sigma : free area over face area [1]
    K_c : loss coefficient of the inlet [1]
    K_e : loss coefficient of the outlet [1]
    f : Fanning friction factor [1]
    A_over_A_c : wetted area over free area, four lengths over hydraulic diameter [1]

    Returns
    -------
    dp : pressure drop [Pa]
    """
    growth = rho_1 / rho_2
    blocked = 1.0 - sigma * sigma
    heads = K_c + blocked + 2.0 * (growth - 1.0) + f * A_over_A_c * 0.5 * (1.0 + growth) - (blocked - K_e) * growth
    return 0.5 * G * G / rho_1 * heads
