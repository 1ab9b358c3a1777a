"""The bracketed root: found in spite of kinks, with the gradient of the implicit function, also when nested."""

from typing import Any

import jax
import jax.numpy as jnp
import numpy as np
import pytest

from toptank.system.numerics.root import Bracket, Followed, bracketed_root, followed_root


def _bracket(low: float, below: float, middle: float, above: float, high: float) -> Bracket:
    return Bracket(*(jnp.asarray(x, float) for x in (low, below, middle, above, high, 0.0)))


def _root(f: Any, bracket: Bracket, steps: int = 40) -> Any:
    return bracketed_root(lambda x, hint: (f(x), x, hint), bracket, (), steps=steps)[0]


@pytest.mark.parametrize("wanted", [-9.0, -0.3, 0.0, 2.0, 9.99])
def test_a_root_is_found_wherever_it_lies(wanted: float) -> None:
    found = _root(lambda x: jnp.arctan(x - wanted), _bracket(-10, -1, 0, 1, 10))
    assert found == pytest.approx(wanted, abs=1e-9)


def test_a_kink_does_not_lose_the_root() -> None:
    found = _root(lambda x: jnp.where(x < 1.0, 1e-3 * (x - 1.5), 50.0 * (x - 1.0) - 5e-4), _bracket(-10, 0, 2, 3, 10))
    assert found == pytest.approx(1.00001, abs=1e-9)


def test_without_a_root_it_ends_at_an_end() -> None:
    assert _root(lambda x: x - 100.0, _bracket(-10, -1, 0, 1, 10)) == pytest.approx(10.0)
    assert _root(lambda x: x + 100.0, _bracket(-10, -1, 0, 1, 10)) == pytest.approx(-10.0)


def test_at_an_end_nothing_moves_the_answer() -> None:
    gradient = jax.grad(lambda p: _root(lambda x: x - 100.0 * p, _bracket(-10, -1, 0, 1, 10)))(1.0)
    assert gradient == 0.0


def _nested(p: Any) -> Any:
    def outer(x: Any, hint: Any) -> Any:
        def inner(y: Any, nothing: Any) -> Any:
            return jnp.tanh(y) + y - p * x, y, nothing

        near = Bracket(jnp.full_like(hint, -10.0), hint - 0.2, hint, hint + 0.2, jnp.full_like(hint, 10.0), 0.0 * hint)
        y = bracketed_root(inner, near, (), steps=30)[0]
        return x**3 + y - p, x * p, y

    return bracketed_root(outer, _bracket(0, 0.5, 1, 2, 5), jnp.asarray(0.0), steps=30)[0]


@pytest.mark.parametrize("p", [0.5, 1.3, 3.0])
def test_the_gradient_is_that_of_finite_differences_also_nested(p: float) -> None:
    step = 1e-6
    difference = (_nested(p + step) - _nested(p - step)) / (2 * step)
    assert jax.grad(_nested)(p) == pytest.approx(float(difference), rel=1e-6)
    assert jax.jacfwd(_nested)(p) == pytest.approx(float(difference), rel=1e-6)


def test_many_roots_at_once_are_those_one_by_one() -> None:
    p = jnp.linspace(0.5, 3.0, 7)
    np.testing.assert_allclose(jax.vmap(_nested)(p), [_nested(x) for x in p], rtol=1e-9)


@pytest.mark.parametrize("begin", [0.02, 0.05, 0.3, 1.4, 30.0])
def test_a_followed_root_gets_out_of_a_dip_that_holds_no_root(begin: float) -> None:
    """A fan that is switched on at standstill: below the root its surplus has a summit, from which slopes lead away."""

    def dipped(x: Any) -> Any:
        return x * x - 2.25 - 1.5 * jnp.exp(-(((x - 0.15) / 0.08) ** 2)), x

    followed = Followed.near(jnp.asarray(begin))
    for _ in range(25):
        followed = followed_root(dipped, followed, low=0.02, high=40.0)[1]
    assert float(followed.x) == pytest.approx(1.5, abs=1e-5)  # the chord's ends stay a thousandth from its middle


def test_a_followed_root_beyond_its_limit_answers_as_at_the_limit() -> None:
    """Air that nothing drives goes no slower than the draught: an answer carried on below it took heat away."""
    followed = Followed.near(jnp.asarray(0.5))
    for _ in range(40):
        followed = followed_root(lambda x: (x + 1.0, x), followed, low=0.02, high=40.0)[1]
    found = followed_root(lambda x: (x + 1.0, x), followed, low=0.02, high=40.0)[0]
    assert float(found) == pytest.approx(0.02, rel=1e-5)
