r"""Power and force that a road asks at the wheels.

Source   gillespie1992, chapter 4; sae_j1263, force of a coast-down as a polynomial of speed
Range    steady speed, dry paved road; grade as rise over run
Scatter  rolling resistance 20 %, drag area 15 % where not measured; 2 to 3 % from a coast-down
"""

from toptank.units.arrays import Real, namespace


def road_load_power(m: Real, V: Real, grade: Real, C_rr: Real, C_dA: Real, rho: Real, g: Real, U: Real) -> Real:
    r"""Power at the wheels on a grade; negative where the hill pushes.

    .. math:: P = V \left[m g (C_{rr} \cos\theta + \sin\theta) + \tfrac12 \rho C_d A\, U |U|\right],
              \quad \tan\theta = grade

    Parameters
    ----------
    m : mass [kg]
    V : road speed [m/s]
    grade : rise over run [1]
    C_rr : rolling resistance coefficient [1]
    C_dA : drag area, drag coefficient times frontal area [m2]
    rho : density [kg/m3]
    g : gravity [m/s2]
    U : air speed [m/s]

    Returns
    -------
    P : power at the wheels [W]
    """
    xp = namespace(m, V, grade, C_rr, C_dA, rho, g, U)
    weight = m * g * (C_rr + grade) / xp.sqrt(1.0 + grade * grade)
    return V * (weight + 0.5 * rho * C_dA * U * xp.abs(U))


def coast_down_force(F_0: Real, F_1: Real, F_2: Real, V: Real) -> Real:
    r"""Force that slows a vehicle on a level road, from the published coefficients of its coast-down.

    .. math:: F = F_0 + F_1 V + F_2 V^2

    Parameters
    ----------
    F_0 : constant part of the force [N]
    F_1 : part that grows with speed [N s/m]
    F_2 : part that grows with the square of speed [N s2/m2]
    V : road speed [m/s]

    Returns
    -------
    F : force at the wheels [N]
    """
    return F_0 + V * (F_1 + V * F_2)
