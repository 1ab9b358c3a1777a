"""The gauge: it shows the coolant, wherever the sender sits and however the instrument errs."""

from collections.abc import Callable

import pytest

from toptank.parts.gauge import Gauge

HOT = {"T_engine_out": 370.0, "T_metal": 400.0, "T_tank": 368.0, "T_ambient": 300.0, "missing": 0.0}
HOUSING, HEAD, TANK = 0.0, 1.0, 2.0


def _at(place: float, **moment: float) -> float:
    return float(Gauge(sender_place=place).at_sender(**HOT | moment))


def test_a_true_gauge_shows_the_coolant_that_leaves_the_engine() -> None:
    assert Gauge(sender_offset=0.0, error=0.0).shown(T_sender=_at(HOUSING)) == 370.0


def test_a_sender_in_a_head_reads_5_to_11_kelvin_high_on_a_climb_and_one_in_the_radiator_what_comes_there() -> None:
    """Common practice, no source; the metal of the heads stands some 30 K above the coolant on a climb."""
    assert 5.0 <= _at(HEAD) - 370.0 <= 11.0
    assert _at(HEAD, T_metal=375.0) - 370.0 < 2.0  # idling it hardly differs
    assert _at(TANK) == 368.0


def test_a_sender_in_steam_reads_low_and_the_radiators_tank_runs_dry_first() -> None:
    """Common practice: with 40 to 50 % of the coolant gone the needle jumps or falls."""
    assert [_at(place, missing=0.05) for place in (HOUSING, HEAD, TANK)] == [_at(HOUSING), _at(HEAD), _at(TANK)]
    assert _at(TANK, missing=0.2) < _at(TANK) - 8.0
    assert _at(HOUSING, missing=0.2) == _at(HOUSING)
    assert 10.0 < _at(HOUSING) - _at(HOUSING, missing=0.45) < 25.0


def test_a_hot_sender_and_a_low_instrument_may_cancel() -> None:
    assert Gauge(sender_offset=8.0, error=-5.0).shown(T_sender=370.0) == pytest.approx(373.0)
    assert Gauge(sender_offset=5.0, error=-5.0).shown(T_sender=370.0) == pytest.approx(370.0)


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    same_one_by_one(
        lambda place, missing, T: Gauge(sender_place=place).at_sender(
            T_engine_out=T, T_metal=T + 20.0, T_tank=T - 2.0, T_ambient=300.0, missing=missing
        ),
        place=[0.0, 1.0, 2.0], missing=[0.0, 0.4, 0.2], T=[350.0, 360.0, 390.0],
    )  # fmt: skip
