"""The coolant's side of a core on the test rig: exact laws and worked values."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from toptank.parts.coolant_passage import CoolantPassage
from toptank.parts.core import Core

# The core of round numbers of test_core.py: 180 tubes of 0.4 m, face 0.24 m2, bore 27.745 mm2 with a rim of 33.655 mm
CORE = {
    "face_width": 0.6, "face_height": 0.4, "rows": 3.0, "tube_width": 0.016, "tube_thickness": 0.002,
    "tube_wall": 0.0001, "tube_kind": 1.0, "tube_pitch": 0.01, "scale_thickness": 0.0, "blocked_tubes": 0.0,
}  # fmt: skip
HOT_WATER = {"rho": 960.0, "mu": 3e-4, "k": 0.68, "c_p": 4200.0, "Re_transition": 2300.0, "enhancement": 1.0}
FLOW = 0.003


def _rated(flow: Any = FLOW, **core: Any) -> tuple[Any, Any]:
    return CoolantPassage.of(Core(**CORE | core)).conductance(flow=flow, **HOT_WATER)


def _drop(flow: Any = FLOW, **core: Any) -> Any:
    return CoolantPassage.of(Core(**CORE | core)).pressure_drop(flow=flow, rho=1000.0, mu=1e-3)


def test_the_reynolds_number_is_that_of_one_live_tube() -> None:
    # 3 L/s / 180 / 27.745 mm2 = 0.6007 m/s; D_h = 4 x 27.745 / 33.655 = 3.2976 mm; 960 x 0.6007 x 3.2976e-3 / 3e-4
    assert _rated()[1] == pytest.approx(6339.0, rel=1e-3)
    assert _rated(passes=2.0)[1] == pytest.approx(2 * 6339.0, rel=1e-3)  # half the tubes carry all of it
    assert _rated(blocked_tubes=0.75)[1] == pytest.approx(4 * 6339.0, rel=1e-3)


def test_scale_adds_its_own_resistance() -> None:
    added = 1.0 / _rated(scale_thickness=2e-4, scale_conductivity=1.0)[0] - 1.0 / _rated()[0]
    # 0.2 mm / 1 W/(m K) over 33.655 mm x 0.4 m x 180 / 0.24 m2 = 10.097 m2 of bore a square metre of face
    assert added == pytest.approx(2e-4 / 10.097, rel=1e-3)


@pytest.mark.parametrize(("Re", "Nu"), [(1000.0, 6.902), (3000.0, 17.81), (10000.0, 78.48)])
def test_the_film_is_that_of_the_flat_tube_behind_its_wall(Re: float, Nu: float) -> None:
    """stephan1959, gnielinski2013, gnielinski1976, by another program: D_h 3.85 mm, 0.43 m, aspect 0.137, Pr 6.3.

    Our tube of 15.9 x 2.4 x 0.13 mm has D_h 3.853 mm; its brass, 0.13 mm of 120 W/(m K), stands behind the film.
    """
    tube = {"face_height": 0.43, "tube_width": 0.0159, "tube_thickness": 0.0024, "tube_wall": 0.00013}
    core = Core(**CORE | tube)
    area, rim, _ = core.bore()
    fluid = {"rho": 1000.0, "mu": 1e-3, "k": 0.5, "c_p": 6.3 * 0.5 / 1e-3, "Re_transition": 2300.0}
    flow = Re * 1e-6 / 3.853e-3 * area * core.tubes()
    for enhancement in (1.0, 1.25):
        per_face, _ = CoolantPassage.of(core).conductance(flow=flow, enhancement=enhancement, **fluid)
        per_bore = per_face * core.face_area() / (rim * 0.43 * core.tubes())
        assert 1.0 / per_bore == pytest.approx(3.853e-3 / (Nu * 0.5 * enhancement) + 0.00013 / 120.0, rel=3e-3)


def test_more_flow_takes_more_heat_and_most_of_all_where_the_tubes_leave_laminar_flow() -> None:
    """gnielinski2013: from Re 2300 to 4000 the film changes over; it grows fourfold."""
    flow = np.array([0.5, 1.0, 2.0, 4.0, 8.0]) * FLOW * 1000.0 / 6339.0
    to_coolant, Re = _rated(flow)
    gains = to_coolant[1:] / to_coolant[:-1]
    assert Re == pytest.approx([500.0, 1000.0, 2000.0, 4000.0, 8000.0], rel=1e-3)
    assert np.all(gains > 1.0)
    assert np.argmax(gains) == 2  # from 2000 to 4000
    assert gains[2] > 2.0
    assert np.all(gains[:2] < 1.3)


def test_laminar_tubes_rub_as_the_exact_duct_does() -> None:
    """shah1978: f Re = 21.18 at aspect 0.1; 1.5 dynamic heads at the ends (sharp entry 0.5, exit 1)."""
    # gap 1.8 mm, flat 16.2 mm: aspect 1.8 / 18; bore 31.705 mm2, rim 38.055 mm, D_h 3.3325 mm; 0.15 m/s is Re 499.9
    flow, heads = 0.15 * 180 * 31.705e-6, 4 * 21.18 / 499.9 * 0.4 / 3.3325e-3 + 1.5
    assert _drop(flow, tube_width=0.0182) == pytest.approx(heads * 500.0 * 0.15**2, rel=1e-3)


def test_two_passes_cost_as_much_as_twice_the_flow_twice() -> None:
    for flow in (5e-4, 2e-3, 5e-3):
        assert _drop(flow, passes=2.0) == pytest.approx(2.0 * _drop(2.0 * flow))
        assert _drop(flow, blocked_tubes=0.5) == pytest.approx(_drop(2.0 * flow))


def test_no_flow_costs_no_pressure_and_a_flow_backwards_pushes_back() -> None:
    assert _drop(0.0) == 0.0
    assert _drop(-FLOW) == pytest.approx(-_drop(FLOW))


def test_scale_of_a_third_of_the_gap_takes_a_third_of_bore_and_hydraulic_diameter() -> None:
    # the core of the laminar test: at the same flow Re stays, speed is 3/2, length over diameter too: friction 27/8
    flow, friction = 0.15 * 180 * 31.705e-6, 4 * 21.18 / 499.9 * 0.4 / 3.3325e-3
    expected = (friction * 27.0 / 8.0 + 1.5 * 9.0 / 4.0) * 500.0 * 0.15**2
    assert _drop(flow, tube_width=0.0182, scale_thickness=0.0003) == pytest.approx(expected, rel=1e-3)


def test_scale_narrows_the_tubes_but_never_shuts_them() -> None:
    scale = np.array([0.0, 1e-4, 3e-4, 6e-4, 2e-3])
    drop = _drop(scale_thickness=scale)
    assert np.all(np.diff(drop[:4]) > 0.0)
    assert np.isfinite(drop[4])


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    tubes = {"rows": [1.0, 2.0, 4.0], "passes": [1.0, 2.0, 1.0], "scale_thickness": [0.0, 1e-4, 3e-4]}
    same_one_by_one(_rated, flow=[1e-4, 2e-3, 6e-3], **tubes)
    same_one_by_one(_drop, flow=[1e-4, 2e-3, 6e-3], **tubes)


def test_dimpled_tubes_leave_laminar_flow_earlier_and_cost_pressure() -> None:
    """Judgement: dimples trip the flow at a little over half the Reynolds number, for half as much friction again."""
    plain, seamed, dimpled = 0.0, 1.0, 2.0
    slow = {"flow": FLOW * 1800.0 / 6339.0}  # Re 1800: laminar but in dimpled tubes
    assert _rated(**slow, tube_kind=dimpled)[0] > 1.4 * _rated(**slow, tube_kind=seamed)[0]
    assert 0.8 < _rated(**slow, tube_kind=plain)[0] / _rated(**slow, tube_kind=seamed)[0] < 0.9
    tanks = 1.5 * 0.5 * 1000.0 * 0.6007**2
    assert _drop(tube_kind=dimpled) - tanks == pytest.approx(1.5 * (_drop(tube_kind=seamed) - tanks), rel=1e-3)


def test_tubes_that_the_coolant_no_longer_reaches_are_none() -> None:
    whole = CoolantPassage.of(Core(**CORE))
    half = whole.reached(0.5)
    per_face, Re = half.conductance(flow=FLOW, **HOT_WATER)
    assert Re == pytest.approx(2.0 * 6339.0, rel=1e-3)
    assert per_face < whole.conductance(flow=FLOW, **HOT_WATER)[0]
    assert half.pressure_drop(flow=FLOW, rho=1000.0, mu=1e-3) == pytest.approx(
        whole.pressure_drop(flow=2.0 * FLOW, rho=1000.0, mu=1e-3)
    )
