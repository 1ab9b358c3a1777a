"""What cores are made of.

Source   incropera2007, table A.1, from memory: pure copper 401 (300 K) to 393 (400 K), cartridge brass 110 to 137,
         aluminium alloys 168 to 186; common practice, no source, for the shading down to core stock
Range    300 to 400 K
Scatter  copper fin stock 5 %, brass 10 %, aluminium 8 %, solder 20 %
"""

from toptank.units.arrays import Real

COPPER = 380.0
"""Copper fin stock, hardened with a little tin or silver [W/(m K)]."""

BRASS = 120.0
"""Tube brass with about a third of zinc, at 360 K [W/(m K)]."""

ALUMINIUM = 170.0
"""Fin and tube alloys with manganese, after brazing [W/(m K)]."""

SOLDER = 50.0
"""Lead and tin [W/(m K)]; from memory: 48 to 51."""

COPPER_BRASS_CAPACITY = 3.35e6
"""Heat capacity by volume of copper and brass, 8,500 to 8,930 kg/m3 by 380 to 385 J/(kg K) [J/(m3 K)]; from memory."""

ALUMINIUM_CAPACITY = 2.45e6
"""The same of aluminium, 2,700 kg/m3 by 905 J/(kg K) [J/(m3 K)]; from memory."""

IRON_HEAT_CAPACITY, ALUMINIUM_HEAT_CAPACITY = 460.0, 900.0
"""Heat capacity of cast iron and of cast aluminium [J/(kg K)]; from memory."""


def heat_capacity_by_volume(material: Real) -> Real:
    """Heat capacity of a cubic metre of a core's metal.

    Parameters
    ----------
    material : 0 copper fins on brass tubes, 1 aluminium [1]

    Returns
    -------
    C : heat capacity over volume [J/(m3 K)]
    """
    return COPPER_BRASS_CAPACITY + material * (ALUMINIUM_CAPACITY - COPPER_BRASS_CAPACITY)


def heat_capacity(aluminium: Real) -> Real:
    """Heat capacity of cast iron with a share of aluminium by mass.

    Parameters
    ----------
    aluminium : share of aluminium by mass [1]

    Returns
    -------
    c_p : specific heat capacity [J/(kg K)]
    """
    return IRON_HEAT_CAPACITY + aluminium * (ALUMINIUM_HEAT_CAPACITY - IRON_HEAT_CAPACITY)


def fin_conductivity(material: Real) -> Real:
    """Thermal conductivity of a core's fins.

    Parameters
    ----------
    material : 0 copper fins on brass tubes, 1 aluminium [1]

    Returns
    -------
    k : thermal conductivity [W/(m K)]
    """
    return COPPER + material * (ALUMINIUM - COPPER)


def tube_conductivity(material: Real) -> Real:
    """Thermal conductivity of a core's tubes.

    Parameters
    ----------
    material : 0 copper fins on brass tubes, 1 aluminium [1]

    Returns
    -------
    k : thermal conductivity [W/(m K)]
    """
    return BRASS + material * (ALUMINIUM - BRASS)
