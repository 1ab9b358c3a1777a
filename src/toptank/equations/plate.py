r"""A laminar boundary layer on a flat plate: what fins give whose layer starts afresh from dent to dent.

Source   incropera2007, section 7.2 (similarity solution, mean values over the plate)
Range    Re_l < 5e5, Pr > 0.6; plates far enough apart that their layers do not meet
Scatter  exact for a smooth thin plate; a layer behind a dent starts thicker than at an edge
"""

from toptank.units.arrays import Real, namespace


def nusselt_plate(Re_l: Real, Pr: Real) -> Real:
    r"""Mean Nusselt number of a plate in a laminar stream.

    .. math:: Nu = 0.664 Re_l^{1/2} Pr^{1/3}

    Parameters
    ----------
    Re_l : Reynolds number on the length of the plate [1]
    Pr : Prandtl number [1]

    Returns
    -------
    Nu : Nusselt number on the length of the plate [1]
    """
    xp = namespace(Re_l, Pr)
    return 0.664 * xp.sqrt(Re_l) * xp.exp(xp.log(Pr) / 3.0)


def friction_plate(Re_l: Real) -> Real:
    r"""Mean friction factor of a plate in a laminar stream.

    .. math:: f = 1.328 Re_l^{-1/2}

    The Reynolds number is held at 1 from below.

    Parameters
    ----------
    Re_l : Reynolds number on the length of the plate [1]

    Returns
    -------
    f : Fanning friction factor [1]
    """
    xp = namespace(Re_l)
    return 1.328 / xp.sqrt(xp.maximum(Re_l, 1.0))
