"""The masses that take up heat, against closed forms; NumPy runs the same text."""

import dataclasses
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from toptank.knowledge.sheet import vehicle
from toptank.knowledge.typical import typical_sheet
from toptank.system.nodes import Nodes, Paths, core_split, heat_capacities, step

AMBIENT = 300.0
NOTHING: dict[str, float] = dict.fromkeys(Paths._fields, 0.0) | {"T_ambient": AMBIENT, "T_core_air": AMBIENT}
MANY = Nodes(metal=8e4, coolant=3e4, oil=5e4, core=3e4, gearbox=6e4)
FULL: dict[str, float] = NOTHING | {
    "to_metal": 5e4, "to_oil": 9e3, "to_gearbox": 4e3, "metal_coolant": 2000.0, "oil_coolant": 400.0, "flow": 9000.0,
    "core_hot": 60.0, "core_cold": 1100.0, "surface": 40.0, "heater": 70.0, "case": 25.0, "gearbox_tank": 190.0,
    "gearbox_air": 0.0, "T_core_air": 310.0,
}  # fmt: skip


def _nodes(metal: float, coolant: float, others: float = 350.0) -> Nodes:
    return Nodes(metal=metal, coolant=coolant, oil=others, core=others, gearbox=others)


def _run(T: Nodes, C: Nodes, paths: Paths, seconds: float, dt: float) -> Nodes:
    for _ in range(round(seconds / dt)):
        T, _ = step(T, C, paths, dt)
    return T


def _rates(C: Nodes, p: Paths, T: Any) -> list[float]:
    """What each mass gains a second [K/s], written down a second time."""
    m, e, o, c, g = T
    return [
        (p.to_metal - p.metal_coolant * (m - e)) / C.metal,
        (
            p.metal_coolant * (m - e) + p.oil_coolant * (o - e) + p.flow * (c - e) + p.gearbox_tank * (g - c)
            - (p.surface + p.heater) * (e - p.T_ambient)
        ) / C.coolant,
        (p.to_oil - p.oil_coolant * (o - e)) / C.oil,
        (p.flow * (e - c) - p.core_hot * (e - p.T_core_air) - p.core_cold * (c - p.T_core_air)) / C.core,
        (p.to_gearbox - p.gearbox_tank * (g - c) - (p.case + p.gearbox_air) * (g - p.T_ambient)) / C.gearbox,
    ]  # fmt: skip


@given(
    metal_s=st.floats(3e4, 3e5),
    coolant_s=st.floats(1e4, 1e5),
    between=st.floats(200.0, 4000.0),
    lost=st.floats(20.0, 400.0),
    dt=st.sampled_from([0.5, 1.0, 2.0]),
)
def test_two_masses_warm_and_cool_with_the_time_constants_of_the_closed_form(
    metal_s: float, coolant_s: float, between: float, lost: float, dt: float
) -> None:
    """Metal in coolant that loses heat: both time constants, of the eigenvalues of the two equations, within 0.5 %."""
    C = MANY._replace(metal=metal_s, coolant=coolant_s)
    matrix = np.array([[-between / metal_s, between / metal_s], [between / coolant_s, -(between + lost) / coolant_s]])
    values, vectors = np.linalg.eig(matrix)
    paths = Paths(**NOTHING | {"metal_coolant": between, "surface": lost})
    for value, vector in zip(values, vectors.T, strict=True):
        tau = -1.0 / value
        if tau < 4.0 * dt:  # what follows in a step or two has no time constant to be seen
            continue
        start = AMBIENT + 50.0 * vector / abs(vector).max()
        seconds = dt * max(round(tau / dt), 1)
        end = _run(_nodes(start[0], start[1], AMBIENT), C, paths, seconds, dt)
        seen = -seconds / np.log((end.metal - AMBIENT) / (start[0] - AMBIENT))
        assert seen == pytest.approx(tau, rel=5e-3)


def test_a_heated_mass_warms_as_the_closed_form_says() -> None:
    """T = ambient + Q / G (1 - exp(-t / tau)), tau = C / G: within 0.5 % of the rise at one, two and three tau."""
    paths = Paths(**NOTHING | {"to_metal": 6000.0, "metal_coolant": 1e7, "surface": 150.0})
    C = MANY._replace(metal=9e4, coolant=3e4)
    tau = 1.2e5 / 150.0
    T = _nodes(AMBIENT, AMBIENT, AMBIENT)
    for times in (1, 2, 3):
        T = _run(T, C, paths, tau, 1.0)
        assert T.coolant - AMBIENT == pytest.approx(40.0 * (1.0 - np.exp(-times)), rel=5e-3)


@given(dt=st.sampled_from([0.1, 1.0, 10.0, 100.0]), hot=st.floats(300.0, 420.0), cold=st.floats(300.0, 420.0))
def test_heat_is_kept_over_any_step(dt: float, hot: float, cold: float) -> None:
    """What the masses gain is what was made less what was given off, to rounding, however long the step."""
    T, paths = Nodes(hot, cold, 0.5 * (hot + cold), cold, hot), Paths(**FULL)
    after, mean = step(T, MANY, paths, dt)
    gained = sum(c * (b - a) for a, b, c in zip(T, after, MANY, strict=True))
    made = paths.to_metal + paths.to_oil + paths.to_gearbox
    given_off = sum(getattr(paths, name)(mean) for name in ("core_heat", "surface_heat", "heater_heat", "gearbox_heat"))
    assert gained == pytest.approx(dt * (made - given_off), rel=1e-9, abs=1e-3)


def test_a_step_solves_the_equations_written_down_again() -> None:
    """Against ten thousand small explicit steps, within 0.01 K over a minute of a sudden climb."""
    T, paths = Nodes(360.0, 355.0, 365.0, 350.0, 340.0), Paths(**FULL)
    fine = np.array(T)
    for _ in range(10_000):
        fine = fine + 6e-3 * np.array(_rates(MANY, paths, fine))
    np.testing.assert_allclose(np.array(_run(T, MANY, paths, 60.0, 1.0)), fine, atol=0.01)


def test_a_long_run_settles_where_nothing_gains_any_more() -> None:
    end = _run(Nodes(*(300.0,) * 5), MANY, Paths(**FULL), 30_000.0, 5.0)
    np.testing.assert_allclose(_rates(MANY, Paths(**FULL), end), 0.0, atol=1e-7)


@given(flow=st.floats(1e-3, 2e4), used=st.floats(0.0, 1.0))
def test_a_settled_core_gives_what_the_steady_balance_says(flow: float, used: float) -> None:
    """With coolant entering 60 K above the air: heat K x 60 K, and the coolant leaves by that much cooler."""
    conductance = used * flow
    hot, cold = core_split(conductance, flow)
    out = 60.0 * (flow - hot) / (flow + cold)
    assert hot >= 0.0
    assert hot <= flow * (1.0 + 1e-12)
    assert hot * 60.0 + cold * out == pytest.approx(60.0 * conductance, rel=1e-6, abs=1e-9)


def test_a_core_whose_coolant_stands_still_cools_with_its_whole_surface() -> None:
    """Twelve transfer units: of what stands there, twelve times the flow's capacity rate; closed form."""
    _, cold = core_split(10.0 * -np.expm1(-12.0), 10.0)
    assert cold == pytest.approx(120.0, rel=1e-3)


def test_what_takes_up_heat_is_worked_out_from_what_it_weighs() -> None:
    """By hand: water at 90 degC 965 kg/m3 with 4,205 J/(kg K), 4.06 MJ/(m3 K); air in it takes up nothing.

    A gearbox takes up 900 J/(kg K); the iron of the engine is shared between jacket and oil, and none is lost.
    """
    built = vehicle(typical_sheet("pickup-1970s-v8-air"))
    built = dataclasses.replace(built, fill=dataclasses.replace(built.fill, concentrate=0.0, air=0.25, in_core=0.4))
    found = heat_capacities(built)
    held = 0.75 * float(built.fill.capacity) * 4.06e6
    assert float(found.coolant) == pytest.approx(0.6 * held, rel=0.01)
    assert float(found.core - built.core.metal_heat_capacity()) == pytest.approx(0.4 * held, rel=0.01)
    assert float(found.gearbox) == pytest.approx(900.0 * float(built.drivetrain.gearbox_mass))
    other = dataclasses.replace(built, engine=dataclasses.replace(built.engine, jacket_share=0.0))
    whole = heat_capacities(other)
    assert float(whole.metal) == 0.0
    assert float(whole.oil) == pytest.approx(float(found.metal + found.oil))


def test_a_core_passes_on_what_it_was_told_to_and_what_stands_in_it_carries_the_transfer_units() -> None:
    """By hand: K = 600 of C = 1,000 W/K used are 0.6, N = -ln 0.4 = 0.9163; 916.3 and 600 - 0.4 * 916.3 = 233.5 W/K."""
    hot, cold = core_split(600.0, 1000.0)
    assert float(cold) == pytest.approx(916.3, abs=0.1)
    assert float(hot) == pytest.approx(233.5, abs=0.1)
