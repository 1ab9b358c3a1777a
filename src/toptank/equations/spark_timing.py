r"""What a spark or an injection away from its best moment costs.

Source   heywood1988, chapter 15 (torque against spark timing falls as a parabola about its best), from memory
Range    up to 50 degrees of crank angle from the best moment
Scatter  a third of the loss
"""

from toptank.units.arrays import Real, namespace

CURVATURE = 0.80
"""Loss of work per square radian from the best moment [1/rad2]: 2.4 % at 10 degrees, 10 % at 20; from memory."""


def work_left(xi: Real) -> Real:
    r"""Work on the pistons over that with the best moment, for equal fuel.

    .. math:: w = 1 - 0.80\, \xi^2

    Parameters
    ----------
    xi : crank angle from the best moment [rad]

    Returns
    -------
    w : work over the best [1]
    """
    return namespace(xi).maximum(1.0 - CURVATURE * xi * xi, 0.2)
