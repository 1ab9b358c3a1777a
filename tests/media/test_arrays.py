"""One text for floats, NumPy and JAX: same figures, finite slopes, no gaps anywhere, also far outside the range."""

from collections.abc import Callable
from typing import Any

import jax
import jax.numpy as jnp
import numpy as np
import pytest

from toptank.media import air, coolant, metal, refrigerant, water

jax.config.update("jax_enable_x64", True)

Function = Callable[..., Any]

HOT_AND_COLD = (150.0, 233.15, 273.15, 300.0, 360.0, 398.15, 430.0, 520.0)
PRESSURES = (1.0, 5e4, 101325.0, 3e5, 9e5)
SHARES = (0.0, 0.05, 0.1, 0.35, 0.6, 0.7, 0.9)
CODES = (0.0, 0.3, 1.0)

FUNCTIONS: tuple[tuple[Function, tuple[tuple[float, ...], ...]], ...] = (
    (water.saturation_pressure, (HOT_AND_COLD,)),
    (water.boiling_temperature, (PRESSURES,)),
    (water.density, (HOT_AND_COLD,)),
    (water.heat_capacity, (HOT_AND_COLD,)),
    (water.conductivity, (HOT_AND_COLD,)),
    (water.viscosity, (HOT_AND_COLD,)),
    (coolant.density, (HOT_AND_COLD, SHARES, CODES)),
    (coolant.heat_capacity, (HOT_AND_COLD, SHARES, CODES)),
    (coolant.conductivity, (HOT_AND_COLD, SHARES, CODES)),
    (coolant.viscosity, (HOT_AND_COLD, SHARES, CODES)),
    (coolant.saturation_pressure, (HOT_AND_COLD, SHARES, CODES)),
    (coolant.boiling_temperature, (PRESSURES, SHARES, CODES)),
    (coolant.freeze_point, (SHARES, CODES)),
    (air.density, (HOT_AND_COLD, (6e4, 101325.0), (0.0, 0.02))),
    (air.heat_capacity, ((0.0, 0.02),)),
    (air.conductivity, (HOT_AND_COLD,)),
    (air.viscosity, (HOT_AND_COLD,)),
    (air.humidity_ratio, (HOT_AND_COLD, (0.0, 0.4, 1.0), (6e4, 101325.0))),
    (refrigerant.saturation_pressure, (HOT_AND_COLD, CODES)),
    (lambda T, code: refrigerant.rejection_ratio_coefficients(T, code)[0], (HOT_AND_COLD, CODES)),
    (metal.fin_conductivity, (CODES,)),
    (metal.tube_conductivity, (CODES,)),
)
NAMES = [f"{function.__module__.rpartition('.')[2]}.{function.__name__}" for function, _ in FUNCTIONS]
every_function = pytest.mark.parametrize(("function", "reach"), FUNCTIONS, ids=NAMES)


def _grid(reach: tuple[tuple[float, ...], ...]) -> list[np.ndarray]:
    return [axis.ravel() for axis in np.meshgrid(*reach, indexing="ij")]


@every_function
def test_jax_and_numpy_give_the_same_finite_positive_figures(
    function: Function, reach: tuple[tuple[float, ...], ...]
) -> None:
    places = _grid(reach)
    ours = np.asarray(function(*places))
    theirs = np.asarray(jax.jit(function)(*(jnp.asarray(place) for place in places)))
    assert np.isfinite(ours).all()
    assert (ours >= 0.0).all()
    np.testing.assert_allclose(theirs, ours, rtol=1e-10)


@every_function
def test_a_float_gives_what_its_place_in_an_array_gives(
    function: Function, reach: tuple[tuple[float, ...], ...]
) -> None:
    places = _grid(reach)
    assert float(function(*(float(place[-1]) for place in places))) == pytest.approx(function(*places)[-1], rel=1e-12)


@every_function
def test_slopes_are_finite_everywhere(function: Function, reach: tuple[tuple[float, ...], ...]) -> None:
    places = [jnp.asarray(place) for place in _grid(reach)]
    for argument in range(len(places)):
        slopes = jax.jit(jax.vmap(jax.grad(function, argnums=argument)))(*places)
        assert np.isfinite(np.asarray(slopes)).all(), argument


@pytest.mark.parametrize("mix", [(0.0, 0.0), (0.5, 0.0), (0.7, 0.0), (0.5, 1.0)])
@pytest.mark.parametrize("p", [7e4, 101325.0, 2.05e5, 3.1e5])
def test_the_slope_of_the_boiling_point_is_the_slope_of_its_figures(p: float, mix: tuple[float, float]) -> None:
    step = 10.0
    drawn = coolant.boiling_temperature(p + step, *mix) - coolant.boiling_temperature(p - step, *mix)
    assert float(jax.grad(coolant.boiling_temperature)(p, *mix)) == pytest.approx(drawn / (2 * step), rel=1e-5)
