"""The gauge: it shows the coolant, wherever the sender sits and however the instrument errs."""

from collections.abc import Callable

import pytest

from toptank.parts.gauge import Gauge
from toptank.units.declaration import declarations


def test_a_true_gauge_shows_the_coolant_that_leaves_the_engine() -> None:
    assert Gauge(sender_offset=0.0, error=0.0).reading(T_engine_out=370.0) == 370.0


def test_a_hot_sender_and_a_low_instrument_may_cancel() -> None:
    assert Gauge(sender_offset=8.0, error=-5.0).reading(T_engine_out=370.0) == pytest.approx(373.0)
    assert Gauge(sender_offset=5.0, error=-5.0).reading(T_engine_out=370.0) == pytest.approx(370.0)


def test_a_degree_of_the_coolant_is_a_degree_of_the_gauge() -> None:
    gauge = Gauge(sender_offset=3.0, error=2.0)
    assert gauge.reading(T_engine_out=381.0) - gauge.reading(T_engine_out=380.0) == pytest.approx(1.0)


def test_a_sender_in_the_cylinder_head_is_believed_without_remark() -> None:
    """Common practice, no source: it reads 5 to 11 K above one in the manifold."""
    low, high = dict(declarations(Gauge))["sender_offset"].plausible
    assert low < 0.0
    assert high >= 11.0


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    same_one_by_one(
        lambda offset, error, T: Gauge(sender_offset=offset, error=error).reading(T_engine_out=T),
        offset=[0.0, 5.0, -3.0], error=[2.0, 0.0, -8.0], T=[350.0, 360.0, 390.0],
    )  # fmt: skip
