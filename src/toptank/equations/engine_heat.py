r"""Heat that an engine keeps from its exhaust: through the gas film of cylinders and ports, and by friction.

Source   depcik2002, abstract (gas side of an engine: Nu as Re to the power 3/4, so that heat follows gas flow)
Range    1 <= P_f / V_d <= 80 MW/m3, petrol and diesel, four-stroke; k 0.36 to 0.48, m 0.63 to 0.75, r 0.7 to 1.0
Scatter  9 % between vehicles; 8 points of fuel too little in the mean of six
         bench balances (joel1996, gupta2013, engine_trials)

The power 0.67 and the size 0.42 are no paper's: read off 30 logged warm-ups of six vehicles, petrol and diesel, driven
by their own fuel and speed. Their scale is fixed by what engines weigh.
"""

from toptank.units.arrays import Real, namespace

LIGHT = 5e6
"""Fuel power over swept volume at which the film's share is stated: a light idle [W/m3]."""

LOGGED_CYLINDER = 0.42e-3
"""Swept volume of a cylinder of the logged engines, in the mean [m3]."""

BY_SIZE = -1.0 / 6.0
"""Power of a cylinder's volume with which the film's share falls [1]: wall per volume to the power -1/3, film 1/6."""


def gas_film_heat(P_f: Real, V_d: Real, V_1: Real, k_film: Real, m_film: Real, Q_most: Real) -> Real:
    r"""Heat through the gas film of cylinders, head and ports.

    .. math:: \dot Q = k V_d F_0 \left(\frac{P_f}{V_d F_0}\right)^m \left(\frac{V_1}{V_0}\right)^{-1/6},
              \quad F_0 = 5\ \mathrm{MW/m^3}, \quad V_0 = 0.42\ \mathrm{L}

    and never more than work and exhaust leave of the fuel, smoothly. At the same speed and fuel
    per litre a cylinder twice as large has 0.79 of the wall per litre, and by Nu as Re^(3/4) 1.12 times the film.

    Parameters
    ----------
    P_f : fuel power [W]
    V_d : swept volume [m3]
    V_1 : swept volume of one cylinder [m3]
    k_film : share of the fuel's heat that goes through the gas film at a light idle [1]
    m_film : power of the fuel with which that heat grows [1]
    Q_most : what work on the pistons and the coolest possible exhaust leave of the fuel [W]

    Returns
    -------
    Q_dot : heat through the gas film [W]
    """
    xp = namespace(P_f, V_d, k_film, m_film, Q_most)
    light = V_d * LIGHT
    burns = xp.maximum(P_f, 1e-9 * light)
    free = light * k_film * xp.exp(BY_SIZE * xp.log(V_1 / LOGGED_CYLINDER) + m_film * xp.log(burns / light))
    over = free / xp.maximum(Q_most, 1e-9 * light)
    # the minimum of free and most, rounded: the eighth root of the sum of eighth powers
    squared = xp.minimum(over, 1e9) ** 2
    fourth = squared * squared
    return xp.where(P_f > 0.0, free / xp.sqrt(xp.sqrt(xp.sqrt(1.0 + fourth * fourth))), 0.0)


def friction_heat(tfmep: Real, V_d: Real, N: Real, r_friction: Real) -> Real:
    r"""Heat of friction that oil, block and coolant take up.

    .. math:: \dot Q = r\, tfmep\, V_d N / 2

    Parameters
    ----------
    tfmep : mean pressure lost to friction and pumping [Pa]
    V_d : swept volume [m3]
    N : rotational speed [1/s]
    r_friction : share of that loss that stays in the engine; what is pumped leaves with the gas [1]

    Returns
    -------
    Q_dot : heat of friction [W]
    """
    return 0.5 * r_friction * tfmep * V_d * N
