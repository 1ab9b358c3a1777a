"""The same lines run on floats, on NumPy arrays and, compiled, on JAX arrays; and their slopes are numbers."""

import importlib
import inspect
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jax
import jax.numpy as jnp
import numpy as np
import pytest

import toptank.equations as layer

jax.config.update("jax_enable_x64", True)

# One plausible value of every symbol; where a relation has an edge, its edge is tried as well.
TYPICAL = {
    "a_oil": 0.6,
    "A": 1e-3, "A_f_over_A": 0.8, "A_over_A_c": 30.0, "alpha": 0.14, "C_dA": 1.2, "c_P": 1.6, "c_p": 3600.0,
    "C_r": 0.4, "C_rr": 0.015, "c_w": 1.2, "D": 0.45, "D_h": 4e-3, "D_m": 2.4e-3, "delta_f": 8e-5, "dp": 2e4,
    "epsilon_1": 0.4, "epsilon_D": 0.001, "eta_f": 0.9, "eta_i": 0.35, "eta_p": 0.5, "f": 0.1, "F_0": 200.0,
    "F_1": 2.0, "F_2": 0.5, "F_d": 0.05, "F_l": 9e-3, "F_p": 1.8e-3, "fRe": 24.0, "G": 8.0, "g": 9.8, "grade": 0.05,
    "h": 120.0, "k": 0.3, "K": 2.0, "K_c": 0.1, "K_d": 1.2, "K_e": 0.1, "k_f": 200.0, "k_film": 0.43, "k_s": 1.0,
    "L": 0.45, "L_f": 4.5e-3, "L_l": 7.5e-3, "L_p": 1.1e-3, "m": 2000.0, "m_film": 0.7, "m_dot": 2.0, "n": 2.0,
    "N": 30.0, "N_0": 16.7, "N_in": 35.0, "N_ref": 40.0, "NTU": 1.3, "Nu_inf": 7.5, "p_0": 3e4, "P_b": 4e4,
    "phi": 0.3, "phi_0": 0.5, "Pr": 6.0, "psi_0": 0.8, "Q": 1.5, "Q_0": 3.0, "P_f": 8e4, "Q_dot": 5e4, "Q_most": 4e4,
    "r_friction": 0.9, "r": 0.7, "Re": 2500.0, "Re_l": 4000.0, "Re_Lp": 180.0, "Re_tr": 2300.0, "rho": 1.1,
    "rho_1": 1.1,
    "rho_2": 1.0, "sigma": 0.75, "T": 300.0,
    "T_amb": 305.0, "T_boil": 400.0, "T_d": 0.05, "T_limit": 385.0, "T_p": 11.4e-3,
    "t_s": 2e-4, "T_top": 370.0, "tfmep": 1.5e5, "theta": 0.45, "U": 8.0, "V": 20.0, "V_1": 6e-4, "V_d": 5e-3,
    "xi": 0.2, "x_plus": 0.03, "x_star": 0.02, "z": 500.0,
}  # fmt: skip
EDGES: dict[str, tuple[float, ...]] = {
    "NTU": (0.0, 12.0), "C_r": (0.0, 1.0), "Re": (0.0, 1.0, 2300.0, 5e4), "Re_Lp": (0.0, 1.0, 130.0, 230.0, 2e4),
    "N": (1e-9,), "P_f": (0.0, 1e3), "Q_most": (0.0, -1e3), "xi": (0.0, 3.0), "N_in": (0.0,), "k": (0.0, 1e6),
    "U": (0.0,), "Q": (0.0, -1.0), "h": (0.0, 1e4), "P_b": (-5e4, 0.0), "x_plus": (0.0, 1e3), "x_star": (0.0, 1e3),
    "r": (0.0, 1.0), "grade": (-0.1, 0.0), "epsilon_1": (0.0, 1.0), "alpha": (0.0, 1.0), "epsilon_D": (0.0,),
    "phi": (-0.3, 0.0), "V": (0.0,), "z": (-400.0, 4000.0),
}  # fmt: skip


def _equations() -> list[Any]:
    names = sorted(path.stem for path in Path(layer.__path__[0]).glob("[!_]*.py"))
    modules = [importlib.import_module(f"toptank.equations.{name}") for name in names]
    return [
        pytest.param(function, id=f"{module.__name__.rpartition('.')[2]}.{name}")
        for module in modules
        for name, function in inspect.getmembers(module, inspect.isfunction)
        if function.__module__ == module.__name__ and not name.startswith("_")
    ]


def _points(function: Callable[..., Any]) -> list[dict[str, float]]:
    typical = {name: TYPICAL[name] for name in inspect.signature(function).parameters}
    return [typical] + [typical | {name: edge} for name in typical for edge in EDGES.get(name, ())]


@pytest.mark.parametrize("function", _equations())
def test_no_equation_has_a_default_or_a_free_argument(function: Callable[..., Any]) -> None:
    for parameter in inspect.signature(function).parameters.values():
        assert parameter.default is parameter.empty
        assert parameter.kind is parameter.POSITIONAL_OR_KEYWORD


@pytest.mark.parametrize("function", _equations())
def test_one_text_serves_floats_arrays_and_compiled_arrays(function: Callable[..., Any]) -> None:
    points = _points(function)
    one_by_one = np.array([function(**point) for point in points], float)
    columns = {name: np.array([point[name] for point in points]) for name in points[0]}
    compiled = jax.jit(function)(**{name: jnp.asarray(column) for name, column in columns.items()})
    assert np.all(np.isfinite(one_by_one))
    assert np.allclose(function(**columns), one_by_one, rtol=1e-12, atol=1e-14)
    assert np.allclose(compiled, one_by_one, rtol=1e-9, atol=1e-12)


@pytest.mark.parametrize("function", _equations())
def test_every_slope_is_a_number_even_at_the_edges(function: Callable[..., Any]) -> None:
    points = _points(function)
    columns = [jnp.array([point[name] for point in points]) for name in points[0]]
    slope = jax.vmap(jax.grad(lambda *values: function(*values), argnums=tuple(range(len(columns)))))
    assert all(bool(jnp.all(jnp.isfinite(part))) for part in slope(*columns))
