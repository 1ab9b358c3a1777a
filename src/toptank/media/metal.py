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
