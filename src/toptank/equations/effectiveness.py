r"""Effectiveness of a core: heat given over the most that could be given.

Source   mason1955, series for crossflow, both streams unmixed; kays1984, chapter 2 (one stream mixed, and
         passes in counterflow)
Range    0 <= NTU <= 10 (held at 10 above); 0 <= C_r <= 1, for unmixed streams any C_r
Scatter  20 terms of the series: within 3e-6 of the exact value on that range; the plan of a real core: 1 to 2 %
"""

from toptank.units.arrays import Real, namespace

TERMS = 20
MOST_NTU = 10.0
LEAST_C_r = 1e-9


def crossflow(NTU: Real, C_r: Real) -> Real:
    r"""Effectiveness of crossflow, both streams unmixed, by its exact series.

    .. math:: \epsilon = \frac{1}{C_r NTU} \sum_{n=0}^{\infty}
              \left[1 - e^{-NTU} \sum_{m=0}^{n} \frac{NTU^m}{m!}\right]
              \left[1 - e^{-C_r NTU} \sum_{m=0}^{n} \frac{(C_r NTU)^m}{m!}\right]

    The relation is the same from either side: with the transfer units of the stream of larger capacity rate, C_r is
    above 1 and the effectiveness is that stream's. The number of transfer units is held at 10 from above.

    Parameters
    ----------
    NTU : number of transfer units [1]
    C_r : capacity rate of the stream of NTU over that of the other [1]

    Returns
    -------
    epsilon : effectiveness [1]
    """
    xp = namespace(NTU, C_r)
    a = xp.clip(NTU, LEAST_C_r, MOST_NTU)
    b = a * xp.maximum(C_r, LEAST_C_r)
    tail_a, tail_b = -xp.expm1(-a), -xp.expm1(-b)
    term_a, term_b = 1.0 - tail_a, 1.0 - tail_b
    total = tail_a * tail_b
    for n in range(1, TERMS):
        term_a, term_b = term_a * a * (1.0 / n), term_b * b * (1.0 / n)
        tail_a, tail_b = tail_a - term_a, tail_b - term_b
        total = total + tail_a * tail_b
    return total / b


def crossflow_C_min_mixed(NTU: Real, C_r: Real) -> Real:
    r"""Effectiveness of crossflow, the stream of smaller capacity rate mixed.

    .. math:: \epsilon = 1 - \exp[-(1 - e^{-C_r NTU})/C_r]

    Parameters
    ----------
    NTU : number of transfer units [1]
    C_r : capacity rate of the stream of NTU over that of the other [1]

    Returns
    -------
    epsilon : effectiveness [1]
    """
    xp = namespace(NTU, C_r)
    C_r = xp.maximum(C_r, LEAST_C_r)
    return -xp.expm1(xp.expm1(-C_r * NTU) / C_r)


def crossflow_C_max_mixed(NTU: Real, C_r: Real) -> Real:
    r"""Effectiveness of crossflow, the stream of larger capacity rate mixed.

    .. math:: \epsilon = \{1 - \exp[-C_r (1 - e^{-NTU})]\}/C_r

    Parameters
    ----------
    NTU : number of transfer units [1]
    C_r : capacity rate of the stream of NTU over that of the other [1]

    Returns
    -------
    epsilon : effectiveness [1]
    """
    xp = namespace(NTU, C_r)
    C_r = xp.maximum(C_r, LEAST_C_r)
    return -xp.expm1(C_r * xp.expm1(-NTU)) / C_r


def counterflow_of_passes(epsilon_1: Real, C_r: Real, n: Real) -> Real:
    r"""Effectiveness of equal passes behind one another in counterflow, streams mixed between them.

    .. math:: \epsilon = \frac{z - 1}{z - C_r}, \quad
              z = \left(\frac{1 - \epsilon_1 C_r}{1 - \epsilon_1}\right)^n

    Two passes side by side in the same face both meet fresh air: this relation is not theirs.

    Parameters
    ----------
    epsilon_1 : effectiveness of one pass, at its share of the transfer units [1]
    C_r : capacity rate of the stream of NTU over that of the other [1]
    n : number of passes [1]

    Returns
    -------
    epsilon : effectiveness [1]
    """
    xp = namespace(epsilon_1, C_r, n)
    difference = xp.maximum(1.0 - C_r, LEAST_C_r)
    growth = xp.expm1(n * xp.log1p(epsilon_1 * difference / xp.maximum(1.0 - epsilon_1, LEAST_C_r)))
    return growth / (growth + difference)
