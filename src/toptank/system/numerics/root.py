"""The bracketed root that the whole balance rests on, with the gradient of the implicit function.

A fixed number of steps of Chandrupatla's method (1997): inverse quadratic interpolation where it is safe, bisection
where it is not, so that kinks (thermostat, clutch) cost steps and never an answer. Differentiating through the loop
would run and be wrong; the implicit function theorem is applied at the root instead, also when nested.

`lax.custom_root` does the same, but prepares every derivative whether or not it is asked for: twice the tracing.
"""

from collections.abc import Callable, Sequence
from functools import partial
from typing import Any, NamedTuple, TypeVar

from toptank.system.numerics.jax_library import at_both, fori, jax, jnp, lax, zeros_like
from toptank.units.arrays import Real

STRIDE = 6.0
"""Growth of the distance from the middle point while the sign has not changed [1]."""

OVERSHOOT = 1.1
"""A step along a known slope goes a little too far, so that the root is bracketed [1]."""

Answer = TypeVar("Answer")
Hint = TypeVar("Hint")


class Bracket(NamedTuple):
    """Where to look: two ends, three points in rising order where the root is likely or a kink lies, a slope.

    The second trial is where the slope points from the middle, held between `below` and `above`; with no slope (0) it
    is one of these two.
    """

    low: Real
    below: Real
    middle: Real
    above: Real
    high: Real
    slope: Real


class Found(NamedTuple):
    """How the search ended: how far the root may still be off, and the slope there."""

    width: Real
    slope: Real


def bracketed_root(
    residual: Callable[[Real, Hint], tuple[Real, Answer, Hint]], bracket: Bracket, hint: Hint, *, steps: int
) -> tuple[Answer, Hint, Found]:
    """Return what `residual` answers where its value is zero, its last hint, and how the search ended.

    The value must be negative at the low end and positive at the high end. The search begins at the middle point, goes
    on to the one on the side of the root and then in growing strides until the sign changes. Where there is no root it
    ends at an end; the answer should hold the value, so that the caller can see it.

    Parameters
    ----------
    residual : (x, hint) -> (value, answer, better hint), x a scalar. It may close over anything; gradients of the
        answer flow through what it closes over. The hint may speed it up but must not change what it converges to.
    bracket : where to look
    hint : first hint for the residual
    steps : evaluations of the residual
    """
    pure, consts = jax.closure_convert(residual, bracket.middle, hint)
    pure = jax.jit(pure)  # kept as one call until it is compiled: the loops trace it again and again
    _, answer, hint, found = _root(pure, steps, bracket, hint, consts)
    return answer, hint, found


@partial(jax.custom_jvp, nondiff_argnums=(0, 1))
def _root(pure: Callable[..., Any], steps: int, bracket: Bracket, hint: Any, consts: Sequence[Real]) -> Any:
    def residual(x: Real, near: Any) -> Any:
        return pure(x, near, *consts)

    return _chandrupatla(residual, bracket, hint, steps)


@_root.defjvp
def _root_jvp(pure: Callable[..., Any], steps: int, primals: Any, tangents: Any) -> Any:
    bracket, hint, consts = primals
    x, answer, hint, found = _root(pure, steps, bracket, hint, consts)

    def near_root(at: Real, given: Sequence[Real]) -> Any:
        return pure(at, hint, *given)[:2]

    by_consts = jax.jvp(partial(near_root, x), (consts,), (tangents[2],))[1]
    by_x = jax.jvp(partial(near_root, given=consts), (x,), (jnp.ones_like(x),))[1]
    slope = by_x[0]
    still = (slope == 0.0) | (x <= bracket.low) | (x >= bracket.high)  # without a root the end stays where it is
    x_dot = jnp.where(still, 0.0, -by_consts[0] / jnp.where(still, 1.0, slope))

    def total(direct: Real, through_x: Real) -> Real:
        return direct + through_x * x_dot

    answer_dot = jax.tree.map(total, by_consts[1], by_x[1])
    return (x, answer, hint, found), (x_dot, answer_dot, *zeros_like((hint, found)))


def _chandrupatla(f: Callable[..., Any], bracket: Bracket, hint: Any, steps: int) -> Any:
    """Every point is taken inside one loop, so that the residual is compiled once."""
    low, below, middle, above, high, slope = bracket

    def step(i: int, state: tuple[Any, ...]) -> tuple[Any, ...]:
        x_1, f_1, x_2, f_2, x, closed, hint, _ = state  # x_1 the newest point, x_2 the one before or across the root
        f_x, answer, hint = f(x, hint)
        same = (jnp.sign(f_x) == jnp.sign(f_1)) | (i == 0)
        x_3, f_3 = jnp.where(same & closed, x_1, x_2), jnp.where(same & closed, f_1, f_2)
        x_2, f_2 = jnp.where(same & closed, x_2, x_1), jnp.where(same & closed, f_2, f_1)
        x_1, f_1 = x, f_x
        newly, closed = ~same & ~closed, closed | ~same

        xi = (x_1 - x_2) / _nonzero(x_3 - x_2)
        phi = (f_1 - f_2) / _nonzero(f_3 - f_2)
        smooth = (phi * phi < xi) & ((1.0 - phi) * (1.0 - phi) < 1.0 - xi)
        alpha = (x_3 - x_1) / _nonzero(x_2 - x_1)
        to_2, to_3, from_2 = _nonzero(f_1 - f_2), _nonzero(f_3 - f_1), _nonzero(f_3 - f_2)
        quadratic = f_1 / to_2 * f_3 / from_2 + alpha * f_1 / to_3 * f_2 / from_2
        t = jnp.where(smooth, quadratic, jnp.where(newly, f_1 / to_2, 0.5))
        inside = x_1 + jnp.clip(t, 1e-9, 1.0 - 1e-9) * (x_2 - x_1)

        first = jnp.clip(middle - OVERSHOOT * f_1 / (slope + _tiny(slope)), below, above)
        further = jnp.clip(middle + STRIDE * (x_1 - middle), low, high)
        outside = jnp.where(i == 0, first, further)
        return x_1, f_1, x_2, f_2, jnp.where(closed, inside, outside), closed, hint, answer

    nought = jnp.zeros_like(middle)
    empty = zeros_like(jax.eval_shape(f, middle, hint)[1])
    state = (middle, nought, middle, nought, middle, nought > 0.0, hint, empty)
    x, f_x, other, f_other, _, _, hint, answer = fori(steps, step, state)
    slope = jnp.abs(f_other - f_x) / _nonzero(jnp.abs(other - x))
    return x, answer, hint, Found(jnp.abs(other - x), slope)


class Followed(NamedTuple):
    """A root that is followed, all in logarithms but where it was.

    x : where it was
    width : how far to either side it is looked at next
    reach : how far it may be taken to have moved next
    way : which way it moved last
    """

    x: Real
    width: Real
    reach: Real
    way: Real

    @classmethod
    def near(cls, x: Real) -> "Followed":
        """Begin to follow from a guess."""
        return cls(x, jnp.full_like(x, WIDEST), jnp.full_like(x, FARTHEST), jnp.zeros_like(x))


FARTHEST, NEAREST = 0.7, 0.01
"""Longest and shortest reach of a step of a followed root, in logarithm: it at most doubles or halves x [1]."""

WIDEST, NARROWEST = 0.2, 1e-3
"""Farthest and nearest to either side that a followed root is looked at, in logarithm [1]."""

BEYOND = 0.3
"""How far from the middle of the two points answers are carried on along the chord, in logarithm [1]."""


def followed_root(
    residual: Callable[[Real], tuple[Real, Answer]], last: Followed, *, low: Real, high: Real
) -> tuple[Answer, Followed]:
    """Follow a root that has moved a little: what `residual` answers there, and where it is followed from next time.

    The residual is looked at on both sides of where the root was, at once; root and answer lie on the chord, whose
    ends draw together where the root hardly moves. A root that has jumped is found again in a few calls; where long
    steps go to and fro, they are halved until they no longer do. The derivative of the answer is that of the implicit
    function, taken along the chord.

    Parameters
    ----------
    residual : x -> (value, answer), x a positive scalar; the value rises with x
    last : where it was
    low, high : least and largest x
    """
    last = lax.stop_gradient(last)
    x, width = jnp.clip(last.x, low, high), last.width
    (lower, answer_low), (upper, answer_high) = at_both(residual, x * jnp.exp(-width), x * jnp.exp(width))
    middle, half = 0.5 * (lower + upper), 0.5 * (upper - lower)
    place = -middle / jnp.where(half > 0.0, half, jnp.inf)  # -1 and 1 at the two points
    step = jnp.where(half > 0.0, place * width, -jnp.sign(middle) * FARTHEST)  # at a kink there may be no slope
    turned = (step * last.way < 0.0) & (jnp.abs(step) > 0.5 * last.reach)
    reach = jnp.clip(jnp.where(turned, 0.5, 2.0) * last.reach, NEAREST, FARTHEST)
    way = jnp.clip(step, -reach, reach)
    least, most = jnp.log(low / x) / width, jnp.log(high / x) / width  # an answer beyond its limits is none
    within = jnp.clip(place, jnp.maximum(-BEYOND / width, least), jnp.minimum(BEYOND / width, most))

    def on_chord(one: Real, other: Real) -> Real:
        return 0.5 * (one + other) + (0.5 * within) * (other - one)

    at = jnp.clip(x * jnp.exp(way), low, high)
    onward = Followed(at, jnp.clip(0.5 * jnp.abs(jnp.log(at / x)), NARROWEST, WIDEST), reach, jnp.sign(way))
    return jax.tree.map(on_chord, answer_low, answer_high), lax.stop_gradient(onward)


def _nonzero(x: Real) -> Real:
    return jnp.where(x == 0.0, _tiny(x), x)


def _tiny(x: Real) -> Any:
    """The least number of its kind that is not nought: in single precision 1e-300 would be."""
    return jnp.finfo(jnp.result_type(x)).tiny
